"""Overcurrent devices that stand in a way back only."""

from __future__ import annotations

from collections.abc import Collection

from diagrammer.circuit.view import Fact, View
from diagrammer.frozen import frozen


@frozen
class InReturn(Fact):
    """side: return or earth; lines: the circuits that the device stands in."""

    side: str = ""
    lines: tuple[str, ...] = ()


def find(view: View, lines: Collection[str]) -> tuple[InReturn, ...]:
    """Every device all of whose poles stand in a return or an earth; one pole of a device in ac always stands in a
    line. Devices of `lines`, which are reported already, and of lines blamed before are left out."""
    sides: dict[str, list[str]] = {}
    for inside in view.system.insides:
        if inside.form == "overcurrent" and inside.side and not inside.core:
            sides.setdefault(inside.node, []).append(inside.side)
    on = _lines(view, sides)
    return tuple(
        InReturn("protection-in-return", nodes=(node,), side=found[0], lines=on[node]) for node, found in sides.items()
        if "feed" not in found and not any(line in lines or line in view.out for line in on[node])
    )


def _lines(view: View, nodes: Collection[str]) -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {node: [] for node in nodes}
    for line in view.system.circuits:
        for leg in line.legs:
            for stop in leg.stops:
                if stop.node in found:
                    found[stop.node].append(line.name)
    return {node: tuple(dict.fromkeys(names)) for node, names in found.items()}
