"""The device has a rating that is not made.

Why: it cannot be bought, and whoever builds the system will take another one.

Fix: take a rating that is made, and check the conductor against it.
"""

from __future__ import annotations

from bisect import bisect
from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics.protection import is_made, ratings
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "notice"
SOURCES = ("NEC 240.6(A)", "ISO 8820-3 and -5", "IEC 60898-1 5.3.2",
           "IEC 60127-1, IEC 60269-6, UL 248-15 and common practice")
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [6 AWG 0.5 m, 0.5 m]
  - {feed: panel/fuse blade 10 A -> pump, wire: 14 AWG 3 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [6 AWG 0.5 m, 0.5 m]
  - {feed: panel/fuse blade 12 A -> pump, wire: 14 AWG 3 m}
  #              ^^^^^^^^^^^^^^^ odd-rating: blade fuses of 12 A are not made
"""
KINDS = ("fuse", "breaker", "rcbo")


def check(survey: Survey) -> Iterator[Finding]:
    for node in survey.system.nodes.values():
        amps, body = node.get("rating"), _body(node)
        if node.kind.name in KINDS and amps and not is_made(amps, body):
            sort = f"{node['type']} fuses" if body not in ("", "breaker") else f"{body or node.kind.name}s"
            yield finding(
                __name__, survey, Fact("odd-rating", nodes=(node.name,)),
                f"{sort} of {show(amps, 'A')} are not made",
                fix=f"Take {_near(amps, body)}, and check the conductor against it.",
            )


def _body(node: Node) -> str:
    """The list of ratings that counts; "" where the netlist does not say the body."""
    return "breaker" if node.kind.name != "fuse" else node.get("type") or ""


def _near(amps: float, body: str) -> str:
    made = ratings(body)
    at = bisect(made, amps)
    return " or ".join(show(one, "A") for one in made[max(at - 1, 0):at + 1])
