"""A system without the lines that nothing can be computed of: wrong poles, wrong voltages, two ac sources at once."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from diagrammer.netlist.model import System


def cleared(system: System, lines: Collection[str]) -> System:
    """The system without the conductors, joints and paths of these circuits; itself where there are none."""
    if not lines:
        return system
    kept = lambda parts: tuple(part for part in parts if part.circuit not in lines)  # noqa: E731
    return replace(
        system, circuits=tuple(line for line in system.circuits if line.name not in lines),
        conductors=kept(system.conductors), joints=kept(system.joints),
    )
