"""What can flow into every conductor end, against the maximum flow of networkx on small random webs.

A short circuit right behind a conductor's end draws what the sources bring there over everything but the conductor
itself: conductors carry all, a device its rating, one without a rating nothing (it will be chosen to suit), a diode only
one way. That is a maximum flow (Ford and Fulkerson 1956, from memory).
"""

from __future__ import annotations

import math
import random
from types import SimpleNamespace

import networkx as nx
import pytest

from diagrammer.circuit.positions import Combination
from diagrammer.circuit.protection_flow import Flow
from diagrammer.circuit.protection_judge import Judge
from diagrammer.circuit.protection_solve import Solved, solve
from diagrammer.circuit.protection_web import Piece, Web
from tests.circuit.cases import expect, netlist
from tests.circuit.test_protection_cases import BACK, BACK_WIRE, FAT, HOUSE, LAMPS, PUMP, WINCH, pump
from tests.circuit.test_protection_mesh import piece as made


def piece(rng: random.Random, number: int, a: str, b: str) -> Piece:
    form = rng.choice(["conductor", "conductor", "overcurrent", "overcurrent", "diode"])
    if form == "conductor":
        return Piece(f"e{number}", form, a, b, wire=SimpleNamespace(a=a, b=b))
    rating = rng.choice([5.0, 10.0, 20.0, 40.0, None]) if form == "overcurrent" else None
    return Piece(f"e{number}", form, a, b, node=f"n{number}", rating=rating)


def web(seed: int) -> Web:
    rng = random.Random(seed)
    points = [f"p{n}" for n in range(rng.randint(3, 7))]
    pieces = tuple(piece(rng, number, *rng.sample(points, 2)) for number in range(rng.randint(3, 10)))
    own = {point: Flow(bare=True) if rng.random() < 0.2 else Flow(limited=rng.choice([3.0, 15.0, 30.0]))
           for point in rng.sample(points, rng.randint(1, 3))}
    at = {point: tuple(one for one in pieces if point in (one.a, one.b)) for point in points}
    return Web(12.0, Combination({}, frozenset()), dict.fromkeys(points) | {p: p for p in points}, pieces, at, own, {}, {},
               frozenset())


def most(web: Web, piece: Piece, start: str) -> float:
    """[A] the maximum flow from all sources to an end, its conductor taken out."""
    graph = nx.DiGraph()
    graph.add_nodes_from(web.at)
    for one in web.pieces:
        if one is not piece:
            room = math.inf if one.form != "overcurrent" else one.rating or 0.0
            for a, b in ((one.a, one.b), (one.b, one.a)):
                if not (one.form == "diode" and a != one.a):
                    before = graph.get_edge_data(a, b, {"capacity": 0.0})["capacity"]
                    graph.add_edge(a, b, capacity=before + room)
    for point, flow in web.own.items():
        graph.add_edge("sources", point, capacity=math.inf if flow.bare else flow.limited)
    try:
        return nx.maximum_flow_value(graph, "sources", start)
    except nx.NetworkXUnbounded:
        return math.inf


@pytest.mark.parametrize("seed", range(120))
def test_flows_are_maximum_flows(seed):
    """No conductor here is too small for anything: none is held."""
    found = web(seed)
    lengths = SimpleNamespace(of=lambda wire: (0.0, ""), sheathed=lambda wire: False)
    judge = Judge(found, SimpleNamespace(limit=lambda wire, volts: None),
                  SimpleNamespace(in_time=lambda *given: True, lengths=lengths), {})
    flows = solve(judge).flows
    for one in found.pieces:
        for start in (one.a, one.b) if one.wire else ():
            assert flows[one.key, start].total == pytest.approx(most(found, one, start)), (one, start)


OWN = "bank-2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, pair: return-bar\n"
SUN = "sun: solar charger, type: mppt, max pv voltage: 60 V, output: 30 A\n"


@pytest.mark.parametrize("turn", [list, reversed])
@pytest.mark.parametrize(("more", "line", "marks"), [
    ("", "", "missing-protection@main:f0 missing-protection@pump:f0"),
    # what limits itself does not spare the device of the main what the winch takes
    (SUN, "sun: feed: sun -> feed-bar, wire: 2/0 AWG 1 m\n",
     "missing-protection@main:f0 missing-protection@pump:f0 unfed-node@sun"),
    # another bank can give it all: the main may have any device
    (OWN, "two: feed: bank-2 -> feed-bar, return: bank-2 -> bank, wire: 2/0 AWG 3 m\n",
     "missing-protection@main:f0 missing-protection@two:f0"),
])
def test_what_loads_have_to_get_over_a_conductor(turn, more, line, marks):
    """A main without a device: one that suits it and the winch behind it is too large for the pump's wire, wherever in
    the file the bank is declared."""
    nodes = [one for one in (HOUSE + PUMP + WINCH + more).splitlines() if one]
    lines = f"main: feed: bank -> feed-bar, {BACK}, wire: {{feed: 2/0 AWG 3 m, {BACK_WIRE}}}\n" + FAT + LAMPS
    expect(netlist("\n".join(turn(nodes)), lines + pump(start="feed-bar") + line), marks)


def solved(text: str, own: str, asks: dict[str, float]) -> Solved:
    """Of such pieces as test_protection_mesh makes; sources without limit stand at `own`."""
    pieces = tuple(made(one) for one in text.split(", "))
    points = list(dict.fromkeys(point for one in pieces for point in (one.a, one.b)))
    at = {point: tuple(one for one in pieces if point in (one.a, one.b)) for point in points}
    found = Web(12.0, Combination({}, frozenset()), {p: p for p in points}, pieces, at,
                {point: Flow(bare=True) for point in own}, {}, asks, frozenset())
    lengths = SimpleNamespace(of=lambda wire: (1.0, ""), sheathed=lambda wire: False)
    return solve(Judge(found, SimpleNamespace(limit=lambda wire, volts: wire.limit),
                       SimpleNamespace(in_time=lambda wire, *_: wire.limit is None, lengths=lengths), {}))


@pytest.mark.parametrize("turn", [list, reversed])  # the first point met is the root of the tree
@pytest.mark.parametrize(("text", "own", "told", "end", "asked"), [
    ("s-a thin, a-b thick", "s", "sa", ("ab", "a"), 50.0),
    # what another source can give need not come over it
    ("s-a thin, a-b thick", "sb", "sa", ("ab", "a"), 0.0), ("s-a thin, a-b thick", "sa", "sa", ("ab", "a"), 0.0),
    ("s-a thin, a-b thick", "sb", "sa", ("ab", "b"), 0.0),
    # over a ring, and into one
    ("s-p thick, p-q thick, q-s thick, q-a thin, a-b thick", "s", "qa", ("ab", "a"), 50.0),
    ("s-a thin, a-p thick, p-b thick, b-a thick", "s", "sa", ("ap", "a"), 50.0),
])
def test_behind_a_conductor_that_is_told_the_loads_there_ask_and_not_those_before_it(turn, text, own, told, end, asked):
    found = solved(", ".join(turn(text.split(", "))), own, {"s": 7.0, "a": 20.0, "b": 30.0})
    assert [report.piece.key for report in found.reports] == [told] * len(own)
    assert found.flows[end].asked == asked
