"""The import contract of pyproject.toml: data walks one way."""

from __future__ import annotations

import ast
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
LAYERS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["layers"]
RANK = {name: rank for rank, names in enumerate(LAYERS["order"]) for name in names}
FILES = sorted((ROOT / "diagrammer").rglob("*.py"))


def imports(path: Path) -> list[tuple[int, str]]:
    """(line, module) of every import of a file, those inside functions too."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.append((node.lineno, node.module))
            if node.module == "diagrammer":
                found += [(node.lineno, f"diagrammer.{alias.name}") for alias in node.names]
    return found


def part(module: str) -> str:
    names = module.split(".")
    return names[1] if names[0] == "diagrammer" and len(names) > 1 else ""


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_file_imports_only_from_below(path):
    own = part(".".join(path.relative_to(ROOT).with_suffix("").parts))
    if own == "__init__":
        return
    assert own in RANK, f"{own} has no place in pyproject.toml's order"
    for line, module in imports(path):
        other = part(module)
        if other in RANK and other != own:
            assert RANK[other] > RANK[own], f"{path}:{line}: {own} imports {other}"
        for package, place in LAYERS["only"].items():
            if module.split(".")[0] == package:
                assert path.relative_to(ROOT).as_posix().startswith(place), f"{path}:{line}: only {place} knows {package}"


def test_no_file_of_one_line_imports_its_neighbour():
    for names in LAYERS["order"]:
        for own in names:
            for path in (ROOT / "diagrammer" / own).rglob("*.py"):
                assert not {part(module) for _, module in imports(path)} & (set(names) - {own}), path
