"""What a supply of mains is asked for, against its rating or its power.

1.5 kW at 120 V, and what the line loses, are 12.9 A.
"""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.ac import shore_overloaded
from diagrammer.rules.run import check
from tests.rules.asked import found
from tests.rules.variants import bad

RULE = "shore-overloaded"


@pytest.mark.parametrize(("rating", "count"), [("12.8 A", 1), ("13 A", 0), ("16 A", 0)])
def test_by_its_rating(rating, count):
    findings = bad(RULE, ("rating: 10 A", f"rating: {rating}"))
    assert len(findings) == count and all("takes 12.9 A (on shore power)" in one.message for one in findings)


@pytest.mark.parametrize(("watts", "count"), [(1000, 1), (1500, 1), (1536, 1), (1560, 0), (3000, 0)])
def test_a_generator_by_its_power(watts, count):
    findings = bad(RULE, ("kind: shore, rating: 10 A", f"kind: generator, power: {watts} W, neutral: bonded"))
    assert len(findings) == count and all("on the generator" in one.message for one in findings)
    assert all(f"gives {watts / 120:.3g} A" in one.message for one in findings)


def test_loads_are_off_in_states_that_say_so():
    text = """
nodes:
  pedestal: {kind: shore, rating: 10 A}
  heater: {kind: ac load, power: 1.5 kW}
  lamp: {kind: ac load, power: 100 W}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> heater, wire: [12 AWG 0.3 m, 4 m]}
  - {ac: pedestal -> breaker 2-pole 15 A -> lamp, wire: [12 AWG 0.3 m, 4 m]}
states: {STATES}
"""
    both, warm, dark = "both: {pedestal: on}", "warm: {pedestal: on, lamp: off}", "dark: {pedestal: on, heater: off}"
    (most,) = found(RULE, text.replace("STATES", f"{dark}, {both}, {warm}"))
    assert most.message.endswith("(both)")
    (one,) = found(RULE, text.replace("STATES", f"{dark}, {warm}"))
    assert one.message.endswith("(warm)") and found(RULE, text.replace("STATES", dark)) == ()


@pytest.mark.parametrize(("rating", "said"), [
    ("16 A", ["shore-overloaded: conductor-overloaded overloaded-bar protection-too-small protection-too-small"]),
    ("32 A", ["conductor-overloaded: ", "overloaded-bar: ", "protection-too-small: ", "protection-too-small: "])])
def test_what_its_line_suffers_is_told_under_it(rating, said):
    """5.6 kW are 24.4 A: too much for 16 A, and, where the supply gives them, for what is on the way."""
    system, problems = read(f"""
practice: iso
site: {{hottest: 50 °C}}
nodes:
  quay: {{kind: shore, rating: {rating}}}
  board: {{kind: ac panel, rating: 32 A}}
  oven: {{kind: ac load, power: 5.6 kW}}
circuits:
  - {{ac: quay/breaker 2-pole 16 A -> plug inlet 16 A -> rcbo 2-pole 16 A 30 mA/board, wire: [2.5 mm² 15 m, 2.5 mm² 1 m]}}
  - {{ac: board/breaker 2-pole 32 A -> oven, wire: 10 mm² 2 m}}
""")
    assert not problems, problems
    assert sorted(f"{one.rule}: {' '.join(sorted(told.split(':')[0] for told in one.symptoms))}"
                  for one in check(system) if one.severity != "notice") == said


def taken() -> float:
    """[A] that the pedestal of the rule's own bad netlist is asked for."""
    states = Survey(read(RULES[RULE].bad)[0]).study.nominal
    return max(amps for one in states for part, amps in one.flow.amps.items() if part.startswith("pedestal "))


@pytest.mark.parametrize(("over", "count"), [(0.5e-4, 0), (2e-4, 1)])
def test_what_is_met_to_the_fourth_digit_is_not_passed(over, count):
    asked = taken()
    assert len(bad(RULE, ("rating: 10 A", f"rating: {asked / (1 + over)!r} A"))) == count


def test_what_is_met_is_not_passed(monkeypatch):
    monkeypatch.setattr(shore_overloaded, "TOUCH", 0.0)
    asked = taken()
    assert bad(RULE, ("rating: 10 A", f"rating: {asked!r} A")) == ()
    assert len(bad(RULE, ("rating: 10 A", f"rating: {asked * 0.99999!r} A"))) == 1


def test_what_cannot_flow_is_no_current():
    """Nothing can carry 1.5 kW over 4 km; other checks say so."""
    assert bad(RULE, ("[12 AWG 0.3 m, 4 m]", "[12 AWG 0.3 m, 4000 m]")) == ()


def test_other_things_with_a_rating_are_no_supplies():
    pairs = ("kind: shore, rating: 10 A", "kind: shore, rating: 16 A"), ("nodes:", "nodes:\n  spare: {kind: bar, rating: 1 A}")
    assert bad(RULE, *pairs) == ()
