"""The samples read without problems, use every kind a system is made of, and say what they are."""

from __future__ import annotations

import difflib
import json
from functools import cache
from pathlib import Path

import pytest

from diagrammer.netlist.model import System
from diagrammer.netlist.read import read
from diagrammer.netlist.schema import schema

FOLDER = Path(__file__).parents[2] / "samples"
SOUND = sorted(FOLDER.glob("*.yaml"))
FAULTY = sorted((FOLDER / "faulty").glob("*.yaml"))
HEADLINES = {"missing-protection", "wrong-domain", "unmeasured-return"}
KINDS = set("""bank, battery, pv, solar charger, alternator, starter, dc charger, ac charger, isolator, shore, generator,
wind, wind charger, inverter, inverter charger, converter, bar, panel, ac panel, outlet, joint, chassis, earth, shunt,
fuse, breaker, switch, rcd, load, ac load""".replace("\n", " ").split(", "))

each = pytest.mark.parametrize("path", SOUND + FAULTY, ids=lambda path: path.stem)
each_sound = pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
each_faulty = pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)


@cache
def system(path: Path) -> System:
    found, problems = read(path.read_text(encoding="utf-8"), path.name)
    assert problems == () and found is not None
    return found


def test_there_are_three_and_a_twin_for_each_headline_check():
    assert len(SOUND) >= 3
    assert {path.stem for path in FAULTY} == HEADLINES


@each
def test_reads_without_problems(path):
    assert system(path).circuits


@each
def test_says_what_it_is_and_who_decides(path):
    head = "".join(line for line in path.read_text(encoding="utf-8").splitlines(keepends=True) if line.startswith("#"))
    assert "invented example" in head and "licensed practice decide" in head


@each_sound
def test_is_of_the_size_of_a_real_system(path):
    assert 35 <= sum(node.declared for node in system(path).nodes.values()) <= 70


def test_together_they_use_every_kind():
    assert KINDS <= {node.kind.name for path in SOUND for node in system(path).nodes.values()}


def test_together_they_use_every_practice():
    assert {system(path).practice for path in SOUND} == {"abyc", "iso", "nec"}


@each_sound
def test_every_conductor_has_a_size_and_a_length(path):
    for conductor in system(path).conductors:
        assert conductor.wire.size, conductor.id
        assert conductor.length or conductor.run, conductor.id


@each_faulty
def test_a_twin_differs_in_the_marked_line_only(path):
    """Beside its head and title: one line added or put in another's place, and it says FAULT."""
    lines = path.read_text(encoding="utf-8").splitlines()
    twin = next(sound for sound in SOUND if f"../{sound.name}" in lines[1])
    changes = list(difflib.ndiff(body(twin.read_text(encoding="utf-8").splitlines()), body(lines)))
    added = [line for line in changes if line.startswith("+ ")]
    removed = [line for line in changes if line.startswith("- ")]
    assert len(added) == 1 and "# FAULT" in added[0] and len(removed) <= 1


def body(lines: list[str]) -> list[str]:
    return [line for line in lines if not line.startswith(("#", "title:"))]


@each
def test_its_first_line_names_the_schema_beside_the_samples(path):
    first = path.read_text(encoding="utf-8").splitlines()[0]
    named = path.parent / first.partition("$schema=")[2]
    assert first.startswith("# yaml-language-server: ") and named.resolve() == (FOLDER / "netlist.schema.json").resolve()


def test_the_schema_beside_the_samples_is_today_s():
    assert json.loads((FOLDER / "netlist.schema.json").read_text(encoding="utf-8")) == schema()
