"""The first netlist: sound for every choice, and never over a file that is there."""

from __future__ import annotations

from itertools import combinations

import pytest

from diagrammer import pipeline
from diagrammer.__main__ import main
from diagrammer.netlist.read import read
from diagrammer.netlist.start import PRACTICES, SOURCES, VOLTAGES, Choice, start

CHOICES = [Choice(voltage, sources, practice) for voltage in VOLTAGES for practice in PRACTICES
           for count in range(1, len(SOURCES) + 1) for sources in combinations(SOURCES, count)]


@pytest.mark.parametrize("choice", CHOICES, ids=str)
def test_every_choice_is_sound(choice):
    system, problems = read(start(choice))
    assert not problems
    assert not [f"{one.rule}: {one.message}" for one in pipeline.check(system) if one.severity != "notice"]
    assert system.practice == choice.practice and system.nodes["bank"].get("voltage") == choice.voltage
    kinds = {node.kind.name for node in system.nodes.values()}
    assert ("pv" in kinds, "alternator" in kinds,
            "shore" in kinds) == tuple(source in choice.sources for source in SOURCES)


@pytest.mark.parametrize("wrong", [{"voltage": 13}, {"sources": ("wind",)}, {"sources": ()}, {"practice": "usa"}])
def test_a_choice_that_is_none(wrong):
    with pytest.raises(ValueError):
        Choice(**wrong)


def test_the_command(tmp_path, capsys):
    file = tmp_path / "van.yaml"
    assert main(["start", str(file), "--voltage", "24", "--sources", "solar", "shore", "--practice", "iso"]) == 0
    assert file.read_text(encoding="utf-8") == start(Choice(24, ("solar", "shore"), "iso"))
    file.write_text("mine", encoding="utf-8")
    assert main(["start", str(file)]) == 2
    assert file.read_text(encoding="utf-8") == "mine" and "is there already" in capsys.readouterr().err
    assert main(["start", str(tmp_path / "none" / "van.yaml")]) == 2
