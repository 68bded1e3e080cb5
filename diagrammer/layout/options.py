"""What may be chosen about a drawing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from diagrammer.frozen import frozen

if TYPE_CHECKING:
    from diagrammer.circuit.readings import Reading


@frozen
class Options:
    """size: "A3", "A4", "Letter", "Tabloid", or "" for a drawing without frame.

    all_returns: every return as a line instead of a tag. family: "iec" or "ieee" symbols.
    engine: "" searches, "own" packs in file order, else the path of a Graphviz program.
    notes: a line of text for a node (the domain of a bar: "24 V dc"). block: fields of the title block.
    numbers: each cable has its number written at it. both: sizes and lengths in both systems.
    level: all that is written at a conductor in one line, for a sheet too low for more. readings: what flows, by cable.
    told: lines that stand beside the drawing, the first bold.
    """

    size: str = "A3"
    all_returns: bool = False
    family: str = "iec"
    engine: str = ""
    notes: Mapping[str, str] = field(default_factory=dict)
    block: Mapping[str, str] = field(default_factory=dict)
    numbers: bool = False
    both: bool = False
    level: bool = False
    readings: Mapping[str, Reading] = field(default_factory=dict)
    told: tuple[str, ...] = ()
