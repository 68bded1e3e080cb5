"""Something that opens by itself, or by hand, can take the battery off a running alternator.

Why: the alternator's field cannot collapse at once, and its voltage jumps to a hundred volts and more: its
diodes fail, and whatever else is on the line with them, navigation lights and engine control included.

Fix: wire the alternator straight to a battery that stays on it, and charge the other bank through a dc charger;
or clamp its output and have the field cut before the battery goes.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.paths import Paths, paths
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("ABYC E-13, from memory", "ISO 16750-2, load dump, from memory", "common practice")

GOOD = """
nodes:
  block: {kind: engine}
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah}
  alternator: {kind: alternator, output: 60 A, voltage: 14.2 V}
circuits:
  - {feed: alternator -> fuse 80 A/engine-battery, return: alternator/block, wire: 4 AWG 1 m}
  - {return: engine-battery -> block, wire: 4 AWG 1 m}
"""

BAD = """
nodes:
  block: {kind: engine}
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, max charge: 100 A}
  cell-watch: {kind: bms, rating: 200 A}
  alternator: {kind: alternator, output: 60 A, voltage: 14.2 V}
# ^^^^^^^^^^ load-dump: `cell-watch` can take `bank` off `alternator` while it gives up to 60 A
circuits:
  - {feed: alternator -> fuse 80 A/bank, return: alternator/block, wire: 4 AWG 1 m}
  - {return: bank -> cell-watch -> block, wire: [4 AWG 0.5 m, 0.5 m]}
"""
STAYS = frozenset(("wire", "fuse", "breaker", "shunt", "plug", "resistor", "diode"))  # opens for a fault only
BY_HAND = frozenset(("switch", "selector"))
BY_ITSELF = frozenset(("relay", "isolator", "bms", "switch by itself"))
EVERY = STAYS | BY_HAND | BY_ITSELF


def check(survey: Survey) -> Iterator[Finding]:
    view, found = survey.cleared, paths(survey.cleared)
    for node in view.system.nodes.values():
        if node.kind.name != "alternator" or any(not _opens(one) for one in _batteries(found, node, STAYS)):
            continue
        by_hand = [one for one in _batteries(found, node, STAYS | BY_HAND) if not _opens(one)]
        banks = by_hand or _batteries(found, node, EVERY)
        if banks:
            yield _finding(survey, found, node, banks[0], BY_HAND if by_hand else BY_ITSELF)


def _batteries(found: Paths, node: Node, sorts) -> list[Node]:
    """The batteries that both poles of an alternator reach."""
    feed, back = found.reach((f"{node.name}.+",), sorts), found.reach((f"{node.name}.-",), sorts)
    return [one for one in found.view.system.nodes.values() if one.kind.name in ("bank", "battery")
            and f"{one.name}.+" in feed and f"{one.name}.-" in back]


def _opens(one: Node) -> bool:
    """Whether a battery is said to have electronics of its own that stop charging."""
    return bool(one.get("cold cutoff"))


def _finding(survey: Survey, found: Paths, node: Node, bank: Node, sorts) -> Finding:
    openers = _openers(found, node, bank, sorts)
    what = f"{names(openers)} can take {name(bank.name)}"
    if not openers:
        what = f"the protection circuit of {name(bank.name)} can take it"
    message = f"{what} off {name(node.name)} while it gives up to {show(node['output'], 'A')}"
    fact = Fact("load-dump", nodes=(node.name, *openers, bank.name))
    return finding(__name__, survey, fact, message, severity="notice" if sorts is BY_HAND else "")


def _openers(found: Paths, node: Node, bank: Node, sorts) -> tuple[str, ...]:
    """The nodes of these sorts on the ways from an alternator to a battery."""
    met: dict[str, None] = {}
    for pole in "+-":
        reached = found.reach((f"{node.name}.{pole}",), EVERY)
        for key in found.way(reached, f"{bank.name}.{pole}"):
            if found.sort(key) in sorts:
                met.setdefault(found.view.edges[key]["value"].node)
    return tuple(met)
