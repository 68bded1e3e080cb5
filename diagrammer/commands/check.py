"""diagrammer check FILE...: what is wrong with a system, at its place in the netlist."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

NAME = "check"
HELP = "say what is wrong with a system, at its place in the netlist"
MORE = """\
Exit status: 0 nothing at danger or warning, 1 findings, 2 a file could not be read.
`diagrammer explain RULE` tells more about a rule. Local codes and licensed practice come first."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE", help="a netlist (YAML)")
    parser.add_argument("--format", choices=("text", "json"), default="text", help="text for people, json for programs")
    parser.add_argument("--brief", action="store_true", help="one line a finding, also on a terminal")
    parser.add_argument("--full", action="store_true", help="with the line, reason and fix, also into a file")


def run(given: argparse.Namespace) -> int:
    from diagrammer import pipeline
    from diagrammer.text import report

    worst, results = 0, []
    full = given.full or (sys.stdout.isatty() and not given.brief)
    for path in given.files:
        try:
            reading = pipeline.load(path)
        except pipeline.Unusable as error:
            print(f"diagrammer: {error}", file=sys.stderr)
            worst = 2
            continue
        findings = pipeline.check(reading.system) if reading.system else ()
        worst = max(worst, status(reading.problems, findings))
        if given.format == "json":
            results.append(report.as_json(reading.file, findings, reading.problems))
            continue
        for one in reading.problems:
            print(report.problem(one, reading.source))
        for one in findings:
            print(report.finding(one, reading.source, full), end="\n\n" if full else "\n")
        if full and not reading.problems:
            print(f"{reading.file}: {report.count(findings)}")
    if results:
        print(report.dumps(results))
    return worst


def status(problems, findings) -> int:
    """0 sound, 1 findings at danger or warning, 2 unreadable."""
    if problems:
        return 2
    return int(any(one.severity != "notice" and not one.accepted for one in findings))
