"""130 A out of one bank, out of several, out of what states no limit; and its protection circuit."""

from __future__ import annotations

import pytest

from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.bank import bank_overdrawn
from tests.rules.asked import found
from tests.rules.variants import bad, edited, severities

RULE = "bank-overdrawn"
LIMIT = "max discharge: 100 A"


@pytest.mark.parametrize("limit, expected", [("129.9 A", ["danger"]), ("130 A", []), ("130.1 A", [])])
def test_its_stated_limit(limit, expected):
    assert severities(bad(RULE, (LIMIT, f"max discharge: {limit}"))) == expected


def test_loads_that_are_off_in_every_named_state_do_not_count():
    text = RULES[RULE].bad + "states: {heating: {winch: off}, hauling: {heater: off}}\n"
    assert found(RULE, text) == ()


def test_of_momentary_loads_the_largest_counts():
    assert bad(RULE, ("current: 60 A, duty: heat", "current: 60 A, hours: 0.1"),
               ("current: 70 A", "current: 70 A, hours: 0.1")) == ()


@pytest.mark.parametrize("chemistry, capacity, expected", [
    ("lifepo4", "129 Ah", ["warning"]), ("lifepo4", "130 Ah", []),  # 1 C, table of batteries
    ("agm", "430 Ah", ["notice"]), ("agm", "434 Ah", []),  # 0.3 C
])
def test_what_is_usual_where_no_limit_is_stated(chemistry, capacity, expected):
    pairs = (f", {LIMIT}", ""), ("lifepo4", chemistry), ("12.8 V", "12 V"), ("200 Ah", capacity), ("4 kA", "40 kA")
    assert severities(bad(RULE, *pairs)) == expected


def test_a_starter_battery_states_its_limit_or_has_none():
    assert bad(RULE, (f", {LIMIT}", ", duty: starter"), ("200 Ah", "50 Ah")) == ()
    assert severities(bad(RULE, (LIMIT, f"{LIMIT}, duty: starter"))) == ["danger"]


TWO = """
nodes:
  left: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max discharge: LIMIT,
         short circuit: 4 kA}
  right: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max discharge: LIMIT,
          short circuit: 4 kA}
  panel: {kind: panel, rating: 150 A}
  winch: {kind: load, voltage: 12 V, current: 130 A}
circuits:
  - {feed: left -> right, wire: 2/0 AWG 0.3 m}
  - {feed: left/fuse 150 A -> panel, return: right -> panel, wire: 2/0 AWG 1 m}
  - {feed: panel/fuse 150 A -> winch, wire: 2/0 AWG 1 m}
"""


@pytest.mark.parametrize("limit, expected", [("64 A", ["danger"]), ("65 A", [])])
def test_batteries_in_parallel_share(limit, expected):
    assert severities(found(RULE, TWO.replace("LIMIT", limit))) == expected


def test_in_series_one_current_passes_both():
    text = edited(TWO, ("{feed: left -> right, wire", "{series: right -> left, wire"), ("LIMIT", "100 A"),
                  ("voltage: 12 V", "voltage: 24 V"))
    assert severities(found(RULE, text)) == ["danger"]


@pytest.mark.parametrize("rating, expected", [("129 A", 1), ("130 A", 0)])
def test_the_protection_circuit_by_its_own_rating(rating, expected):
    findings = bad(
        RULE, (LIMIT, "max discharge: 200 A"),
        ("circuits:", f"  watch: {{kind: bms, rating: {rating}}}\ncircuits:\n"
                      f"  - {{return: bank -> watch -> panel, wire: [2/0 AWG 0.2 m, 0.2 m]}}"),
        ("200 A -> panel, wire", "200 A -> panel, return: none, wire"),
    )
    assert [one.nodes for one in findings] == [("watch",)] * expected


GIVES_WAY = (("short circuit: 4 kA", "short circuit: 300 A"), ("current: 60 A, duty: heat", "power: HEATER"),
             ("current: 70 A, duty: motor", "power: WINCH"))
# 11.2 V behind 12.8 V / 300 A = 43 mΩ: no more than 735 W flow, so no current can be computed


def giving_way(heater: str, winch: str, *pairs: tuple[str, str], states: str = "") -> list[str]:
    text = edited(RULES[RULE].bad, *GIVES_WAY, ("HEATER", heater), ("WINCH", winch), *pairs)
    return [one.message for one in found(RULE, text + states)]


@pytest.mark.parametrize("heater, expected", [("820 W", 0), ("820.1 W", 0), ("820.2 W", 1), ("900 W", 1)])
def test_a_bank_that_gives_way_is_judged_by_what_the_loads_ask(heater, expected):
    """With 300 W beside it, at 11.2 V empty: 1120 W are 100 A."""
    messages = giving_way(heater, "300 W")
    assert len(messages) == expected
    assert all("(parked, nothing charges, the banks low)" in message for message in messages)


def test_says_how_much_they_ask():
    assert giving_way("900 W", "300 W") == [
        "`bank` is asked for 107 A (parked, nothing charges, the banks low), but gives no more than 100 A"]


def test_where_it_gives_way_losses_on_the_way_are_asked_too():
    """960 W through an inverter of 80 % are 1200 W, 107 A."""
    nodes = ("  inverter: {kind: inverter, power: 2 kW, neutral: bonded, efficiency: 80 %}\n"
             "  kettle: {kind: ac load, power: 960 W}\ncircuits:\n"
             "  - {feed: panel/fuse class-t 150 A -> inverter, wire: 2/0 AWG 1 m}\n"
             "  - {ac: inverter -> kettle, wire: 12 AWG 1 m}")
    (message,) = giving_way("1 mW", "1 mW", ("circuits:", nodes))
    assert "asked for 107 A" in message


