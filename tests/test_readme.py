"""What README.md tells to do can be done."""

from __future__ import annotations

import re
from pathlib import Path

from diagrammer import commands
from diagrammer.netlist.read import read
from diagrammer.rules.run import check
from tests.kinds_table import table

README = (Path(__file__).resolve().parents[1] / "README.md").read_text(encoding="utf-8")


def example() -> str:
    return re.search(r"```yaml\n(.+?)```", README, re.S)[1]


def rules(text: str) -> set[str]:
    system, problems = read(text)
    assert not problems, problems
    return {one.rule for one in check(system) if one.severity != "notice"}


def test_the_first_netlist_is_sound():
    assert rules(example()) == set()


def test_the_three_ways_to_break_it_are_found():
    text = example()
    assert "missing-protection" in rules(text.replace("bank/fuse class-t 100 A 20 kA -> switch", "bank -> switch"))
    assert "wrong-domain" in rules(text.replace("kind: load, voltage: 12 V", "kind: load, voltage: 24 V"))
    broken = text.replace("wire: 14 AWG 4 m", "return: lamps -> bank, wire: 14 AWG 4 m")
    assert "unmeasured-return" in rules(broken)


def test_every_command_it_names_exists_and_every_command_is_named():
    named = set(re.findall(r"^diagrammer ([a-z]+)", README, re.M))
    assert named == set(commands.names())


def test_its_files_exist():
    for path in re.findall(r"\]\((?!http)([^)]+)\)", README):
        assert (Path(__file__).resolve().parents[1] / path).exists(), path


def test_its_table_of_kinds_is_today_s():
    """`python -m tests.kinds_table` prints it anew."""
    assert re.search(r"<!-- kinds -->\n(.+?)\n<!-- end -->", README, re.S)[1] == table()
