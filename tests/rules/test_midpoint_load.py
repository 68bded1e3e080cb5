"""What may stand on the middle of a bank."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, good

RULE = "midpoint-load"
LINE = "{feed: low/fuse 5 A -> radio, return: low -> radio, wire: 14 AWG 2 m}"


def test_a_load_on_the_upper_half_empties_the_upper_one():
    (one,) = bad(RULE, (LINE, "{feed: high/fuse 5 A -> radio, return: high -> radio, wire: 14 AWG 2 m}"))
    assert "empties only `high`, not `low`" in one.message


def test_a_load_across_the_whole_bank():
    assert bad(RULE, (LINE, "{feed: high/fuse 5 A -> radio, return: low -> radio, wire: 14 AWG 2 m}"),
               ("radio: {kind: load, voltage: 12 V", "radio: {kind: load, voltage: 24 V")) == ()


@pytest.mark.parametrize("node, line", [
    ("evener: {kind: other, ports: {top: lead, middle: lead, foot: lead}}",
     "{feed: high/fuse 10 A -> evener.top, return: none, wire: 12 AWG 1 m}\n"
     "  - {feed: low/fuse 10 A -> evener.middle, return: none, wire: 12 AWG 1 m}\n"
     "  - {return: low -> evener.foot, wire: 12 AWG 1 m}"),
    ("halver: {kind: converter, voltage: 12 V, output: 10 A, input voltage: 24 V}",
     "{feed: panel/fuse 10 A -> halver.in, wire: 12 AWG 1 m}\n"
     "  - {feed: halver -> fuse 15 A/low, return: halver -> low, wire: 12 AWG 1 m}"),
])
def test_what_evens_it_out(node, line):
    assert bad(RULE, ("circuits:", f"  {node}\ncircuits:\n  - {line}")) == ()


def test_what_charges_the_upper_half_does_not_empty_it():
    """Its - stands on the middle; the radio on the lower half is told of all the same."""
    added = ("  halver: {kind: converter, voltage: 12 V, output: 10 A, input voltage: 24 V}\ncircuits:\n"
             "  - {feed: panel/fuse 10 A -> halver.in, wire: 12 AWG 1 m}\n"
             "  - {feed: halver -> fuse 15 A/high, return: halver -> high, wire: 12 AWG 1 m}")
    assert [one.nodes[0] for one in bad(RULE, ("circuits:", added))] == ["radio"]


def test_a_midpoint_sense_lead_is_no_load():
    line = ("  meter: {kind: shunt, rating: 100 A}\n"
            "circuits:\n"
            "  - {feed: low/fuse 1 A -> meter.midpoint, wire: 16 AWG 1 m}")
    assert good(RULE, ("circuits:", line)) == ()


@pytest.mark.parametrize("feed, said", [
    ("feed: low/fuse 10 A -> halver.in, return: low -> halver.in", "empties only `low`, not `high`"),
    ("feed: high/fuse 10 A -> halver.in, return: high -> halver.in", "empties only `high`, not `low`"),
])
def test_a_converter_on_the_middle_empties_one_half_whatever_it_feeds(feed, said):
    node = ("  halver: {kind: converter, voltage: 12 V, output: 10 A, input voltage: 12 V}\n"
            "  lamp: {kind: load, voltage: 12 V, power: 10 W}\n"
            "circuits:\n"
            f"  - {{{feed}, wire: 12 AWG 1 m}}\n"
            "  - {feed: halver/fuse 5 A -> lamp, return: halver -> lamp, wire: 14 AWG 1 m}")
    found = [one for one in bad(RULE, ("circuits:", node)) if one.nodes[0] == "halver"]
    assert [said in one.message for one in found] == [True]


CELLS = "chemistry: agm, voltage: 12 V, capacity: 100 Ah}"
LOW, HIGH = f"  low: {{kind: battery, {CELLS}", f"  high: {{kind: battery, {CELLS}"


@pytest.mark.parametrize("start, said", [
    ("one", "empties only `one`, not `two` and `three`"), ("two", "empties only `one` and `two`, not `three`"),
])
def test_a_load_on_each_level_of_three(start, said):
    nodes = "\n".join(f"  {name}: {{kind: battery, {CELLS}" for name in ("one", "two", "three"))
    (found,) = bad(RULE, (f"{LOW}\n{HIGH}", nodes), ("voltage: 24 V, power: 24 W", "voltage: 36 V, power: 24 W"), (
        "{series: low -> high, wire: 6 AWG 0.3 m}",
        "{series: one -> two -> three, wire: [6 AWG 0.3 m, 0.3 m]}"), ("high/fuse", "three/fuse"),
        (LINE, f"{{feed: {start}/fuse 5 A -> radio, return: one -> radio, wire: 14 AWG 2 m}}"),
        ("return: low -> panel", "return: one -> panel"), ("radio: {kind: load, voltage: 12 V", (
            "radio: {kind: load, voltage: " + ("12 V" if start == "one" else "24 V"))))
    assert said in found.message


def test_the_case_of_a_load_on_the_middle_is_no_load():
    """A bond uses no power, though it lands on a node that does."""
    (one,) = bad(RULE, ("fan: {kind: load", "frame: {kind: hull}\n  fan: {kind: load"),
                 ("circuits:", "circuits:\n  - {bond: fan -> frame, wire: 8 AWG 1 m}"))
    assert one.nodes[0] == "radio"
