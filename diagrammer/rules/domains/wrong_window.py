"""What a converter or inverter accepts does not cover the whole range of its bank.

Why: above its window a bank that is being charged destroys it, and its capacitors can burst; below, it switches
off while the bank still has charge, and what it feeds fails.

Fix: take one whose input window holds the bank from its cutoff to its highest charging voltage.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from diagrammer.circuit.batteries import Battery
from diagrammer.circuit.charging import charging
from diagrammer.circuit.paths import FOR_GOOD, paths
from diagrammer.circuit.stores import LITHIUM, Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, span, verb
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("the data sheets of both", "voltages by chemistry: the table of batteries (common practice)")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  step-down: {kind: converter, voltage: 12 V, output: 10 A, input voltage: 40 .. 64 V}
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 10 A -> step-down.in, wire: 14 AWG 1 m}
  - {feed: step-down -> fan, wire: 14 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  step-down: {kind: converter, voltage: 12 V, output: 10 A, input voltage: 40 .. 57 V}
# ^^^^^^^^^ wrong-window: `step-down` takes 40 to 57 V, but `bank` goes up to 58.4 V
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 10 A -> step-down.in, wire: 14 AWG 1 m}
  - {feed: step-down -> fan, wire: 14 AWG 1 m}
"""
WINDOWS = {"converter": ("in", "input voltage"), "dc charger": ("in", "input voltage"),
           "inverter": ("main", "input window"), "inverter charger": ("main", "input window")}
JOINED = FOR_GOOD | {"selector"}
SAME = 1e-9


def check(survey: Survey) -> Iterator[Finding]:
    for node in survey.cleared.system.nodes.values():
        port, field = WINDOWS.get(node.kind.name, ("", ""))
        window = node.get(field) if field else None
        if not isinstance(window, tuple):
            continue
        found = (one for store in _banks(survey, node, port) for one in _compare(survey, node, window, store))
        yield from islice(found, 1)


def _banks(survey: Survey, node: Node, port: str) -> Iterator[Store]:
    """The banks that a port stands across, both poles of it, in one position of a selector or the other."""
    local, found = "" if port == "main" else f"{port}.", paths(survey.cleared)
    plus, minus = (found.reach((f"{node.name}.{local}{pole}",), JOINED) for pole in "+-")
    for store in stores(survey.cleared).all:
        if store.tops[0] in plus and store.feet[0] in minus:
            yield store


def _compare(survey: Survey, node: Node, window: tuple[float, float], store: Store) -> Iterator[Finding]:
    low, high = store.volts(lambda one: one.window.cutoff), highest(survey, store)
    wrong = []
    if high > window[1] * (1 + SAME):
        wrong.append(f"up to {show(high, 'V')}")
    if low < window[0] * (1 - SAME):
        wrong.append(f"down to {show(low, 'V')} before it is empty")
    if wrong:
        goes = f"{names(store.names)} {verb(store.names, 'goes', 'go')} {' and '.join(wrong)}"
        message = f"{name(node.name)} takes {span(*window, 'V')}, but {goes}"
        yield finding(__name__, survey, Fact("wrong-window", nodes=(node.name, *store.names)), message)


def highest(survey: Survey, store: Store) -> float:
    """[V] to which a bank is charged: what it states, what its chargers state, else lithium to the full and lead as
    far as absorption takes it (equalising is for the charger to say)."""
    stated = (one.set_point(store) for one in charging(survey.cleared).of(store))
    return max((store.volts(_full), *filter(None, stated)))


def _full(one: Battery) -> float:
    most = one.window.most if one.node["chemistry"] in LITHIUM else one.window.absorption
    return one.node.get("max voltage") or most
