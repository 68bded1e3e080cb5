"""Same input, same drawing: whatever the hash seed; and little moves when a load is added."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from diagrammer.layout.draw import draw
from diagrammer.layout.options import Options
from tests.layout.common_systems import SAMPLES, parsed

ROOT = Path(__file__).parents[2]
PRINT = """
import hashlib, sys
from diagrammer.layout.draw import draw
from diagrammer.netlist.read import read
from tests.layout.common_systems import marks_on
for path in sys.argv[1:]:
    system, _ = read(open(path, encoding="utf-8").read(), "x.yaml")
    print(hashlib.sha256(repr(draw(system, marks_on(system))).encode()).hexdigest())
"""


def test_the_hash_seed_changes_nothing():
    paths = [str(path) for path in SAMPLES[:3]]
    digests = {
        subprocess.run(
            [sys.executable, "-c", PRINT, *paths], env={**os.environ, "PYTHONHASHSEED": seed}, cwd=ROOT,
            capture_output=True, text=True, check=True,
        ).stdout
        for seed in ("0", "1", "4711")
    }
    assert len(digests) == 1 and len(digests.pop().split()) == len(paths)


HEAD = """
title: Steady
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, pair: return-bar}
  meter: {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  roof: {kind: pv, power: 200 W, voc: 24 V, isc: 10 A}
  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 30 A}
  panel: {kind: panel, rating: 60 A, ways: 12, pair: return-bar}
  galley: {kind: panel, rating: 60 A, ways: 12, pair: return-bar}
"""
WIRES = """
circuits:
  - feed: bank -> fuse class-t 200 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire: 2/0 AWG 0.5 m
  - {feed: roof -> breaker 2-pole 20 A -> sun.pv, wire: 10 AWG 6 m}
  - {feed: sun -> breaker 40 A -> feed-bar, wire: 8 AWG 1 m}
  - {feed: feed-bar/fuse 60 A -> panel, wire: 6 AWG 1 m}
  - {feed: feed-bar/fuse 50 A -> galley, wire: 6 AWG 1 m}
"""


def netlist(first: int, second: int) -> str:
    loads = [("panel", n) for n in range(first)] + [("galley", n) for n in range(second)]
    nodes = "".join(f"  {panel}-load-{n}: {{kind: load, voltage: 12 V, power: {10 + n} W}}\n" for panel, n in loads)
    circuits = "".join(
        f"  - {{feed: {panel}/fuse F{n + 11 + 40 * (panel == 'galley')} 5 A -> {panel}-load-{n}, wire: 14 AWG 3 m}}\n"
        for panel, n in loads
    )
    return HEAD + nodes + WIRES + circuits


def places(text: str, engine: str) -> dict[str, tuple[float, float]]:
    drawing = draw(parsed(text), (), Options(engine=engine))
    return {shape.node: (shape.x, shape.y) for sheet in drawing.sheets for shape in sheet.shapes}


@pytest.mark.parametrize("engine", ("own", ""))
@pytest.mark.parametrize("more", ((6, 5), (5, 6)))
def test_one_more_load_moves_the_rest_by_two_millimetres_at_most(engine, more):
    before, after = places(netlist(5, 5), engine), places(netlist(*more), engine)
    assert set(before) < set(after)
    moved = [abs(after[n][0] - x) + abs(after[n][1] - y) for n, (x, y) in before.items()]
    assert sum(moved) / len(moved) <= 2.0
