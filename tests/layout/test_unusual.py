"""What no sample has: every kind at once, bars tied in all directions, systems without a bank or a bar."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from diagrammer.layout.draw import draw
from diagrammer.layout.options import Options
from tests.layout.common_systems import made, parsed
from tests.systems import generate

ZOO = (Path(__file__).parent / "every-kind.yaml").read_text(encoding="utf-8")


def drawn(text: str, **options):
    system = parsed(text)
    scene = draw(system, (), Options(engine="own", **options))
    nodes = {thing.node for sheet in scene.sheets for thing in (*sheet.shapes, *sheet.bars)}
    assert nodes == set(system.nodes)
    return scene


@pytest.mark.parametrize("size", ("A3", "A4", ""))
def test_every_kind_finds_its_place(size):
    assert drawn(ZOO, size=size).remarks == ()


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("ties", (1, 2, 4))
def test_ties_between_bars_and_panels_are_drawn_or_referenced(seed, ties):
    rng = Random(f"ties {seed}")
    rails = [node.name for node in made(seed).nodes.values() if node.kind.name in ("bar", "panel")]
    bars = [name for name in rails if "return" not in name and "earth" not in name]
    text = generate(seed, 30).rstrip("\n").split("\ninterlocks:")[0].split("\nstates:")[0]
    for _ in range(ties):
        a, b = rng.sample(bars, 2) if len(bars) > 1 else (None, None)
        if a:
            text += f"\n  - {{feed: {a}/fuse 60 A -> switch 80 A -> {b}, return: none, wire: 6 AWG 1 m}}"
    assert drawn(text + "\n").remarks == ()


SMALL = {
    "nothing but a lamp on a battery": """
nodes:
  box: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 10 Ah}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: box/fuse 5 A -> switch 5 A -> lamp, wire: 16 AWG 2 m}
""",
    "ac alone": """
nodes:
  inlet: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 900 W}
circuits:
  - {ac: inlet -> breaker 16 A -> heater, wire: 2.5 mm² 4 m}
""",
    "two systems that do not meet": """
nodes:
  one: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 10 Ah}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
  two: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 10 Ah}
  pump: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: one -> lamp, wire: 16 AWG 2 m}
  - {feed: two -> pump, wire: 16 AWG 2 m}
""",
    "a battery on its own": """
nodes:
  one: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 10 Ah}
circuits: []
""",
    "a ring of joints": """
nodes:
  a: {kind: joint}
  b: {kind: joint}
  c: {kind: joint}
circuits:
  - {feed: a -> b -> c, wire: 16 AWG 2 m}
  - {feed: c -> a, wire: 16 AWG 2 m}
""",
    "parallel batteries whose posts are joined": """
nodes:
  one: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  two: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  meter: {kind: shunt, rating: 100 A}
  feed-bar: {kind: bar, rating: 100 A, pair: return-bar}
  return-bar: {kind: bar, rating: 100 A}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: one/fuse 80 A -> feed-bar, return: none, wire: 6 AWG 1 m}
  - {feed: two/fuse 80 A -> feed-bar, return: none, wire: 6 AWG 1 m}
  - {return: two -> one, wire: 6 AWG 1 m}
  - {return: one -> meter -> return-bar, wire: 6 AWG 1 m}
  - {feed: feed-bar/fuse 5 A -> lamp, wire: 16 AWG 2 m}
""",
}


@pytest.mark.parametrize("name", SMALL)
def test_small_and_odd_systems(name):
    scene = drawn(f"title: {name}\n{SMALL[name].strip()}\n")
    assert scene.remarks == ()


def test_many_loads_on_one_bar_fit_on_a_sheet():
    loads = [f"load-{n}" for n in range(60)]
    nodes = "".join(f"  {name}: {{kind: load, voltage: 12 V, power: 5 W}}\n" for name in loads)
    feeds = "".join(f"  - {{feed: feed-bar/fuse 5 A -> {name}, wire: 16 AWG 2 m}}\n" for name in loads)
    text = f"title: Many\nnodes:\n  feed-bar: {{kind: bar, rating: 300 A}}\n{nodes}circuits:\n{feeds}"
    assert drawn(text).remarks == ()
    assert drawn(text, size="A4").remarks == ()


def test_a_panel_of_many_ways_fits_on_small_sheets():
    loads = [f"load-{n}" for n in range(48)]
    nodes = "".join(f"  {name}: {{kind: load, voltage: 12 V, power: 5 W}}\n" for name in loads)
    feeds = "".join(f"  - {{feed: panel/fuse 5 A -> switch 5 A -> {name}, wire: 16 AWG 2 m}}\n" for name in loads)
    text = f"title: Many\nnodes:\n  panel: {{kind: panel, rating: 300 A, ways: 48}}\n{nodes}circuits:\n{feeds}"
    assert drawn(text).remarks == ()
    assert drawn(text, size="A4").remarks == ()


def test_long_names_are_wrapped_or_cut_not_shrunk():
    name = "the-very-long-name-of-a-lamp-that-hangs-over-the-table-in-the-saloon"
    text = SMALL["nothing but a lamp on a battery"].replace("lamp", name)
    scene = drawn(f"title: long\n{text.strip()}\n")
    assert scene.remarks == ()


def test_a_bank_from_which_two_lines_lead_to_one_bar_while_another_has_a_return_alone():
    """A line copied, and its first name not changed: two switches on one post, one of them beside the other's column."""
    text = """
nodes:
  one: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}
  two: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}
  meter-1: {kind: shunt, rating: 200 A}
  meter-2: {kind: shunt, rating: 200 A}
  feed-bar: {kind: bar, rating: 700 A, pair: return-bar}
  return-bar: {kind: bar, rating: 700 A}
circuits:
  - {feed: one/fuse class-t 200 A -> switch battery 200 A -> feed-bar, return: one -> meter-1 -> return-bar, wire: 4/0 AWG 0.5 m}
  - {feed: one/fuse class-t 200 A -> switch battery 200 A -> feed-bar, return: two -> meter-2 -> return-bar, wire: 4/0 AWG 0.5 m}
"""
    assert drawn(text).sheets and draw(parsed(text), (), Options()).sheets
