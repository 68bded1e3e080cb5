"""Graphviz is used where it is found and works; without it a drawing looks a little different, no more."""

from __future__ import annotations

import stat

import pytest

from diagrammer.layout import engine, gates
from diagrammer.layout.draw import draw
from diagrammer.layout.options import Options
from tests.layout.common_systems import NAMES, sample

SIZES = [(20.0, 10.0), (30.0, 12.0), (25.0, 8.0), (20.0, 2.0)]
RANKS, EDGES = [[0, 1], [2]], [(0, 3), (1, 3), (3, 2)]


@pytest.fixture
def fake(tmp_path):
    def make(script: str) -> str:
        path = tmp_path / "fake-dot"
        path.write_text(f"#!/bin/sh\n{script}\n")
        path.chmod(path.stat().st_mode | stat.S_IXUSR)
        return str(path)
    return make


def test_the_installed_engine_is_found_and_keeps_the_order():
    found = engine.place(RANKS, SIZES, EDGES)
    assert found.engine == "graphviz-pure" and found.remark == ""
    assert found.xs[0] + (20 + 30) / 2 <= found.xs[1] + 0.1


def test_only_boxes_go_to_the_engine():
    source = engine.source(RANKS, SIZES, EDGES)
    assert "label=\"\"" in source and "n0 -> n3" in source and "subgraph cluster" not in source


@pytest.mark.parametrize("script", ("exit 1", "echo nonsense", "kill -9 $$", "echo '{\"objects\": []}'"))
def test_an_engine_that_fails_is_done_without(fake, script):
    found = engine.place(RANKS, SIZES, EDGES, fake(script))
    assert found.xs == () and found.engine == "own packing" and "fake-dot failed" in found.remark


def test_an_engine_that_hangs_is_stopped(fake, monkeypatch):
    monkeypatch.setattr(engine, "LIMIT", 0.2)
    found = engine.place(RANKS, SIZES, EDGES, fake("exec sleep 5"))
    assert found.xs == () and "TimeoutExpired" in found.remark


def test_an_engine_that_is_not_there_is_done_without():
    found = engine.place(RANKS, SIZES, EDGES, "/nowhere/dot")
    assert found.xs == () and found.engine == "own packing"


def test_no_engine_at_all(monkeypatch):
    monkeypatch.setattr(engine, "program", lambda asked: ("", ""))
    assert engine.place(RANKS, SIZES, EDGES).remark == "no Graphviz found"


@pytest.mark.parametrize("name", NAMES[:3])
def test_a_drawing_says_which_engine_placed_it_and_passes_the_gates_with_any(name, fake):
    with_it, without = draw(sample(name)), draw(sample(name), (), Options(engine=fake("exit 1")))
    assert with_it.engine == "graphviz-pure" and with_it.remarks == ()
    assert without.engine == "own packing"
    assert without.remarks == ("fake-dot failed (CalledProcessError)",)
    assert gates.faults(without) == ()
