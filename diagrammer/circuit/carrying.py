"""What a conductor of a system may carry, and which overcurrent devices it may have."""

from __future__ import annotations

from diagrammer.circuit.view import View
from diagrammer.electrics.ampacity import Ampacity, OutsideTable, ampacity
from diagrammer.electrics.protection import largest_device
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, System, Wire
from diagrammer.quantity import Size

USUAL_AMBIENT = 30.0  # [°C] what the tables of ampacity stand for
ENGINE_SPACE = "engine-space"
TERMINALS_COUNT = "nec"  # the practice whose ampacity depends on the circuit's rating (NEC 110.14(C))
OVERCURRENT = ("fuse", "breaker", "rcbo")


@frozen
class Limit:
    """The ampacity of a conductor with the table it comes from, the largest device [A] that one may
    be for it, and the largest sum [A] of several that feed it together."""

    ampacity: Ampacity
    one: float
    several: float


class Carrying:
    """The limits of the conductors of a view, each worked out once for its wire."""

    def __init__(self, view: View):
        self.system = view.system
        self._known: dict = {}
        self._of_wire: dict[tuple[str, float], Limit | None] = {}
        self._circuits = rated_circuits(view.system) if view.system.practice == TERMINALS_COUNT else {}
        self._hottest = max(filter(None, (USUAL_AMBIENT, view.system.site.hottest)))

    def limit(self, wire: Conductor, volts: float) -> Limit | None:
        """The limit of one conductor in a net of `volts`; None where its size is not known, or the
        tables of the practice have no such conductor."""
        short = (wire.id, volts)
        if short not in self._of_wire:
            key = (wire.wire, bool(wire.core), volts, self._circuits.get(wire.circuit))
            if key not in self._known:
                self._known[key] = self._limit(*key)
            self._of_wire[short] = self._known[key]
        return self._of_wire[short]

    def of_size(self, size: Size, like: Conductor, volts: float) -> Limit | None:
        """The limit that `like` would have were it of another size."""
        return self._of(size, like.wire, bool(like.core), volts, self._circuits.get(like.circuit))

    def _limit(self, wire: Wire, ac: bool, volts: float, circuit: float | None) -> Limit | None:
        if wire.size is None:
            return None
        return self._of(wire.size, wire, ac, volts, circuit)

    def _ambient(self, wire: Wire) -> float:
        """[°C] what the wire says, else the hottest the site gets, and never below the tables' own."""
        return self._hottest if wire.ambient is None else max(USUAL_AMBIENT, wire.ambient)

    def _of(self, size: Size, wire: Wire, ac: bool, volts: float, circuit: float | None) -> Limit | None:
        practice, parallel = self.system.practice, wire.parallel
        try:
            found = ampacity(
                size, practice, wire.insulation, ambient=self._ambient(wire), bundle=wire.bundle,
                engine_space=ENGINE_SPACE in wire.inside, ac=ac, parallel=parallel, volts=volts,
                terminations=wire.terminations, circuit=circuit, material=wire.material,
            )
        except OutsideTable:
            return None
        single = size if parallel == 1 else None
        return Limit(found, *(
            largest_device(found.amps, practice, volts=volts, size=single, several=several, material=wire.material)
            for several in (False, True)
        ))


def rated_circuits(system: System) -> dict[str, float]:
    """{circuit: rating [A] of the largest overcurrent device in its own paths}; circuits without one are left out."""
    found: dict[str, float] = {}
    for circuit in system.circuits:
        nodes = (system.nodes[stop.node] for leg in circuit.legs for stop in leg.stops)
        ratings = [rating for node in nodes if node.kind.name in OVERCURRENT and (rating := node.get("rating"))]
        if ratings:
            found[circuit.name] = max(ratings)
    return found
