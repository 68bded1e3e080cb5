"""The SVG of a scene: valid, self-contained, the same every time, everything in it can be found."""

from __future__ import annotations

import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from diagrammer.drawing.catalogue import catalogue
from diagrammer.drawing.write import svg, together
from tests.drawing.small_scene import scene

SVG = "{http://www.w3.org/2000/svg}"
KNOWN = {"svg", "title", "desc", "style", "rect", "g", "path", "circle", "text"}


@pytest.fixture(scope="module", params=["small", "catalogue"])
def text(request) -> str:
    return svg(scene().sheets[0], scene()) if request.param == "small" else catalogue()


@pytest.fixture(scope="module")
def small():
    return ElementTree.fromstring(svg(scene().sheets[0], scene()))


def classes(tree, name: str) -> list:
    return [one for one in tree.iter() if name in one.get("class", "").split()]


def test_only_plain_elements_and_no_reference_outside(text):
    tree = ElementTree.fromstring(text)
    assert {one.tag.removeprefix(SVG) for one in tree.iter()} <= KNOWN
    keys = {key for one in tree.iter() for key in one.keys()}
    assert not [key for key in keys if "href" in key or key.startswith("on") or key in ("style", "fill", "stroke")]
    assert re.findall(r"https?://[^\"\s]+", text) == ["http://www.w3.org/2000/svg"]


def test_ids_are_given_once(text):
    ids = Counter(one.get("id") for one in ElementTree.fromstring(text).iter() if one.get("id"))
    assert [name for name, count in ids.items() if count > 1] == []
    assert all(re.fullmatch(r"s1-[\w.-]*", name) for name in ids)


def test_whatever_is_stroked_or_filled_has_a_style(text):
    tree = ElementTree.fromstring(text)
    styled = set(re.findall(r"[.]([a-z-]+)", next(tree.iter(f"{SVG}style")).text))
    inked = (f"{SVG}path", f"{SVG}circle", f"{SVG}rect")
    drawn = {one.get("class").split()[0] for one in tree.iter() if one.tag in inked}
    assert drawn <= styled


def test_numbers_have_two_decimals_at_most(text):
    assert not re.search(r"\d\.\d{3,}", text.partition("</style>")[2])


def test_it_is_a_document_with_a_name(small):
    """Not role img, which hides from a screen reader all that it holds (WAI-ARIA 1.2, 7.1: children presentational)."""
    assert small.get("role") == "graphics-document document"
    names = {one.get("id"): one.text for one in small.iter() if one.tag in (f"{SVG}title", f"{SVG}desc")}
    assert names[small.get("aria-labelledby")] == "Cabin, 24 V: Main bar, sheet 1 of 2"
    assert names[small.get("aria-describedby")] == (
        "A bank of 24 V feeds a bar, a panel and an inverter. "
        "Findings: 2 dangers, 2 warnings, 1 notice, 1 accepted."
    )
    assert (small.get("width"), small.get("height"), small.get("viewBox")) == ("420mm", "297mm", "0 0 420 297")


def read_aloud(tree) -> str:
    """What a screen reader has to say, in order: names, descriptions and texts of all that is not hidden."""
    if tree.get("aria-hidden") == "true" or tree.tag == f"{SVG}style":
        return ""
    own = [tree.get("aria-label"), (tree.text or "").strip()]
    return " ".join(part for part in (*own, *(read_aloud(child) for child in tree)) if part)


def test_findings_are_read_in_full_before_the_drawing(small):
    said = read_aloud(small)
    for row in scene().sheets[0].rows:
        assert f"{row.severity} {row.number}{', accepted' if row.accepted else ''}" in said
        assert f"{row.zone} {row.rule} {' '.join(row.text)}" in said
    assert said.index("unmeasured-return") < said.index("circuit roof") < said.index("photovoltaic array")


def test_groups_bear_the_names_of_nodes_and_circuits(small):
    names = {one.get("id"): one.get("aria-label") for one in small.iter() if one.get("aria-label")}
    assert names["s1-node-roof"] == "roof: photovoltaic array"
    assert names["s1-circuit-main"] == "circuit main"
    assert all(names[node.get("id")] for node in classes(small, "node"))


def test_a_nodes_words_stand_in_its_group(small):
    roof = next(one for one in classes(small, "node") if one.get("data-node") == "roof")
    assert [text.text for text in roof.iter(f"{SVG}text")][-3:] == ["G2", "Roof", "2s2p 220 W"]


