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


def said(text: str, rule: str) -> list[tuple[str, tuple[str, ...]]]:
    """(message, conductors) of each finding of a rule."""
    system, problems = read(text)
    assert not problems, problems
    return [(one.message, one.conductors) for one in check(system) if one.rule == rule]


@pytest.mark.parametrize("practice, metres, found", [("iso", 3.0, False), ("iso", 3.02, True), ("abyc", 3.02, False)])
def test_the_way_behind_the_inlet_is_that_of_the_practice(practice, metres, found):
    """Common practice under iso: 3 m; ABYC E-11, as quoted: 10 ft."""
    text = f"""
practice: {practice}
nodes:
  pedestal: {{kind: shore, rating: 16 A}}
  heater: {{kind: ac load, power: 1 kW}}
circuits:
  - ac: pedestal/breaker 2-pole 10 A -> plug inlet 16 A -> breaker 2-pole 10 A -> heater
    wire: [2.5 mm² 9 m, {metres} m, 4 m]
"""
    assert ("no-inlet-breaker" in rules(text)) is found


def test_only_a_plug_that_is_an_inlet_needs_a_breaker_behind_it():
    text = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal/breaker 2-pole 15 A -> plug %s 16 A -> heater, wire: [12 AWG 10 m, 6 m]}
"""
    assert "no-inlet-breaker" in rules(text % "inlet")
    assert "no-inlet-breaker" not in rules(text % "connector") and "no-inlet-breaker" not in rules(text % "")


def test_where_no_device_follows_the_shore_none_has_one_pole():
    text = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal -> %sheater, wire: 12 AWG 2 m}
"""
    assert said(text % "", "one-pole-inlet") == []
    assert [message for message, _ in said(text % "breaker Q-main 15 A/", "one-pole-inlet")] == [
        "`Q-main` is the first device after `pedestal` and leaves the neutral closed"]


def test_what_lacks_is_told_of_the_cable_that_comes_to_the_node():
    """Another cable has an earth core, this one has none."""
    text = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  panel: {kind: ac panel, rating: 16 A}
  heater: {kind: ac load, power: 500 W}
  kettle: {kind: ac load, power: 500 W}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> panel, wire: [12 AWG 0.3 m, 1 m]}
  - {ac: panel/breaker 10 A -> heater, wire: 14 AWG 2 m}
  - {name: bare, ac: panel/breaker 10 A -> kettle, wire: {size: 14 AWG, length: 2 m, cores: L N}}
"""
    assert said(text, "missing-earth") == [
        ("no protective conductor comes to `kettle`: the cable has no earth core", ("bare:a0",))]


def test_each_line_without_an_earth_core_is_a_fault_of_its_own():
    text = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  panel: {kind: ac panel, rating: 16 A}
  heater: {kind: ac load, power: 500 W}
  kettle: {kind: ac load, power: 500 W}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> panel, wire: [12 AWG 0.3 m, 1 m]}
  - {ac: panel/breaker 10 A -> heater, wire: {size: 14 AWG, length: 2 m, cores: L N}}
  - {ac: panel/breaker 10 A -> kettle, wire: {size: 14 AWG, length: 2 m, cores: L N}}
"""
    assert len(said(text, "missing-earth")) == 2


def test_too_many_links_are_told_with_the_positions_in_which_they_meet():
    text = BOND.format(generator="bonded", transfer="switched", panel="bonded")
    found = said(text, "neutral-bond")
    assert [message for message, _ in found] == [
        "the neutral of `inlet` is joined to earth 2 times, at `inlet` and `panel`, with `transfer` at 1"]


def test_the_link_that_a_conductor_makes_is_shown_on_that_conductor():
    text = """
nodes:
  inlet: {kind: shore, rating: 30 A}
  panel: {kind: ac panel, rating: 30 A, neutral: floating}
  rod: {kind: rod}
circuits:
  - {ac: inlet -> breaker 2-pole 30 A -> panel, wire: [10 AWG 0.3 m, 1 m]}
  - {name: earthing, bond: panel -> rod, wire: 8 AWG 2 m}
  - {name: link, bond: panel.N -> panel.earth, wire: 8 AWG 0.2 m}
"""
    assert [conductors for _, conductors in said(text, "neutral-bond")] == [("link:b0",)]


@pytest.mark.parametrize("bond, missing", [
    ("", True), ("- {bond: kettle -> rod, wire: 8 AWG 2 m}", False), ("- {bond: kettle -> plate, wire: 8 AWG 2 m}", True)])
def test_a_ground_of_its_own_is_a_way_to_earth(bond, missing):
    text = f"""
nodes:
  pedestal: {{kind: shore, rating: 16 A}}
  kettle: {{kind: ac load, power: 500 W}}
  rod: {{kind: rod}}
  plate: {{kind: bar, rating: 100 A}}
circuits:
  - {{ac: pedestal -> breaker 2-pole 15 A -> kettle, wire: {{hops: [12 AWG 0.3 m, 4 m], cores: L N}}}}
  {bond}
"""
    assert ("missing-earth" in rules(text)) is missing


