"""Operating states: those named, those derived, the position of what has several."""

from __future__ import annotations

import pytest

from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import states
from tests.circuit.cases import system

TEXT = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  spare: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  both: {kind: selector, rating: 100 A}
  pedestal: {kind: shore, rating: 30 A}
  combi: {kind: inverter charger, power: 1 kW, charge: 20 A}
circuits:
  - {feed: bank/fuse 100 A -> both.1, wire: 4 AWG 1 m}
  - {feed: spare/fuse 100 A -> both.2, return: spare -> bank, wire: 4 AWG 1 m}
  - {feed: both/fuse 10 A -> lamp, return: lamp -> bank, wire: 14 AWG 1 m}
  - {feed: bank/fuse 100 A -> combi, return: combi -> bank, wire: 4 AWG 1 m}
  - {ac: pedestal -> breaker 2-pole 30 A -> combi.in, wire: [10 AWG 1 m, 1 m]}
"""


def found(said: str = "") -> dict:
    return {one.name: one for one in states(system(TEXT + said))}


def test_those_that_follow_from_the_sources():
    one = found()
    assert list(one) == ["parked, nothing charges", "on shore power"]
    assert one["on shore power"].running == {"pedestal"} and not one["parked, nothing charges"].running


def test_an_inverter_charger_passes_shore_power_on_where_it_has_some():
    positions = {name: dict(one.positions) for name, one in found().items()}
    assert positions["on shore power"]["combi"] != positions["parked, nothing charges"]["combi"]


def test_a_selector_stands_where_the_state_says_and_else_in_the_first_that_joins():
    assert {one.positions["both"] for one in found().values()} == {"1"}
    named = found("states: {night: {both: '2', lamp: off}, dock: {pedestal: on}, away: {pedestal: off}}\n")
    assert list(named) == ["night", "dock", "away"]
    assert named["night"].positions["both"] == "2" and named["dock"].positions["both"] == "1"
    assert named["night"].off == {"lamp"} and named["dock"].running == {"pedestal"} and not named["away"].running
    assert "lamp" not in named["night"].positions


SPARE = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  fan: {kind: load, voltage: 12 V, current: 5 A}
  spare: {kind: switch, rating: 20 A, OPEN}
circuits:
  - {feed: bank/fuse 10 A -> spare -> fan, wire: 12 AWG 1 m}
"""


@pytest.mark.parametrize(("rests", "said", "amps"), [
    ("open: yes", "", 0), ("open: yes", "on", 5), ("open: yes", "off", 0),
    ("open: no", "", 5), ("open: no", "on", 5), ("open: no", "off", 0),
])
def test_a_state_closes_a_switch_that_rests_open_and_opens_one_that_rests_closed(rests, said, amps):
    text = SPARE.replace("OPEN", rests) + (f"states: {{now: {{spare: {said}}}}}\n" if said else "")
    one = system(text)
    flow = Operation(one, states(one)[0]).flow
    assert abs(flow.amps.get(one.conductors[0].id, 0.0)) == pytest.approx(amps)
