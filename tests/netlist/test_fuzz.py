"""Whatever the bytes, reading ends well: a system, or problems that stand inside the file, in bounded time and memory.

A thorough run: FUZZ=200000 pytest tests/netlist/test_fuzz.py
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from diagrammer.netlist.read import read
from diagrammer.text.finding import Problem
from diagrammer.text.place import Place
from diagrammer.text.source import LIMIT, decode
from tests.netlist.giants import GIANTS
from tests.systems.generate import generate

RUNS = int(os.environ.get("FUZZ", 2000))
SLOWEST = 2.0  # [s] for one text of the fuzz
MEMORY = 300  # [MiB] of a process that reads every giant
SAMPLES = [path.read_text(encoding="utf-8") for path in sorted(Path(__file__).parents[2].glob("samples/**/*.yaml"))]
TEXTS = [*SAMPLES, *(generate(seed, 12) for seed in range(6))]
PIECES = (
    "nodes:", "circuits:", "kind: bank", "feed: a -> b", "ac: a -> b", "wire: 10 AWG 1 m", "  ", "\n", "- ", "{", "}",
    "[", "]", ", ", ": ", "# x", "'", '"', "->", "/",
    "->", " / ", "fuse 10 A", "fuse F1", ".+", ".-", "@1", "\t", "\r\n", "\r", "\x00", "\ufeff", "\u202e", "e\u0301",
    "\u200b", "\u2028", "\x85", "&a ", "*a", "!!python/object:os.system ",
    "!x ", "---\n", "...\n", "%YAML 1.1\n", "|\n", ">-\n", "? ", "no", "off", "1e3", "12:30", "~", "null", "=",
    "<<: *a", "0x1f", ".inf", "🚐", "Ω", "12 V", "1e400 A", "-0 °C",
    "999999999999999 A", "2 x 70 mm²", "9 .. 33 V", "none", "pair: a", "poles: 4", "pins: 999999",
    "positions: {on: a+b}", "ports: {main: dc}", "phases: 3+N", "return: none",
)


def inside(at: Place, text: str | None) -> bool:
    lines = (text if text is not None else "").split("\n")
    if not 1 <= at.line <= at.end_line <= max(1, len(lines)):
        return False
    return 1 <= at.column <= len(lines[at.line - 1]) + 1 and 1 <= at.end_column <= len(lines[at.end_line - 1]) + 2


def survives(data: bytes) -> None:
    start = time.perf_counter()
    source = decode(data, "fuzz.yaml")
    if isinstance(source, Problem):
        found, problems, text = None, (source,), None
    else:
        found, problems = read(source)
        text = source.text
    assert time.perf_counter() - start < SLOWEST
    assert (found is None) == bool(problems)
    for one in problems:
        assert one.message and one.at.file == "fuzz.yaml" and (text is None or inside(one.at, text)), one
    if found:
        places = [node.place for node in found.nodes.values()] + [one.place
                                                                  for one in (*found.conductors, *found.joints)]
        places += [place for node in found.nodes.values() for place in node.places.values()]
        assert all(inside(place, text) for place in places)
        ends = [end for one in (*found.conductors, *found.joints, *found.insides) for end in (one.a, one.b)]
        assert set(ends) <= set(found.terminals)


def fuzz(share: float):
    return settings(max_examples=max(1, int(RUNS * share)), deadline=None, database=None,
                    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large,
                                           HealthCheck.large_base_example])


@fuzz(0.1)
@given(st.binary(max_size=2000))
def test_bytes(data):
    survives(data)


@fuzz(0.4)
@given(st.lists(st.one_of(st.sampled_from(PIECES), st.text(max_size=6)), max_size=60))
def test_pieces(pieces):
    survives("".join(pieces).encode("utf-8", "surrogatepass"))


@st.composite
def damaged(draw) -> bytes:
    """A good text with some stretches cut, doubled, moved or replaced."""
    text = draw(st.sampled_from(TEXTS))
    for _ in range(draw(st.integers(1, 6))):
        start = draw(st.integers(0, max(0, len(text) - 1)))
        end = start + draw(st.integers(0, 30))
        piece = draw(st.one_of(st.sampled_from(PIECES), st.text(max_size=3), st.just(text[start:end] * 2), st.just("")))
        text = text[:start] + piece + text[end:]
    return text.encode("utf-8", "surrogatepass")


@fuzz(0.2)
@given(damaged())
def test_damaged(data):
    survives(data)


@st.composite
def reworded(draw) -> bytes:
    """A good text of which words stand in each other's place."""
    text = draw(st.sampled_from(TEXTS))
    lines = text.split("\n")
    for _ in range(draw(st.integers(1, 5))):
        row, other = draw(st.integers(0, len(lines) - 1)), draw(st.integers(0, len(lines) - 1))
        words, others = lines[row].split(" "), lines[other].split(" ")
        words[draw(st.integers(0, len(words) - 1))] = draw(st.one_of(st.sampled_from(others), st.sampled_from(PIECES)))
        lines[row] = " ".join(words)
        if draw(st.booleans()):
            lines.insert(other, lines[row])
    return "\n".join(lines).encode("utf-8", "surrogatepass")


@fuzz(0.3)
@given(reworded())
def test_reworded(data):
    survives(data)


@pytest.fixture(scope="module")
def giants():
    """Of each giant: seconds, problems, the longest message, MiB so far. Read in a process of its own."""
    command = [sys.executable, "-m", "tests.netlist.giants", "1" if "FUZZ" in os.environ else "4"]
    done = subprocess.run(command, capture_output=True, text=True, check=True, cwd=Path(__file__).parents[2])
    return json.loads(done.stdout)


@pytest.mark.parametrize("name", GIANTS)
def test_giants(name, giants):
    """Texts as large as they may be, in the usual run a quarter of it: quick, and not in memory's square."""
    seconds, problems, longest, memory = giants[name]
    assert seconds < SLOWEST
    assert 1 <= problems <= 500 and longest < 2000
    assert memory < MEMORY


@pytest.mark.parametrize("data", [
    b"", b"\n", b"\xef\xbb\xbf", b"\xff\xfea\x00:\x00", b"\x00", b"a: \xed\xa0\x80", b"\x80", "a: ü".encode("latin-1"),
    b"\r", b"nodes:\r\n  a: {kind: bar}\r\n", b" ", b"\t", b"---", b"...", b"{}", b"[]",
    b"nodes: {}\ncircuits: []", b": ", b"? ", b"- ", b"!", b"&", b"*", b"|", b">", b"%", b"@", b"`", b"'", b'"', b"{",
    b"[", b"}", b"]", b",", b"#", b"nodes: |\n  a\ncircuits: >\n  b\n",
    b"nodes: {a: {kind: |\n bar}}", b"nodes:\n  ? a\n  : {kind: bar, rating: 1 A}\ncircuits: []\n",
    b"nodes: {? [a]: b}\ncircuits: []",
])
def test_small_texts(data):
    survives(data)


def test_a_byte_order_mark_and_line_ends_make_no_difference():
    text = generate(1, 12)
    plain = read(text)[0]
    for other in ("\ufeff" + text, text.replace("\n", "\r\n"), text.replace("\n", "\r")):
        source = decode(other.encode("utf-8"), "netlist.yaml")
        found, problems = read(source)
        assert not problems and found.conductors == plain.conductors and found.nodes == plain.nodes


def test_a_file_over_the_limit_is_refused():
    found = decode(b"#" * (LIMIT + 1), "x.yaml")
    assert isinstance(found, Problem) and "a netlist has at most" in found.message
