"""A folder of modules loads what is asked for, and finds all it holds."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from diagrammer import kinds, symbols
from diagrammer.folder import Folder

FOLDERS = {"kinds": (kinds.KINDS, kinds, "KIND = "),
           **{family: (symbols.FAMILIES[family], getattr(symbols, family), "SYMBOL = ") for family in symbols.FAMILIES}}


@pytest.mark.parametrize("folder, package, holds", FOLDERS.values(), ids=FOLDERS)
def test_every_file_that_holds_something_is_found_by_its_name(folder, package, holds):
    files = [path for path in Path(package.__file__).parent.glob("*.py") if holds in path.read_text(encoding="utf-8")]
    assert len(folder) == len(files) > 3
    assert {name.replace(" ", "_").replace("-", "_") for name in folder} == {path.stem for path in files}
    assert all(one.name == name for name, one in folder.items())


@pytest.mark.parametrize("name", ("", "kind", "field", "solar-charger", "solar_charger", "../frozen", "no such"))
def test_what_is_no_name_of_a_kind_is_not_found(name):
    assert name not in kinds.KINDS and kinds.KINDS.get(name) is None
    with pytest.raises(KeyError):
        kinds.KINDS[name]


def test_only_leaves_out():
    some = Folder("diagrammer.kinds", kinds.__path__, "KIND", lambda kind: kind.name == "bank")
    assert list(some) == ["bank"] and "fuse" not in some


def test_nothing_is_loaded_before_it_is_asked_for():
    code = ("import sys; from diagrammer.kinds import KINDS; before = 'diagrammer.kinds.wind' in sys.modules; "
            "KINDS['wind']; print(before, 'diagrammer.kinds.wind' in sys.modules)")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True,
                          cwd=Path(__file__).parents[1])
    assert done.stdout.split() == ["False", "True"]