@pytest.mark.parametrize("neutral, shore, found", [
    ("relay", True, False), ("relay", False, False),  # the link opens with the way past
    ("bonded", False, False), ("bonded", True, True),  # on shore that on land comes on top
    ("floating", False, True), ("floating", True, True),  # from the bank there is none
])
def test_the_link_of_an_inverter_charger_follows_its_relay(neutral, shore, found):
    text = f"""
nodes:
  bank: {{kind: bank, chemistry: agm, voltage: 12 V, capacity: 400 Ah}}
  combi: {{kind: inverter charger, power: 2 kW, charge: 40 A, neutral: {neutral}}}
  kettle: {{kind: ac load, power: 500 W}}
  {'pedestal: {kind: shore, rating: 16 A}' if shore else ''}
circuits:
  - {{feed: bank/fuse class-t 250 A -> combi, wire: 4/0 AWG 1 m}}
  - {{ac: combi -> kettle, wire: 12 AWG 3 m}}
  {'- {ac: pedestal -> breaker 2-pole 16 A -> combi.in, wire: [12 AWG 0.3 m, 1 m]}' if shore else ''}
"""
    assert ("neutral-bond" in rules(text)) is found


def test_the_last_of_several_links_is_the_one_too_many():
    text = """
nodes:
  inlet: {kind: shore, rating: 30 A}
  first: {kind: ac panel, rating: 30 A, neutral: bonded}
  last: {kind: ac panel, rating: 30 A}
circuits:
  - {ac: inlet -> breaker 2-pole 30 A -> first, wire: [10 AWG 0.3 m, 1 m]}
  - {ac: first/breaker 2-pole 20 A -> last, wire: 12 AWG 1 m}
  - {name: link, bond: last.N -> last.earth, wire: 8 AWG 0.2 m}
"""
    system, _ = read(text)
    (one,) = [one for one in check(system) if one.rule == "neutral-bond"]
    assert one.message.startswith("the neutral of `inlet` is joined to earth 3 times, at `inlet`, `first` and `last`")
    assert one.conductors == ("link:b0",) and one.nodes[0] == "last"


def test_an_earth_core_that_leads_nowhere_is_no_missing_core():
    """The kettle's cable has one; what lacks is the panel's, in the same net of earth conductors."""
    text = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  kettle: {kind: ac load, power: 500 W}
  panel: {kind: ac panel, rating: 16 A}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> panel, wire: {hops: [12 AWG 0.3 m, 1 m], cores: L N}}
  - {name: kettle, ac: panel/breaker 10 A -> kettle, wire: 14 AWG 2 m}
"""
    assert said(text, "missing-earth") == [("no protective conductor comes to `kettle`", ("kettle:a0",))]


def test_an_outlet_bolted_on_its_device_has_no_cable_of_its_own():
    text = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  one: {kind: outlet, rating: 15 A}
  two: {kind: outlet, rating: 15 A}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A/one, wire: {size: 12 AWG, length: 1 m, cores: L N}}
  - {ac: pedestal -> breaker 2-pole 15 A/two, wire: {size: 12 AWG, length: 1 m, cores: L N}}
"""
    assert said(text, "missing-earth") == [
        ("no protective conductor comes to `one`", ()), ("no protective conductor comes to `two`", ())]


def test_the_cable_without_earth_is_that_of_the_mains_not_of_the_bank():
    text = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 400 Ah}
  pedestal: {kind: shore, rating: 16 A}
  charger: {kind: ac charger, voltage: 12 V, output: 20 A}
circuits:
  - {name: dc, feed: charger -> fuse 30 A/bank, wire: 10 AWG 1 m}
  - {name: mains, ac: pedestal -> breaker 2-pole 15 A -> charger.in, wire: {hops: [12 AWG 0.3 m, 2 m], cores: L N}}
"""
    system, problems = read(text)
    assert not problems, problems
    (one,) = [one for one in check(system) if one.rule == "missing-earth"]
    assert one.message == "no protective conductor comes to `charger`: the cable has no earth core"
    line = text.splitlines()[one.at.line - 1]
    assert one.conductors == ("mains:a1",) and line.startswith("  - {name: mains")
    assert line[one.at.column - 1:one.at.end_column - 1] == "charger.in"


def test_which_breaker_of_an_interlock_is_closed_is_no_position_to_tell():
    text = """
nodes:
  inlet: {kind: shore, rating: 30 A}
  generator: {kind: generator, power: 3 kW, neutral: bonded}
  panel: {kind: ac panel, rating: 30 A, neutral: bonded}
circuits:
  - {ac: inlet -> breaker 2-pole 30 A Q-land -> panel, wire: [10 AWG 0.3 m, 1 m]}
  - {ac: generator -> breaker 2-pole 25 A Q-set -> panel, wire: [10 AWG 0.3 m, 1 m]}
interlocks: [[Q-land, Q-set]]
"""
    assert [message for message, _ in said(text, "neutral-bond")] == [
        "the neutral of `inlet` is joined to earth 2 times, at `inlet` and `panel`"]
