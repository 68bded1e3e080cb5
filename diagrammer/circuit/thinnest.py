"""The thinnest conductor that a practice allows at all, and those from there on."""

from __future__ import annotations

from diagrammer.circuit.reach import length_of
from diagrammer.electrics.conductor import area, made
from diagrammer.netlist.model import Conductor, System
from diagrammer.quantity import Size, size
from diagrammer.tables.load import load


def covered(wire: Conductor) -> bool:
    """Whether it lies in a sheath, as the cores of a cable do."""
    return bool(wire.core) or wire.wire.sheathed


def thinnest(system: System, wire: Conductor) -> Size | None:
    """The thinnest allowed where this conductor runs; None where it is shorter than what the practice looks at."""
    current = "ac" if wire.core else "dc"
    for row in load("minimum_sizes"):
        if row["practice"] == system.practice and row["current"] in ("any", current):
            length = length_of(system, wire)
            short = 0 < length <= float(row["beyond"] or 0)
            if wire.wire.material == "aluminium":
                return size(row["aluminium"]) if row["aluminium"] else None
            return None if short else size(row["sheathed" if covered(wire) else "single"])
    return None


def allowed(system: System, like: Conductor) -> tuple[Size, ...]:
    """The sizes that are made and allowed where a conductor of known size runs, in the system of that size, thin to
    thick."""
    least = thinnest(system, like)
    return tuple(one for one in made(like.wire.size.system) if not least or area(one) >= area(least))
