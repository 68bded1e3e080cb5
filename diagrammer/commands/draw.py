"""diagrammer draw FILE -o OUT.svg: the one-line diagram, with the faults flagged where they are."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

NAME = "draw"
HELP = "draw the one-line diagram as SVG, with the faults flagged where they are"
MORE = """\
A drawing of several sheets is written to OUT.svg, OUT-2.svg and so on. Exit status: 0 drawn (flags
or not), 2 a file could not be read or written; an earlier drawing then stays as it was."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help="a netlist (YAML)")
    parser.add_argument("-o", "--output", type=Path, metavar="OUT.svg", help="where to write (default: FILE with .svg)")
    parser.add_argument("--sheet", choices=("A3", "A4", "Letter", "Tabloid"), default="A3", help="size of the sheets")
    parser.add_argument("--frameless", action="store_true", help="no frame and title block, for notes and web pages")
    parser.add_argument("--all-returns", action="store_true", help="draw every return instead of tagging it")
    parser.add_argument("--symbols", choices=("iec", "ieee"), default="iec", help="IEC 60617 or IEEE 315 shapes")
    parser.add_argument("--engine", default="", metavar="PROGRAM", help="layout program to use; `own` for none")


def run(given: argparse.Namespace) -> int:
    from diagrammer import pipeline
    from diagrammer.commands._output import check_target, replace
    from diagrammer.layout.options import Options
    from diagrammer.text import report

    try:
        target = check_target(given.output or given.file.with_suffix(".svg"), given.file)
        reading = pipeline.load(given.file)
        if reading.system is None:
            for one in reading.problems:
                print(report.problem(one, reading.source), file=sys.stderr)
            return 2
        findings = pipeline.check(reading.system)
        size = "" if given.frameless else given.sheet
        scene = pipeline.lay_out(reading.system, findings, Options(size, given.all_returns, given.symbols, given.engine))
        written = [
            replace(target if not number else target.with_stem(f"{target.stem}-{number + 1}"), text)
            for number, text in enumerate(pipeline.write(scene))
        ]
    except pipeline.Unusable as error:
        print(f"diagrammer: {error}", file=sys.stderr)
        return 2
    for remark in scene.remarks:
        print(f"{given.file}: {remark}", file=sys.stderr)
    print(f"{', '.join(map(str, written))}: {report.count(findings)}")
    return 0
