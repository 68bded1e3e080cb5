"""The page of the practices: complete, true to the tables and the rules, the same each time."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from diagrammer.__main__ import main
from diagrammer.electrics.ampacity import ampacity
from diagrammer.electrics.protection import largest_device
from diagrammer.netlist.read import read
from diagrammer.netlist.sections import PRACTICES
from diagrammer.quantity import size
from diagrammer.rules import RULES, practices
from diagrammer.rules.practices import conductors, limits, page, sizes, table
from diagrammer.rules.run import check
from diagrammer.rules.verdicts import Verdict, differing, under

ROOT = Path(__file__).parents[2]
SAMPLES = sorted((ROOT / "samples").glob("*.yaml"))


@pytest.fixture(scope="module")
def text() -> str:
    texts = {path: path.read_text(encoding="utf-8") for path in SAMPLES}
    return page([one for path, netlist in texts.items() for one in differing(path.name, netlist, path.parent)])


def rows(text: str, heading: str) -> dict[str, list[str]]:
    """The cells of a section's table by the first of its row, or the first two where the second is a rule."""
    section = text.partition(f"## {heading}\n")[2].partition("\n## ")[0]
    found = {}
    for line in section.splitlines():
        cells = [cell.strip() for cell in line.strip("| ").split(" | ")]
        if line.startswith("| ") and not set(line) <= set("|- "):
            found[" ".join(cells[:-3])] = cells[-3:]
    return found


def test_every_size_stands_with_its_ampacity_and_largest_device():
    table = {name: cells for name, *cells in conductors()}
    assert {one.label for one in sizes()} == set(table) and len(sizes()) >= 28
    amps = ampacity(size("14 AWG"), "abyc").amps
    own = f"{amps:g} / {largest_device(amps, 'abyc', volts=12):g}"
    assert table["14 AWG"] == [own, "15 / 15", "18 / 18"]  # NEC 240.4(D)
    assert table["18 AWG"][1] == "-" and table["0.75 mm²"][0] == "-"


@pytest.mark.parametrize(("name", "cells"), [
    ("mains, line to neutral", ["120 V", "120 V", "230 V"]),  # IEC 60038
    ("device from the source, bare [m]", ["0.178", "0.45*", "0.2"]),  # 33 CFR 183.455(b); ISO 10133 8.1
    ("terminals that are not marked", ["-", "60 °C to 100 A, 75 °C above", "-"]),  # NEC 110.14(C)
    ("drop, critical", ["3 %", "3 %", "3 %"]),  # ABYC E-11 11.14.2.6, NEC 210.19(A), ISO 10133 4.8
    ("drop, other", ["10 %", "5 %", "10 %*"]),
    ("smallest conductor, alone", ["16 AWG", "14 AWG*", "1 mm2"]),  # 33 CFR 183.425(d), NEC 310.3(A), ISO 10133 7.7
    ("breakers on dc break", ["what can flow, or ABYC's table", "what can flow", "what can flow"]),  # E-11 Table V-A
    ("devices on shore power break", ["what is stated, or ABYC's table", "what is stated, else 10 kA*",
                                      "what is stated, else 6 kA*"]),  # E-11 Table V-B
    ("smallest conductor, aluminium", ["-", "12 AWG*", "-"]),  # 33 CFR 183.425(a), NEC 310.3(A)
    ("several devices together", ["1.5 x the ampacity*", "1 x the ampacity*", "1 x the ampacity*"]),
    ("device of a continuous load, of its current", ["100 %", "125 %", "100 %"]),  # NEC 210.20(A)
    ("device from the source, sheathed [m]", ["1.016", "0.45*", "1.8*"]),  # 33 CFR 183.455(b): 40 in
    ("device from a battery, sheathed [m]", ["1.829", "0.45*", "1.8*"]),  # 33 CFR 183.460(a): 72 in
    ("main breaker from a shore inlet [m]", ["3.05", "3.05*", "3*"]),  # ABYC E-11: 10 ft
    ("one device, below 50 V", ["next larger rating, at most 150 %", "next larger rating, up to 800 A",
                                "100 % of the ampacity*"]),  # ABYC E-11, NEC 240.4(B), IEC 60364-4-43 433.1
    ("drop, mains, critical", ["3 %", "3 %", "6 %"]),  # IEC 60364-5-52 Table G.52.1, a private supply, lighting
    ("drop, mains, other", ["10 %", "5 %", "8 %"]),
    ("copper, for the drop", ["10.75 ohm cmil/ft", "12.9 ohm cmil/ft*", "0.0164 ohm mm2/m"]),  # ISO 10133 A
    ("copper, for the drop, mains", ["10.75 ohm cmil/ft", "12.9 ohm cmil/ft*", "0.0225 ohm mm2/m"]),  # 60364-5-52 G
    ("ampacity, mains", ["33 CFR 183.425 Table 5", "NEC Table 310.16", "IEC 60364-5-52 method C"]),
    ("smallest conductor, mains", ["18 AWG", "14 AWG*", "1.5 mm2*"]),
    ("smallest conductor, in a sheath", ["18 AWG", "14 AWG*", "0.75 mm2"]),
])
def test_limits(name, cells):
    assert {one: list(found) for one, *found in limits()}[name] == cells


