"""How names and quantities are written in a message."""

from __future__ import annotations

import pytest

from diagrammer.rules.wording import joined, name, names, number, span, verb


@pytest.mark.parametrize(("value", "text"), [
    (12.8, "12.8"), (200, "200"), (0.1778, "0.178"), (999.4, "999"), (1000, "1000"), (1234.6, "1235"), (-1234.6, "-1235"),
    (-12.84, "-12.8"), (0, "0")])
def test_a_number_has_three_digits_or_all_before_the_point(value, text):
    assert number(value) == text


def test_a_span_is_one_number_where_both_are_written_alike():
    assert span(9, 32, "V") == "9 to 32 V" and span(24, 24.01, "V") == "24 V"


@pytest.mark.parametrize(("many", "text"), [
    ("", ""), ("a", "`a`"), ("ab", "`a` and `b`"), ("abc", "`a`, `b` and `c`"), ("abcd", "`a`, `b` and 2 others"),
    ("abcdef", "`a`, `b` and 4 others")])
def test_no_more_than_three_names(many, text):
    assert names(many) == text and name("a") == "`a`"


def test_more_names_where_they_are_wanted():
    assert names("abcde", most=4) == "`a`, `b`, `c` and 2 others" and names("abcd", most=4) == "`a`, `b`, `c` and `d`"


def test_parts_and_verbs():
    assert joined(["a", "b", "c"]) == "a, b and c" and joined(["a"]) == "a" and joined([]) == ""
    assert [verb("ab"[:count], "is", "are") for count in (0, 1, 2)] == ["are", "is", "are"]
