"""The element writer: well-formed whatever the text, sorted, rounded."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree

import pytest
from hypothesis import given, strategies as st

from diagrammer.drawing.svg import FORBIDDEN, element, number, render

ANYTHING = st.text(st.characters(exclude_categories=()))  # surrogates and controls too


@given(ANYTHING, ANYTHING)
def test_any_text_comes_back_from_xml(text, value):
    tree = ElementTree.fromstring(render(element("text", text, data_node=value)))
    lines = str.maketrans({"\r": "\n"})
    read = (tree.text or "").replace("\r\n", "\n").translate(lines)
    assert read == FORBIDDEN.sub("\ufffd", text).replace("\r\n", "\n").translate(lines)
    assert len(tree.get("data-node", "")) == len(value) or "\r\n" in value


@given(st.floats(-1e4, 1e4))
def test_numbers_are_short_and_near(value):
    text = number(value)
    assert float(text) == pytest.approx(value, abs=0.00501)
    assert text != "-0" and not ("." in text and text.endswith("0"))


def test_attributes_are_sorted_and_empty_ones_left_out():
    written = render(element("rect", y=0.0, x=-0.001, class_="paper", data_line=None, id=""))
    assert written == '<rect class="paper" x="0" y="0"/>'
