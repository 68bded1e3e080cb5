"""The ac side: what reaches an outlet unguarded, where neutrals are bonded, what stands first behind a supply."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system

TEXT = """
practice: abyc
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  pedestal: {kind: shore, rating: 30 A}
  combi: {kind: inverter charger, power: 2 kW, charge: 50 A}
  board: {kind: ac panel, rating: 30 A}
  galley: {kind: outlet, rating: 15 A}
  kettle: {kind: ac load, power: 1 kW}
circuits:
  - feed: bank/fuse class-t 250 A 20 kA -> switch battery 300 A -> combi
    return: bank -> combi
    wire: {feed: [4/0 AWG 0.5 m, 1 m], return: 4/0 AWG 1 m}
  - {name: shore, ac: pedestal -> breaker 2-pole 30 A -> combi.in, wire: [10 AWG 2 m, 3 m]}
  - {name: out, ac: combi -> FIRST 20 A -> board, wire: [12 AWG 1 m, 1 m]}
  - {name: galley, ac: board/SECOND 15 A -> galley, wire: 14 AWG 3 m}
  - {name: kettle, ac: board/breaker 15 A -> kettle, wire: 14 AWG 3 m}
"""


def mains(first: str = "breaker 2-pole", second: str = "breaker"):
    return Survey(system(TEXT.replace("FIRST", first).replace("SECOND", second))).mains


def test_every_supply_of_mains_is_a_source():
    assert [(one.node, one.lines, one.neutral) for one in mains().sources] == [
        ("pedestal", ("pedestal.L",), "pedestal.N"), ("combi", ("combi.out.L",), "combi.out.N")]


@pytest.mark.parametrize(("first", "second", "path"), [
    ("breaker 2-pole", "breaker", ("combi", "Q3", "board", "Q4", "galley")),
    ("rcbo 30 mA", "breaker", ()), ("breaker 2-pole", "rcbo 30 mA", ()), ("rcbo 10 mA", "breaker", ()),
    ("rcbo 100 mA", "breaker", ("combi", "F2", "board", "Q3", "galley")),
])
def test_the_way_to_an_outlet_that_nothing_guards(first, second, path):
    """30 mA at most guard people: IEC 60364-4-41, 415.1."""
    assert mains(first, second).unguarded("galley") == path


def test_the_first_device_behind_a_supply_and_how_far_it_is():
    one = mains()
    assert list(one.first_devices(("pedestal.L",))) == [("Q2", 2.0, ("shore:a0",))]
    found = [(name, metres) for name, metres, _ in one.first_devices(("board.L",))]
    assert found == [("Q3", 1.0), ("Q4", 0.0), ("Q5", 0.0)]
    assert list(one.first_devices(("board.L",), barred=("galley.L",)))[:1] == [("Q3", 1.0, ("out:a1",))]


def test_a_neutral_is_bonded_at_the_source_that_gives():
    found = {tuple(source.node for source in one.sources): one for one in mains().neutrals()}
    assert ("pedestal",) in found or any("pedestal" in names for names in found)
    inverting = [one for names, one in found.items() if names[0] == "combi" and dict(one.positions)["combi"] == "inverting"]
    assert all(one.bonds == (("combi", ""),) for one in inverting) and inverting


def first(circuits: str, starts: str = "pedestal.L", nodes: str = ""):
    """(first device, metres, cables) behind a supply of 230 V."""
    text = f"""
practice: iso
nodes:
  pedestal: {{kind: shore, rating: 16 A}}
  board: {{kind: ac panel, rating: 16 A}}
  box: {{kind: ac panel, rating: 16 A}}
  {nodes}
