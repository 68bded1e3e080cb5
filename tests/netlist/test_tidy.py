"""The house style: the same meaning, the same remarks, tidy once is tidy for good."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from diagrammer.__main__ import main
from diagrammer.netlist.read import read
from diagrammer.netlist.tidy import meaning, tidy
from diagrammer.text.compose import remarks, scalar
from diagrammer.text.parse import parse
from diagrammer.text.source import source
from tests.netlist.test_fuzz import SAMPLES
from tests.systems.generate import generate

NODES = "nodes:\n  a:  {kind: bar, rating: 5 A}\n  bc: {kind: bar, rating: 5 A}\n"


def tidied(text: str) -> str:
    return tidy(source(text, "x.yaml"))


def kept(text: str) -> list[str]:
    one = source(text, "x.yaml")
    return [remark.text for remark in remarks(one, parse(one)[0]).values()]


@st.composite
def untidy(draw) -> str:
    """A sound text in some style, with remarks strewn in wherever it still reads the same."""
    text = draw(st.integers(0, 500).map(lambda seed: generate(seed, 8)))
    if draw(st.booleans()):
        text = yaml.dump(yaml.load(text, yaml.BaseLoader), allow_unicode=True, sort_keys=False,
                         default_flow_style=draw(st.sampled_from([None, False, True])),
                         width=draw(st.integers(30, 200)), indent=draw(st.sampled_from([2, 3, 4])))
    plain = meaning(read(text)[0])
    lines = text.split("\n")
    for number in range(draw(st.integers(0, 8))):
        row = draw(st.integers(0, len(lines) - 1))
        tried = list(lines)
        if draw(st.booleans()):
            tried[row] += f"{draw(st.sampled_from([' ', '    ', '                    ']))}# remark {number}: [a] {{b}}"
        else:
            tried.insert(row, f"{draw(st.sampled_from(['', '  ', '      ']))}# remark {number} alone")
        if draw(st.booleans()):
            tried.insert(row, draw(st.sampled_from(["", "   "])))
        found, _ = read("\n".join(tried))
        if found and meaning(found) == plain:
            lines = tried
    return "\n".join(lines)


@settings(max_examples=40, deadline=None)
@given(untidy())
def test_meaning_and_remarks_stay(text):
    made = tidied(text)  # raises Changed where the meaning differs
    assert meaning(read(made)[0]) == meaning(read(text)[0])
    assert kept(made) == kept(text)
    assert tidied(made) == made
    assert not any(line != line.rstrip() for line in made.split("\n")) and made.endswith("\n")


@pytest.mark.parametrize("number", range(len(SAMPLES)))
def test_samples(number):
    made = tidied(SAMPLES[number])
    assert kept(made) == kept(SAMPLES[number]) and tidied(made) == made


@pytest.mark.parametrize(("before", "after"), [
    ("circuits:\n- {feed: a->bc}\n", "\ncircuits:\n  - {feed: a -> bc}\n"),
    ("circuits: [{feed: 'a/bc'}]\n", "\ncircuits:\n  - {feed: 'a/bc'}\n"),
    ("circuits:\n  - {feed: a / fuse   10A  F1 /bc , wire: }\n".replace(", wire: ", ""),
     "\ncircuits:\n  - {feed: a/fuse 10A F1/bc}\n"),
    ("circuits:\n  - feed:  a\n      -> bc\n    wire: 70mm2 2m\n",
     "\ncircuits:\n  - feed:   a -> bc\n    wire:   70 mm² 2 m\n"),
    ("circuits:\n  - feed: a -> bc   # why\n    # and\n    wire: [2/0AWG 1ft]\n",
     "\ncircuits:\n  - feed:   a -> bc  # why\n    # and\n    wire:   [2/0 AWG 1 ft]\n"),
    ("circuits:\n  - {feed: a -> bc, # why\n     wire: 2 m}\n",
     "\ncircuits:\n  - {feed: a -> bc, # why\n     wire: 2 m}\n"),
    ("\n\n# all of them\n\n\ncircuits: []\n\n", "\n# all of them\n\ncircuits: []\n"),
])
def test_circuits(before, after):
    assert tidied(NODES + before) == NODES + after


def test_nodes():
    text = "nodes: {a: {rating: 5A, kind: bar}, long-name: {kind: load, voltage: 9..33V, power: 5 W}}\ncircuits: []\n"
    assert tidied(text).splitlines() == [
        "nodes:", "  a:         {kind: bar, rating: 5 A}", "  long-name: {kind: load, voltage: 9 .. 33 V, power: 5 W}", "",
        "circuits: []",
    ]


def test_a_node_in_a_block():
    kept = ["nodes:", "  a:   # the first", "    kind: bar", "    # thick", "    rating: 5 A"]
    text = "\n".join([*kept, "  b:", "    kind: bar", "    rating: 5 A   # thin", "circuits: []", ""])
    assert tidied(text) == "\n".join([*kept, "  b: {kind: bar, rating: 5 A}  # thin", "", "circuits: []", ""])


@given(st.text(st.characters(codec="utf-8", exclude_characters="\n\r\t",
                             exclude_categories=("Cc", "Cs", "Zl", "Zp", "Zs", "Cf", "Cn", "Co")), min_size=1,
                             max_size=12) | st.text("ab ,:#[]{}'\"-?&*!|>%@`1", min_size=1, max_size=8))
def test_a_text_is_written_so_that_it_reads_back(text):
    assert yaml.load(f"[{scalar(text)}, {{k: {scalar(text)}}}]", yaml.BaseLoader) == [text, {"k": text}]
    assert yaml.load(f"k: {scalar(text, inside=False)}", yaml.BaseLoader) == {"k": text}


def test_the_command(tmp_path, capsys):
    file = tmp_path / "van.yaml"
    file.write_text(NODES + "circuits:\n- {feed: a->bc}  # one\n", encoding="utf-8")
    assert main(["tidy", "--check", str(file)]) == 1 and "a->bc" in file.read_text(encoding="utf-8")
    assert main(["tidy", str(file)]) == 0 and "a -> bc}  # one" in file.read_text(encoding="utf-8")
    assert main(["tidy", "--check", str(file)]) == 0
    file.write_text("nodes: {}\n", encoding="utf-8")
    assert main(["tidy", str(file)]) == 2 and file.read_text(encoding="utf-8") == "nodes: {}\n"
    assert "there are no `circuits`" in capsys.readouterr().out
    assert main(["tidy", str(tmp_path / "none.yaml")]) == 2


def test_a_fault_of_this_program_leaves_the_file(tmp_path, capsys, monkeypatch):
    file = tmp_path / "van.yaml"
    file.write_text(NODES + "circuits:\n- {feed: a->bc}\n", encoding="utf-8")
    monkeypatch.setattr("diagrammer.netlist.style.path", lambda text: "bc -> a")
    assert main(["tidy", str(file)]) == 2 and "a->bc" in file.read_text(encoding="utf-8")
    assert "would not mean the same" in capsys.readouterr().err
