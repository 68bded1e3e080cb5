"""Every symbol keeps the contract of symbol.py, and every kind finds its ports on its symbol."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

import diagrammer.symbols
from diagrammer.kinds import KINDS
from diagrammer.kinds.kind import Values
from diagrammer.symbols import FAMILIES, SYMBOLS, find
from tests.symbols.geometry import all_ink, letter_corners

EVERY = [(family, symbol) for family, symbols in FAMILIES.items() for symbol in symbols.values()]
each = pytest.mark.parametrize("family, symbol", EVERY, ids=[f"{f}-{s.name}" for f, s in EVERY])

THROUGH = (
    "fuse", "breaker", "switch", "rcd", "rcbo", "diode", "resistor", "plug", "galvanic-isolator", "shunt", "relay",
    "isolator", "battery-switch", "battery", "transformer",
)
SOURCES = ("pv", "wind", "hydro", "alternator", "shore", "generator")
LOADS = ("load", "motor", "heater", "lamp", "starter", "outlet")


@each
def test_file_is_named_after_its_symbol(family, symbol):
    file = Path(diagrammer.symbols.__file__).parent / family / f"{symbol.name.replace('-', '_')}.py"
    assert file.exists()


@each
def test_ink_fills_its_bound(family, symbol):
    """Nothing outside width and height, and each of the four edges is touched (or has a port)."""
    reach = [(2 * x / symbol.width, 2 * y / symbol.height) for x, y in all_ink(symbol)]
    assert all(abs(x) <= 1 + 1e-9 and abs(y) <= 1 + 1e-9 for x, y in reach)
    assert max(y for _, y in reach) == pytest.approx(1) and min(y for _, y in reach) == pytest.approx(-1)
    assert max(abs(x) for x, _ in reach) > 0.7


@each
def test_letters_stand_inside(family, symbol):
    for letter in symbol.letters:
        assert all(abs(x) <= symbol.width / 2 and abs(y) <= symbol.height / 2 for x, y in letter_corners(letter))
        assert letter.height >= 1.8  # [mm] ISO 3098-1, smallest


@each
def test_ports_lie_on_the_bound_where_ink_begins(family, symbol):
    ink = all_ink(symbol)
    for name, (x, y) in symbol.ports.items():
        side = symbol.sides[name]
        edge = {"up": y == -symbol.height / 2, "down": y == symbol.height / 2,
                "left": x == -symbol.width / 2, "right": x == symbol.width / 2}
        assert edge[side], name
        assert (2 * x) % 1 == (2 * y) % 1 == 0, f"{name} is off the grid of 0.5 mm"
        assert min(math.dist((x, y), point) for point in ink) < 0.15, f"{name} hangs in the air"


@each
def test_symbol_says_what_and_whence(family, symbol):
    assert symbol.says and symbol.source
    assert "memory" in symbol.source or "common practice" in symbol.source


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("name", THROUGH)
def test_what_current_passes_runs_from_top_to_bottom(name, family):
    ports = find(name, family).ports
    assert ports["1"] == (0, -find(name, family).height / 2) and ports["2"] == (0, find(name, family).height / 2)


def test_lines_leave_sources_downwards_and_enter_loads_from_above():
    assert {SYMBOLS[name].sides["1"] for name in SOURCES} == {"down"}
    assert {SYMBOLS[name].sides["1"] for name in LOADS} == {"up"}
    assert {SYMBOLS[name].ports["1"][0] for name in (*SOURCES, *LOADS)} == {0}


def test_same_words_mean_the_same_shape():
    shapes: dict[str, tuple] = {}
    for symbol in SYMBOLS.values():
        assert shapes.setdefault(symbol.says, (symbol.strokes, symbol.letters)) == (symbol.strokes, symbol.letters)


def test_different_symbols_look_different():
    looks: dict[tuple, str] = {}
    for symbol in SYMBOLS.values():
        assert looks.setdefault((symbol.strokes, symbol.letters), symbol.says) == symbol.says


def test_a_family_falls_back_on_iec():
    assert find("battery", "ieee") is find("battery")
    assert find("fuse", "ieee") is not find("fuse")
    with pytest.raises(KeyError):
        find("flux-capacitor")
    with pytest.raises(KeyError):
        find("fuse", "roman")


GIVEN = {"output": 10.0, "max pv voltage": 100.0, "load output": 5.0, "outputs": 3, "inputs": 2, "coil": 12.0}


@pytest.mark.parametrize("name", KINDS)
def test_kind_finds_its_ports_on_its_symbol(name):
    """But for what a netlist names or counts: pins, positions, poles beyond the first (one line a circuit)."""
    kind = KINDS[name]
    ports = kind.ports(Values(GIVEN)) if name not in ("other", "selector", "transfer", "terminals") else ()
    counted = {str(n) for n in range(3, 9)} if kind.sort == "through" else set()
    assert {port.name for port in ports} - counted <= set(find(kind.symbol).ports)
