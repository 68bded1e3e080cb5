"""1 kW and 500 W together; starts; units side by side; states."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.run import check
from tests.rules.asked import found
from tests.rules.variants import edited, good

RULE = "inverter-overloaded"
POWER = "power: 2 kW, surge: 4 kW"


@pytest.mark.parametrize("power, expected", [("1.49 kW", 1), ("1.5 kW", 0), ("1.51 kW", 0)])
def test_the_loads_together(power, expected):
    assert len(good(RULE, (POWER, f"power: {power}, surge: 4 kW"))) == expected


@pytest.mark.parametrize("surge, expected", [("surge: 1.99 kW", 1), ("surge: 2 kW", 0), ("", 0)])
def test_one_loads_start(surge, expected):
    assert len(good(RULE, (POWER, f"power: 2 kW, {surge}".removesuffix(", ")))) == expected


def test_a_start_in_amperes_is_of_the_mains():
    """20 A at 120 V."""
    assert len(good(RULE, ("start: 2 kW", "start: 20 A"), (POWER, "power: 2 kW, surge: 2.39 kW"))) == 1
    assert good(RULE, ("start: 2 kW", "start: 20 A"), (POWER, "power: 2 kW, surge: 2.4 kW")) == ()


def test_several_alike_count_together_but_start_one_by_one():
    pairs = ("power: 500 W, start: 2 kW", "power: 400 W, start: 2 kW, count: 3"),
    messages = [one.message for one in good(RULE, *pairs)]
    assert messages == ["`kettle` and `cooler` take 2.2 kW together, but `inverter` gives 2 kW"]


def test_of_momentary_loads_the_largest():
    pairs = ("kettle: {kind: ac load, power: 1 kW", "kettle: {kind: ac load, power: 1.9 kW, hours: 0.1"), (
        "power: 500 W", "power: 500 W, hours: 0.2")
    assert good(RULE, *pairs) == ()


def test_named_states_say_what_runs_together():
    text = edited(RULES[RULE].good, (POWER, "power: 1.2 kW, surge: 4 kW"))
    assert len(found(RULE, text)) == 1
    assert found(RULE, text + "states: {tea: {cooler: off}, night: {kettle: off}}\n") == ()


def test_units_of_one_set_add_up():
    text = edited(RULES[RULE].good, (POWER, "power: 800 W, surge: 2 kW, set: pair"), (
        "  ac-panel:", "  twin: {kind: inverter, power: 800 W, surge: 2 kW, set: pair, neutral: floating}\n"
                       "  ac-panel:"),
        ("circuits:", "circuits:\n  - {feed: bank/fuse 100 A -> twin, wire: 2 AWG 1 m}\n"
                      "  - {ac: twin -> breaker 16 A/ac-panel, wire: 12 AWG 1 m}"))
    assert found(RULE, text) == ()
    assert len(found(RULE, text.replace("800 W", "700 W"))) == 1


COMBI = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  pedestal: {kind: shore, rating: 30 A}
  combi: {kind: inverter charger, power: 1 kW, charge: 20 A}
  before: {kind: ac panel, rating: 30 A}
  heater: {kind: ac load, power: 1.5 kW}
  lamp: {kind: ac load, power: LAMP}
circuits:
  - {feed: bank/fuse class-t 150 A 20 kA -> switch battery 200 A -> combi, wire: [2/0 AWG 0.5 m, 0.5 m]}
  - {ac: pedestal -> breaker 2-pole 30 A -> before, wire: [10 AWG 0.3 m, 1 m]}
  - {ac: before/breaker 15 A -> heater, wire: 14 AWG 2 m}
  - {ac: before/breaker 20 A -> combi.in, wire: 12 AWG 1 m}
  - {ac: combi -> lamp, wire: 14 AWG 2 m}
"""


@pytest.mark.parametrize("lamp, expected", [("1 kW", 0), ("1.1 kW", 1)])
def test_an_inverter_charger_feeds_only_what_is_behind_its_output(lamp, expected):
    assert len(found(RULE, COMBI.replace("LAMP", lamp))) == expected


