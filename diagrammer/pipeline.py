"""From text to paper, a line a stage. The page to read first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from diagrammer.frozen import frozen
from diagrammer.netlist.model import System
from diagrammer.netlist.read import read
from diagrammer.text.finding import Finding, Problem
from diagrammer.text.source import LIMIT, Source, decode

if TYPE_CHECKING:
    from diagrammer.layout.options import Options
    from diagrammer.layout.scene import Scene


# the fields of the netlist's `sheet`, and what ISO 7200 calls them
TITLE_BLOCK = {
    "owner": "legal owner", "creator": "creator", "approved by": "approved by", "number": "identification number",
    "revision": "revision", "date": "date of issue", "language": "language", "subtitle": "supplementary title",
}


class Unusable(Exception):
    """A file that can't be used: what happened, and advice, for the person at the terminal."""


@frozen
class Reading:
    """What a file holds: `system` is None where there are problems."""

    file: str
    source: Source | None
    system: System | None
    problems: tuple[Problem, ...]


def load(path: Path) -> Reading:
    """Read a netlist file. Raises Unusable where the file itself can't be read."""
    try:
        with path.open("rb") as file:
            data = file.read(LIMIT + 1)
    except OSError as error:
        raise Unusable(f"{path}: can't be read: {error.strerror or error}") from error
    text = decode(data, str(path))
    if isinstance(text, Problem):
        return Reading(str(path), None, None, (text,))
    system, problems = read(text, folder=path.parent)
    return Reading(str(path), text, system, problems)


def check(system: System) -> tuple[Finding, ...]:
    """Every finding, in the order of the file."""
    from diagrammer.rules.run import check as run

    return run(system)


def lay_out(system: System, findings: tuple[Finding, ...], options: Options) -> Scene:
    """The drawing as a scene, findings flagged, the title block filled from the netlist."""
    from diagrammer.layout.draw import draw
    from diagrammer.layout.mark import Mark

    named: dict[str, str] = {}
    if options.numbers:
        from diagrammer.layout.conductors import numbers

        named = numbers(system)
    marks = tuple(
        Mark(number, one.severity, one.rule, _plain(one) + _numbered(one, named), one.nodes, one.conductors,
             bool(one.accepted), one.path)
        for number, one in enumerate(findings, 1)
    )
    block = {"document type": "One-line diagram", "supplementary title": f"Practice: {system.practice.upper()}"}
    block |= {TITLE_BLOCK[name]: text for name, text in system.sheet.items()}
    notes = {**domains(system), **options.notes}
    return draw(system, marks, replace(options, block={**block, **options.block}, notes=notes))


def in_state(system: System, name: str, options: Options) -> Options:
    """The options with what flows in the operating state called `name`. Raises Unusable where there is none."""
    from diagrammer.notes.state import NoState, shown

    try:
        made = shown(system, name)
    except NoState as error:
        raise Unusable(f"{system.file}: {error}") from error
    title = system.sheet.get("subtitle") or f"Practice: {system.practice.upper()}"
    block = {**options.block, "supplementary title": f"{title}; state: {made.name}"}
    return replace(options, readings=made.readings, told=made.told, block=block)


def domains(system: System) -> dict[str, str]:
    """The voltage at each bar and panel, for its label."""
    from diagrammer.circuit.survey import survey

    voltages, found = survey(system).voltages, {}
    for node in system.nodes.values():
        if node.kind.name == "ac panel":
            found[node.name] = f"{node.values.mains:g} V ac"
        elif node.kind.name in ("bar", "panel"):
            terminal = node.name if node.name in system.terminals else f"{node.name}.+"
            volts = voltages.nominal(terminal) if terminal in system.terminals else 0.0
            if volts:
                found[node.name] = f"{volts:g} V"
    return found


def _plain(one: Finding) -> str:
    """The message as it stands on paper: names without marks, an acceptance with its reason."""
    text = one.message.replace("`", "")
    return f"{text} (accepted: {one.accepted})" if one.accepted else text


MOST = 6  # numbers of conductors that are told with a finding


def _numbered(one: Finding, named: Mapping[str, str]) -> str:
    """The numbers of the conductors that a finding is about, where conductors have numbers."""
    mine = list(dict.fromkeys(named[cable] for cable in one.conductors if cable in named))
    if not mine:
        return ""
    more = " ..." if len(mine) > MOST else ""
    return f" [conductor{'s' if len(mine) > 1 else ''} {', '.join(mine[:MOST])}{more}]"


def write(scene: Scene, colours: str = "screen", together: bool = False) -> tuple[str, ...]:
    """One SVG text a sheet, or one for all. colours: a name of drawing.style.COLOURS."""
    from diagrammer.drawing import write as writer
    from diagrammer.drawing.style import Look

    look = Look(colours)
    return (writer.together(scene, look),) if together else tuple(writer.svg(one, scene, look) for one in scene.sheets)


def print_out(scene: Scene, form: str, colours: str = "print", dpi: int = 150) -> tuple[bytes, ...]:
    """form "pdf": one file of all sheets; "png": one a sheet. Raises Unusable where packages are missing."""
    from diagrammer.drawing import paper
    from diagrammer.drawing.style import Look

    try:
        return (paper.pdf(scene, Look(colours)),) if form == "pdf" else paper.png(scene, Look(colours), dpi)
    except ModuleNotFoundError as error:
        advice = "install them with: pip install 'diagrammer[paper]'"
        raise Unusable(f"{form.upper()} takes packages that are not installed ({error.name}); {advice}") from error
