"""Nothing of a netlist is left out of its drawing, and references find each other."""

from __future__ import annotations

import re

import pytest

from diagrammer.layout.draw import draw
from diagrammer.layout.options import Options
from diagrammer.layout.scene import Scene
from tests.layout.common_systems import NAMES, SIZES, made, parsed, sample, scene

SEEDS = range(100, 118)


def nodes(drawing: Scene) -> set[str]:
    return {thing.node for sheet in drawing.sheets for thing in (*sheet.shapes, *sheet.bars)}


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", NAMES)
def test_every_node_of_a_sample_is_drawn(name, size):
    assert set(sample(name).nodes) == nodes(scene(name, size))


@pytest.mark.parametrize("seed", SEEDS)
def test_every_node_of_a_generated_system_is_drawn(seed):
    assert set(made(seed).nodes) == nodes(draw(made(seed), (), Options(engine="own")))


@pytest.mark.parametrize("seed", SEEDS)
def test_every_circuit_is_drawn_or_referenced(seed):
    drawing = draw(made(seed), (), Options(engine="own"))
    shown = {line.circuit for sheet in drawing.sheets for line in sheet.lines}
    tagged = {stub.id for sheet in drawing.sheets for stub in sheet.stubs}
    for circuit in made(seed).circuits:
        only_return = circuit.legs[0].role in ("return", "bond")
        assert circuit.name in shown or only_return and tagged, circuit.name


@pytest.mark.parametrize("name", NAMES)
def test_a_reference_names_the_zone_of_its_partner(name):
    from diagrammer.layout.sheet import zone

    drawing = scene(name, "A4")
    at = {stub.id: (sheet.number, stub.at) for sheet in drawing.sheets for stub in sheet.stubs}
    references = [stub for sheet in drawing.sheets for stub in sheet.stubs if stub.form in ("to", "from")]
    for stub in references:
        number, point = at[stub.partner]
        said = re.search(r" /(?:(\d+)\.)?([A-Z]\d+)$", stub.text)
        assert said, stub.text
        assert said[2] == zone("A4", point)
        assert said[1] in (None, str(number))
        assert (said[1] is None) == (len(drawing.sheets) == 1)


def test_a_drawing_without_frame_has_no_zones():
    texts = [s.text for sheet in scene(NAMES[0], "").sheets for s in sheet.stubs if s.form in ("to", "from")]
    assert texts and not any("/" in text for text in texts)


def test_size_and_length_stand_once_a_run():
    drawing = draw(parsed(RUNS), (), Options(engine="own"))
    said = [text.text for sheet in drawing.sheets for text in sheet.texts if text.role == "wire"]
    assert said.count("2/0 AWG 1.2 m") == 1  # one size, three hops with lengths of their own
    assert said.count("8 AWG 2 m") == 1 and said.count("6 AWG 3 m") == 1


def test_the_cores_of_a_cable_do_not_make_it_longer():
    drawing = draw(parsed(CORES), (), Options(engine="own"))
    said = sorted(text.text for sheet in drawing.sheets for text in sheet.texts if text.role == "wire")
    assert said == ["10 AWG 4.3 m", "12 AWG 7 m", "14 AWG 2 m"]


@pytest.mark.parametrize("name", NAMES)
def test_no_circuit_is_drawn_longer_than_it_is(name):
    """What stands beside a circuit's lines adds up to at most its feeds and returns, one core of each hop."""
    system, said = sample(name), {}
    for text in (text for sheet in scene(name).sheets for text in sheet.texts if text.role == "wire"):
        found = re.search(r"([0-9.]+) m$", text.text)
        circuit = text.owner.rpartition(":")[0]
        said[circuit] = said.get(circuit, 0.0) + (float(found[1]) if found else 0.0)
    assert said
    for circuit, metres in said.items():
        hops, runs = {}, {}
        for one in (one for one in system.conductors if one.circuit == circuit):
            hops.setdefault(one.cable, one.length or 0.0)
            if one.run:
                runs[one.cable.rstrip("0123456789")] = system.runs[one.run].length
        assert metres <= sum(hops.values()) + sum(runs.values()) + 0.05 * len(hops), circuit


CORES = """
title: Cores
practice: abyc
nodes:
  pedestal: {kind: shore, rating: 30 A}
  panel: {kind: ac panel, rating: 40 A}
  heater: {kind: ac load, power: 900 W}
  lamp: {kind: ac load, power: 60 W}
circuits:
  - {ac: pedestal -> breaker 2-pole 30 A -> panel, wire: [10 AWG 0.3 m, 4 m]}
  - {ac: panel -> breaker 15 A -> heater, wire: 12 AWG 7 m}
  - {ac: panel/breaker 15 A -> lamp, wire: 14 AWG 2 m}
"""

RUNS = """
title: Runs
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, pair: return-bar}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - feed: bank -> fuse class-t 200 A -> switch battery 300 A -> feed-bar
    return: bank -> return-bar
    wire: {feed: [2/0 AWG 0.5 m, 0.5 m, 0.2 m], return: 2/0 AWG 0.4 m}
  - feed: feed-bar -> fuse 20 A -> lamp
    wire: {feed: [8 AWG 2 m, 6 AWG 3 m], return: 8 AWG 5 m}
"""
