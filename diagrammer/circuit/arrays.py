"""Solar arrays as they reach a controller: strings of modules, what they give cold and hot."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from diagrammer.circuit.strings import Stack, stacks
from diagrammer.circuit.view import View
from diagrammer.electrics import solar
from diagrammer.electrics.ampacity import OutsideTable
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Node, System

TAKERS = {"solar charger": "pv", "dc charger": "pv", "pv inverter": "pv"}  # kinds with a port for modules
COLDEST_OF_TABLE = -40.0  # [°C] NEC Table 690.7(A) ends here


@frozen(eq=False)
class Array:
    """All strings on the pv port of one controller."""

    system: System
    taker: Node
    stacks: tuple[Stack, ...]

    @property
    def nodes(self) -> tuple[Node, ...]:
        return tuple(self.system.nodes[name] for stack in self.stacks for name in stack.nodes)

    @property
    def port(self) -> str:
        return f"{self.taker.name}.{TAKERS[self.taker.kind.name]}.+"

    def _strings(self, value: Callable[[Node], float | None], side_by_side) -> tuple[float | None, ...]:
        """Of each string the sum over its levels; None where one of its modules does not say."""
        found = []
        for stack in self.stacks:
            for string in stack.strings:
                levels = [[value(self.system.nodes[name]) for name in level] for level in string]
                known = all(one is not None for level in levels for one in level)
                found.append(sum(side_by_side(level) for level in levels) if known else None)
        return tuple(found)

    def open_voltage(self, celsius: float | None) -> float:
        """Highest open-circuit voltage [V] of its strings at an air temperature; at 25 °C where it is not known."""
        return max(self._strings(lambda pv: coldest(pv, celsius), max))

    def power_voltage(self, celsius: float | None) -> float | None:
        """Lowest maximum-power voltage [V] of its strings in full sun; None where a module's is not known."""
        volts = self._strings(lambda pv: hottest(pv, celsius), min)
        return min(volts) if None not in volts else None

    def side_by_side(self) -> tuple[tuple[tuple[str, float], ...], ...]:
        """Groups of what is joined in parallel, each as (uppermost module, voltage [V] at 25 °C): the nodes of every
        level, and the strings; at maximum power where all modules say it, else open."""
        known = all(pv.get("vmp") is not None for pv in self.nodes)
        volts = {pv.name: (pv["vmp"] if known else pv["voc"]) * series(pv) for pv in self.nodes}
        strings = [string for stack in self.stacks for string in stack.strings]
        levels = dict.fromkeys(level for string in strings for level in string)
        sums = tuple((string[-1][0], sum(min(volts[name] for name in level) for level in string)) for string in strings)
        return *(tuple((name, volts[name]) for name in level) for level in levels), sums

    def short_circuit(self) -> float:
        """Short-circuit current [A] of all strings together at 25 °C and full sun."""
        return sum(
            min(sum(map(_short, (self.system.nodes[name] for name in level))) for level in string)
            for stack in self.stacks for string in stack.strings
        )

    @property
    def power(self) -> float:
        """Rated power [W] of all modules."""
        return sum(pv["power"] * series(pv) * parallel(pv) for pv in self.nodes)


def _short(pv: Node) -> float:
    return pv["isc"] * parallel(pv)


def series(pv: Node) -> int:
    return pv["series"]


def parallel(pv: Node) -> int:
    return pv["parallel"]


def coldest(pv: Node, celsius: float | None) -> float:
    """Open-circuit voltage [V] of a node's string: by its coefficient, else by NEC Table 690.7(A)."""
    if celsius is None:
        return pv["voc"] * series(pv)
    share = pv.get("voc drift")
    try:
        return solar.coldest_voltage(pv["voc"], series(pv), celsius, share)
    except OutsideTable:
        return solar.coldest_voltage(pv["voc"], series(pv), COLDEST_OF_TABLE)


def hottest(pv: Node, celsius: float | None) -> float | None:
    """Maximum-power voltage [V] of a node's string in full sun; by the drift of its open voltage where its own is not
    said, at 25 °C where neither is."""
    vmp, share = pv.get("vmp"), pv.get("vmp drift") or pv.get("voc drift")
    if vmp is None:
        return None
    if celsius is None or share is None:
        return vmp * series(pv)
    return solar.hottest_voltage(vmp, series(pv), celsius, share)


@lru_cache(maxsize=4)
def arrays(view: View) -> tuple[Array, ...]:
    """The arrays of a view, one for each controller that modules reach, in file order."""
    nets = view.nets
    modules = [name for name, node in view.system.nodes.items() if node.kind.name == "pv"]
    found = stacks({name: (nets[f"{name}.+"], nets[f"{name}.-"]) for name in modules}) if modules else ()
    result = []
    for node in view.system.nodes.values():
        port = f"{node.name}.{TAKERS.get(node.kind.name)}.+"
        if port in view.system.terminals:
            here = tuple(stack for stack in found if stack.top == nets[port])
            if here:
                result.append(Array(view.system, node, here))
    return tuple(result)
