"""Chains taken from one end or across, and leads of unlike length, reckoned by hand."""

from __future__ import annotations

import pytest

from tests.rules.asked import found
from tests.rules.variants import bad, good

RULE = "uneven-bank"
OHMS_A_METRE = 0.194 / 304.8 * (1 - 0.00323 * 5)  # 2 AWG stranded: NEC Chapter 9 Table 8 at 75 °C, brought to 70 °C


def test_a_chain_taken_across_is_even():
    assert good(RULE) == ()


def test_three_in_a_chain_from_one_end():
    pairs = (("{feed: left -> right, wire: 2 AWG 0.3 m}", "{feed: left -> right -> third, wire: [2 AWG 0.3 m, 0.3 m]}"),
             ("  panel:", "  third: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n  panel:"))
    assert [one.nodes for one in bad(RULE, *pairs)] == [("left", "right", "third")]


BARS = """
nodes:
  left: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 6.4 kA}
  right: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 6.4 kA}
  back: {kind: bar, rating: 200 A}
  bank-bar: {kind: bar, rating: 200 A, pair: back}
  fan: {kind: load, voltage: 12 V, power: 100 W}
circuits:
  - {feed: left/fuse 100 A -> bank-bar, return: left -> back, wire: 2 AWG 0.5 m}
  - {feed: right/fuse 100 A -> bank-bar, return: right -> back, wire: 2 AWG LONG}
  - {feed: bank-bar/fuse 15 A -> fan, wire: 12 AWG 2 m}
"""
INSIDE = 12.8 / 6400  # [Ω]


def share(long: float) -> float:
    """Of the one with the short leads, 0.5 m each way."""
    short = INSIDE + 2 * 0.5 * OHMS_A_METRE
    far = INSIDE + 2 * long * OHMS_A_METRE
    return far / (short + far)


@pytest.mark.parametrize("long", [0.5, 0.7, 0.85, 0.95, 1.0, 1.2, 2.0])
def test_leads_of_unlike_length(long):
    findings = found(RULE, BARS.replace("LONG", f"{long} m"))
    assert bool(findings) == (share(long) > 0.55)
    if findings:
        assert findings[0].nodes == ("left", "right") and f"{100 * share(long):.0f} %" in findings[0].message


def test_batteries_whose_data_differ_are_judged_by_their_leads():
    assert found(RULE, BARS.replace("LONG", "0.5 m").replace("6.4 kA", "3 kA", 1)) == ()


def test_unlike_batteries_are_another_rules_matter():
    assert found(RULE, BARS.replace("LONG", "2 m").replace("capacity: 100 Ah", "capacity: 50 Ah", 1)) == ()


@pytest.mark.parametrize(("amps", "both"), [(2.4, True), (2.6, False)])
def test_what_leaves_the_other_post_with_a_quarter_is_a_take_off_of_its_own(amps, both):
    """Ten amperes in all."""
    more = ("  bell: {kind: load, voltage: 12 V, current: AMPS A}\ncircuits:\n"
            "  - {feed: right/fuse 5 A -> bell, return: right -> bell, wire: 10 AWG 1 m}").replace("AMPS", str(amps))
    findings = bad(RULE, ("circuits:", more), ("power: 100 W", f"current: {10 - amps} A"))
    assert any("both taken from `left`" in one.message for one in findings) is both
