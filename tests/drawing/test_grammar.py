"""Every sample's SVG against the grammar of SVG 1.1 (W3C Recommendation, second edition, 2011: the DTD svg11.dtd)."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from diagrammer import pipeline
from diagrammer.drawing.catalogue import catalogue
from diagrammer.drawing.style import Look
from diagrammer.drawing.write import svg, together
from diagrammer.layout.options import Options
from tests.drawing.small_scene import scene

DTD = Path("/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd")
SAMPLES = sorted((Path(__file__).parents[2] / "samples").rglob("*.yaml"))
LATER = re.compile(r' (?:role|aria-[a-z]+|data-[a-z]+)="[^"]*"')  # attributes of SVG 2 and WAI-ARIA 1.2

pytestmark = pytest.mark.skipif(
    shutil.which("xmllint") is None or not DTD.exists(), reason="xmllint or the DTD of SVG 1.1 is not installed",
)


def complaints(*texts: str, folder: Path) -> str:
    files = [folder / f"{number}.svg" for number in range(len(texts))]
    for file, text in zip(files, texts):
        file.write_text(LATER.sub("", text), encoding="utf-8")
    order = ["xmllint", "--nonet", "--noout", "--dtdvalid", str(DTD), *map(str, files)]
    return subprocess.run(order, capture_output=True, text=True).stderr


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_samples_are_valid(path, tmp_path):
    system = pipeline.load(path).system
    findings = pipeline.check(system)
    drawn = pipeline.lay_out(system, findings, Options())
    assert complaints(*pipeline.write(drawn), together(drawn), folder=tmp_path) == ""


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_samples_with_everything_written_at_their_lines_are_valid(path, tmp_path):
    system = pipeline.load(path).system
    options = pipeline.in_state(system, "everything at once", Options(all_returns=True, numbers=True, both=True))
    drawn = pipeline.lay_out(system, pipeline.check(system), options)
    assert complaints(*pipeline.write(drawn, "grey"), together(drawn), folder=tmp_path) == ""


def test_all_symbols_and_everything_a_scene_can_hold_are_valid(tmp_path):
    every = [svg(scene().sheets[0], scene(), Look(colours)) for colours in ("screen", "night", "print", "grey")]
    assert complaints(catalogue(), *every, folder=tmp_path) == ""


def test_the_grammar_complains(tmp_path):
    assert "g is not declared in text list" in complaints(catalogue().replace("<g ", "<text><g/></text><g ", 1), folder=tmp_path)
    assert "No declaration for attribute" in complaints(catalogue().replace("<path ", '<path colour="red" ', 1), folder=tmp_path)