circuits:
{circuits}
"""
    return list(Survey(system(text)).mains.first_devices((starts,)))


@pytest.mark.parametrize(("path", "wire", "found"), [
    # a switch and a plug are passed; the metres before and behind them add up
    ("pedestal -> switch 16 A -> plug inlet 16 A -> breaker 2-pole 16 A Q-main -> board", "[2.5 mm² 1 m, 2 m, 4 m, 8 m]",
     [("Q-main", 7.0, ("a:a0", "a:a1", "a:a2"))]),
    # of a run that is not divided the device may stand at its very end
    ("pedestal -> breaker 2-pole 16 A Q-main -> board", "2.5 mm² 9 m", [("Q-main", 9.0, ("a:a0",))]),
    ("pedestal -> breaker 2-pole 16 A Q-main -> board", "2.5 mm²", [("Q-main", 0.0, ("a:a0",))]),  # no length is said
    ("pedestal -> board", "2.5 mm² 3 m", [("", 3.0, ("a:a0",))]),  # none on the way
    ("pedestal/breaker 2-pole 16 A Q-main -> board", "2.5 mm² 3 m", [("Q-main", 0.0, ())]),  # bolted to it
    ("pedestal/board", "", []),
])
def test_the_first_device_behind_a_supply(path, wire, found):
    line = f"  - {{name: a, ac: {path}{f', wire: {wire}' if wire else ''}}}"
    assert first(line) == found


def test_the_way_behind_a_place_goes_on():
    """Bolted on, and by a further cable; each way once, though two cables lie side by side."""
    line = "  - {name: a, ac: pedestal -> board/box, wire: 2.5 mm² 3 m}\n"
    on = "  - {name: b, ac: box -> breaker 2-pole 16 A Q-end -> kettle, wire: [2.5 mm² 2 m, 1 m]}"
    kettle = "kettle: {kind: ac load, power: 1 kW}"
    assert first(line + on, nodes=kettle) == [
        ("", 3.0, ("a:a0",)), ("", 3.0, ("a:a0",)), ("Q-end", 5.0, ("a:a0", "b:a0"))]
    beside = line + line.replace("name: a", "name: c") + on
    assert first(beside, nodes=kettle)[-1] == ("Q-end", 5.0, ("a:a0", "b:a0")) and len(first(beside, nodes=kettle)) == 3


def test_a_transfer_ends_the_way_to_a_device():
    """What is behind it is fed by others, too."""
    lines = ("  - {name: a, ac: pedestal -> pick.1, wire: 2.5 mm² 3 m}\n"
             "  - {name: b, ac: pick -> breaker 2-pole 16 A -> board, wire: [2.5 mm² 1 m, 1 m]}")
    assert first(lines, nodes="pick: {kind: transfer, rating: 16 A}") == [("", 3.0, ("a:a0",))]


def bonds(nodes: str, circuits: str):
    """[(sources, bonds, positions)] of every neutral with a source on it."""
    text = f"practice: iso\nnodes:\n{nodes}\ncircuits:\n{circuits}\n"
    return [(tuple(one.node for one in neutral.sources), neutral.bonds, dict(neutral.positions))
            for neutral in Survey(system(text)).mains.neutrals()]


LINK = """  pedestal: {kind: shore, rating: 16 A}
  board: {kind: ac panel, rating: 16 A}
  rod: {kind: rod}"""


@pytest.mark.parametrize(("link", "found"), [
    ("board.N -> rod", (("pedestal", ""), ("board", "link:b0"))),  # told of the node whose neutral it is
    ("rod -> board.N", (("pedestal", ""), ("board", "link:b0"))),
    ("board -> rod", (("pedestal", ""),)),  # from its earth: no link of the neutral
])
def test_a_bonding_conductor_links_a_neutral_at_either_end(link, found):
    lines = ("  - {name: a, ac: pedestal -> breaker 16 A -> board, wire: [2.5 mm² 1 m, 1 m]}\n"
             f"  - {{name: link, bond: {link}, wire: 6 mm² 1 m}}")
    assert bonds(LINK, lines) == [(("pedestal",), found, {})]


def test_the_earth_conductor_of_a_node_that_links_them_is_no_further_link():
    lines = ("  - {ac: pedestal -> breaker 16 A -> board, wire: [2.5 mm² 1 m, 1 m]}\n"
             "  - {bond: board -> rod, wire: 6 mm² 1 m}")
    linked = LINK.replace("board: {kind: ac panel, ", "board: {kind: ac panel, neutral: bonded, ")
    assert bonds(linked, lines) == [(("pedestal",), (("pedestal", ""), ("board", "")), {})]


def test_each_neutral_by_itself_and_by_position():
    """A transfer that switches the neutral: each source has its own, joined to what it feeds in one position."""
    nodes = ("  pedestal: {kind: shore, rating: 16 A}\n  set: {kind: generator, power: 2 kW, neutral: floating}\n"
             "  pick: {kind: transfer, rating: 16 A}\n  board: {kind: ac panel, rating: 16 A, neutral: bonded}")
    lines = ("  - {ac: pedestal -> pick.1, wire: 2.5 mm² 1 m}\n  - {ac: set -> pick.2, wire: 2.5 mm² 1 m}\n"
             "  - {ac: pick -> board, wire: 2.5 mm² 1 m}")
    assert {(sources, found, positions["pick"]) for sources, found, positions in bonds(nodes, lines)} == {
        (("pedestal",), (("pedestal", ""), ("board", "")), "1"), (("set",), (), "1"),
        (("pedestal",), (("pedestal", ""),), "off"), (("set",), (), "off"),
        (("pedestal",), (("pedestal", ""),), "2"), (("set",), (("board", ""),), "2"),
    }


@pytest.mark.parametrize(("outlet", "found"), [
    ("", []), ("  - {ac: combi -> kettle, wire: 2.5 mm² 3 m}\n", [(("combi",), (("combi", ""),), {"combi": "inverting"})])])
def test_a_source_that_nothing_is_wired_to_has_no_neutral(outlet, found):
    nodes = ("  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}\n"
             "  combi: {kind: inverter charger, power: 2 kW, charge: 50 A}\n  kettle: {kind: ac load, power: 1 kW}")
    assert bonds(nodes, outlet + "  - {feed: bank -> fuse 200 A -> combi, wire: [50 mm² 1 m, 1 m]}") == found


def test_what_follows_others_and_what_comes_from_the_sky_makes_no_mains():
    """An inverter of pv feeds what another source makes."""
    text = """
