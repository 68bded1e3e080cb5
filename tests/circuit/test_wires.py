"""States in which the same devices are closed share what conducts."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.circuit.faults import COLD
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import State, states
from diagrammer.circuit.study import study
from diagrammer.netlist.read import read

TEXT = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 4 kA}
  spare: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 2 kA}
  which: {kind: selector, rating: 200 A}
  bar: {kind: bar, rating: 200 A}
  lamp: {kind: load, voltage: 12 V, power: 60 W}
  alternator: {kind: alternator, output: 60 A}
circuits:
  - {feed: bank/fuse 100 A -> which.1, wire: 2 AWG 1 m}
  - {feed: spare/fuse 100 A -> which.2, return: spare -> bank, wire: 2 AWG 1 m}
  - {feed: which -> bar, return: none, wire: 2 AWG 1 m}
  - {feed: alternator -> bar, return: alternator -> bank, wire: 4 AWG 1 m}
  - {name: lamp, feed: bar -> switch Q1 10 A -> lamp, return: lamp -> bank, wire: [14 AWG 1 m, 1 m]}
"""


def system():
    found, problems = read(TEXT)
    assert not problems, problems
    return found


def test_states_that_differ_in_what_runs_share_their_wires():
    one = system()
    parked, engine = states(one)
    assert parked.running != engine.running
    assert Operation(one, parked, "low").wires is Operation(one, engine).wires
    assert len({id(operation.wires) for operation in (*study(one).low, *study(one).nominal)}) == 1


def test_a_position_a_switch_and_a_temperature_make_others():
    one, state = system(), states(system())[0]
    here = Operation(one, state).wires
    assert Operation(one, state, temperature=COLD).wires is not here
    assert Operation(one, replace(state, off=frozenset(("Q1",)))).wires is not here
    others = [Operation(one, State("", frozenset(), {"which": word})) for word in ("1", "2", "both", "off")]
    assert len({other.wires.branches for other in others}) == 4
    dead = [bool(other.flow.dead) for other in others]
    assert dead == [False, False, False, True]


def test_what_is_reached_stops_at_an_open_device():
    one, state = system(), states(system())[0]
    assert "lamp.+" in Operation(one, state).wires.reach(("bar",))
    assert "lamp.+" not in Operation(one, replace(state, off=frozenset(("Q1",)))).wires.reach(("bar",))
    assert Operation(one, state).wires.reach(("nothing",)) == {"nothing"}
