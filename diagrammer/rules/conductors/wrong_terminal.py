"""A terminal does not fit its conductor or its stud.

Why: a barrel that is too large lets the strands go, a hole that is too large has no face to carry the current.

Fix: take the terminal made for this conductor and this stud.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact, node_of
from diagrammer.electrics.terminal import Terminal, fits_barrel, fits_stud, read
from diagrammer.netlist.model import Conductor
from diagrammer.rules.conductors._words import between
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import joined
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("DIN 46235 (from memory): tube terminals by section and thread", "UL 486A (from memory)", "ISO 273")
GOOD = """
practice: iso
wire: {insulation: 90 °C}
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 100 A, pair: return-bar, stud: M8}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   {hops: [16 mm² 0.5 m], terminals: 16-8}
  - {feed: feed-bar/fuse blade 3 A -> lamp, wire: 1.5 mm² 3 m}
"""
BAD = """
practice: iso
wire: {insulation: 90 °C}
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 100 A, pair: return-bar, stud: M8}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> feed-bar
  #              ^^^^^^^^^^^^^^^^^^^^^^^^^^^ wrong-terminal: the 16 mm² from `F1` to `feed-bar` has terminals for 25...
  #              ^^^^^^^^^^^^^^^^^^^^^^^^^^^ wrong-terminal: the 16 mm² from `F1` to `feed-bar` has terminals for M6,...
    return: bank -> meter -> return-bar
    wire:   {hops: [16 mm² 0.5 m], terminals: 25-6}
  - {feed: feed-bar/fuse blade 3 A -> lamp, wire: 1.5 mm² 3 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    met: set[tuple[str, str]] = set()
    for wire in (one for one in survey.system.conductors if not one.derived):
        terminal = read(wire.wire.terminals)
        for what, message in (*_barrel(wire, terminal), *_studs(survey, wire, terminal)):
            if (wire.circuit, what) not in met:
                met.add((wire.circuit, what))
                ends = (node_of(wire.a), node_of(wire.b))
                yield finding(__name__, survey, Fact("wrong-terminal", (wire.cable,), ends), message)


def _barrel(wire: Conductor, terminal: Terminal) -> Iterator[tuple[str, str]]:
    own = wire.wire.size
    if own and terminal.barrels and not any(fits_barrel(barrel, own) for barrel in terminal.barrels):
        sizes = joined([barrel.label for barrel in terminal.barrels])
        yield "barrel", f"{between(wire)} has terminals for {sizes}"


def _studs(survey: Survey, wire: Conductor, terminal: Terminal) -> Iterator[tuple[str, str]]:
    """At each end that lands on something whose studs are stated; one fitting terminal of those written is enough."""
    for end in (wire.a, wire.b):
        name = node_of(end)
        stud = survey.system.nodes[name].get("stud")
        fits = [fits_stud(hole, stud) for hole in terminal.studs] if stud else []
        if fits and all(fit is False for fit in fits):
            yield name, f"{between(wire)} has terminals for {joined(terminal.studs)}, the studs of `{name}` are {stud}"
