"""What is written beside things: designation, name, the values that matter."""

from __future__ import annotations

import re
from functools import cache

from diagrammer.lettering import width as lettering
from diagrammer.lettering.width import SMALLEST, shorten, wrap
from diagrammer.netlist.model import Node, System
from diagrammer.quantity import DIMENSIONS, show

SIZE = SMALLEST  # [mm] font size of all labels: capitals of 1.8 mm
LEADING = 3.2  # [mm] from base line to base line
WIDEST = 27.0  # [mm] of a line beside a symbol in a column

width = cache(lettering.width)

RATED = {
    "bank": ("chemistry", "voltage", "capacity"), "battery": ("chemistry", "voltage", "capacity"),
    "pv": ("power",), "wind": ("power",), "hydro": ("power",), "alternator": ("voltage", "output"),
    "shore": ("voltage", "rating"), "generator": ("power", "voltage"),
    "solar charger": ("type", "output"), "wind charger": ("type", "output"), "dump controller": ("rating",),
    "dc charger": ("voltage", "output"), "ac charger": ("output",), "converter": ("voltage", "output"),
    "inverter": ("power", "voltage"), "inverter charger": ("power", "charge"), "pv inverter": ("power",),
    "transformer": ("power",), "drive": ("power",), "load": ("power", "current"), "ac load": ("power",),
    "starter": ("current",), "resistor": ("resistance",), "rcd": ("rating", "residual"),
    "rcbo": ("rating", "residual"), "relay": ("rating",), "contactor": ("rating",),
}
USUAL = ("type", "rating")
SAID = re.compile(r"[A-Z]{1,2}(?:\d+|-.+)")


def designations(system: System) -> dict[str, str]:
    """IEC 81346 letter and number of every node: written ones keep theirs, the others are numbered
    in file order."""
    taken = {name for name in system.nodes if SAID.fullmatch(name)}
    counts: dict[str, int] = {}
    made = {}
    for node in system.nodes.values():
        if node.name in taken:
            made[node.name] = node.name
            continue
        letter = node.kind.letter_of(node.values)
        while True:
            counts[letter] = counts.get(letter, 0) + 1
            name = f"{letter}{counts[letter]}"
            if name not in taken:
                break
        made[node.name] = name
    return made


def rating(node: Node) -> str:
    """The values that matter, in one line: "class-t 250 A", "agm 12 V 220 Ah"."""
    units = {field.name: field.form for field in node.kind.fields}
    words = []
    if node.kind.name == "pv" and (modules := node["series"] * node["parallel"]) > 1:
        words += [f"{node['series']}s{node['parallel']}p", f"{modules} x"]
    if (node.get("count") or 1) > 1:
        words.append(f"{node.get('count')} x")
    for name in RATED.get(node.kind.name, USUAL):
        value = node.get(name)
        if value is None or name not in units:
            continue
        form = units[name]
        if form.sort in ("quantity", "window"):
            words.append(_quantity(value, form.dimensions, name))
        else:
            words.append(str(value))
    return " ".join(words)


def _quantity(value, dimensions: tuple[str, ...], name: str) -> str:
    if isinstance(value, tuple):
        low, high = value
        return _quantity(low, dimensions, name) if low == high else f"{low:g} .. {_quantity(high, dimensions, name)}"
    value = getattr(value, "value", value)
    dimension = getattr(value, "dimension", dimensions[0])
    unit = DIMENSIONS[dimension][0]
    return show(value, unit)


def label(designation: str, node: Node, note: str = "", most: float = WIDEST, lines: int = 4) -> list[tuple[str, bool]]:
    """Lines beside a symbol: (text, bold). Designation, name, values."""
    made = [(designation, True)]
    if node.label != designation:
        made += [(line, False) for line in wrap(node.label, SIZE, most, 2)]
    for text in (rating(node), note):
        made += [(line, False) for line in wrap(text, SIZE, most, 2)] if text else []
    return made[:lines + 1]


def short(text: str, most: float) -> str:
    return shorten(text, SIZE, most)


def wide(lines: list[tuple[str, bool]]) -> float:
    return max((width(text, SIZE, bold) for text, bold in lines), default=0.0)
