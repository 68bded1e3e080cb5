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
