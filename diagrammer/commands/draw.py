"""diagrammer draw FILE -o OUT.svg: the one-line diagram, with the faults flagged where they are."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

NAME = "draw"
HELP = "draw the one-line diagram, with the faults flagged where they are"
MORE = """\
A drawing of several sheets is written to OUT.svg, OUT-2.svg and so on (OUT.png likewise); further sheets
that an earlier drawing of the same title left are removed. A PDF holds all sheets, a page each.
PDF and PNG take the package's extra: pip install 'diagrammer[paper]'. Exit status: 0 drawn (flags or
not), 2 a file could not be read or written; an earlier drawing then stays as it was."""
FORMS = (".svg", ".pdf", ".png")


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help="a netlist (YAML)")
    parser.add_argument("-o", "--output", type=Path, metavar="OUT",
                        help="where to write: OUT.svg, OUT.pdf or OUT.png (default: FILE with .svg)")
    parser.add_argument("--sheet", choices=("A3", "A4", "Letter", "Tabloid"), default="A3", help="size of the sheets")
    parser.add_argument("--frameless", action="store_true", help="no frame and title block, for notes and web pages")
    parser.add_argument("--together", action="store_true", help="all sheets below one another in one SVG")
    parser.add_argument("--colours", choices=("screen", "night", "print", "grey"),
                        help="screen: light, or dark where the reader prefers that (usual for SVG); night: dark; "
                             "print: for paper (usual for PDF and PNG); grey: for paper without colours")
    parser.add_argument("--dpi", type=_dpi, default=150, metavar="N", help="PNG: pixels an inch (default: 150)")
    parser.add_argument("--all-returns", action="store_true", help="draw every return instead of tagging it")
    parser.add_argument("--conductor-numbers", action="store_true",
                        help="write a number at every conductor, in file order; the cores of cable 12 are 12.L, "
                             "12.N ...")
    parser.add_argument("--both-units", action="store_true",
                        help="sizes in mm² and AWG, lengths in metres and feet: ≈ stands before a size of about the "
                             "area, ≤ before the next thicker one where none is")
    parser.add_argument("--state", metavar="NAME", default="",
                        help="write what flows in that operating state: currents, and voltages where the lines end; "
                             "a name under `states`, or else one of those that follow from the sources (an unknown "
                             "name lists them)")
    parser.add_argument("--symbols", choices=("iec", "ieee"), default="iec", help="IEC 60617 or IEEE 315 shapes")
    parser.add_argument("--engine", default="", metavar="PROGRAM", help="layout program to use; `own` for none")


def _dpi(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 36 <= int(text) <= 1200):
        raise argparse.ArgumentTypeError("a whole number from 36 to 1200 is wanted")
    return int(text)


def run(given: argparse.Namespace) -> int:
    from diagrammer import pipeline
    from diagrammer.commands._output import check_target
    from diagrammer.layout.options import Options
    from diagrammer.text import report

    try:
        target = check_target(_target(given), given.file)
        reading = pipeline.load(given.file)
        if reading.system is None:
            for one in reading.problems:
                print(report.problem(one, reading.source), file=sys.stderr)
            return 2
        findings = pipeline.check(reading.system)
        options = Options(
            "" if given.frameless else given.sheet, given.all_returns, given.symbols, given.engine,
            numbers=given.conductor_numbers, both=given.both_units,
        )
        if given.state:
            options = pipeline.in_state(reading.system, given.state, options)
        scene = pipeline.lay_out(reading.system, findings, options)
        written, remarks = _write(target, scene, given)
    except pipeline.Unusable as error:
        print(f"diagrammer: {error}", file=sys.stderr)
        return 2
    for remark in (*(f"{given.file}: {remark}" for remark in scene.remarks), *remarks):
        print(remark, file=sys.stderr)
    print(f"{', '.join(map(str, written))}: {report.count(findings)}")
    return 0


def _target(given: argparse.Namespace) -> Path:
    """Where to write, its ending telling what. Raises Unusable."""
    from diagrammer.pipeline import Unusable

    target = given.output or given.file.with_suffix(".svg")
    if target.suffix.lower() not in FORMS and not target.is_dir():
        raise Unusable(f"{target}: a drawing is .svg, .pdf or .png")
    if given.together and target.suffix.lower() == ".png":
        raise Unusable(f"{target}: --together is for SVG; a PNG is one sheet (and a PDF holds them all)")
    return target


def _write(target: Path, scene, given: argparse.Namespace) -> tuple[list[Path], list[str]]:
    """The files, and what was done about the sheets of an earlier drawing."""
    from diagrammer import pipeline
    from diagrammer.commands import _sheets
    from diagrammer.commands._output import replace

    form = target.suffix.lower()[1:]
    if form == "svg":
        contents = pipeline.write(scene, given.colours or "screen", given.together)
    else:
        contents = pipeline.print_out(scene, form, given.colours or "print", given.dpi)
    paths = _sheets.paths(target, len(contents))
    written = [replace(path, content) for path, content in zip(paths, contents)]
    return written, [] if form == "pdf" else _sheets.clear(target, len(contents), scene.title)
