"""Tries mutants against tests: traces the tests once, then forks a process for each mutant."""

from __future__ import annotations

import importlib
import os
import random
import signal
import sys
from collections import defaultdict
from collections.abc import Iterable
from pathlib import Path

from _pytest.runner import runtestprotocol

from tests.mutants.points import Point, changed, points
from tests.mutants.swap import put
from tests.mutants.trace import Trace

KILLED, ALIVE, UNTRIED, HUNG = "killed", "alive", "untried", "hung"
GRACE, TIMES = 6.0, 12.0  # [s] and times what a test took traced: then a mutant hangs


class Trial:
    """A plugin of pytest. files: the program's, one of whose points is changed at a time; sample: how many points, 0 for all;
    budget: traced seconds of tests that one mutant is tried against, those named for its file first."""

    def __init__(self, files: Iterable[Path], sample: int, seed: int, budget: float):
        self.files = [file.resolve() for file in files]
        self.sample, self.seed, self.budget = sample, seed, budget
        self.verdicts: list[tuple[str, Path, Point]] = []

    def pytest_runtestloop(self, session) -> bool:
        self.tests = {item.nodeid: item for item in session.items}
        self.trace = Trace(map(str, self.files))
        for name in self.tests:
            self.trace.follow(name, lambda: self._passes(name))
        for file, point in self._points():
            self.verdicts.append((self._try(file, point), file, point))
        return True

    def _passes(self, name: str) -> bool:
        return not any(report.failed for report in runtestprotocol(self.tests[name], nextitem=None, log=False))

    def _points(self) -> list[tuple[Path, Point]]:
        every = [(file, point) for file in self.files for point in points(file.read_text("utf-8"))]
        return random.Random(self.seed).sample(every, min(self.sample, len(every))) if self.sample else every

    def _try(self, file: Path, point: Point) -> str:
        chosen = self._chosen(file, point)
        sys.stdout.flush()
        child = os.fork()
        if not child:
            os._exit(self._live(file, point, chosen))
        _, status = os.waitpid(child, 0)
        if os.WIFSIGNALED(status):
            return HUNG
        return {0: ALIVE, 2: UNTRIED}.get(os.waitstatus_to_exitcode(status), KILLED)

    def _live(self, file: Path, point: Point, chosen: list[str]) -> int:
        """In the child: 0 where every test passes, 1 where one fails, 2 where the change could not be put in."""
        silence = os.open(os.devnull, os.O_WRONLY)
        os.dup2(silence, 1)
        os.dup2(silence, 2)
        try:
            module = importlib.import_module(_module(file))
            if not put(module, changed(file.read_text("utf-8"), point), point.function):
                return 2
            for name in chosen:
                signal.setitimer(signal.ITIMER_PROF, GRACE + TIMES * self.trace.seconds[name])
                if not self._passes(name):
                    return 1
        except BaseException:  # noqa: BLE001, whatever it is, the mutant was noticed
            return 1
        return 0

    def _chosen(self, file: Path, point: Point) -> list[str]:
        """The tests that run the line, within the budget: those named for the file, then some of every file of tests."""
        met = self.trace.lines.get((str(file), point.line)) if point.function else None
        names = sorted((met or self.trace.files[str(file)]) - self.trace.failing, key=self.trace.seconds.get)
        own = [name for name in names if file.stem in name or file.stem.replace("_", "-") in name]
        chosen, left = [], self.budget
        for name in (*own, *_turns((name for name in names if name not in set(own)), f"{file.name}{point.line}")):
            if self.trace.seconds[name] <= left or not chosen:
                chosen.append(name)
                left -= self.trace.seconds[name]
        return chosen


def _turns(names: Iterable[str], seed: str) -> list[str]:
    """One test of each file in turn: its two quickest, then the others shuffled."""
    files: dict[str, list[str]] = defaultdict(list)
    for name in names:
        files[name.partition("::")[0]].append(name)
    for found in files.values():
        later = found[2:]
        random.Random(seed).shuffle(later)
        found[2:] = later
    longest = max(map(len, files.values()), default=0)
    return [found[turn] for turn in range(longest) for found in files.values() if turn < len(found)]


def _module(file: Path) -> str:
    parts = file.relative_to(Path.cwd()).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
