"""diagrammer explain RULE: what a rule looks for, why, and a bad and a good netlist."""

from __future__ import annotations

import argparse
import sys

NAME = "explain"
HELP = "tell what a rule looks for and why, with a bad and a good netlist"
MORE = "Without a rule: the names of all rules."


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("rule", nargs="?", metavar="RULE", help="a rule's name, such as missing-protection")


def run(given: argparse.Namespace) -> int:
    from diagrammer.rules import RULES
    from diagrammer.rules.explain import explain, headline
    from diagrammer.text.suggest import did_you_mean

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
