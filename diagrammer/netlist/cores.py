"""The cores of an ac cable between two landings."""

from __future__ import annotations

from diagrammer.frozen import frozen
from diagrammer.netlist.draft import Draft
from diagrammer.netlist.path import Item, Path
from diagrammer.netlist.spots import Spot
from diagrammer.netlist.wires import Spec
from diagrammer.text.suggest import listed


@frozen
class Core:
    """One core from landing to landing."""

    name: str
    a: str
    b: str


def lines_of(landing: Spot) -> tuple[str, ...]:
    return tuple(landing.pole.split("+")) if landing.pole else landing.port.lines


def cores_of(draft: Draft, path: Path, spec: Spec, a: Spot, b: Spot, item: Item) -> list[Core]:
    """The cores both ends have, but for those that `cores` leaves out."""
    from_lines, to_lines = lines_of(a), lines_of(b)
    if len(from_lines) != len(to_lines):
        draft.say(item.place,
                  f"{listed(from_lines)} of `{a.node.name}` can't be joined to {listed(to_lines)} of `{b.node.name}`",
                  "Name the lines, as `panel.L2` or `panel.L1+L2`.")
        return []
    cores = [Core(x if len(x) >= len(y) else y, _terminal(a, x), _terminal(b, y))
             for x, y in zip(from_lines, to_lines, strict=True)]
    if a.port.neutral and b.port.neutral:
        cores.append(Core("N", _terminal(a, "N"), _terminal(b, "N")))
    earths = _earth(a), _earth(b)
    if all(earths):
        cores.append(Core("earth", *earths))
    if spec.cores:
        names = {core.name for core in cores}
        missing = [name for name in spec.cores if name not in names and name != "earth"]
        if missing:
            draft.say(spec.place, f"cores: {listed(missing)} is not at both ends; there are {listed(sorted(names))}")
            return []
        cores = [core for core in cores if core.name in spec.cores]
    return cores


def _terminal(landing: Spot, pole: str) -> str:
    prefix = "" if landing.port.name == "main" else f"{landing.port.name}."
    return landing.node.terminal(f"{prefix}{pole}")


def _earth(landing: Spot) -> str:
    if landing.port.earth:
        return _terminal(landing, "earth")
    return landing.node.terminal("earth") if any(port.name == "earth" for port in landing.node.ports) else ""