def test_every_limit_has_a_cell_for_every_practice(text):
    found = rows(text, "Limits")
    assert found.pop("") == list(PRACTICES) and all(all(cells) for cells in found.values())
    assert found == {name: cells for name, *cells in limits()}
    assert rows(text, "Conductors") == {"size": list(PRACTICES)} | {name: cells for name, *cells in conductors()}


def test_netlists_of_the_reader_come_first(monkeypatch):
    monkeypatch.setattr(practices, "rules", lambda: {"a-rule": RULES["protection-too-large"]})
    found = page([Verdict("mine", "some-rule", (1, 2, 30))])
    first, second, *_ = rows(found, "Verdicts").items()
    assert (first, second) == (("netlist rule", list(PRACTICES)), ("mine some-rule", ["1", "2", "30"]))
    assert "example of protection-too-large protection-too-large" in rows(found, "Verdicts")
    assert len(re.findall("(?m)^- [a-z_]+: .", found.partition("## Sources")[2])) >= 15


def test_columns_stand_under_each_other():
    assert table(("a", "long"), [("size", "-"), ("b", "cc")]) == (
        "| a    | long |\n"
        "| ---- | ---- |\n"
        "| size | -    |\n"
        "| b    | cc   |")


@pytest.mark.parametrize(("label", "cells"), [
    ("14 AWG", ["35 / 35", "15 / 15", "18 / 18"]), ("18 AWG", ["20 / 20", "-", "10* / 10"]),
    ("6 AWG", ["120 / 125", "55 / 60", "65 / 65"]), ("150 mm²", ["445 / 450", "255* / 300", "380* / 380"])])
def test_what_a_size_carries(label, cells):
    """33 CFR 183.425 Table 5; NEC Table 310.16 and 240.4(B), (D); ISO 13297 Table A.1: 105 °C, 75 °C, 70 °C."""
    assert {one: list(found) for one, *found in conductors()}[label] == cells


def test_verdicts_are_those_of_the_rules(text):
    """Each count again, and no difference left out: the samples and every rule's bad netlist."""
    table = rows(text, "Verdicts")
    netlists = {path.name: path.read_text(encoding="utf-8") for path in SAMPLES}
    netlists |= {f"example of {name}": rule.bad for name, rule in RULES.items()}
    expected = {}
    for name, netlist in netlists.items():
        found = {practice: check(read(re.sub("(?m)^practice: .*$", f"practice: {practice}", netlist)
                                      if "\npractice: " in f"\n{netlist}" else f"practice: {practice}\n{netlist}")[0])
                 for practice in PRACTICES}
        for rule in RULES:
            spoken = [[one for one in found[practice] if one.rule == rule and not one.accepted] for practice in PRACTICES]
            counts = [str(len(ones)) for ones in spoken]
            if len(set(counts)) > 1:
                expected[f"{name} {rule}"] = counts
    assert len(expected) > 30
    assert {name: cells for name, cells in table.items() if name != "netlist rule"} == expected


def test_a_practice_takes_the_place_of_another_and_stands_where_none_was():
    assert under("iso", "title: A\npractice: nec  # fixed\nnodes: {}\n") == "title: A\npractice: iso\nnodes: {}\n"
    assert under("nec", "title: A\n") == "practice: nec\ntitle: A\n"


def test_only_what_differs_is_a_verdict():
    netlist = RULES["protection-too-large"].bad
    assert list(differing("a", netlist)) == [Verdict("a", "protection-too-large", (1, 2, 2))]
    assert list(differing("a", RULES["short-circuit"].good)) == []
    with pytest.raises(ValueError, match="a: cannot be read under abyc"):
        list(differing("a", "nodes: 1\n"))


def test_the_same_each_time():
    said = {subprocess.run([sys.executable, "-m", "diagrammer", "explain", "--practices", *map(str, SAMPLES)], cwd=ROOT,
                           env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, check=True).stdout
            for seed in ("1", "2")}
    assert len(said) == 1


def test_the_command_tells_what_it_cannot_read(tmp_path, capsys):
    assert main(["explain", "--practices", str(tmp_path / "none.yaml")]) == 2
    broken = tmp_path / "broken.yaml"
    broken.write_text("nodes: 1\n", encoding="utf-8")
    assert main(["explain", "--practices", str(broken)]) == 2
    said = capsys.readouterr()
    assert said.out == "" and "can't be read" in said.err and "cannot be read under abyc" in said.err
    assert main(["explain", "--practices"]) == 0
    assert "## Limits" in capsys.readouterr().out


def test_what_is_accepted_is_no_verdict():
    """30 A protect 14 AWG on its 35 A (33 CFR 183.425 Table 5), not on its 15 A (NEC 240.4(D))."""
    text = """nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {name: lamp, feed: bank/fuse 30 A -> lamp, wire: 14 AWG 1 mMORE}
"""
    rule = "protection-too-large"
    (one,) = [one for one in differing("a", text.replace("MORE", "")) if one.rule == rule]
    assert one.counts == (0, 1, 1)
    accepted = text.replace("MORE", f", accept: {{{rule}: it is meant}}")
    assert rule not in {one.rule for one in differing("a", accepted)}
