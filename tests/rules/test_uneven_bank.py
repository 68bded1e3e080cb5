"""Chains taken from one end or across, and leads of unlike length, reckoned by hand."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from diagrammer.circuit.stores import Store
from diagrammer.circuit.survey import Survey
from diagrammer.electrics.network import Flow
from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.bank import uneven_bank
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


def share(long: float, inside: float = INSIDE) -> float:
    """Of the one with the short leads, 0.5 m each way."""
    short = inside + 2 * 0.5 * OHMS_A_METRE
    far = inside + 2 * long * OHMS_A_METRE
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


def test_what_hangs_on_an_open_switch_takes_nothing():
    """Of 10.5 mA in all 2 mA leave the other post: less than a quarter."""
    more = ("  bell: {kind: load, voltage: 12 V, current: 2 mA}\n  horn: {kind: load, voltage: 12 V, current: 5 A}\n"
            "circuits:\n  - {feed: right/fuse 5 A -> bell, return: right -> bell, wire: 10 AWG 1 m}\n"
            "  - {feed: right -> switch open 10 A -> horn, return: right -> horn, wire: [10 AWG 1 m, 1 m]}")
    (one,) = bad(RULE, ("circuits:", more), ("power: 100 W", "current: 8.5 mA"))
    assert "both taken from `left`" in one.message


ALONE = ("  bow: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 50 Ah, short circuit: 500 A}\n"
         "  lamp: {kind: load, voltage: 12 V, power: 5 W}\ncircuits:\n"
         "  - {feed: bow/fuse 5 A -> lamp, wire: 14 AWG 1 m}")


@pytest.mark.parametrize("other", ["", ALONE])
@pytest.mark.parametrize(("amps", "long"), [(3000, 2.0), (3000, 4.0), (640, 4.0), (640, 5.0)])
def test_batteries_whose_data_differ_count_with_the_mean_of_their_resistances(amps, long, other):
    """What another bank has inside does not count."""
    text = BARS.replace("LONG", f"{long} m").replace("6.4 kA", f"{amps} A", 1).replace("circuits:", other or "circuits:")
    expected = share(long, (12.8 / amps + INSIDE) / 2)
    assert expected > 0.55
    (one,) = found(RULE, text)
    assert f"`left` carries {100 * expected:.0f} % of the bank's current where 50 % is its share" in one.message


@pytest.mark.parametrize(("watts", "expected"), [("800 W", 1), ("1100 W", 0)])
def test_nothing_is_said_where_batteries_of_the_mean_could_not_give_it(watts, expected):
    """Empty, 11.2 V behind 2 mΩ and 128 mΩ side by side give far more than behind 65 mΩ twice: 11.2² / (4 x 34 mΩ) is
    923 W."""
    text = BARS.replace("LONG", "20 m").replace("6.4 kA", "100 A", 1).replace("power: 100 W", f"power: {watts}")
    findings = found(RULE, text.replace("fuse 15 A", "fuse 150 A").replace("12 AWG 2 m", "2/0 AWG 0.1 m"))
    assert len(findings) == expected


STRINGS = """
nodes:
  a1: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 6.4 kA}
  a2: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 6.4 kA}
  b1: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 6.4 kA}
  b2: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 6.4 kA}
  back: {kind: bar, rating: 200 A}
  bank-bar: {kind: bar, rating: 200 A, pair: back}
  fan: {kind: load, voltage: 24 V, power: 100 W}
circuits:
  - {series: a1 -> a2, wire: 2 AWG 0.3 m}
  - {series: b1 -> b2, wire: 2 AWG 0.3 m}
  - {feed: a2/fuse 100 A -> bank-bar, return: a1 -> back, wire: 2 AWG 0.5 m}
  - {feed: b2/fuse 100 A -> bank-bar, return: b1 -> back, wire: 2 AWG LONG}
  - {feed: bank-bar/fuse 15 A -> fan, wire: 12 AWG 2 m}
