"""Batteries of different chemistry, voltage or size work in one bank.

Why: in parallel the one with the lower voltage is overcharged by the other, in series the smaller one is
overcharged and driven below empty; lithium cells may catch fire, lead ones boil dry and give off explosive gas.

Fix: build a bank of batteries of one make, size and age; couple two banks by a charger from one to the other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from diagrammer.circuit.batteries import Battery
from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("common practice", "IEC 62485-2, from memory")
SYMPTOMS = ("charge-voltage-mismatch", "cold-charging", "uneven-bank", "protection-too-small")

GOOD = """
nodes:
  left: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  right: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: left -> right, wire: 2 AWG 0.3 m}
  - {feed: left/fuse 50 A -> panel, return: right -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
"""

BAD = """
nodes:
  left: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  right: {kind: battery, chemistry: flooded, voltage: 12 V, capacity: 100 Ah}
# ^^^^^ mixed-banks: `right` is flooded, but works in one bank with `left`, which is agm
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: left -> right, wire: 2 AWG 0.3 m}
  - {feed: left/fuse 50 A -> panel, return: right -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
"""
ALIKE = 0.02  # relative: two capacities are one, as where one of them was written in Wh


def check(survey: Survey) -> Iterator[Finding]:
    for store in stores(survey.cleared).all:
        for told, alike in (_CHEMISTRY, _VOLTAGE, _CAPACITY):
            if odd := _odd(store, alike):
                yield _finding(survey, store, odd, told)
                break


def _chemistry(one: Battery) -> str:
    return one.node["chemistry"]


def _voltage(one: Battery) -> str:
    return show(one.node["voltage"], "V")


def _capacity(one: Battery) -> str:
    return show(one.capacity, "Ah")


_CHEMISTRY = (_chemistry, lambda a, b: _chemistry(a) == _chemistry(b))
_VOLTAGE = (_voltage, lambda a, b: a.window.cells == b.window.cells)
_CAPACITY = (_capacity, lambda a, b: abs(a.capacity - b.capacity) <= ALIKE * max(a.capacity, b.capacity))
Alike = Callable[[Battery, Battery], bool]


def _odd(store: Store, alike: Alike) -> tuple[Battery, Battery] | None:
    """The first that is unlike most others, and the first of those; None where all are alike."""
    members = [store.cells[name] for name in store.names]
    groups: list[list[Battery]] = []
    for one in members:
        group = next((group for group in groups if alike(group[0], one)), None)
        groups.append([one]) if group is None else group.append(one)
    if len(groups) < 2:
        return None
    most = max(groups, key=len)
    return next(group[0] for group in groups if group is not most), most[0]


def _finding(survey: Survey, store: Store, odd: tuple[Battery, Battery], told: Callable[[Battery], str]) -> Finding:
    one, other = odd
    rest = [member for member in store.names if member != one.node.name]
    has = "is" if told is _chemistry else "has"
    message = (f"{name(one.node.name)} {has} {told(one)}, but works in one bank with {name(other.node.name)}, "
               f"which {has} {told(other)}")
    return finding(__name__, survey, Fact("mixed-banks", nodes=(one.node.name, *rest)), message)
