"""diagrammer explain RULE: what a rule looks for, why, and a bad and a good netlist.

diagrammer explain --practices [FILE ...]: what differs between the practices, and how each judges these files."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

NAME = "explain"
HELP = "tell what a rule looks for and why, with a bad and a good netlist"
MORE = """\
Without a rule: the names of all rules.
`--practices samples/*.yaml` tells what differs between abyc, nec and iso, and how each judges these files."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("rule", nargs="?", metavar="RULE", help="a rule's name, such as missing-protection")
    parser.add_argument("--practices", nargs="*", type=Path, metavar="FILE",
                        help="tell what differs between the practices, and how each judges these netlists")


def run(given: argparse.Namespace) -> int:
    from diagrammer.rules import RULES
    from diagrammer.rules.explain import explain, headline
    from diagrammer.text.suggest import did_you_mean

    if given.practices is not None:
        return _practices(given.practices)
    if not given.rule:
        width = max(map(len, RULES))
        for name in RULES:
            print(f"{name:{width}}  {headline(name)}")
        return 0
    if given.rule not in RULES:
        print(f"diagrammer: there is no rule `{given.rule}`. {did_you_mean(given.rule, RULES)}".rstrip(), file=sys.stderr)
        return 2
    print(explain(given.rule))
    return 0


def _practices(files: list[Path]) -> int:
    from diagrammer import pipeline
    from diagrammer.rules.practices import page
    from diagrammer.rules.verdicts import differing

    verdicts = []
    for path in files:
        try:
            text = pipeline.load(path).source
            verdicts += differing(str(path), text.text if text else "", path.parent)
        except (pipeline.Unusable, ValueError) as error:
            print(f"diagrammer: {error}", file=sys.stderr)
            return 2
    print(page(verdicts))
    return 0
