"""The ac rules at, under and over what they compare, and where they must be silent."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules.run import check

OUTLET = """
practice: {practice}
nodes:
  bank: {{kind: bank, chemistry: agm, voltage: 12 V, capacity: 400 Ah}}
  inlet: {{kind: shore, rating: 16 A, voltage: 230 V}}
  combi: {{kind: inverter charger, power: 2 kW, charge: 40 A, voltage: 230 V}}
  galley: {{kind: outlet, rating: 16 A, voltage: 230 V}}
circuits:
  - {{feed: bank/fuse class-t 250 A -> combi, wire: 4/0 AWG 1 m}}
  - {{ac: inlet -> {first}breaker 2-pole 16 A -> combi.in, wire: {hops}}}
  - {{ac: combi -> {last}galley, wire: 12 AWG 3 m}}
"""


def rules(text: str) -> set[str]:
    system, problems = read(text)
    assert not problems, problems
    return {one.rule for one in check(system)}


def outlet(practice="iso", first="", last="", hops="[2.5 mm² 0.3 m, 1 m]"):
    return rules(OUTLET.format(practice=practice, first=first, last=last, hops=hops))


def test_a_residual_current_device_before_the_inverter_does_not_guard_what_the_inverter_feeds():
    assert "no-rcd" in outlet(first="rcd 16 A 30 mA/", hops="[2.5 mm² 0.3 m, 1 m]")
    assert "no-rcd" not in outlet(last="rcd 16 A 30 mA/")


@pytest.mark.parametrize("milliamps, found", [(29, False), (30, False), (31, True), (100, True)])
def test_thirty_milliamps_is_the_most_that_guards_people(milliamps, found):
    # IEC 60364-4-41, 415.1.1: rated residual operating current not exceeding 30 mA
    assert ("no-rcd" in outlet(last=f"rcd 16 A {milliamps} mA/")) is found


BOND = """
nodes:
  inlet: {{kind: shore, rating: 30 A}}
  generator: {{kind: generator, power: 3 kW, neutral: {generator}}}
  transfer: {{kind: transfer, rating: 30 A, neutral: {transfer}}}
  panel: {{kind: ac panel, rating: 30 A, neutral: {panel}}}
circuits:
  - {{ac: inlet -> breaker 2-pole 30 A -> transfer.1, wire: [10 AWG 0.3 m, 1 m]}}
  - {{ac: generator -> breaker 2-pole 25 A -> transfer.2, wire: [10 AWG 0.3 m, 1 m]}}
  - {{ac: transfer -> panel, wire: 10 AWG 1 m}}
"""


@pytest.mark.parametrize("generator, transfer, panel, found", [
    ("bonded", "switched", "floating", False),
    ("floating", "switched", "floating", True),  # nothing bonds the generator's neutral
    ("bonded", "joined", "floating", True),  # the shore's link and the generator's are both there
    ("floating", "joined", "floating", False),  # the shore's link serves both
    ("bonded", "switched", "bonded", True),  # the panel's link comes on top
])
def test_exactly_one_link_in_every_position(generator, transfer, panel, found):
    text = BOND.format(generator=generator, transfer=transfer, panel=panel)
    assert ("neutral-bond" in rules(text)) is found


@pytest.mark.parametrize("metres, found", [(3.04, False), (3.05, False), (3.06, True)])
def test_the_breaker_behind_the_inlet_stands_within_ten_feet(metres, found):
    text = f"""
nodes:
  pedestal: {{kind: shore, rating: 16 A}}
  heater: {{kind: ac load, power: 1 kW}}
circuits:
  - {{ac: pedestal/breaker 2-pole 15 A -> plug inlet 16 A -> breaker 2-pole 15 A -> heater, wire: [12 AWG 10 m, {metres} m, 4 m]}}
"""
    assert ("no-inlet-breaker" in rules(text)) is found


def test_shore_carries_what_it_is_rated_for_and_no_more():
    text = """
nodes:
  pedestal: {{kind: shore, rating: {amps} A, voltage: 230 V}}
  heater: {{kind: ac load, power: 2 kW, voltage: 230 V}}
circuits:
  - {{ac: pedestal -> breaker 2-pole 16 A -> heater, wire: [10 AWG 0.1 m, 0.1 m]}}
"""
    # 2 kW at 230 V is 8.70 A; the supply's own resistance makes it a little more
    assert "shore-overloaded" not in rules(text.format(amps=8.9))
    assert "shore-overloaded" in rules(text.format(amps=8.7))


HULL = """
practice: iso
nodes:
  inlet: {{kind: shore, rating: 16 A}}
  panel: {{kind: ac panel, rating: 16 A}}
  hull: {{kind: hull}}
  {more}
circuits:
  - {{ac: inlet -> breaker 2-pole 16 A -> {between}, wire: [2.5 mm² 0.3 m, 1 m]}}
  {then}
  - {{bond: panel -> hull, wire: 6 mm² 2 m}}
"""


def test_a_transformer_parts_the_hull_from_the_quay():
    assert "galvanic-path" in rules(HULL.format(more="", between="panel", then=""))
    transformer = HULL.format(more="box: {kind: transformer, power: 3 kW}", between="box.in", then="- {ac: box -> panel, wire: 2.5 mm² 1 m}")
    assert "galvanic-path" not in rules(transformer)


def test_a_chain_of_outlets_without_an_earth_core_is_one_fault():
    system, problems = read("""
nodes:
  inlet: {kind: shore, rating: 15 A}
  one: {kind: outlet, rating: 15 A}
  two: {kind: outlet, rating: 15 A}
circuits:
  - {ac: inlet -> breaker 2-pole 15 A -> rcd 15 A 5 mA/one -> two, wire: {hops: [12 AWG 0.3 m, 3 m, 2 m], cores: L N}}
""")
    assert not problems
    assert [one.rule for one in check(system)].count("missing-earth") == 1
