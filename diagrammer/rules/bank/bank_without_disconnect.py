"""Nothing isolates the bank from what it feeds.

Why: in a fire, a fault or for repairs the whole system stays live, and nobody can make it safe in time.

Fix: put a battery switch, made for the whole current, into the main line beside the bank's fuse.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.paths import Paths, paths
from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("ABYC E-11 11.6.1.2.1, as quoted", "common practice")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  alarm: {kind: load, voltage: 12 V, power: 2 W, always on: yes}
circuits:
  - {feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: bank/fuse 1 A -> alarm, wire: 16 AWG 2 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
# ^^^^ bank-without-disconnect: no switch isolates `bank`: `fan` hangs on it through fuses alone
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
"""
ISOLATES = ("switch", "breaker", "relay", "selector")  # sorts of edge that take a bank off its loads
STAYS = frozenset(("wire", "fuse", "shunt", "plug", "resistor", "bms", "switch by itself", "diode"))
USES = {"load": "main", "inverter": "main", "inverter charger": "main", "converter": "in", "drive": "main",
        "starter": "main"}
FEW = 3  # branches that are opened one by one about as soon as a main switch


def check(survey: Survey) -> Iterator[Finding]:
    view = survey.cleared
    users = {
        terminal: (name, view.pole(name, USES[node.kind.name], "-"))
        for name, node in view.system.nodes.items() if node.kind.name in USES and not node.get("always on")
        for terminal in view.hot(name, USES[node.kind.name])
    }
    for store in stores(view).all:
        if store.starter:
            continue
        found = paths(view)
        bare, back = found.reach(store.tops, STAYS), found.reach(store.feet, STAYS)
        hung = [users[terminal][0] for terminal in bare if terminal in users and users[terminal][1] in back]
        fact = Fact("bank-without-disconnect", nodes=(*store.names, *hung))
        if hung:
            hang = f"{names(hung)} {verb(hung, 'hangs', 'hang')} on it through fuses alone"
            message = f"no switch isolates {names(store.names)}: {hang}"
            yield finding(__name__, survey, fact, message)
        elif (many := _one_by_one(found, bare, users)) and many > FEW:
            message = f"no switch isolates {names(store.names)} as a whole: each of {many} loads is switched by itself"
            yield finding(__name__, survey, fact, message)


def _one_by_one(found: Paths, bare: dict, users: dict) -> int | None:
    """How many loads are opened one by one where no device opens more than one; else None."""
    branches: dict[str, str] = {}
    for terminal in bare:
        for other, _, sort, inside in found.near[terminal]:
            if sort in ISOLATES and other not in bare:
                node = found.view.system.nodes[inside.node]
                if sort in ("relay", "selector") or "battery" in (node.get("type") or ""):
                    return None
                branches[inside.node] = other
    behind = [len(set(users).intersection(found.reach((other,), without=(node,)))) for node, other in branches.items()]
    return None if any(number > 1 for number in behind) else sum(behind)
