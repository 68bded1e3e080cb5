"""What share of small changes of the program its tests notice.

    python -m tests.mutants [--sample N] [--seed N] [--budget SECONDS] [--tests FOLDER ...] [FILE ...]

Without files: diagrammer/rules and diagrammer/circuit, and the tests that concern them. Prints what lives, then the share.
The trace takes minutes; a mutant half a second, one that lives the budget.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from pathlib import Path

import pytest

from tests.mutants.trial import ALIVE, HUNG, KILLED, UNTRIED, Trial

TESTS = ("circuit", "independent", "kept", "notes", "rules", "samples", "sizing", "systems")


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__.splitlines()[0])
    parser.add_argument("files", nargs="*", type=Path)
    parser.add_argument("--sample", type=int, default=0, help="so many, drawn evenly; all where it is 0")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--budget", type=float, default=5.0, help="traced seconds of tests for one mutant")
    parser.add_argument("--tests", nargs="+", default=[f"tests/{one}" for one in TESTS])
    asked = parser.parse_args()
    files = asked.files or sorted((*Path("diagrammer/rules").rglob("*.py"), *Path("diagrammer/circuit").glob("*.py")))
    trial = Trial(files, asked.sample, asked.seed, asked.budget)
    pytest.main(["-q", "-p", "no:cacheprovider", *asked.tests], plugins=[trial])
    print()
    for verdict, file, point in trial.verdicts:
        if verdict in (ALIVE, UNTRIED):
            line = file.read_text("utf-8").splitlines()[point.line - 1].strip()
            print(f"{file.relative_to(Path.cwd())}:{point.line} {verdict}: {point.what} | {line}")
    count = Counter(verdict for verdict, _, _ in trial.verdicts)
    noticed = count[KILLED] + count[HUNG]
    print(f"{noticed} of {len(trial.verdicts)} noticed ({100 * noticed / max(1, len(trial.verdicts)):.1f} %)")
    return 0


if __name__ == "__main__":
    sys.exit(main())
