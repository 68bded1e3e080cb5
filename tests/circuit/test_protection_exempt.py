"""Which conductors need no overcurrent device of their own, and where that ends.

Cranking conductors: 33 CFR 183.455(b); the lead of a self-limiting alternator, sheathed, of at most 40 in (1.016 m):
ABYC E-11 11.10.1.1.1, quoted; links and leads of a bank of at most 72 in (1.829 m): common practice.
"""

from __future__ import annotations

import pytest

from diagrammer.circuit.carrying import Carrying
from diagrammer.circuit.protection_ahead import Lengths
from diagrammer.circuit.protection_away import reach
from diagrammer.circuit.protection_exempt import Exempt
from diagrammer.circuit.protection_web import Loom
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system

NODES = {"start": "battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah",
         "spare": "battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah",
         "motor": "starter, current: 200 A", "alt": "alternator, output: 90 A", "bar": "bar, rating: 400 A",
         "stud": "joint", "low": "battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah",
         "high": "battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah",
         "house": "battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah",
         "lamp": "load, voltage: 12 V, power: 24 W", "Q1": "switch, rating: 300 A"}
CRANK = "crank: start -> motor, 2/0 AWG 4 m"
LEAD = "{length: 0.9 m, size: 4 AWG, in: conduit}"


def case(*lines: str, **fields: str) -> str:
    """Lines "name: path, wire" of feeds, "name: series path, wire" of links."""
    circuits = ""
    for line in lines:
        name, _, rest = line.partition(": ")
        path, _, wire = rest.partition(", ")
        role = "series: " + path[7:] if path.startswith("series ") else f"feed: {path}, return: none"
        circuits += f"{name}: {role}" + f", wire: {wire}" * bool(wire) + "\n"
    text = " ".join(lines)
    nodes = "\n".join(f"{name}: {kind}{fields.get(name, '')}" for name, kind in NODES.items()
                      if name in text.replace(".", " ").replace("/", " ").replace(",", " ").split())
    return netlist(nodes, circuits)


def exempt(text: str) -> str:
    """The exempt lines, each with its reason, in alphabetical order."""
    view = Survey(system(text)).start
    loom, found = Loom(view), set()
    for cluster in loom.clusters():
        web = loom.whole(cluster)
        lines = {piece.key: piece.wire.circuit for piece in web.pieces if piece.wire}
        why = Exempt(view, web, Carrying(view), Lengths(view.system), reach("abyc")).why
        found |= {f"{lines[key]} {why[key]}" for key in why}
    return ", ".join(sorted(found))


@pytest.mark.parametrize(("lines", "expected"), [
    ((CRANK,), "crank cranking"),
    (("crank: start -> Q1 -> motor, [2/0 AWG 1 m, 3 m]",), "crank cranking"),
    (("crank: start -> fuse 400 A -> motor, [2/0 AWG 1 m, 3 m]",), ""),  # a fused line is like others
    (("a: start -> stud, 2/0 AWG 2 m", "b: stud -> motor, 2/0 AWG 2 m", "c: stud -> lamp, 14 AWG 2 m"),
     "a cranking, b cranking"),
    (("crank: house -> motor, 2/0 AWG 4 m",), "crank cranking"),  # no starter battery: the bank cranks
    ((CRANK, "link: house -> motor, 2/0 AWG 4 m"), "crank cranking"),  # one there is: the other is a tap
    ((CRANK, "link: house -> fuse 100 A -> motor, [2/0 AWG 2 m, 2 m]"), "crank cranking"),
    (("crank: house -> motor, 2/0 AWG 4 m", "tie: start -> fuse 100 A -> motor, [2/0 AWG 2 m, 2 m]"), "crank cranking"),
    ((CRANK, "two: spare -> motor, 2/0 AWG 4 m"), "crank cranking, two cranking"),
    ((CRANK, "one: start/low", "link: house -> motor, 2/0 AWG 4 m"), "crank cranking"),  # another bolted to its post
])
def test_cranking(lines, expected):
    assert exempt(case(*lines)) == expected


