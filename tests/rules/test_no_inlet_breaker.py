"""How far behind an inlet the main breaker may stand: 3.05 m (10 ft), ABYC E-11 as quoted."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad

RULE = "no-inlet-breaker"
LINE = "-> plug inlet 16 A -> heater, wire: [12 AWG 10 m, 6 m]"


def behind(metres: str) -> str:
    return f"-> plug inlet 16 A -> breaker 2-pole 15 A -> heater, wire: [12 AWG 10 m, {metres} m, 2 m]"


@pytest.mark.parametrize(("practice", "metres", "count"), [
    ("iso", "3", 0), ("iso", "3.01", 1), ("nec", "3.05", 0), ("nec", "3.06", 1),
])
def test_the_distance_of_other_practices(practice, metres, count):
    """From memory."""
    assert len(bad(RULE, ("nodes:", f"practice: {practice}\nnodes:"), (LINE, behind(metres)))) == count


@pytest.mark.parametrize(("metres", "said"), [
    ("3.05", ""), ("3.06", "`Q2` stands up to 3.06 m behind the inlet `X1`; 3.05 m along the conductor is the most"),
    ("0.5", ""), ("4", "`Q2` stands up to 4 m behind"),
])
def test_the_distance(metres, said):
    found = bad(RULE, (LINE, behind(metres)))
    assert [one.message.startswith(said) for one in found] == [True] * bool(said)
    assert all(one.path == ("X1", "Q2") for one in found)


@pytest.mark.parametrize(("plug", "count"), [("plug inlet 16 A", 1), ("plug socket 16 A", 0), ("plug 16 A", 0)])
def test_a_line_without_a_breaker_however_short(plug, count):
    found = bad(RULE, (LINE, f"-> {plug} -> heater, wire: [12 AWG 10 m, 2 m]"))
    assert [one.message for one in found] == [
        "no main breaker stands behind the inlet `X1`; 3.05 m along the conductor is the most"] * count


def test_an_inlet_is_told_of_once():
    nodes = "  box: {kind: ac panel, rating: 16 A}\n  stove: {kind: ac load, power: 1 kW}\ncircuits:"
    branches = "".join(f"\n  - {{ac: box -> {load}, wire: 12 AWG 2 m}}" for load in ("heater", "stove"))
    line = "-> plug inlet 16 A -> box, wire: [12 AWG 10 m, 2 m]}" + branches
    assert len(bad(RULE, (LINE + "}", line), ("circuits:", nodes))) == 1


def test_faults_of_other_lines_have_no_part_in_it():
    nodes = ("  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"
             "  lamp: {kind: load, voltage: 12 V, power: 5 W}\n  extra: {kind: breaker, rating: 5 A}\ncircuits:\n"
             "  - {feed: bank/fuse 5 A -> lamp, return: bank -> extra -> lamp, "
             "wire: {feed: 14 AWG 1 m, return: [14 AWG 1 m, 1 m]}}")
    assert len(bad(RULE, ("circuits:", nodes))) == 1


@pytest.mark.parametrize(("device", "count"), [("30 A", 1), ("50 A", 0)])
def test_where_the_line_itself_is_at_fault_that_is_told_first(device, count):
    """14 AWG is no conductor for 50 A: what replaces it is judged anew."""
    line = f"/breaker 2-pole {device} -> plug inlet 50 A -> heater, wire: [6 AWG 10 m, 14 AWG 6 m]"
    assert len(bad(RULE, (LINE, line), ("pedestal/breaker 2-pole 15 A ", "pedestal"))) == count
