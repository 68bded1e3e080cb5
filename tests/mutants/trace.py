"""Which test runs which line, and how long each takes."""

from __future__ import annotations

import sys
import time
from collections import defaultdict
from collections.abc import Callable, Iterable

ENOUGH = 60  # calls of one function in one test whose lines are followed: more seldom reach further lines


class Trace:
    """lines: {(file, line): tests}; files: {file: tests}; seconds: {test: processor time, traced}; failing: tests to leave
    out. Files are those given."""

    def __init__(self, files: Iterable[str]):
        self.files: dict[str, set[str]] = {file: set() for file in files}
        self.lines: dict[tuple[str, int], set[str]] = defaultdict(set)
        self.seconds: dict[str, float] = {}
        self.failing: set[str] = set()

    def follow(self, test: str, run: Callable[[], bool]) -> None:
        """Runs one test; `run` says whether it passes."""
        met: set[tuple[str, int]] = set()
        calls: dict[object, int] = {}

        def line(frame, event, argument):
            met.add((frame.f_code.co_filename, frame.f_lineno))
            return line

        def call(frame, event, argument):
            code = frame.f_code
            if code.co_filename not in self.files:
                return None
            calls[code] = calls.get(code, 0) + 1
            return line if calls[code] <= ENOUGH else None

        start = time.process_time()
        sys.settrace(call)
        try:
            passed = run()
        finally:
            sys.settrace(None)
        self.seconds[test] = time.process_time() - start
        if not passed:
            self.failing.add(test)
        for one in met:
            self.lines[one].add(test)
            self.files[one[0]].add(test)
