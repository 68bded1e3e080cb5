"""Places point at the right text: of nodes, fields, stops, conductors, words of a path however it is written."""

from __future__ import annotations

import re

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from diagrammer.netlist.read import read
from diagrammer.text.parse import parse
from diagrammer.text.place import Place
from diagrammer.text.source import source
from tests.netlist.test_fuzz import SAMPLES
from tests.systems.generate import generate

TEXTS = [*SAMPLES, *(generate(seed, 20) for seed in range(4))]


def at(text: str, place: Place) -> str:
    lines = text.split("\n")[place.line - 1 : place.end_line]
    if len(lines) == 1:
        return lines[0][place.column - 1 : place.end_column - 1]
    return " ".join([lines[0][place.column - 1 :].strip(), *(line.strip() for line in lines[1:-1]),
                     lines[-1][: place.end_column - 1].strip()])


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_places_of_a_system(number):
    text = TEXTS[number]
    found, _ = read(text)
    for node in found.nodes.values():
        written = at(text, node.place)
        assert written == node.name if node.declared else written.split()[0] == node.kind.name
        for name, place in node.places.items():
            if node.declared:
                before = text.split("\n")[place.line - 1][: place.column - 1]
                assert before.rstrip(" '\"").endswith(f"{name}:")
    for circuit in found.circuits:
        for leg in circuit.legs:
            for stop in leg.stops:
                name = at(text, stop.place)
                known = (stop.node, found.nodes[stop.node].kind.name)
                assert leg.derived or re.split("[@. ]", name)[0] in known
    for one in found.conductors:
        assert "->" in at(text, one.place) or one.derived
        if one.size_place and not one.derived:
            assert at(text, one.size_place)


@st.composite
def scalars(draw):
    """Words joined by single spaces, and how YAML may hold them: plain, quoted, folded over lines."""
    words = draw(st.lists(st.sampled_from(["a", "bank.+", "->", "/", "fuse", "250", "A", "Lüfter", "x-1", "mm²", "🚐"]),
                          min_size=1, max_size=12))
    quote = draw(st.sampled_from(["", "'", '"']))
    gaps = [draw(st.sampled_from([" ", " ", "\n    ", "  \n      ", "\n\n    " if quote is None else "\n    "]))
            for _ in words[1:]]
    body = words[0] + "".join(gap + word for gap, word in zip(gaps, words[1:], strict=True))
    return words, f"key:\n  - b\nfeed: {quote}{body}{quote}\n"


@settings(max_examples=200)
@given(scalars())
def test_places_of_words(drawn):
    words, text = drawn
    tree, problems = parse(source(text, "x"))
    assert not problems
    scalar = tree.get("feed")
    assert scalar.text == " ".join(words)
    index = 0
    for word in words:
        assert at(text, scalar.part(index, index + len(word))) == word
        index += len(word) + 1
    whole = scalar.part(0, len(scalar.text))
    assert at(text, whole).split() == words


@pytest.mark.parametrize("text",
                         ['feed: "a\\x20-> b"', "feed: 'it''s -> b'", 'feed: "a \\u002d> b"', "feed: |\n  a -> b\n",
                          "feed: >-\n  a\n  -> b\n"])
def test_where_places_are_unsure_the_whole_text_is_marked(text):
    scalar = parse(source(text, "x"))[0].get("feed")
    place = scalar.part(2, 4)
    assert place == scalar.place or at(text, place) == scalar.text[2:4]


def test_a_place_goes_on_to_another():
    assert Place("a", 1, 2, 1, 5).to(Place("a", 3, 1, 3, 9)) == Place("a", 1, 2, 3, 9)
    assert str(Place("boats/one.yaml", 3, 7, 3, 9)) == "boats/one.yaml:3:7"


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_without_the_compiled_loader_all_is_the_same(number, monkeypatch):
    compiled = read(TEXTS[number])[0]
    monkeypatch.setattr("diagrammer.text.parse._Loader", yaml.BaseLoader)
    plain = read(TEXTS[number])[0]
    assert plain.conductors == compiled.conductors and plain.nodes == compiled.nodes and plain.joints == compiled.joints
