"""What terminals lead to, edge by edge; and how long a conductor of a run is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from diagrammer.netlist.model import Conductor, Inside, Joint, System

Near = Mapping[str, list[str]]


def neighbours(edges: Iterable[Conductor | Joint | Inside]) -> dict[str, list[str]]:
    """Of each terminal those at the other ends of its edges."""
    near: dict[str, list[str]] = {}
    for one in edges:
        near.setdefault(one.a, []).append(one.b)
        near.setdefault(one.b, []).append(one.a)
    return near


def reached(starts: Iterable[str], near: Near) -> set[str]:
    """The terminals that some lead to, themselves among them."""
    found = set(starts)
    edge = list(found)
    while edge:
        for other in near.get(edge.pop(), ()):
            if other not in found:
                found.add(other)
                edge.append(other)
    return found


def length_of(system: System, wire: Conductor) -> float:
    """[m] of a conductor; of a run whose division is not said, an even share."""
    if wire.length is not None:
        return wire.length
    run = system.runs.get(wire.run)
    return run.length / len(run.members) if run else 0.0
