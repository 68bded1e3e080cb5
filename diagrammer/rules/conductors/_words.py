"""How the rules on conductors speak of them."""

from __future__ import annotations

from diagrammer.circuit.view import node_of
from diagrammer.netlist.model import Conductor
from diagrammer.rules.wording import size


def between(wire: Conductor) -> str:
    """Such as "the 14 AWG from `panel` to `lamp`"."""
    return f"the {size(wire)} from `{node_of(wire.a)}` to `{node_of(wire.b)}`"
