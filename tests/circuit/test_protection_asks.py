"""What loads of a net take at least: stated, from the power, at the voltage that makes it least."""

from __future__ import annotations

import pytest

from diagrammer.circuit.protection_asks import asks
from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read


def asked(fields: str, port: str = "main", volts: float = 12.0) -> float:
    system, problems = read(f"nodes:\n  one: {{{fields}}}\ncircuits: []\n")
    assert system is not None, problems
    return asks(system.nodes["one"], port, volts)


@pytest.mark.parametrize(("fields", "port", "volts", "amps"), [
    ("kind: load, voltage: 12 V, current: 4 A", "main", 12, 4),
    ("kind: load, voltage: 12 V, current: 4 A, count: 3", "main", 12, 12),
    ("kind: load, voltage: 12 V, power: 60 W", "main", 12, 5),
    ("kind: load, voltage: 12 V, power: 60 W, count: 2", "main", 12, 10),
    ("kind: load, voltage: 10 .. 30 V, power: 60 W", "main", 12, 2),  # the top of its window: the least current
    ("kind: load, voltage: 12 V, power: 60 W", "sense", 12, 0),
    ("kind: ac load, power: 1.2 kW, voltage: 120 V", "main", 120, 10),
    ("kind: ac load, power: 1.2 kW, voltage: 240 V, phases: 2+N", "main", 120, 0),  # not known on which line
    ("kind: ac load, power: 600 W, voltage: 120 V, count: 2", "main", 120, 10),
    ("kind: converter, input voltage: 24 V, voltage: 12 V, output: 20 A", "in", 24, 10),
    ("kind: converter, input voltage: 24 V, voltage: 12 V, output: 20 A", "out", 12, 0),
    ("kind: dc charger, voltage: 12 V, output: 30 A", "in", 12, 30),
    ("kind: inverter, power: 1.2 kW, neutral: bonded", "main", 12, 100),
    ("kind: inverter, power: 1.2 kW, neutral: bonded", "out", 120, 0),
    ("kind: inverter, power: 1.2 kW, neutral: bonded", "main", 0, 0),  # where no voltage is known nothing is asked
    ("kind: inverter charger, power: 1.2 kW, charge: 50 A", "main", 24, 50),
    ("kind: inverter charger, power: 1.2 kW, charge: 50 A", "in", 120, 0),  # what it passes on is its loads' to ask
    ("kind: dc charger, output: 30 A", "in", 12, 0),  # it does not say at which voltage
    ("kind: ac charger, voltage: 12 V, output: 30 A", "in", 120, 0),
    ("kind: ac load, power: 600 W, voltage: 120 V", "earth", 120, 0),
    ("kind: bar, rating: 100 A", "main", 12, 0),
])
def test_asks(fields, port, volts, amps):
    assert asked(fields, port, volts) == pytest.approx(amps)


def test_what_a_stack_feeds_is_asked_at_its_whole_voltage():
    """2 kW of 48 V are 42 A: the wire behind the switch suits the fuse that is missing, for 80 A."""
    system, _ = read("""
practice: abyc
nodes:
  low: {kind: battery, chemistry: agm, voltage: 24 V, capacity: 80 Ah, short circuit: 2 kA}
  high: {kind: battery, chemistry: agm, voltage: 24 V, capacity: 80 Ah, short circuit: 2 kA}
  inverter: {kind: inverter, power: 2 kW, neutral: bonded}
circuits:
  - {series: low -> high, wire: 8 AWG 0.2 m}
  - name: main
    feed: high -> switch battery 100 A -> inverter
    return: low -> inverter
    wire: {feed: [8 AWG 1 m, 1 m], return: 8 AWG 2 m}
""")
    assert [(fact.rule, fact.cables[0]) for fact in Survey(system).protection] == [("missing-protection", "main:f0")]


def test_what_has_a_battery_of_its_own_is_not_asked_of_another():
    """An engine's battery joined to a bank with 200 A of loads: its lead needs a fuse, and none of 200 A."""
    system, _ = read("""
practice: abyc
nodes:
  engine: {kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah, pair: back}
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 4 kA, pair: back}
  split: {kind: isolator, rating: 120 A, type: sensing}
  bar: {kind: bar, rating: 400 A, pair: back}
  back: {kind: bar, rating: 400 A}
  heater: {kind: load, voltage: 12 V, current: 200 A}
circuits:
  - {feed: bank/fuse class-t 225 A 20 kA -> bar, wire: 4/0 AWG 1 m}
  - {feed: bar/fuse class-t 225 A 20 kA -> heater, wire: 4/0 AWG 1 m}
  - {return: engine -> back, wire: 4/0 AWG 1 m}
  - {name: join, feed: engine -> split -> fuse class-t 100 A 20 kA/bar, return: none, wire: [4 AWG 1 m, 1 m]}
""")
    assert [(fact.rule, fact.cables[0]) for fact in Survey(system).protection] == [("missing-protection", "join:f0")]