practice: iso
nodes:
  pedestal: {kind: shore, rating: 16 A}
  roof: {kind: pv, power: 400 W, voc: 40 V, isc: 10 A}
  sun: {kind: pv inverter, power: 1 kW, max pv voltage: 100 V}
  board: {kind: ac panel, rating: 16 A}
circuits:
  - {ac: pedestal -> breaker 2-pole 16 A -> board, wire: [2.5 mm² 1 m, 1 m]}
  - {ac: sun -> breaker 2-pole 16 A -> board, wire: [2.5 mm² 1 m, 1 m]}
  - {feed: roof -> sun.pv, wire: 4 mm² 5 m}
"""
    assert [one.node for one in Survey(system(text)).mains.sources] == ["pedestal"]


EARTHS = """
practice: iso
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}
  roof: {kind: pv, power: 400 W, voc: 40 V, isc: 10 A}
  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 30 A}
  pedestal: {kind: shore, rating: 16 A}
  combi: {kind: inverter charger, power: 2 kW, charge: 50 A}
  one: {kind: ac load, power: 500 W}
  two: {kind: ac load, power: 500 W}
  plate: {kind: sea plate}
circuits:
  - {feed: bank -> fuse 200 A -> combi, wire: [50 mm² 1 m, 1 m]}
  - {feed: sun -> fuse 40 A -> bank, wire: [10 mm² 1 m, 1 m]}
  - {feed: roof -> sun.pv, wire: 4 mm² 5 m}
  - {ac: pedestal -> breaker 2-pole 16 A -> ISOLATORcombi.in, wire: 2.5 mm² 3 m}
  - {ac: combi -> breaker 2-pole 10 A -> one, wire: {hops: [1.5 mm² 1 m, 3 m], cores: L N}}
  - {ac: combi -> breaker 2-pole 10 A -> two, wire: {hops: [1.5 mm² 1 m, 3 m], cores: L N}}
  - {bond: combi -> plate, wire: 6 mm² 2 m}
  MORE
"""


@pytest.mark.parametrize(("more", "found"), [
    ("", ["one", "two"]),
    ("- {bond: one -> two, wire: 4 mm² 1 m}", ["one"]),  # joined to each other only: told once
    ("- {bond: one -> combi, wire: 4 mm² 1 m}", ["two"]),
    ("- {bond: two -> plate, wire: 4 mm² 1 m}", ["one"]),
])
def test_what_has_no_way_to_the_earth_of_a_source(more, found):
    """Solar chargers and arrays have an earth terminal, too, but no line of mains lands on them."""
    assert list(Survey(system(EARTHS.replace("ISOLATOR", "").replace("MORE", more))).mains.unearthed()) == found


def test_a_galvanic_isolator_passes_a_faults_current_and_stops_direct_current():
    """And the neutral, though linked to earth at both its ends, is no bonding conductor."""
    bare, guarded = (Survey(system(EARTHS.replace("ISOLATOR", device).replace("MORE", ""))).mains
                     for device in ("", "galvanic-isolator 30 A -> "))
    assert bare.earths.together("pedestal.earth", "plate") and bare.metal.together("pedestal.earth", "plate")
    assert guarded.earths.together("pedestal.earth", "plate") and not guarded.metal.together("pedestal.earth", "plate")
    assert guarded.metal.together("combi.earth", "plate") and not guarded.earths.together("one.earth", "plate")
