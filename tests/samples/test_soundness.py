"""A sound sample has no finding at all; its faulty twin has the one it is named for, at the marked circuit."""

from __future__ import annotations

from diagrammer import pipeline
from diagrammer.circuit.survey import Survey
from tests.samples.test_samples import each_faulty, each_sound, system

BLAMED = {
    "missing-protection": "main:f0",
    "wrong-domain": "panel-48 to vhf:f0",
    "unmeasured-return": "capstan:r0",
}


@each_sound
def test_the_graph_of_a_sound_sample_shows_no_fact(path):
    assert Survey(system(path)).facts == ()


@each_faulty
def test_the_graph_of_a_twin_shows_one_fact_at_the_fault(path):
    (fact,) = Survey(system(path)).facts
    assert (fact.rule, fact.cables[0]) == (path.stem, BLAMED[path.stem])


@each_sound
def test_a_sound_sample_has_no_finding(path):
    assert [(one.rule, one.message) for one in pipeline.check(system(path))] == []


@each_faulty
def test_a_twin_has_one_finding_on_the_marked_line(path):
    (finding,) = pipeline.check(system(path))
    assert finding.rule == path.stem and BLAMED[path.stem] in finding.conductors
    line = path.read_text(encoding="utf-8").splitlines()[finding.at.line - 1]
    assert "# FAULT" in line
