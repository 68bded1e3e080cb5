"""Gates: what must hold on a finished scene. Computed on the scene alone, by tests and while drawing."""

from __future__ import annotations

from collections.abc import Mapping

from diagrammer.frozen import frozen
from diagrammer.layout.gate_labels import (
    capital_height, flag_on_others, label_on_label, label_on_line, label_on_symbol, node_on_node, off_sheet,
    on_furniture,
)
from diagrammer.layout.gate_lines import (
    crossings, ends_on_terminals, line_through_symbol, lines_overlaid, right_angles, straight_devices, tap_order,
)
from diagrammer.layout.gate_room import name, Room
from diagrammer.layout.scene import Scene


@frozen
class Fault:
    """One breach of a gate, on a sheet, between the things named."""

    gate: str
    sheet: int
    what: str

    def __str__(self) -> str:
        return f"sheet {self.sheet}: {self.gate}: {self.what}"


def faults(scene: Scene) -> tuple[Fault, ...]:
    """All breaches, in the order of the sheets and gates."""
    made: list[Fault] = []
    for room in map(Room, scene.sheets):
        made += [Fault(gate, room.sheet.number, what) for check in CHECKS for gate, what in check(room)]
    return (*made, *_references(scene))


CHECKS = (
    node_on_node, label_on_label, label_on_symbol, label_on_line, flag_on_others, line_through_symbol, lines_overlaid,
    crossings, right_angles, ends_on_terminals, straight_devices, capital_height, tap_order, off_sheet, on_furniture,
)


def _references(scene: Scene) -> list[Fault]:
    """Every reference has exactly one partner, which names it in turn."""
    stubs = [(s.number, stub) for s in scene.sheets for stub in s.stubs if stub.form in ("to", "from")]
    known: dict[str, list] = {}
    for number, stub in stubs:
        known.setdefault(stub.id, []).append((number, stub))
    made = []
    for number, stub in stubs:
        partners = known.get(stub.partner, [])
        if len(partners) != 1 or partners[0][1].partner != stub.id or len(known[stub.id]) != 1:
            made.append(Fault("reference without its partner", number, f"{name(stub)} {stub.id}"))
    return made


def undrawn(scene: Scene, cables: Mapping[str, str]) -> list[Fault]:
    """Cables that no line shows, and no tag. cables: the tag's id that may stand for each."""
    shown = {line.cable for sheet in scene.sheets for line in sheet.lines}
    tags = {stub.id for sheet in scene.sheets for stub in sheet.stubs}
    tags |= {stub for name, stub in cables.items() if name in shown and stub}  # one line for all that a tag stood for
    return [Fault("link not drawn", 0, name) for name, stub in cables.items() if name not in shown and stub not in tags]


def bends(scene: Scene) -> float:
    """Bends a circuit, on average; not those of returns at fault, which are drawn on top."""
    circuits = {line.circuit for sheet in scene.sheets for line in sheet.lines if line.circuit}
    total = sum(len(line.points) - 2 for sheet in scene.sheets for line in sheet.lines if line.weight != "fault")
    return total / max(1, len(circuits))
