"""What was left out is filled in: by hand-computed needs, in every form of the text, and so that the checks pass."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules.run import check
from diagrammer.sizing.choose import choose
from diagrammer.sizing.unknown import Unknown
from diagrammer.sizing.write import write
from diagrammer.text.source import source
from tests.systems import generate

SAMPLES = sorted((Path(__file__).resolve().parents[2] / "samples").glob("*.yaml"))
SIZE = re.compile(r"(?<=[\[ :])(?:[1-4]/0 AWG|\d+ AWG|[\d.]+ mm²) (?=[\d.])")

HEAD = """
practice: {practice}
nodes:
  bank: {{kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, short circuit: 4 kA}}
  lamp: {{kind: load, voltage: 12 V, current: {amps} A, critical: {critical}}}
circuits:
"""


def sized(text: str):
    system, problems = read(text)
    assert not problems, problems
    made = choose(system)
    again, problems = read(write(source(text, "netlist.yaml"), system, made.choice))
    assert not problems, problems
    return made, again


def one(practice="abyc", amps=5.0, critical="no", metres=1.0):
    text = HEAD.format(practice=practice, amps=amps, critical=critical) + f"  - {{name: lamp, feed: bank/fuse 6 A -> lamp, wire: {metres} m}}\n"
    made, _ = sized(text)
    return made.choice.sizes["lamp"].label


def test_the_smallest_size_allowed_where_nothing_else_asks_for_more():
    # 33 CFR 183.425(d): 16 AWG on its own; ISO 10133 7.7: 1 mm²
    assert one() == "16 AWG"
    assert one("iso") == "1 mm²"


def test_the_drop_decides_on_a_long_run():
    # ABYC E-11: CM = 10.75 I L / E; 5 A, 2 x 7 m = 45.9 ft there and back, 3 % of 12 V: 6857 cmil, above 12 AWG's 5833 (SAE), so 10 AWG
    assert one(critical="yes", metres=7) == "10 AWG"


def test_the_device_decides_where_the_conductor_must_bear_it():
    text = HEAD.format(practice="abyc", amps=5, critical="no") + "  - {name: lamp, feed: bank/fuse 60 A -> lamp, wire: 1 m}\n"
    made, _ = sized(text)
    assert made.choice.sizes["lamp"].label == "10 AWG"  # 33 CFR Table 5, 105 °C: 60 A


@pytest.mark.parametrize(("fields", "fuse", "said"), [
    ({"critical": "yes", "metres": 7}, 6, "12 AWG would lose 3.53 %, more than 3 %"),  # 10.75 x 5 A x 45.9 ft / 5833 cmil
    ({}, 60, "12 AWG may stand behind 45 A at most, not behind 60 A"),  # 33 CFR 183.425 Table 5, 105 °C
    ({"amps": 40}, 40, "14 AWG carries only 35 A"),
    ({}, 6, "the thinnest that may be used"),
])
def test_what_decided_is_said(fields, fuse, said):
    given = {"practice": "abyc", "amps": 5, "critical": "no", "metres": 1, **fields}
    line = f"  - {{name: lamp, feed: bank/fuse {fuse} A -> lamp, wire: {given.pop('metres')} m}}\n"
    made, _ = sized(HEAD.format(**given) + line)
    assert made.choice.why["lamp"].endswith(f"; {said}")


@pytest.mark.parametrize("line", [
    "- {feed: bank/fuse -> lamp}",
    "- {feed: bank/fuse -> lamp, wire: 2 m}   # a remark",
    "- {feed: bank/fuse blade -> switch 10 A -> lamp, wire: [1 m, 2 m]}",
    "- {feed: bank/fuse -> lamp, wire: {length: 2 m, in: conduit}}",
    "- {feed: bank/fuse -> switch 10 A -> lamp, wire: {hops: [1 m, 1 m]}}",
    "- {feed: bank/fuse -> lamp, wire: 2 parallel 1 m}",
    "- feed: bank/fuse -> lamp\n    note: in block style",
    "- feed: bank/fuse ->\n      lamp\n    wire:\n      length: 3 m   # folded, and in block style",
    '- {feed: "bank/fuse -> lamp", wire: "2 m"}',
])
def test_every_form_of_the_text_takes_its_size(line):
    text = f"# first line\n{HEAD.format(practice='abyc', amps=5, critical='no')}  {line}\n# last line\n"
    _, again = sized(text)
    assert Unknown(again).nothing
    written = write(source(text, "netlist.yaml"), read(text)[0], choose(read(text)[0]).choice)
    assert [part for part in written.split("\n") if "#" in part and "#" in text] != []
    assert written.count("#") == text.count("#")


def test_a_declared_fuse_takes_its_rating():
    text = HEAD.format(practice="abyc", amps=5, critical="no").replace("circuits:", "  guard: {kind: fuse, type: blade}\ncircuits:")
    _, again = sized(text + "  - {feed: bank/guard -> lamp, wire: 16 AWG 1 m}\n")
    assert again.nodes["guard"]["rating"] == 5


def test_what_no_standard_size_serves_is_said():
    text = HEAD.format(practice="abyc", amps=150, critical="yes") + "  - {feed: bank/fuse 200 A -> lamp, wire: 60 m}\n"
    system, _ = read(text)
    assert "voltage-drop" in {one.rule for one in choose(system).left}


def stripped(text: str) -> str:
    """Without the sizes that stand before a length."""
    return SIZE.sub("", text)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_without_sizes_is_sized_so_that_it_passes(path):
    text = stripped(path.read_text(encoding="utf-8"))
    made, again = sized(text)
    assert len(made.choice.sizes) > 5 and not made.left
    assert [str(one) for one in check(again) if one.severity != "notice"] == []


@pytest.mark.parametrize("seed", range(300, 312))
def test_a_generated_system_without_sizes_is_sized_so_that_it_passes(seed):
    text = generate(seed, (8, 20, 40)[seed % 3])
    before = {one.rule for one in check(read(text)[0]) if one.severity != "notice"}
    made, again = sized(stripped(text))
    after = {one.rule for one in check(again) if one.severity != "notice"}
    assert after <= before, (seed, after, [one.message for one in made.left])
