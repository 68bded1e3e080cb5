"""What the loads behind a terminal ask: directly, and through converters and inverters on the way to them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from functools import lru_cache

from diagrammer.circuit.converters import EFFICIENCY, TRANSFORMED
from diagrammer.circuit.paths import BY_ITSELF, FOR_GOOD, paths
from diagrammer.circuit.study import Study
from diagrammer.circuit.view import View
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Node

MAKERS = {"converter": ("in", "main", EFFICIENCY), "inverter": ("main", "out", EFFICIENCY),
          "inverter charger": ("main", "out", EFFICIENCY), "transformer": ("in", "out", TRANSFORMED)}
# kinds that feed loads from elsewhere: input port, output port, share of the power that comes out
FEEDING = FOR_GOOD | BY_ITSELF | {"relay", "selector", "transfer", "diode"}  # what may stand before a load


@frozen(eq=False)
class Part:
    """One load; `factor` is the power at the start for each watt at the load."""

    load: Node
    factor: float

    @property
    def watts(self) -> float:
        """Power [W] of the load itself, all alike together; what is said in amperes at its nominal voltage."""
        node = self.load
        if node.get("power"):
            return node["power"] * node["count"]
        volts = node["voltage"]
        return node["current"] * node["count"] * (volts[0] if isinstance(volts, tuple) else volts)

    @property
    def start(self) -> float:
        """Power [W] of one of them while it starts; 0 where that is not stated."""
        return self.load.get("start") or 0.0

    def amps(self, volts: float) -> float:
        """Current [A] at the start of the way, at `volts` [V] there."""
        if not self.load.get("power") and self.factor == 1.0:
            return self.load["current"] * self.load["count"]
        return self.watts * self.factor / volts


class Demand:
    """The loads of one view."""

    def __init__(self, view: View):
        self.view, self.paths = view, paths(view)
        self._inputs = {
            terminal: node for node in view.system.nodes.values() if node.kind.name in MAKERS
            for terminal in view.hot(node.name, MAKERS[node.kind.name][0])
        }
        self._loads = {
            terminal: node for node in view.system.nodes.values() if node.kind.name in ("load", "ac load")
            for terminal in view.hot(node.name, "main")
        }

    def behind(self, starts: Iterable[str], positions: Mapping[str, str] | None = None,
               sorts: Collection[str] = FEEDING, without: Collection[str] = ()) -> tuple[Part, ...]:
        """Every load that the terminals can feed, each once. positions: of multi-way nodes that stand fast; without:
        nodes through which nothing passes."""
        found: dict[str, Part] = {}
        queue, met = [(tuple(starts), 1.0, positions)], set()
        while queue:
            terminals, factor, fast = queue.pop(0)
            for terminal in self.paths.reach(terminals, sorts, fast, without):
                if load := self._loads.get(terminal):
                    found.setdefault(load.name, Part(load, factor))
                maker = self._inputs.get(terminal)
                if maker is not None and maker.name not in met:
                    met.add(maker.name)
                    queue.append((self.outputs(maker), factor / share(maker), self.making(maker)))
        return tuple(found.values())

    def makers(self, reached: Iterable[str]) -> tuple[Node, ...]:
        """The converters and inverters whose input is among these terminals, each once."""
        found = (self._inputs[terminal] for terminal in reached if terminal in self._inputs)
        return tuple({one.name: one for one in found}.values())

    def making(self, maker: Node) -> dict[str, str]:
        """The position in which a converter or inverter makes what it puts out."""
        return {maker.name: "inverting"} if maker.kind.name == "inverter charger" else {}

    def outputs(self, maker: Node) -> tuple[str, ...]:
        return self.view.hot(maker.name, MAKERS[maker.kind.name][1])

    def side_by_side(self, maker: Node) -> tuple[Node, ...]:
        """The units whose outputs meet, this one among them, in file order."""
        reached = self.paths.reach(self.outputs(maker), FEEDING, self.making(maker))
        makers = (one for one in self.view.system.nodes.values() if one.kind.name in MAKERS)
        return tuple(one for one in makers if any(out in reached for out in self.outputs(one)))


@frozen
class Asked:
    """The most that is asked at once: of which loads, in which state, how much in the unit asked for."""

    value: float = 0.0
    state: str = ""
    loads: tuple[str, ...] = ()


def at_once(study: Study, parts: Iterable[Part], value: Callable[[Part], float]) -> Asked:
    """Over all states, what the loads that are on take together: of momentary ones the largest alone."""
    parts, found = tuple(parts), [Asked()]
    for state in study.states:
        on = [part for part in parts if part.load.name not in state.off]
        short = [part for part in on if part.load.name in study.momentary]
        taken = [part for part in on if part not in short] + ([max(short, key=value)] if short else [])
        found.append(Asked(sum(map(value, taken)), state.name, tuple(part.load.name for part in taken)))
    return max(found, key=lambda one: one.value)


def share(maker: Node) -> float:
    """Share of its input power that a converter or inverter puts out (0 ... 1)."""
    stated = maker.get("efficiency")
    return stated / 100 if stated else MAKERS[maker.kind.name][2]


@lru_cache(maxsize=4)
def demand(view: View) -> Demand:
    """The loads of a view, found once."""
    return Demand(view)
