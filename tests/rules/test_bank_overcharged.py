"""60 A of chargers on a bank of 50 A; what the sun can give; starter batteries."""

from __future__ import annotations

import pytest

from diagrammer.rules import RULES
from tests.rules.asked import found
from tests.rules.variants import bad, edited, severities

RULE = "bank-overcharged"
LIMIT = "max charge: 50 A"


@pytest.mark.parametrize("limit, expected", [("59.9 A", ["danger"]), ("60 A", []), ("60.1 A", [])])
def test_its_stated_limit(limit, expected):
    assert severities(bad(RULE, (LIMIT, f"max charge: {limit}"))) == expected


@pytest.mark.parametrize("chemistry, capacity, expected", [
    ("lifepo4", "59 Ah", ["warning"]), ("lifepo4", "60 Ah", []),  # 1 C, table of batteries
    ("agm", "171 Ah", ["notice"]), ("agm", "172 Ah", []),  # 0.35 C
])
def test_what_is_usual_where_no_limit_is_stated(chemistry, capacity, expected):
    pairs = (f" {LIMIT},", ""), ("lifepo4", chemistry), ("12.8 V", "12 V"), ("100 Ah", capacity)
    assert severities(bad(RULE, *pairs)) == expected


def test_a_starter_battery_without_a_limit_is_left_to_its_regulator():
    assert bad(RULE, (LIMIT, "duty: starter"), ("100 Ah", "20 Ah")) == ()


SUN = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: LIMIT}
  roof: {kind: pv, power: 256 W, voc: 24.6 V, vmp: 20.4 V, isc: 13 A, imp: 12.5 A, series: 2}
  sun: {kind: solar charger, type: mppt, output: 60 A, max pv voltage: 100 V}
circuits:
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 80 A/bank, wire: 4 AWG 1 m}
"""


@pytest.mark.parametrize("limit, expected", [("39.9 A", 1), ("40 A", 0)])
def test_a_solar_charger_gives_no_more_than_its_modules(limit, expected):
    """512 W at 12.8 V are 40 A, whatever the controller could pass."""
    assert len(found(RULE, SUN.replace("LIMIT", limit))) == expected


def test_a_switch_that_rests_open_joins_nobody():
    text = edited(
        RULES[RULE].good,
        ("circuits:", "  other: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 10 Ah, max charge: 5 A}\n"
                      "circuits:"),
    ) + ("  - {feed: panel/fuse 40 A -> switch SWITCH 100 A -> fuse 40 A/other, return: panel -> other, "
         "wire: [6 AWG 1 m, 1 m]}\n")
    assert found(RULE, text.replace("SWITCH", "open")) == ()
    joined = found(RULE, text.replace("SWITCH", "momentary"))
    assert [one.nodes[0] for one in joined] == ["other"]


def test_two_chargers_add_up():
    text = edited(RULES[RULE].good, ("circuits:", "  spare: {kind: ac charger, output: 21 A}\ncircuits:"))
    text += ("  - {ac: pedestal.L+N+earth -> breaker 2-pole 15 A -> spare.in, wire: [14 AWG 0.3 m, 2 m]}\n"
             "  - {feed: spare -> fuse 30 A/panel, wire: 8 AWG 1 m}\n").replace("pedestal.L+N+earth", "pedestal")
    assert severities(found(RULE, text)) == ["danger"]
    assert found(RULE, text.replace("output: 21 A", "output: 20 A")) == ()


@pytest.mark.parametrize("output, expected", [("60 A", []), ("60.006 A", []), ("60.007 A", ["danger"])])
def test_a_ten_thousandth_is_rounding(output, expected):
    assert severities(bad(RULE, ("output: 60 A", f"output: {output}"), (LIMIT, "max charge: 60 A"))) == expected


def test_a_starter_battery_is_held_to_the_limit_it_states():
    assert severities(bad(RULE, (LIMIT, f"{LIMIT}, duty: starter"))) == ["danger"]


def test_a_bank_of_which_a_battery_is_wired_in_reverse_is_not_judged():
    """Two that bear 50 A each: what is left of them would be too small for 60 A, but the fault is another."""
    twin = ("  twin: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 50 A, "
            "short circuit: 4 kA}\ncircuits:\n")
    right = "  - {feed: twin -> fuse class-t 100 A 20 kA/panel, wire: 2 AWG 1 m}"
    wrong = "  - {feed: twin.- -> fuse class-t 100 A 20 kA/panel, return: twin.+ -> panel.-, wire: 2 AWG 1 m}"
    assert bad(RULE, ("circuits:", twin + right)) == bad(RULE, ("circuits:", twin + wrong)) == ()


@pytest.mark.parametrize(("count", "said"), [
    (4, "44 A: `c0` 11 A, `c1` 11 A, `c2` 11 A, `c3` 11 A"), (5, "55 A: `c0` 11 A, `c1` 11 A, `c2` 11 A, 2 more"),
])
def test_names_no_more_than_four_chargers(count, said):
    text = edited(RULES[RULE].bad, (LIMIT, "max charge: 40 A"),
                  ("  mains-charger: {kind: ac charger, output: 60 A}\n",
                   "".join(f"  c{n}: {{kind: ac charger, output: 11 A}}\n" for n in range(count))),
                  ("  - {ac: pedestal -> breaker 2-pole 15 A -> mains-charger.in, wire: [14 AWG 0.3 m, 2 m]}\n", ""),
                  ("  - {feed: mains-charger -> fuse class-t 80 A/panel, wire: 2 AWG 1 m}\n", ""))
    lines = (f"  - {{ac: pedestal -> breaker 2-pole 15 A -> c{n}.in, wire: [14 AWG 0.3 m, 2 m]}}\n"
             f"  - {{feed: c{n} -> fuse class-t 15 A/panel, wire: 10 AWG 1 m}}\n" for n in range(count))
    (one,) = found(RULE, text + "".join(lines))
    assert one.message.endswith(f"can be given {said}")


@pytest.mark.parametrize("chemistry, voltage, share", [
    ("lifepo4", "12.8 V", 1.0), ("lithium", "14.4 V", 1.0), ("flooded", "12 V", 0.2), ("agm", "12 V", 0.35), ("gel", "12 V", 0.2),
])
def test_what_each_chemistry_usually_takes(chemistry, voltage, share):
    """Of its capacity in Ah, as amperes: common practice, tables/batteries.csv."""
    for amps, expected in ((59.9, 1), (60.0, 0), (60.1, 0)):
        pairs = (f" {LIMIT},", ""), ("lifepo4", chemistry), ("12.8 V", voltage), ("100 Ah", f"{amps / share:.3f} Ah")
        assert len(bad(RULE, *pairs)) == expected
