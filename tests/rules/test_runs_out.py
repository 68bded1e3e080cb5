"""500 Wh a day for two days out of what a lithium bank gives."""

from __future__ import annotations

import pytest

from diagrammer.rules import RULES
from tests.rules.asked import found
from tests.rules.variants import bad, edited, good

RULE = "runs-out"
CAPACITY = "capacity: 80 Ah"


@pytest.mark.parametrize("capacity, expected", [("97.6 Ah", 1), ("97.7 Ah", 0)])
def test_the_capacity_that_is_just_enough(capacity, expected):
    """1000 Wh out of 80 % of 12.8 V x 97.66 Ah; 1.6 A is slower than the 20 h rate, so Peukert takes nothing."""
    assert 1000 / (0.8 * 12.8) == pytest.approx(97.656, abs=1e-3)
    assert len(bad(RULE, (CAPACITY, f"capacity: {capacity}"))) == expected


@pytest.mark.parametrize("autonomy, expected", [("39 h", 0), ("40 h", 1), ("1 day", 0)])
def test_the_autonomy(autonomy, expected):
    assert len(bad(RULE, ("autonomy: 2 days", f"autonomy: {autonomy}"))) == expected


def test_nothing_is_said_without_hours_or_autonomy():
    assert bad(RULE, (", hours: 10", "")) == ()
    assert bad(RULE, ("site: {autonomy: 2 days}\n", "")) == ()


def test_lead_gives_half_and_less_the_faster_it_goes():
    """24 V agm of 100 Ah at 20 A for 24 h a day: (5 / 20)^0.11 of the capacity."""
    usable = 100 * 0.5 * (5 / 20) ** 0.11
    pairs = ("chemistry: lifepo4, voltage: 12.8 V, capacity: 80 Ah",
             "chemistry: agm, voltage: 24 V, capacity: 100 Ah"), (
        "voltage: 12 V, power: 50 W, hours: 10", "voltage: 24 V, power: 480 W, hours: 24")
    for hours, expected in ((usable / 20 * 1.01, 1), (usable / 20 * 0.99, 0)):
        assert len(bad(RULE, *pairs, ("autonomy: 2 days", f"autonomy: {hours:.4f} h"))) == expected


def test_through_an_inverter_with_its_losses():
    lines = ("  inverter: {kind: inverter, power: 500 W, neutral: bonded, efficiency: 80 %}\n"
             "  screen: {kind: ac load, power: 40 W, hours: 10}\ncircuits:\n"
             "  - {feed: panel/fuse 50 A -> inverter, wire: 6 AWG 1 m}\n  - {ac: inverter -> screen, wire: 14 AWG 1 m}")
    (one,) = bad(RULE, ("circuits:", lines), ("power: 50 W", "power: 1 W"), (CAPACITY, "capacity: 60 Ah"))
    assert "510 Wh a day" in one.message


def test_two_banks_on_a_selector_last_together():
    text = edited(RULES[RULE].bad,
                  ("  panel:", "  other: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 80 Ah}\n"
                               "  pick: {kind: selector, rating: 100 A}\n  panel:"),
                  ("{feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}",
                   "{feed: bank/fuse 50 A -> pick.1, return: bank -> panel, wire: 6 AWG 1 m}\n"
                   "  - {feed: other/fuse 50 A -> pick.2, return: other -> panel, wire: 6 AWG 1 m}\n"
                   "  - {feed: pick -> panel, return: none, wire: 6 AWG 1 m}"))
    assert found(RULE, text) == ()
    assert [one.nodes[:2] for one in found(RULE, text.replace("2 days", "4 days"))] == [("bank", "other")]


def test_what_only_shore_feeds_does_not_count():
    lines = ("  pedestal: {kind: shore, rating: 15 A}\n  boiler: {kind: ac load, power: 1 kW, hours: 5}\ncircuits:\n"
             "  - {ac: pedestal -> breaker 2-pole 15 A -> boiler, wire: [14 AWG 0.3 m, 2 m]}")
    assert good(RULE, ("circuits:", lines)) == ()


@pytest.mark.parametrize("autonomy, expected", [("48 h", 0), ("48.000000048 h", 0), ("48.00000005 h", 1)])
def test_a_billionth_is_rounding(autonomy, expected):
    """97.65625 Ah last 48 h to the last digit."""
    assert len(bad(RULE, (CAPACITY, "capacity: 97.65625 Ah"), ("autonomy: 2 days", f"autonomy: {autonomy}"))) == expected


def test_points_at_the_three_loads_that_take_most_in_a_day():
    """240 Wh, 160 Wh through an inverter of 50 %, 150 Wh; then 120 Wh and 50 Wh."""
    lines = ("  inverter: {kind: inverter, power: 500 W, neutral: bonded, efficiency: 50 %}\n"
             "  pump: {kind: load, voltage: 12 V, power: 100 W, hours: 0.5}\n"
             "  lamp: {kind: load, voltage: 12 V, power: 60 W, hours: 2}\n"
             "  radio: {kind: load, voltage: 12 V, power: 30 W, hours: 5}\n"
             "  screen: {kind: ac load, power: 10 W, hours: 8}\ncircuits:\n"
             "  - {feed: panel/fuse 50 A -> inverter, wire: 6 AWG 1 m}\n  - {ac: inverter -> screen, wire: 14 AWG 1 m}\n"
             + "".join(f"  - {{feed: panel/fuse 10 A -> {one}, wire: 12 AWG 2 m}}\n" for one in ("pump", "lamp", "radio")))
    (one,) = bad(RULE, ("circuits:\n", lines), ("power: 50 W, hours: 10", "power: 10 W, hours: 24"))
    assert one.nodes == ("bank", "fridge", "screen", "radio")


def test_a_bank_of_which_a_battery_is_wired_in_reverse_is_not_judged():
    right = ("  twin: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 10 Ah}\ncircuits:\n"
             "  - {feed: twin/fuse 50 A -> panel, return: twin -> panel, wire: 6 AWG 1 m}")
    wrong = right.replace("twin/fuse 50 A -> panel, return: twin -> panel", "twin.-/fuse 50 A -> panel, return: twin.+ -> panel.-")
    assert len(bad(RULE, ("circuits:", right))) == 1 and bad(RULE, ("circuits:", wrong)) == ()


@pytest.mark.parametrize("chemistry, volts, depth", [
    ("lifepo4", 12.8, 0.8), ("lithium", 14.4, 0.8), ("flooded", 12, 0.5), ("agm", 12, 0.5), ("gel", 12, 0.5),
])
def test_how_far_each_chemistry_is_emptied(chemistry, volts, depth):
    """1000 Wh out of it, slower than in twenty hours: common practice, tables/batteries.csv."""
    for share, expected in ((0.999, 1), (1.001, 0)):
        bank = f"chemistry: {chemistry}, voltage: {volts} V, capacity: {share * 1000 / (depth * volts):.3f} Ah"
        assert len(bad(RULE, ("chemistry: lifepo4, voltage: 12.8 V, capacity: 80 Ah", bank))) == expected
