"""The feed side as points and pieces: what belongs to it, what its sources give, in which positions."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from diagrammer.circuit.protection_flow import Flow
from diagrammer.circuit.protection_web import Loom, Piece, feeds
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system
from tests.circuit.test_protection_cases import HOUSE, house


def view(text: str):
    return Survey(system(text)).start


@pytest.mark.parametrize(("form", "side", "core", "ends", "belongs"), [
    ("conductor", "feed", "", ("bank.+", "feed-bar"), True), ("conductor", "return", "", ("bank.+", "feed-bar"), False),
    ("conductor", "earth", "", ("bank.+", "feed-bar"), False), ("conductor", "ac", "L", ("bank.+", "feed-bar"), True),
    ("conductor", "ac", "L3", ("bank.+", "feed-bar"), True), ("conductor", "ac", "N", ("bank.+", "feed-bar"), False),
    ("conductor", "ac", "PE", ("bank.+", "feed-bar"), False),
    ("joint", "feed", "", ("bank.+", "lamp-1.-"), True),  # wired as feed, whatever it lands on
    ("contact", "feed", "", ("F1.1", "F1.2"), True), ("overcurrent", "feed", "", ("F1.1", "F1.2"), True),
    ("diode", "feed", "", ("F1.1", "F1.2"), True), ("bond", "feed", "", ("F1.1", "F1.2"), False),
    ("contact", "feed", "", ("bank.-", "F1.2"), False), ("contact", "feed", "", ("F1.1", "bank.-"), False),
])
def test_what_belongs_to_the_feed_side(form, side, core, ends, belongs):
    joins = feeds(view(house()))
    data = {"form": form, "side": side, "core": core, "value": SimpleNamespace(a=ends[0], b=ends[1])}
    assert joins(data) is belongs


@pytest.mark.parametrize(("form", "forward", "backward"), [
    ("diode", False, True), ("conductor", False, False), ("overcurrent", False, False)])
def test_a_diode_blocks_what_comes_from_its_cathode(form, forward, backward):
    piece = Piece("it", form, "anode", "cathode")
    assert (piece.blocks("anode"), piece.blocks("cathode")) == (forward, backward)


def test_clusters_are_what_is_joined():
    loom = Loom(view(house()))
    clusters = list(loom.clusters())
    assert all(len(one.terminals) > 1 for one in clusters)
    (web,) = [web for one in clusters if "bank.+" in (web := loom.whole(one)).points]
    assert web.volts == 12
    keys = [one.key for one in web.pieces]
    assert len(keys) == len(set(keys)) and {one.node for one in web.pieces if one.node} == {"F1", "F2", "F3"}


def test_a_bank_and_a_bar_are_of_the_bank_s_voltage():
    loom = Loom(view(netlist(HOUSE, "main: feed: bank -> feed-bar, return: none, wire: 2/0 AWG 1 m\n")))
    assert [loom.whole(one).volts for one in loom.clusters() if "bank.+" in one.terminals] == [12]


COMBI = """
combi: inverter charger, power: 2 kW, charge: 80 A
ac-panel: ac panel, rating: 30 A
shore: shore, rating: 30 A
"""
LINES = """
shore: ac: shore -> breaker Q-shore 2-pole 30 A -> combi.in, wire: [10 AWG 1 m, 1 m]
combi: feed: feed-bar/fuse 300 A -> combi, wire: 4/0 AWG 1 m
out: ac: combi.out -> breaker Q-out 2-pole 30 A -> ac-panel, wire: [10 AWG 1 m, 1 m]
"""


def own(loom: Loom, web, terminal: str) -> Flow | None:
    return web.own.get(web.points[terminal])


def test_what_an_inverter_gives_it_gives_while_it_inverts():
    loom = Loom(view(house(nodes=COMBI, circuits=LINES)))
    (cluster,) = [one for one in loom.clusters() if "combi.out.L" in one.terminals]
    assert own(loom, loom.whole(cluster), "combi.out.L").limited > 10
    for combination in cluster.combinations:
        given = own(loom, loom.web(cluster, combination), "combi.out.L")
        assert bool(given and given.limited) == (combination.positions["combi"] == "inverting")


def test_dark_nodes_give_nothing():
    text = house()
    for dark, gives in (((), True), (("bank",), False), (("lamp-1",), True)):
        loom = Loom(view(text), dark)
        (web,) = [loom.whole(one) for one in loom.clusters() if "bank.+" in one.terminals]
        assert bool(web.own) is gives


def test_with_assist_an_inverter_gives_while_it_passes_through_as_well():
    loom = Loom(view(house(nodes=COMBI.replace("charge: 80 A", "charge: 80 A, assist: yes"), circuits=LINES)))
    (cluster,) = [one for one in loom.clusters() if "combi.out.L" in one.terminals]
    assert len(cluster.combinations) > 1
    assert all(own(loom, loom.web(cluster, one), "combi.out.L").limited > 10 for one in cluster.combinations)


@pytest.mark.parametrize(("charge", "gives"), [("0 A", False), ("80 A", True)])
def test_what_gives_nothing_is_no_source(charge, gives):
    """A charger that is turned off; the bank beside it is one whatever it does."""
    loom = Loom(view(house(nodes=COMBI.replace("80 A", charge), circuits=LINES)))
    (web,) = [loom.whole(one) for one in loom.clusters() if "combi.+" in one.terminals]
    assert (own(loom, web, "combi.+") is not None) is gives
    assert own(loom, web, "bank.+").bare and ("combi" in web.givers.get(web.points["combi.+"], ())) is gives


def test_what_no_source_reaches_has_no_voltage():
    loom = Loom(view(netlist("bar: bar, rating: 60 A\nlamp: load, voltage: 12 V, power: 24 W",
                             "lamp: feed: bar -> lamp, return: none, wire: 14 AWG 1 m")))
    assert [loom.whole(one).volts for one in loom.clusters()] == [0.0]


def test_a_bond_is_no_piece_of_the_feed_side():
    loom = Loom(view(house(nodes="hull: hull\n", circuits="bond: bond: feed-bar -> hull, wire: 6 AWG 1 m\n")))
    (web,) = [loom.whole(one) for one in loom.clusters() if "bank.+" in one.terminals]
    assert {one.wire.circuit for one in web.pieces if one.wire} == {"main", "lamp-1", "lamp-2"}


def test_what_loads_at_one_point_take_adds_up():
    """24 W at 12 V is 2 A; of 12 to 15 V at the top of the window 1.6 A."""
    text = house(nodes="third: load, voltage: 12 .. 15 V, power: 24 W\n",
                 circuits="third: feed: lamp-1/third, return: none\n")
    loom = Loom(view(text))
    (web,) = [loom.whole(one) for one in loom.clusters() if "bank.+" in one.terminals]
    assert web.asks[web.points["lamp-1.+"]] == pytest.approx(3.6) and web.asks[web.points["lamp-2.+"]] == 2.0
    assert sum(web.asks.values()) == pytest.approx(5.6)