def test_a_transformer_takes_its_losses():
    text = edited(RULES[RULE].good,
                  ("ac-panel: {kind: ac panel, rating: 16 A}", "ac-panel: {kind: ac panel, rating: 16 A}\n"
                                                               "  iso: {kind: transformer, power: 3 kW}"),
                  ("{ac: inverter -> breaker 16 A/ac-panel, wire: 12 AWG 1 m}",
                   "{ac: inverter -> iso.in, wire: 12 AWG 1 m}\n"
                   "  - {ac: iso -> breaker 16 A/ac-panel, wire: 12 AWG 1 m}"))
    assert len(found(RULE, text.replace(POWER, "power: 1.57 kW"))) == 1  # 1.5 kW / 0.95 = 1.579 kW
    assert found(RULE, text.replace(POWER, "power: 1.58 kW")) == ()


@pytest.mark.parametrize("watts, expected", [("500 W", 0), ("500.1 W", 0), ("500.2 W", 1)])
def test_a_ten_thousandth_is_rounding(watts, expected):
    """With 500 W beside it, of 1 kW."""
    pairs = ("kettle: {kind: ac load, power: 1 kW", f"kettle: {{kind: ac load, power: {watts}"), (POWER, "power: 1 kW")
    assert len(good(RULE, *pairs)) == expected


@pytest.mark.parametrize("start, expected", [("2 kW", 0), ("2000.2 W", 0), ("2000.3 W", 1)])
def test_a_ten_thousandth_of_a_start_is_rounding(start, expected):
    assert len(good(RULE, ("start: 2 kW", f"start: {start}"), (POWER, "power: 2 kW, surge: 2 kW"))) == expected


BEHIND = (("ac-panel: {kind: ac panel, rating: 16 A}", "ac-panel: {kind: ac panel, rating: 16 A}\n"
                                                       "  iso: {kind: transformer, power: 3 kW}"),
          ("{ac: inverter -> breaker 16 A/ac-panel, wire: 12 AWG 1 m}",
           "{ac: inverter -> iso.in, wire: 12 AWG 1 m}\n"
           "  - {ac: iso -> breaker 16 A/ac-panel, wire: 12 AWG 1 m}"))


@pytest.mark.parametrize("surge, expected", [("2.1 kW", 1), ("2.11 kW", 0)])
def test_a_start_behind_a_transformer_takes_its_losses(surge, expected):
    """2 kW / 0.95 = 2.105 kW."""
    assert len(good(RULE, *BEHIND, (POWER, f"power: 2 kW, surge: {surge}"))) == expected


def test_a_shore_transformer_beside_it_is_no_inverter():
    """One of the two main breakers is closed at a time."""
    text = edited(RULES[RULE].good, (POWER, "power: 1.2 kW"),
                  ("{ac: inverter -> breaker 16 A/ac-panel", "{ac: inverter -> breaker Q-own 16 A/ac-panel"),
                  ("  ac-panel:", "  pedestal: {kind: shore, rating: 16 A}\n  iso: {kind: transformer, power: 3 kW}\n"
                                  "  ac-panel:"),
                  ("circuits:", "circuits:\n  - {ac: pedestal -> breaker 2-pole 16 A -> iso.in, wire: [12 AWG 0.3 m, 1 m]}\n"
                                "  - {ac: iso -> breaker Q-shore 16 A/ac-panel, wire: 12 AWG 1 m}"))
    (one,) = found(RULE, "interlocks: [[Q-own, Q-shore]]\n" + text)
    assert one.nodes[0] == "inverter" and "`inverter` gives 1.2 kW" in one.message


def test_says_in_which_state():
    text = edited(RULES[RULE].good, (POWER, "power: 1.2 kW, surge: 4 kW"))
    (one,) = found(RULE, text + "states: {tea: {cooler: off}, dinner: {}}\n")
    assert "take 1.5 kW together (dinner), but" in one.message


def test_what_it_cannot_give_overloads_nothing_else():
    """3 kW asked of 1 kW: the line to the bank carries what 1 kW takes."""
    system, problems = read("""
practice: abyc
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 1 kW, neutral: bonded}
  box: {kind: ac panel, rating: 40 A}
  kettle: {kind: ac load, power: 1.5 kW}
  oven: {kind: ac load, power: 1.5 kW}
circuits:
  - {feed: bank/fuse class-t 150 A 20 kA -> switch battery 200 A -> inverter, wire: [1 AWG 0.5 m, 0.5 m]}
  - {ac: inverter -> breaker 30 A/box, wire: 10 AWG 1 m}
  - {ac: box/breaker 20 A -> kettle, wire: 12 AWG 2 m}
  - {ac: box/breaker 20 A -> oven, wire: 12 AWG 2 m}
""")
    assert not problems, problems
    assert [one.rule for one in check(system) if one.severity != "notice"] == ["bank-never-charged", "inverter-overloaded"]
