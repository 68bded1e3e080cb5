"""A load hangs on the middle of a series bank with nothing to even it out.

Why: the lower battery is emptied and the upper one overcharged, cycle by cycle, until one boils dry or a
lithium cell is driven out of its limits.

Fix: feed the load by a converter from the whole bank, or put a battery equaliser across both halves.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice",)

GOOD = """
nodes:
  low: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  high: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 24 V, power: 24 W}
  step-down: {kind: converter, voltage: 12 V, output: 5 A, input voltage: 24 V}
  radio: {kind: load, voltage: 12 V, power: 12 W}
circuits:
  - {series: low -> high, wire: 6 AWG 0.3 m}
  - {feed: high/fuse 50 A -> panel, return: low -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> step-down.in, wire: 14 AWG 1 m}
  - {feed: step-down -> radio, wire: 14 AWG 1 m}
"""

BAD = """
nodes:
  low: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  high: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 24 V, power: 24 W}
  radio: {kind: load, voltage: 12 V, power: 12 W}
# ^^^^^ midpoint-load: `radio` hangs on the middle of the bank and empties only `low`, not `high`
circuits:
  - {series: low -> high, wire: 6 AWG 0.3 m}
  - {feed: high/fuse 50 A -> panel, return: low -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: low/fuse 5 A -> radio, return: low -> radio, wire: 14 AWG 2 m}
"""
EVENS = ("charger", "converter", "source", "raw")  # roles that, on the middle too, put back what the load takes
USES = ("load", "inverter", "inverter charger", "converter", "drive", "starter")


def check(survey: Survey) -> Iterator[Finding]:
    view = survey.cleared
    nets = view.nets
    for store in stores(view).all:
        for net, (below, above) in _middles(store, nets).items():
            here = nets.members(net)
            if any(view.system.nodes[view.system.terminals[one].node].kind.name == "other" for one in here):
                continue  # it may be an equaliser
            if any(one in here for name, give in view.gives if give.role in EVENS for one in view.hot(name, give.port)):
                continue
            for user in _users(survey, here):
                emptied = _emptied(survey, user, net, below, above)
                message = f"{name(user)} hangs on the middle of the bank and empties only {emptied}"
                yield finding(__name__, survey, Fact("midpoint-load", nodes=(user, *store.names)), message)


def _middles(store: Store, nets) -> dict[int, tuple[tuple[str, ...], tuple[str, ...]]]:
    """The nets between two levels of a bank's strings: {net: (batteries below, batteries above)}."""
    found: dict[int, tuple[tuple[str, ...], tuple[str, ...]]] = {}
    for string in store.stack.strings:
        for number, level in enumerate(string[:-1]):
            below = tuple(one for part in string[: number + 1] for one in part)
            above = tuple(one for part in string[number + 1 :] for one in part)
            found.setdefault(nets[f"{level[0]}.+"], (below, above))
    return found


def _users(survey: Survey, terminals: tuple[str, ...]) -> tuple[str, ...]:
    """What uses power and has a pole among these terminals."""
    system = survey.cleared.system
    ports = {system.terminals[one].node: system.terminals[one].port for one in terminals}
    return tuple(
        one for one, port in ports.items() if system.nodes[one].kind.name in USES
        and port == ("in" if system.nodes[one].kind.name == "converter" else "main")
    )


def _emptied(survey: Survey, user: str, net: int, below: tuple[str, ...], above: tuple[str, ...]) -> str:
    port = "in" if survey.system.nodes[user].kind.name == "converter" else "main"
    on_top = net in {survey.cleared.nets[one] for one in survey.cleared.hot(user, port)}
    emptied, spared = (below, above) if on_top else (above, below)
    return f"{names(emptied)}, not {names(spared)}"