@pytest.mark.parametrize(("lines", "expected"), [
    (("link: low -> high, 2/0 AWG 1.828 m",), "link link"), (("link: low -> high, 2/0 AWG 1.83 m",), ""),
    (("link: low -> high, 2/0 AWG 1.829 m",), "link link"),
    (("link: series low -> high, 2/0 AWG 1.829 m",), "link link"), (("link: series low -> high, 2/0 AWG 1.83 m",), ""),
    (("link: low -> start, 2/0 AWG 1 m",), ""),  # another duty: no link of one bank
    (("link: start -> spare, 2/0 AWG 1 m",), "link link"),
    (("link: low -> lamp, 14 AWG 1 m",), ""),
    (("link: series low -> stud -> high, [2/0 AWG 0.5 m, 0.5 m]",), "link link"),
    (("link: series low -> Q1 -> high, [2/0 AWG 0.5 m, 0.5 m]",), "link link"),
    # leads to a bar are links where several batteries of a duty land there
    (("a: low -> bar, 2/0 AWG 1 m", "b: high -> bar, 2/0 AWG 1 m"), "a link, b link"),
    (("a: bar -> low, 2/0 AWG 1 m", "b: high -> bar, 2/0 AWG 1 m"), "a link, b link"),
    (("a: low -> bar, 2/0 AWG 1 m", "b: high -> bar, 2/0 AWG 2 m"), ""),
    (("a: low -> bar, 2/0 AWG 1 m", "b: start -> bar, 2/0 AWG 1 m"), ""),
    (("a: low -> bar, 2/0 AWG 1 m", "b: low -> bar, 2/0 AWG 1 m"), ""),  # two from one post
    (("a: low -> bar, 2/0 AWG 1 m", "b: high -> fuse 100 A -> bar, [2/0 AWG 0.5 m, 0.5 m]"), ""),
    (("a: low -> bar, 2/0 AWG 1 m", "b: high -> bar, 2/0 AWG 1 m", "c: start/bar"), ""),  # it is a post of another duty
    (("a: low -> lamp, 14 AWG 1 m", "b: high -> lamp, 14 AWG 1 m"), ""),  # a load is no bar
])
def test_links(lines, expected):
    assert exempt(case(*lines)) == expected


@pytest.mark.parametrize(("wires", "more", "expected"), [
    (("alt: alt -> motor, " + LEAD,), "", "alt lead"),
    (("alt: alt -> motor, {length: 1.016 m, size: 4 AWG, in: conduit}",), "", "alt lead"),
    (("alt: alt -> motor, {length: 1.016001 m, size: 4 AWG, in: conduit}",), "", "alt lead"),  # to a micron the same
    (("alt: alt -> motor, {length: 1.018 m, size: 4 AWG, in: conduit}",), "", ""),
    (("alt: alt -> motor, 4 AWG 0.9 m",), "", ""),  # not sheathed
    (("alt: alt -> motor, " + LEAD,), ", self limiting: no", ""),
    (("alt: alt -> motor, " + LEAD.replace("4 AWG", "14 AWG"),), "", ""),  # too thin for the machine
    (("alt: alt -> motor, {length: 0.9 m, in: conduit}",), "", ""),  # nobody knows how thick
    (("alt: alt -> start, " + LEAD,), "", ""),  # lands on the post
    (("alt: alt -> Q1 -> motor, {hops: [4 AWG 0.5 m, 0.5 m], in: conduit}",), "", "alt lead"),
    (("alt: alt -> Q1 -> motor, {hops: [4 AWG 0.5 m, 0.6 m], in: conduit}",), "", ""),
    (("alt: alt -> Q1 -> motor, {length: 1.01 m, size: 4 AWG, in: conduit}",), "", "alt lead"),  # one length for both
    (("a: alt -> stud, " + LEAD.replace("0.9", "0.5"), "b: stud -> motor, " + LEAD.replace("0.9", "0.5")), "",
     "a lead, b lead"),
    (("a: alt -> stud, 4 AWG 0.3 m", "b: stud -> motor, {length: 0.3 m, size: 4 AWG, in: conduit}"), "", ""),
    (("a: alt -> stud, {length: 0.3 m, size: 4 AWG, in: conduit}", "b: stud -> motor, 4 AWG 0.3 m"), "", ""),
    (("a: alt -> stud, {length: 0.3 m, size: 14 AWG, in: conduit}",
      "b: stud -> motor, {length: 0.3 m, size: 4 AWG, in: conduit}"), "", ""),
    (("a: alt -> stud, {length: 0.3 m, size: 4 AWG, in: conduit}", "b: stud -> motor, " + LEAD.replace("0.9", "0.3"),
      "c: stud -> lamp, 14 AWG 1 m"), "", ""),  # something else hangs on it
    (("alt: alt -> fuse 100 A -> motor, {hops: [4 AWG 0.3 m, 0.3 m], in: conduit}",), "", ""),
    (("a: alt -> stud, " + LEAD,), "", ""),  # leads nowhere
])
def test_the_lead_of_an_alternator(wires, more, expected):
    assert exempt(case(CRANK, *wires, alt=more)) == ", ".join(filter(None, [expected, "crank cranking"]))
