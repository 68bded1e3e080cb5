"""Devices written in a path: their words and quantities, designations, numbers."""

from __future__ import annotations

import pytest

from tests.netlist.reading import edges, said, system


def device(words: str):
    found = system(f"feed: lone-bar -> {words} -> lamp, return: none")
    return next(node for node in found.nodes.values() if not node.declared)


@pytest.mark.parametrize(("words", "fields"), [
    ("fuse", {}), ("fuse 250 A", {"rating": 250.0}), ("fuse 250A", {"rating": 250.0}),
    ("fuse class-t 250 A 20 kA", {"type": "class-t", "rating": 250.0, "breaking": 20000.0}),
    ("fuse 20 kA 250 A class-t", {"type": "class-t", "rating": 250.0, "breaking": 20000.0}),
    ("fuse anl 7.5 A 58 V", {"type": "anl", "rating": 7.5, "voltage": 58.0}),
    ("breaker curve-c 2-pole 16 A", {"type": "curve-c", "poles": 2, "rating": 16.0}),
    ("breaker dc thermal 16 A", {"type": "dc thermal", "rating": 16.0}), ("switch 30 mA", {"rating": 0.03}),
    ("breaker polarised thermal 16 A", {"type": "thermal", "polarised": True, "rating": 16.0}),
    ("switch battery 300 A", {"type": "battery", "rating": 300.0}),
    ("switch open momentary", {"open": True, "type": "momentary"}),
    ("rcd 16 A 5 mA", {"rating": 16.0, "residual": 0.005}), ("rcbo type-a 16 A", {"type": "type-a", "residual": 0.03}),
    ("resistor 47 Ω 50 W", {"resistance": 47.0, "power": 50.0}), ("resistor 47 ohm", {"resistance": 47.0}),
    ("plug inlet 30 A", {"type": "inlet", "rating": 30.0}),
    ("fuse 500 mA", {"rating": 0.5}), ("diode 10 A", {"rating": 10.0}), ("galvanic-isolator 30 A", {"rating": 30.0}),
])
def test_words_and_quantities(words, fields):
    found = device(words)
    assert {name: found.get(name) for name in fields} == fields
    assert found.kind.name == words.split()[0]


@pytest.mark.parametrize(("words", "message"), [
    ("fuse big", "`big` says nothing of a fuse"), ("fuse classt 20 A", "Did you mean `class-t`?"),
    ("fuse 20 A 30 A", "its rating is given already"),
    ("fuse 20", "`20` has no unit"), ("fuse 20 Ah", "is a charge"), ("fuse 20 x", "`x` is no unit"),
    ("fuse F1 F2", "a second designation"), ("fuse Q1", "`Q1` says nothing of a fuse"),
    ("fuse 3 m", "`3 m` is a length"), ("fuse 20 W", "`20 W` says nothing of a fuse"),
    ("switch 5-pole", "says nothing of a switch"), ("fuze 20 A", "Did you mean `fuse`?"),
    ("fuse class-t anl 20 A", "`anl`: its type is given already"),
    ("fuse 0 A", "rating: `0 A` is out of range: more than 0 A"), ("fuse 5 A 0 V", "voltage: `0 V` is out of range"),
    ("fuse 5 A 0 kA", "breaking: `0 kA` is out of range: more than 0 A"), ("rcd 16 A 0 mA", "residual: `0 mA` is out of range"),
    ("resistor 0 Ω", "resistance: `0 Ω` is out of range: more than 0 Ω"),
    ("resistor", "a resistor needs resistance"), ("breaker dc ac-only 5 A", "`ac-only`: its type"),
])
def test_what_a_device_cannot_be(words, message):
    assert message in said(f"feed: lone-bar -> {words} -> lamp, return: none")


def test_unknown_words_list_what_may_be_written():
    message = said("feed: lone-bar -> fuse big -> lamp, return: none")
    for word in ("class-t", "anl", "strip", "blade", "nh", "gpv", "cartridge", "cube", "inline", "1-pole", "4-pole",
                 "F-name"):
        assert word in message


