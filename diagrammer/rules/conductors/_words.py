"""How the rules on conductors speak of them."""

from __future__ import annotations

from diagrammer.circuit.view import node_of
from diagrammer.netlist.model import Conductor


def size(wire: Conductor) -> str:
    """Such as "14 AWG" or "2 parallel 70 mm²"."""
    if wire.wire.size is None:
        return "conductor"
    return f"{wire.wire.parallel} parallel {wire.wire.size.label}" if wire.wire.parallel > 1 else wire.wire.size.label


def between(wire: Conductor) -> str:
    """Such as "the 14 AWG from `panel` to `lamp`"."""
    return f"the {size(wire)} from `{node_of(wire.a)}` to `{node_of(wire.b)}`"
