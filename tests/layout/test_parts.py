"""Bars that outgrow a sheet are drawn in parts, with references from each to the next."""

from __future__ import annotations

import pytest

from diagrammer.layout.draw import draw
from diagrammer.layout.options import Options
from tests.layout.common_systems import made, parsed


def many_returns(count: int) -> str:
    """A bar of returns on which more joints hang than go beside each other on a small sheet."""
    nodes = "\n".join(f"  tee-{n}: {{kind: joint, rating: 30 A}}\n  lamp-{n}: {{kind: load, voltage: 12 V, power: 9 W}}"
                      for n in range(count))
    lines = "\n".join(f"  - {{feed: feed-bar/fuse 5 A -> lamp-{n}, return: return-bar -> tee-{n} -> lamp-{n}, "
                      f"wire: 14 AWG 2 m}}\n  - {{return: return-bar -> strap-{n}, wire: 14 AWG 2 m}}" for n in range(count))
    straps = "\n".join(f"  strap-{n}: {{kind: bar, rating: 30 A}}" for n in range(count))
    return f"""
title: Many returns
nodes:
  bank: {{kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, pair: return-bar}}
  feed-bar: {{kind: bar, rating: 300 A, pair: return-bar}}
  return-bar: {{kind: bar, rating: 300 A}}
{nodes}
{straps}
circuits:
  - {{feed: bank -> fuse class-t 100 A -> feed-bar, return: bank -> return-bar, wire: 2 AWG 0.5 m}}
{lines}
"""


@pytest.mark.parametrize(("count", "parts"), [(3, 1), (14, 2), (30, 3)])
def test_a_bar_of_returns_that_outgrows_a_sheet_is_drawn_in_parts(count, parts):
    scene = draw(parsed(many_returns(count)), (), Options(size="A4", engine="own"))
    assert scene.remarks == ()
    bars = [bar for sheet in scene.sheets for bar in sheet.bars if bar.node == "return-bar"]
    breaks = [stub for sheet in scene.sheets for stub in sheet.stubs if stub.id.startswith("x-return-bar")]
    assert len(bars) >= parts and (len(bars) > 1) == (parts > 1) and len(breaks) == 2 * (len(bars) - 1)
    assert {stub.partner for stub in breaks} == {stub.id for stub in breaks}
    assert set(f"strap-{n}" for n in range(count)) <= {bar.node for sheet in scene.sheets for bar in sheet.bars}


@pytest.mark.parametrize(("seed", "nodes", "size"), [(85815, 61, "A4"), (60642, 327, "Letter")])
def test_a_rake_too_high_for_the_sheet_gets_more_legs(seed, nodes, size):
    """A panel below a converter, few ways on it, each with a tree of its own."""
    assert draw(made(seed, nodes), (), Options(size=size, engine="own")).remarks == ()
