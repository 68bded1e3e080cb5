"""Aluminium, which the tables of one practice hold for."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "not-copper"


def lamp(material: str, practice: str, head: str = "") -> str:
    return van(f"{{feed: feed-bar/fuse 10 A -> lamp, wire: {{size: 8 AWG, length: 2 m{material}}}}}", practice=practice,
               head=head, nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}")


@pytest.mark.parametrize(("practice", "material", "count"), [
    ("abyc", "aluminium", 1), ("iso", "aluminium", 1), ("nec", "aluminium", 0),  # 33 CFR 183.425(a); NEC Table 310.16
    ("abyc", "copper", 0), ("abyc", "tinned", 0), ("iso", "tinned", 0),
])
def test_where_aluminium_may_be_used(practice, material, count):
    assert len(found(RULE, lamp(f", material: {material}", practice))) == count


def test_once_a_circuit():
    """Feed and return of the line, both conductors of the main line and its return."""
    lines = [one.conductors for one in found(RULE, lamp("", "abyc", "wire: {material: aluminium}"))]
    assert ("feed-bar to lamp:f0",) in lines and len(lines) == len(set(lines))


def test_what_it_says():
    (one,) = found(RULE, lamp(", material: aluminium", "iso"))
    assert one.message == ("the 8 AWG from `F2` to `lamp` is of aluminium, for which iso has no table: what it may carry "
                           "is not judged")
    assert one.severity == "warning"


def test_copper_that_is_too_short_for_a_least_size_is_copper():
    """33 CFR 183.425: within 7 in of the source nothing is asked of the size."""
    assert found(RULE, lamp("", "abyc").replace("2 m", "0.1 m")) == ()