def test_sheets_together_stand_below_one_another():
    first = scene().sheets[0]
    both = replace(scene(), sheets=(first, replace(first, number=2)))
    tree = ElementTree.fromstring(together(both))
    pages = classes(tree, "page")
    assert [page.get("transform") for page in pages] == [None, "translate(0 307)"]
    assert [page.find(f"{SVG}title").text for page in pages] == [
        "Cabin, 24 V: Main bar, sheet 1 of 2", "Cabin, 24 V: Main bar, sheet 2 of 2",
    ]
    assert tree.get("viewBox") == "0 0 420 604"
    ids = Counter(one.get("id") for one in tree.iter() if one.get("id"))
    assert set(ids.values()) == {1}


def test_a_printer_is_told_the_size_of_the_sheet():
    """CSS Paged Media Level 3, 5.1: size in the @page rule."""
    assert "@page{size:420mm 297mm;margin:0}" in svg(scene().sheets[0], scene())


def test_every_part_of_the_scene_is_there(small):
    sheet = scene().sheets[0]
    nodes = {one.get("data-node"): one for one in classes(small, "node")}
    assert set(nodes) == {shape.node for shape in sheet.shapes} | {bar.node for bar in sheet.bars}
    assert nodes["roof"].find(f"{SVG}title").text == "roof: photovoltaic array"
    assert nodes["roof"].get("data-line") == "5"
    assert {one.get("data-circuit") for one in classes(small, "circuit")} == {line.circuit for line in sheet.lines}
    assert len([one for one in small.iter() if one.get("data-cable")]) == len(sheet.lines)
    assert len(classes(small, "stub")) == len(sheet.stubs)
    written = Counter(one.text for one in small.iter(f"{SVG}text"))
    assert not Counter(text.text for text in sheet.texts) - written


def test_flags_tell_rule_and_severity(small):
    flags = classes(small, "flag")
    assert [flag.get("data-severity") for flag in flags] == [flag.severity for flag in scene().sheets[0].flags]
    assert flags[2].get("data-rule") == "shunt-backwards unmeasured-return"
    assert "accepted" in flags[4].get("class").split()
    assert [len(classes(flag, "outline")) for flag in flags] == [1, 0, 1, 1, 0]
    rules = [row.get("data-rule") for row in classes(small, "row")]
    assert rules[:2] == ["protection-too-large", "conductor-overloaded"]


def test_severities_differ_in_shape(small):
    """Never by colour alone: three corners, four corners, round (WCAG 2.2, 1.4.1)."""
    kinds = {}
    for flag in classes(small, "flag"):
        data = classes(flag, "mark")[0].get("d")
        kinds[flag.get("data-severity")] = "round" if "A" in data else data.count("L") + 1
    assert kinds == {"danger": 3, "warning": 4, "notice": "round"}


def test_hostile_names_stay_text():
    sheet = scene().sheets[0]
    hostile = replace(sheet, title='"><script>alert(1)</script>', shapes=tuple(
        replace(shape, node='a"b<c>&', title="]]> <b>") for shape in sheet.shapes[:2]
    ))
    tree = ElementTree.fromstring(svg(hostile, scene()))
    assert {one.tag.removeprefix(SVG) for one in tree.iter()} <= KNOWN
    assert [one.get("data-node") for one in classes(tree, "node")][-2:] == ['a"b<c>&'] * 2


def test_same_scene_same_bytes_in_any_process():
    code = (
        "from tests.drawing.small_scene import scene; from diagrammer.drawing.write import svg; import hashlib; "
        "print(hashlib.sha256(svg(scene().sheets[0], scene()).encode()).hexdigest())"
    )
    root = Path(__file__).parents[2]
    runs = {
        subprocess.run([sys.executable, "-c", code], env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(root)}, cwd=root,
                       capture_output=True, text=True, check=True).stdout
        for seed in ("0", "1", "2")
    }
    assert len(runs) == 1


def test_a_flag_shows_the_path_where_a_pointer_rests():
    from diagrammer.drawing.mark import flag
    from diagrammer.drawing.svg import render
    from diagrammer.layout.scene import Flag

    drawn = render(flag(Flag((1,), "danger", (10.0, 10.0), ("missing-protection",), paths=("bank > Q3",)), "f1"))
    assert "<title>danger 1: missing-protection; path: bank &gt; Q3</title>" in drawn
