"""Invented systems with a few faults each, kept as text: what is found and computed of them stays as it was read.

They are of the shapes and sorts of fault of tests/systems, which says independently what must be found in them; here it
is held to the last word and number. `pytest tests/kept --rewrite-messages` writes the pages anew; read the difference
before it is kept.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from diagrammer.rules.run import check
from tests.kept.figures import figures
from tests.rules.test_said import PRACTICES, full, line, under

HERE = Path(__file__).parent
KEPT = sorted(HERE.glob("*.yaml"))


def page(path: Path) -> str:
    text = path.read_text(encoding="utf-8")
    system, problems = read(text, path.name)
    assert system is not None, problems
    found, lines = check(system), []
    for practice in PRACTICES:
        if practice != system.practice:
            other, problems = read(under(practice, text), path.name)
            said = [line(one) for one in check(other)] if other else [one.message for one in problems]
            lines += [f"under {practice}", *(f"  {one}" for one in said)]
    return "\n".join((*map(full, found), "", *lines, "", *figures(Survey(system)))) + "\n"


@pytest.mark.parametrize("path", KEPT, ids=lambda path: path.stem)
def test_what_is_found_and_computed(path, request):
    kept, now = path.with_suffix(".txt"), page(path)
    if request.config.getoption("--rewrite-messages"):
        kept.write_text(now, encoding="utf-8")
    assert kept.read_text(encoding="utf-8") == now
