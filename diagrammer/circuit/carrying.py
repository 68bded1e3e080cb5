"""What a conductor of a system may carry, and which overcurrent devices it may have."""

from __future__ import annotations

from diagrammer.circuit.view import View
from diagrammer.electrics.ampacity import Ampacity, OutsideTable, ampacity
from diagrammer.electrics.protection import largest_device
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor
from diagrammer.quantity import Size

USUAL_AMBIENT = 30.0  # [°C] what the tables of ampacity stand for
ENGINE_SPACE = "engine-space"
CABLE_CORES = 2  # loaded cores of one ac cable that lie together at least


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
        self._hottest = max(USUAL_AMBIENT, view.system.site.hottest or USUAL_AMBIENT)

    def limit(self, wire: Conductor, volts: float) -> Limit | None:
        """The limit of one conductor in a net of `volts`; None where its size is not known, or the
        tables of the practice have no such conductor."""
        short = (wire.id, volts)
        if short not in self._of_wire:
            key = (wire.wire, bool(wire.core), volts)
            if key not in self._known:
                self._known[key] = self._limit(*key)
            self._of_wire[short] = self._known[key]
        return self._of_wire[short]

    def of_size(self, size: Size, like: Conductor, volts: float) -> Limit | None:
        """The limit that `like` would have were it of another size."""
        wire = like.wire
        return self._of(size, wire.insulation, self._ambient(wire), wire.bundle, ENGINE_SPACE in wire.inside,
                        bool(like.core), wire.parallel, volts)

    def _limit(self, wire, ac: bool, volts: float) -> Limit | None:
        if wire.size is None or wire.material != "copper":
            return None
        return self._of(wire.size, wire.insulation, self._ambient(wire), wire.bundle, ENGINE_SPACE in wire.inside, ac,
                        wire.parallel, volts)

    def _ambient(self, wire) -> float:
        """[°C] what the wire says, else the hottest the site gets, and never below the tables' own."""
        return self._hottest if wire.ambient is None else max(USUAL_AMBIENT, wire.ambient)

    def _of(self, size, insulation, ambient, bundle, engine, ac, parallel, volts) -> Limit | None:
        practice = self.system.practice
        try:
            found = ampacity(size, practice, insulation, ambient=ambient, bundle=max(bundle, CABLE_CORES if ac else 1),
                             engine_space=engine, ac=ac, parallel=parallel, volts=volts)
        except OutsideTable:
            return None
        single = size if parallel == 1 else None
        return Limit(
            found, largest_device(found.amps, practice, volts=volts, size=single),
            largest_device(found.amps, practice, volts=volts, size=single, several=True),
        )