@pytest.mark.parametrize(("heater", "expected"), [("1000 W, hours: 5", 0), ("1130 W, hours: 5", 1)])
def test_where_it_gives_way_what_runs_for_moments_is_left_out(heater, expected):
    assert len(giving_way(heater, "300 W, hours: 0.1")) == expected


def test_where_it_gives_way_what_is_off_is_left_out():
    """1000 W are 89 A, 1300 W 116 A."""
    assert giving_way("1000 W", "300 W", states="states: {heating: {winch: off}}\n") == []
    (message,) = giving_way("1000 W", "300 W", states="states: {heating: {winch: off}, hauling: {}}\n")
    assert message.startswith("`bank` is asked for 116 A (hauling, the banks low)")


def test_a_line_that_gives_way_is_not_the_bank_s_fault():
    """1300 W over 20 m of 10 AWG: the bank of 4 kA could give it."""
    assert bad(RULE, ("current: 60 A, duty: heat", "power: 1300 W"), ("current: 70 A, duty: motor", "power: 1 W"),
               ("-> heater, wire: 4 AWG 1 m", "-> heater, wire: 10 AWG 20 m")) == ()


def test_the_worst_state_is_told():
    text = edited(RULES[RULE].bad, (LIMIT, "max discharge: 50 A"))
    states = "states: {a: {winch: off}, b: {}, c: {heater: off}}\n"
    (one,) = found(RULE, text + states)
    assert "asked for 130 A (b" in one.message


WATCH = ("circuits:", "  watch: {kind: bms, FIELDS}\ncircuits:\n"
                      "  - {return: bank -> watch -> panel, wire: [2/0 AWG 0.2 m, 0.2 m]}")
THROUGH = (WATCH, (LIMIT, "max discharge: 200 A"), ("200 A -> panel, wire", "200 A -> panel, return: none, wire"))


def test_a_protection_circuit_that_states_no_rating_is_not_judged():
    assert bad(RULE, *THROUGH, (", FIELDS", "")) == ()


def test_the_worst_state_of_a_protection_circuit():
    text = edited(RULES[RULE].bad, *THROUGH, ("FIELDS", "rating: 50 A"))
    states = "states: {a: {winch: off}, b: {}, c: {heater: off}}\n"
    (one,) = found(RULE, text + states)
    assert one.message == "`watch` carries 130 A (b, the banks low), but its rating is 50 A"


def test_other_rated_parts_are_other_rules_matter():
    assert bad(RULE, *THROUGH, ("{kind: bms, FIELDS}", "{kind: shunt, rating: 50 A}")) == ()


@pytest.mark.parametrize("rating, expected", [("129.98 A", 1), ("129.99 A", 0), ("130 A", 0), ("130.01 A", 0)])
def test_a_ten_thousandth_of_a_protection_circuit_s_rating_is_rounding(rating, expected):
    assert len(bad(RULE, *THROUGH, ("FIELDS", f"rating: {rating}"))) == expected


@pytest.mark.parametrize("chemistry, voltage, share", [
    ("lifepo4", "12.8 V", 1.0), ("lithium", "14.4 V", 1.0), ("flooded", "12 V", 0.2), ("agm", "12 V", 0.3), ("gel", "12 V", 0.2),
])
def test_what_each_chemistry_usually_gives(chemistry, voltage, share):
    """Of its capacity in Ah, as amperes: common practice, tables/batteries.csv."""
    for amps, expected in ((129.9, 1), (130.0, 0), (130.1, 0)):
        pairs = (f", {LIMIT}", ""), ("lifepo4", chemistry), ("12.8 V", voltage), ("4 kA", "40 kA")
        assert len(bad(RULE, *pairs, ("200 Ah", f"{amps / share:.3f} Ah"))) == expected


@pytest.mark.parametrize("chemistry, voltage, empty", [
    ("lifepo4", "12.8 V", 4 * 2.8), ("lithium", "14.4 V", 4 * 3.0), ("flooded", "12 V", 6 * 1.9), ("agm", "12 V", 6 * 1.93),
    ("gel", "12 V", 6 * 1.93),
])
def test_where_it_gives_way_its_chemistry_tells_how_far_it_is_emptied(chemistry, voltage, empty):
    """100 A at so many volts: common practice, tables/batteries.csv."""
    pairs = ("lifepo4", chemistry), ("12.8 V", voltage)
    assert giving_way(f"{99.9 * empty - 300:.3f} W", "300 W", *pairs) == []
    assert len(giving_way(f"{100.1 * empty - 300:.3f} W", "300 W", *pairs)) == 1


@pytest.mark.parametrize("share, count", [(1, 0), (0.999999, 1)])
def test_what_is_met_is_not_passed(monkeypatch, share, count):
    monkeypatch.setattr(bank_overdrawn, "MARGIN", 1.0)
    survey = Survey(read(RULES[RULE].bad)[0])
    (store,) = stores(survey.cleared).all
    asked = max(store.amps(one.flow) for one in survey.study.solved)
    assert len(bad(RULE, (LIMIT, f"max discharge: {asked * share!r} A"))) == count


@pytest.mark.parametrize("share, count", [(1, 0), (0.999999, 1)])
def test_a_protection_circuit_bears_its_rating(monkeypatch, share, count):
    monkeypatch.setattr(bank_overdrawn, "MARGIN", 1.0)
    text = edited(RULES[RULE].bad, *THROUGH)
    survey = Survey(read(edited(text, ("FIELDS", "rating: 500 A")))[0])
    carried = max(one.through["watch"] for one in survey.study.solved)
    assert len(found(RULE, edited(text, ("FIELDS", f"rating: {carried * share!r} A")))) == count
