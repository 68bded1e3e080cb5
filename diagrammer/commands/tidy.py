"""diagrammer tidy FILE...: netlists in the house style, every remark kept."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

NAME = "tidy"
HELP = "write netlists in the house style; what they mean and every remark stay"
MORE = "A netlist with problems is left as it is. Exit status with --check: 1 where a file is not tidy."


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE", help="a netlist (YAML)")
    parser.add_argument("--check", action="store_true", help="only say which files are not tidy")


def run(given: argparse.Namespace) -> int:
    from diagrammer import pipeline

    worst = 0
    for path in given.files:
        try:
            worst = max(worst, _one(path, given.check))
        except pipeline.Unusable as error:
            print(f"diagrammer: {error}", file=sys.stderr)
            worst = 2
    return worst


def _one(path: Path, check: bool) -> int:
    from diagrammer import pipeline
    from diagrammer.commands._output import replace
    from diagrammer.netlist.tidy import Changed, tidy
    from diagrammer.text import report

    reading = pipeline.load(path)
    if reading.problems:
        print("\n".join(report.problem(one, reading.source) for one in reading.problems))
        return 2
    try:
        text = tidy(reading.source, path.parent)
    except Changed as error:
        message = f"{path}: stays as it is: in the house style it would not mean the same. Please report this file."
        raise pipeline.Unusable(message) from error
    if text.encode("utf-8") == path.read_bytes():
        return 0
    if check:
        print(f"{path}: is not tidy")
        return 1
    replace(path, text)
    print(f"{path}: tidied")
    return 0
