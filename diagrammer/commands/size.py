"""diagrammer size FILE: the conductors and devices that were left out, computed."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

NAME = "size"
HELP = "compute the conductor sizes and device ratings that were left out"
MORE = """\
For each the smallest standard part that passes every check, and what decided it. Exit status: 0 all
found, 1 something fits no standard part, 2 the file could not be read or written.
Local codes, the makers' data and licensed practice come first."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help="a netlist (YAML)")
    parser.add_argument("--write", action="store_true", help="put them into the file; comments stay, nothing else changes")


def run(given: argparse.Namespace) -> int:
    from diagrammer import pipeline
    from diagrammer.commands._output import replace
    from diagrammer.sizing.choose import choose
    from diagrammer.sizing.unknown import Unknown
    from diagrammer.sizing.write import Unwritable, write
    from diagrammer.text import report

    try:
        reading = pipeline.load(given.file)
        if reading.system is None:
            print("\n".join(report.problem(one, reading.source) for one in reading.problems), file=sys.stderr)
            return 2
        if Unknown(reading.system).nothing:
            print(f"{given.file}: every conductor has its size and every device its rating")
            return 0
        sized = choose(reading.system)
        _tell(reading.system, sized.choice)
        for one in sized.left:
            print(f"nothing standard mends this: {report.finding(one, None, False)}\n    {one.fix}")
        if given.write:
            replace(given.file, write(reading.source, reading.system, sized.choice))
            print(f"{given.file}: written")
    except (pipeline.Unusable, Unwritable) as error:
        print(f"diagrammer: {error}", file=sys.stderr)
        return 2
    return int(bool(sized.left))


def _tell(system, choice) -> None:
    for name, size in choice.sizes.items():
        print(f"{name}: {size.label}\n    {choice.why[name]}")
    for name, amps in choice.ratings.items():
        node = system.nodes[name]
        print(f"{name} ({node.kind.name}, line {node.place.line}): {amps:g} A\n    {choice.why[name]}")
