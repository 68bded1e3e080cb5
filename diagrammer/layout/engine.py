"""Graphviz, and nothing else of it than a list of boxes with their places. The only file that knows it."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from pathlib import Path

from diagrammer.frozen import frozen

LIMIT = 20  # [s] a run may take
INCH = 25.4  # [mm]
POINT = INCH / 72  # [mm]


@frozen
class Placement:
    """x of each box's middle [mm], () where no engine answered; who answered, or why none did."""

    xs: tuple[float, ...]
    engine: str
    remark: str = ""


@cache
def program(asked: str) -> tuple[str, str]:
    """The engine to run and what to call it; "" where there is none. The one installed by pip comes
    first: it gives the same places everywhere."""
    if asked:
        return asked, Path(asked).name
    for path in (_installed(), shutil.which("dot")):
        if path:
            return str(path), Path(path).name
    return "", ""


def _installed() -> str:
    from importlib import metadata

    try:
        files = metadata.files("graphviz-pure") or ()
    except metadata.PackageNotFoundError:
        return ""
    recorded = (Path(str(file.locate())) for file in files if Path(str(file)).stem == "graphviz-pure")
    return _usable(recorded) or _usable(_scripts())


def _scripts() -> Iterator[Path]:
    """Where pip puts programs; asked last, as it takes a while to find out."""
    import sysconfig

    folder = Path(sysconfig.get_path("scripts"))
    yield from (folder / name for name in ("graphviz-pure", "graphviz-pure.exe"))


def _usable(paths: Iterable[Path]) -> str:
    return next((str(path.resolve()) for path in paths if path.is_file() and os.access(path, os.X_OK)), "")


def place(
    ranks: Sequence[Sequence[int]], sizes: Sequence[tuple[float, float]], edges: Sequence[tuple[int, int]],
    asked: str = "",
) -> Placement:
    """Places of boxes in ranks, in the order given. sizes: width and height [mm]; edges join indices.

    asked: "own" for no engine, a path, or "" to search.
    """
    if asked == "own":
        return Placement((), "own packing")
    path, name = program(asked)
    if not path:
        return Placement((), "own packing", "no Graphviz found")
    from graphviz import CalledProcessError, ExecutableNotFound
    from graphviz.backend.execute import run_check
    from subprocess import TimeoutExpired

    try:
        done = run_check(
            [path, "-Kdot", "-Tjson0"], input=source(ranks, sizes, edges).encode(), capture_output=True, timeout=LIMIT,
        )
        return Placement(_read(done.stdout, len(sizes)), name)
    except (CalledProcessError, ExecutableNotFound, TimeoutExpired, OSError, ValueError, KeyError) as error:
        return Placement((), "own packing", f"{name} failed ({type(error).__name__})")


def source(ranks, sizes, edges) -> str:
    """The graph: fixed boxes n0 ... without labels, one rank a row, kept in order by invisible edges."""
    lines = ["digraph {", f"graph [nodesep={4 / INCH:.4f} ranksep={10 / INCH:.4f} ordering=out]",
             'node [shape=box fixedsize=true label=""]']
    for number, (wide, high) in enumerate(sizes):
        lines.append(f"n{number} [width={wide / INCH:.4f} height={high / INCH:.4f}]")
    for rank in ranks:
        if len(rank) > 1:
            lines.append("{rank=same " + " -> ".join(f"n{n}" for n in rank) + " [style=invis weight=0]}")
    lines += [f"n{a} -> n{b}" for a, b in edges]
    return "\n".join([*lines, "}"])


def _read(data: bytes, count: int) -> tuple[float, ...]:
    objects = {o["name"]: o for o in json.loads(data)["objects"]}
    return tuple(float(objects[f"n{n}"]["pos"].split(",")[0]) * POINT for n in range(count))