def test_numbers_by_letter_in_file_order_beside_designations():
    found = system("""
        feed: lone-bar/fuse -> lamp, return: none
        feed: lone-bar/fuse F2 -> breaker -> lamp-1, return: none
        feed: lone-bar/fuse -> switch Q-main -> lamp-2, return: none
        ac: pedestal -> rcd 30 A -> outlet
        ac: pedestal -> plug -> galvanic-isolator -> outlet-2
        feed: lone-bar/resistor 1 Ω -> pump, return: none
    """.replace("        ", ""), nodes="F4: {kind: fuse}")
    written = [name for name, node in found.nodes.items() if not node.declared]
    assert written == ["F1", "F2", "Q1", "F3", "Q-main", "F5", "X1", "R1", "R2"]


def test_a_declared_device_is_named_in_the_path():
    found = system("feed: lone-bar -> main-fuse -> lamp, return: none",
                   nodes="main-fuse: {kind: fuse, rating: 30 A, type: class-t}")
    assert edges(found) == ["lone-bar -> main-fuse.1", "main-fuse.2 -> lamp.+"]


def test_a_designation_is_given_once():
    assert "is the name of another node already" in said("feed: lone-bar -> fuse F1 -> lamp\n"
                                                         "feed: lone-bar -> fuse F1 -> lamp-1")
    assert "is the name of another node already" in said("feed: lone-bar -> fuse F1 -> lamp", nodes="F1: {kind: fuse}")


def test_a_path_does_not_end_on_a_device():
    assert "a path begins and ends on a place, not on a fuse" in said("feed: lone-bar -> fuse 20 A")
    assert "a path begins and ends on a place, not on a switch" in said("feed: switch -> lone-bar")


@pytest.mark.parametrize(("path", "message"), [
    ("lone-bar ->", "nothing stands after this `->`"), ("-> lamp", "nothing stands before this `->`"),
    ("lone-bar -> / lamp", "nothing stands after this `->`"),
    ("lone-bar", "is one place"), ("lone-bar lamp", "is neither a place nor a device A place is one word"),
    ("lone-bar → lamp", "A conductor is written `->`"),
    ("lone-bar => lamp", "A conductor is written `->`"), ("lone-bar -- lamp", "A conductor is written `->`"),
    ("lone-bar --> lamp", "A conductor is written `->`"),
    ("lone-bar - lamp", "A conductor is written `->`"), ("lone-bar@ -> lamp", "can't be read as a place"),
    (".+ -> lamp", "can't be read as a place"),
    ("lone-bar.+.+.+ -> lamp", "one name too many"), ("lone-baz -> lamp", "Did you mean `lone-bar`?"),
    ("lamp-7 -> lamp", "Declare it under `nodes`."),
    ("lone-bar -> lamp.plus", "`plus` is no port or terminal of `lamp`"), ("lone-bar.+ -> lamp", "leave that out"),
    ("lone-bar -> sun.vp", "There are +, -, pv, sense and earth."),
])
def test_what_a_path_cannot_be(path, message):
    assert message in said(f'feed: "{path}", return: none', nodes=NODES)


NODES = """
lone-bar: {kind: bar, rating: 100 A}
lamp: {kind: load, voltage: 12 V, power: 10 W}
sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
""" + "\n".join(f"other-{n}: {{kind: bar, rating: 1 A}}" for n in "abcdefghijklmnopqrstuvwxyz")


def test_unnamed_circuits_are_called_by_their_ends():
    found = system("feed: lone-bar/fuse -> lamp, return: none\nfeed: lone-bar/fuse -> lamp, return: none\n"
                   "name: main, feed: lone-bar -> lamp-1, return: none\nname: lone-bar to lamp 2, feed: lone-bar -> "
                   "lamp-2, return: none")
    assert [one.name for one in found.circuits] == ["lone-bar to lamp", "lone-bar to lamp 3", "main",
                                                    "lone-bar to lamp 2"]
    assert [one.named for one in found.circuits] == [False, False, True, True]


def test_names_of_circuits():
    assert "two circuits are named `a`" in said("name: a, feed: lone-bar -> lamp\nname: a, feed: lone-bar -> lamp-1")
    assert "without a colon" in said('name: "a:b", feed: lone-bar -> lamp')
