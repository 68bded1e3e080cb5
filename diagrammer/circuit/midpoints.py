"""Loads on the middle of a stack of batteries."""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.stacks import Stacks
from diagrammer.circuit.supply import Supply
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.frozen import frozen


@frozen
class OnMiddle(Fact):
    """A load between the middle of a stack and one end of it. drained: the batteries that feed it;
    spared: those in series with them that don't; volts: of the middle over the foot [V]."""

    drained: tuple[str, ...] = ()
    spared: tuple[str, ...] = ()
    volts: float = 0.0


def find(view: View) -> tuple[OnMiddle, ...]:
    """midpoint-load, where nothing on that middle evens the batteries out: a charger of its own
    there, or a node of no known kind that has a lead on it, such as an equaliser."""
    stacks, supply = Stacks(view), Supply(view, view.graph)
    return tuple(fact for net in sorted(stacks.inner) for fact in _on(view, stacks, supply, net))


def _on(view: View, stacks: Stacks, supply: Supply, net: int) -> Iterator[OnMiddle]:
    members = set(view.nets.members(net))
    giving = {t for name, give in view.gives if give.role in ("charger", "converter") for t in view.hot(name, give.port)}
    if members & giving or any(view.system.nodes[node_of(t)].kind.name == "other" for t in members):
        return
    below = tuple(name for name, plus, *_ in stacks.cells if plus in members)
    above = tuple(name for name, _, minus, *_ in stacks.cells if minus in members)
    volts, _ = stacks.height(next(minus for _, _, minus, *_ in stacks.cells if minus in members))
    for name, ports in supply.inputs.items():
        poles = {pole for port in ports for pole in "+-" if view.pole(name, port, pole) in members}
        if len(poles) == 1:
            drained, spared = (below, above) if poles == {"+"} else (above, below)
            yield OnMiddle("midpoint-load", nodes=(name, *drained), drained=drained, spared=spared, volts=volts)
