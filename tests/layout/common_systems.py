"""Systems that the tests of layout draw: the samples and generated ones, each read once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from diagrammer.layout.draw import draw
from diagrammer.layout.mark import Mark
from diagrammer.layout.options import Options
from diagrammer.layout.scene import Scene
from diagrammer.netlist.model import System
from diagrammer.netlist.read import read
from tests.systems import generate

SAMPLES = sorted((Path(__file__).parents[2] / "samples").rglob("*.yaml"))
NAMES = [path.stem for path in SAMPLES]
SIZES = ("A3", "A4", "Letter", "Tabloid", "")


@cache
def sample(name: str) -> System:
    path = next(path for path in SAMPLES if path.stem == name)
    return parsed(path.read_text(encoding="utf-8"), path.name)


@cache
def made(seed: int, size: int = 30) -> System:
    return parsed(generate(seed, size), f"generated-{seed}.yaml")


def parsed(text: str, name: str = "test.yaml") -> System:
    system, problems = read(text, name)
    assert system, [str(p.message) for p in problems]
    return system


@cache
def scene(name: str, size: str = "A3", engine: str = "own") -> Scene:
    return draw(sample(name), (), Options(size=size, engine=engine))


def marks_on(system: System, count: int = 12) -> tuple[Mark, ...]:
    """Marks on nodes and cables all over a system, returns among them, in no good order."""
    nodes, cables = list(system.nodes), list(dict.fromkeys(c.cable for c in system.conductors))
    returns = [cable for cable in cables if ":r" in cable]
    severities = ("danger", "warning", "notice")
    made = []
    for n in range(count):
        node = nodes[(n * 7 + 3) % len(nodes)]
        pool = returns if n % 4 == 1 and returns else cables
        cable = pool[(n * 11 + 5) % len(pool)]
        on_node = n % 2 == 0
        made.append(Mark(
            n + 1, severities[n % 3], f"rule-{n}", f"What is wrong with thing {n}, said in a sentence of some length.",
            (node,) if on_node else (), () if on_node else (cable,), accepted=n % 5 == 4,
        ))
    return tuple(made)
