"""What charges the batteries: chargers, alternators, turbines, and which batteries each of them reaches."""

from __future__ import annotations

from functools import cached_property, lru_cache

from diagrammer.circuit.arrays import Array, arrays
from diagrammer.circuit.paths import EVERYTHING, paths
from diagrammer.circuit.stores import Store
from diagrammer.circuit.view import View
from diagrammer.electrics import solar
from diagrammer.frozen import frozen
from diagrammer.kinds.kind import UNLIMITED
from diagrammer.netlist.model import Node

CHARGERS = ("solar charger", "wind charger", "dc charger", "ac charger", "inverter charger")
TURNED = ("wind", "hydro")
NOMINAL = 1.08  # times the bank's nominal voltage: up to here a stated one may be nominal (practice of this program)
USUAL = EVERYTHING - {"spare switch"}  # a switch that rests open joins banks in an emergency only


@frozen(eq=False)
class Charge:
    """One thing that charges, at a terminal, with at most `amps` [A]; `array` what feeds it from the sun.

    reached: the terminals it reaches, switches that rest open left open.
    """

    node: Node
    terminal: str
    amps: float
    reached: frozenset[str]
    array: Array | None = None

    def reaches(self, store: Store) -> bool:
        return store.tops[0] in self.reached  # what joins the tops of a bank is never left open

    def into(self, volts: float) -> float:
        """Current [A] it can give a bank at `volts` [V]: a solar charger no more than its modules have."""
        if self.array is None:
            return self.amps
        if self.node.get("type") == "pwm":
            return min(self.amps, solar.factor("irradiance") * self.array.short_circuit())
        return min(self.amps, self.array.power / volts)

    def set_point(self, store: Store) -> float | None:
        """The charge voltage [V] it states; None where it states none, or one near the bank's nominal one."""
        stated = self.node.get("voltage") if self.node.kind.name in ("alternator", "dc charger", "ac charger") else None
        return stated if stated and stated > store.nominal * NOMINAL else None


class Charging:
    """The chargers of one view."""

    def __init__(self, view: View):
        self.view = view

    @cached_property
    def all(self) -> tuple[Charge, ...]:
        """Every charger, alternator and turbine on a dc net, in file order; one of several outputs several times."""
        fed = {array.taker.name: array for array in arrays(self.view)}
        return tuple(
            Charge(self.view.system.nodes[name], terminal, amps, self._reached(terminal), fed.get(name))
            for name, port, amps in self._givers for terminal in self.view.hot(name, port)
            if self.view.graph.degree(terminal)
        )

    def _reached(self, terminal: str) -> frozenset[str]:
        return frozenset(paths(self.view).reach((terminal,), USUAL))

    @property
    def _givers(self):
        for name, give in self.view.gives:
            node = self.view.system.nodes[name]
            kind = node.kind.name
            if kind == "alternator":
                held = None if give.amps == UNLIMITED else node.get("continuous")
                yield name, give.port, held or node["output"]
            elif give.role == "charger" or kind in TURNED:
                yield name, give.port, give.amps

    def of(self, store: Store) -> tuple[Charge, ...]:
        """What can charge a bank, relays and selectors in the position that lets it; each node once."""
        found: dict[str, Charge] = {}
        for one in self.all:
            if one.reaches(store):
                found.setdefault(one.node.name, one)
        return tuple(found.values())


@lru_cache(maxsize=4)
def charging(view: View) -> Charging:
    """What charges in a view, found once."""
    return Charging(view)
