"""Texts at the limit of size that try a reader's time and memory. As a program: `python -m tests.netlist.giants SHARE`
reads each, a SHARE-th of the limit long, and prints {name: [seconds, problems, longest message, MiB so far]}."""

from __future__ import annotations

import json
import re
import resource
import sys
import time
from collections.abc import Callable
from pathlib import Path

from diagrammer.netlist.read import read
from diagrammer.text.finding import Problem
from diagrammer.text.source import LIMIT, decode


NODES = "nodes:\n  a: {kind: bar, rating: 1 A}\n  b: {kind: bar, rating: 1 A}\n"


def fill(size: int, head: str, unit: str, tail: str = "") -> str:
    """As many units as fit; `#` in one is its number, six digits wide."""
    count = (size - len((head + tail).encode())) // len(unit.replace("#", "000000").encode())
    body = unit * count if "#" not in unit else "".join(unit.replace("#", f"{n:06}") for n in range(count))
    return head + body + tail


def circuits(size: int, unit: str) -> str:
    return fill(size, f"{NODES}circuits:\n", unit)


def bomb(size: int) -> str:
    levels = [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    return "\n".join(["a0: &a0 lol", *levels])


def strangers(size: int) -> str:
    nodes = fill(size // 2, "nodes:\n", "  n#x: {kind: bar, rating: 1 A}\n")
    return fill(size, f"{nodes}circuits:\n", "  - {feed: n#y -> n000001x}\n")


GIANTS: dict[str, Callable[[int], str]] = {
    "aliases": bomb,
    "sequences": lambda size: fill(size, "", "["),
    "mappings": lambda size: fill(size, "", "{a: "),
    "block": lambda size: "".join(f"{' ' * n}a:\n" for n in range(min(700, int((2 * size) ** 0.5) - 4))),
    "one long line": lambda size: fill(size, "title: ", "x"),
    "one long key": lambda size: fill(size, "nodes: {", "y", ": 1}"),
    "spaces": lambda size: fill(size, "title: 'a", " ", "b'"),
    "blank lines": lambda size: fill(size, "", "\n"),
    "a long path": lambda size: fill(size, f"{NODES}circuits: [{{feed: '", "a -> ", "b'}]"),
    "slashes": lambda size: circuits(size, f"  - {{feed: '{'/' * 3900}'}}\n"),
    "spaces in a path": lambda size: circuits(size, f"  - {{feed: 'a{' ' * 3900}b'}}\n"),
    "digits": lambda size: circuits(size, f"  - {{feed: a -> b, wire: '{'1' * 3900}'}}\n"),
    "dashes": lambda size: circuits(size, f"  - {{feed: 'a -> {'x-' * 1900}'}}\n"),
    "unknown nodes": lambda size: circuits(size, "  - {feed: a -> bus-bar-#}\n"),
    "unknown nodes among many": strangers,
    "nodes": lambda size: fill(size, "nodes: {", "n#: {kind: bar}, ", "}\ncircuits: []"),
    "duplicate keys": lambda size: fill(size, "nodes: {", "a: {kind: bar}, ", "}"),
    "empty values": lambda size: fill(size, "nodes: {", "a#, ", "}"),
    "alike circuits": lambda size: circuits(size, "  - {name: x, feed: a -> b}\n"),
    "unnamed circuits": lambda size: circuits(size, "  - {feed: a -> b, wire: x}\n"),
    "fuses": lambda size: circuits(size, "  - {feed: a/fuse F1 -> b}\n"),
    "pins": lambda size: fill(size, "nodes: {", "t#: {kind: terminals, pins: 1000}, ", "}\ncircuits: []"),
    "direction marks": lambda size: fill(size, "title: ", "\u202e"),
    "zeros": lambda size: fill(size, "", "\0"),
    "arabic": lambda size: fill(size, "title: ", "\u0628"),
    "combining marks": lambda size: fill(size, "title: e", "\u0301"),
    "documents": lambda size: fill(size, "", "---\n"),
    "quotes": lambda size: fill(size, "title: '", "''", "'"),
    "escapes": lambda size: fill(size, 'title: "', "\\u0041", '"'),
    "comments": lambda size: fill(size, "", "# x\n"),
    "a long list": lambda size: fill(size, "nodes: {}\ncircuits: [", "a,", "]"),
}


def most_memory() -> float:
    """[MiB] the most this process has held; since it began, where the system tells that."""
    status = Path("/proc/self/status")
    if status.exists():
        return int(re.search(r"VmHWM:\s+([0-9]+) kB", status.read_text())[1]) / 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main(share: int) -> None:
    measured = {}
    for name, text in GIANTS.items():
        data = text(LIMIT // share).encode("utf-8")
        assert len(data) <= LIMIT // share
        start = time.perf_counter()
        source = decode(data, "giant.yaml")
        found, problems = (None, (source,)) if isinstance(source, Problem) else read(source)
        longest = max((len(one.message) + len(one.help) for one in problems), default=0)
        measured[name] = (time.perf_counter() - start, len(problems), longest, most_memory())
    print(json.dumps(measured))


if __name__ == "__main__":
    main(int(sys.argv[1]))