"""


@pytest.mark.parametrize("long", [0.5, 1.0, 1.5, 2.0, 5.0])
def test_strings_side_by_side(long):
    """Each of two batteries and the 0.3 m between them; the uppermost stands for its string."""
    expected = share(long, 2 * INSIDE + 0.3 * OHMS_A_METRE)
    findings = found(RULE, STRINGS.replace("LONG", f"{long} m"))
    assert [one.nodes for one in findings] == [("a2", "b2")] * (expected > 0.55)
    assert all(f"`a2` carries {100 * expected:.0f} %" in one.message for one in findings)


def test_strings_of_three():
    third = "".join(f"  {one}3: {{kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, "
                    "short circuit: 6.4 kA}\n" for one in "ab")
    lines = "".join(f"  - {{series: {one}2 -> {one}3, wire: 2 AWG 0.3 m}}\n" for one in "ab")
    text = STRINGS.replace("circuits:\n", f"{third}circuits:\n{lines}").replace("LONG", "5 m")
    text = text.replace("a2/fuse", "a3/fuse").replace("b2/fuse", "b3/fuse").replace("voltage: 24 V", "voltage: 36 V")
    (one,) = found(RULE, text)
    assert one.nodes == ("a3", "b3")
    assert f"`a3` carries {100 * share(5, 3 * INSIDE + 0.6 * OHMS_A_METRE):.0f} %" in one.message


def test_strings_that_are_not_of_single_batteries_are_not_judged():
    more = ("  a3: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 6.4 kA}\n"
            "circuits:\n  - {feed: a1 -> a3, wire: 2 AWG 0.3 m}")
    assert found(RULE, STRINGS.replace("LONG", "5 m").replace("circuits:", more)) == ()


def test_one_battery_is_no_bank_of_several():
    assert bad(RULE, ("  right: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n", ""),
               ("  - {feed: left -> right, wire: 2 AWG 0.3 m}\n", "")) == ()


@pytest.mark.parametrize("between", ["fuse 100 A", "fuse 100 A -> switch battery 100 A", "tee -> fuse 100 A -> tie"])
def test_what_stands_between_two_batteries_is_no_take_off(between):
    count = between.count("->") + 2
    pairs = (("{feed: left -> right, wire: 2 AWG 0.3 m}",
              f"{{feed: left -> {between} -> right, return: left -> right, wire: {{feed: [{', '.join(['2 AWG 0.1 m'] * count)}], "
              "return: 2 AWG 0.3 m}}"),
             ("  panel:", "  tee: {kind: joint}\n  tie: {kind: joint}\n  panel:") if "tee" in between else ("a", "a"))
    assert [one.nodes for one in bad(RULE, *pairs)] == [("left", "right")]


@pytest.mark.parametrize(("amps", "expected"), [("9.9 mA", 0), ("10.1 mA", 1), ("10.5 mA", 1)])
def test_of_less_than_ten_milliamperes_nothing_can_be_said(amps, expected):
    assert len(bad(RULE, ("power: 100 W", f"current: {amps}"))) == expected


def test_the_busiest_state_tells():
    text = RULES[RULE].bad + "states: {quiet: {fan: off}, busy: {}, gone: {fan: off}}\n"
    assert len(found(RULE, text)) == 1


def test_a_bank_without_current_is_not_judged():
    assert found(RULE, RULES[RULE].bad + "states: {quiet: {fan: off}}\n") == ()


def test_a_tenth_more_than_its_share_is_allowed():
    """55 % of two: the far one has 55/45 of the resistance."""
    metres = (55 / 45 * (INSIDE + OHMS_A_METRE) - INSIDE) / 2 / OHMS_A_METRE
    assert share(metres) == pytest.approx(0.55)
    assert found(RULE, BARS.replace("LONG", f"{metres * 0.999:.5f} m")) == ()
    assert len(found(RULE, BARS.replace("LONG", f"{metres * 1.001:.5f} m"))) == 1


@pytest.mark.parametrize("amps, count", [(5.5, 0), (5.6, 1)])
def test_a_tenth_more_than_its_share_is_even(amps, count):
    store = SimpleNamespace(amps=lambda flow: 10.0)
    survey = Survey(read(BARS.replace("LONG", "0.5 m"))[0])
    flow = Flow(amps={"left": amps, "right": 10.0 - amps})
    assert len(list(uneven_bank._unlike(survey, store, ("left", "right"), flow))) == count


@pytest.mark.parametrize(("leaves", "expected"), [(2.5, ""), (2.6, "left")])
def test_a_quarter_of_the_current_is_no_take_off(monkeypatch, leaves, expected):
    """A post from which no more than that leaves gives to something small of its own."""
    monkeypatch.setattr(uneven_bank, "_leaving", lambda found, flow, post, posts: leaves if post.startswith("left") else 0.0)
    assert uneven_bank._taken_from_one(None, Flow(), ("left", "right"), 10.0) == expected


@pytest.mark.parametrize(("amps", "count"), [(0.01, 1), (-0.01, 1), (0.0099, 0)])
def test_of_less_than_a_hundredth_of_an_ampere_nothing_is_said(monkeypatch, amps, count):
    monkeypatch.setattr(Store, "amps", lambda store, flow: amps)
    monkeypatch.setattr(uneven_bank, "_taken_from_one", lambda *_: "left")
    assert len(found(RULE, BARS.replace("LONG", "0.5 m"))) == count
