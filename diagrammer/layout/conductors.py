"""What is written at conductors: number, size and length, the same in the other system, current and voltage."""

from __future__ import annotations

from typing import TYPE_CHECKING

from diagrammer.frozen import frozen
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import SIGNALS, Link, Wiring
from diagrammer.layout.texts import SIZE, width
from diagrammer.netlist.model import Conductor, System
from diagrammer.quantity import Size, show

if TYPE_CHECKING:
    from diagrammer.circuit.readings import Reading

Pieces = tuple[tuple[str, bool], ...]  # one line: texts, bold or not
FOOT = 0.3048  # [m] international foot (ISO 80000-3)
LIKE = 0.05  # share by which areas may differ of sizes that stand for each other
STILL = 5e-4  # [A] what is written as no current
SPACE = 1.0  # [mm] between the pieces of a line


@frozen
class Run:
    """Conductors one after the other of one size: `length` [m] of them together, 0 where it is not said."""

    parallel: int
    size: Size | None
    length: float
    feet: bool
    metal: str = "copper"


def written(wiring: Wiring, options: Options) -> dict[str, tuple[Pieces, ...]]:
    """Lines of words at each cable. What has nothing written at it is left out."""
    named = numbers(wiring.system) if options.numbers else {}
    beside = _paired(wiring) if named else {}
    made = {}
    for circuit in wiring.system.circuits:
        found = runs(wiring, circuit.name, circuit.feet)
        for cable in dict.fromkeys(one.cable for one in wiring.by_circuit.get(circuit.name, ())):
            number = ", ".join(named[one] for one in (cable, *beside.get(cable, ()))) if named else ""
            lines = _lines(found.get(cable), number, options.both)
            if lines:
                made[cable] = lines
    return made


def _lines(run: Run | None, number: str, both: bool) -> tuple[Pieces, ...]:
    first = tuple((text, bold) for text, bold in ((number, True), (said(run) if run else "", False)) if text)
    second = converted(run) if run and both else ""
    return (*((first,) if first else ()), *((((second, False),),) if second else ()))


def numbers(system: System) -> dict[str, str]:
    """A number for each cable, in file order; the cores of cable 12 are 12.L, 12.N, 12.earth."""
    cables = dict.fromkeys(one.cable for one in system.conductors)
    return {cable: str(number) for number, cable in enumerate(cables, 1)}


def _paired(wiring: Wiring) -> dict[str, list[str]]:
    """The returns drawn in one line with their feeds: by the feed's cable at which they begin or end."""
    made: dict[str, list[str]] = {}
    for back in wiring.paired:
        if not back.cable:
            continue
        ends = {back.a[0][0], back.b[0][0]}
        feeds = [one for one in wiring.links if one.circuit == back.circuit and one.role == "feed" and one.cable]
        best = max(feeds, key=lambda one: len(ends & {one.a[0][0], one.b[0][0]}), default=None)
        if best:
            made.setdefault(best.cable, []).append(back.cable)
    return made


def runs(wiring: Wiring, circuit: str, feet: bool = False) -> dict[str, Run]:
    """The runs of a circuit, each by the first of its cables."""
    made: dict[str, Run] = {}
    first, seen = None, set()
    for conductor in wiring.by_circuit.get(circuit, ()):
        if conductor.cable in seen:  # by another of its cores
            continue
        seen.add(conductor.cable)
        wire = conductor.wire
        alike = conductor.role, conductor.derived, wire.parallel, wire.size, wire.material
        if first is None or first[0] != alike:
            first = alike, conductor.cable
        before = made[first[1]].length if first[1] in made else 0.0
        made[first[1]] = Run(wire.parallel, wire.size, before + _length(wiring.system, conductor), feet, wire.material)
    return made


def _length(system: System, one: Conductor) -> float:
    """[m] of a conductor; of several that have one length together the first has all of it."""
    if one.length is None and one.run:
        run = system.runs[one.run]
        return run.length if run.members and run.members[0] == one.id else 0.0
    return one.length or 0.0


def said(run: Run) -> str:
    """As the netlist has it: "2 parallel 2/0 AWG 6 ft"."""
    return " ".join(filter(None, (_sized(run, run.size.label if run.size else ""), length(run.length, run.feet))))


def converted(run: Run) -> str:
    """The same in the other system: "2 parallel ≈ 70 mm² 1.8 m"."""
    return " ".join(filter(None, (_sized(run, other(run.size) if run.size else ""), length(run.length, not run.feet))))


def _sized(run: Run, size: str) -> str:
    """With the number of them, and the metal where it is not copper."""
    size = f"{size} Al" if size and run.metal == "aluminium" else size
    return f"{run.parallel} parallel {size}" if size and run.parallel > 1 else size


def length(metres: float, feet: bool = False) -> str:
    if not metres:
        return ""
    value, unit = (metres / FOOT, "ft") if feet else (metres, "m")
    said = f"{value:.1f}".removesuffix(".0") if value >= 0.95 else f"{value:.2f}".rstrip("0")
    return f"{said} {unit}"


def other(size: Size) -> str:
    """A size as the other system makes it: `≈` one of about the area, else `≤` the next thicker one; where
    none is so thick the area itself.

    The sizes that are made: IEC 60228 Tables 2 and 3; NEC Chapter 9 Table 8.
    """
    from diagrammer.electrics.conductor import area, made

    own, metric = area(size), size.system != "mm²"
    sizes = made("mm²" if metric else "AWG")
    near = min(sizes, key=lambda one: abs(area(one) / own - 1))
    if abs(area(near) / own - 1) <= LIKE:
        return f"{'' if abs(area(near) / own - 1) < 1e-9 else '≈ '}{near.label}"
    thicker = next((one for one in sizes if area(one) > own), None)
    return f"≤ {thicker.label}" if thicker else f"{own:.3g} mm²" if metric else f"> {sizes[-1].label}"


def reading(read: Reading, way: str) -> Pieces:
    """Current with an arrow the way it flows, and voltage; `way`: the arrow from the cable's a to its b."""
    turned = dict(zip("↑↓←→", "↓↑→←"))
    amps = [one if abs(one) >= STILL else 0.0 for one in read.amps]
    arrow = "" if not any(amps) else way if max(amps, key=abs) > 0 else turned[way]
    flow = " / ".join(dict.fromkeys(show(abs(one), "A") for one in amps))
    texts = (f"{arrow} {flow}".strip(), show(read.volts, "V", 4) if read.volts is not None else "")
    return tuple((text, False) for text in texts if text)


def wide(lines: tuple[Pieces, ...]) -> float:
    """[mm] of the widest line."""
    return max((sum(width(t, SIZE, b) for t, b in line) + SPACE * (len(line) - 1) for line in lines), default=0.0)


def is_lead(link: Link) -> bool:
    """Whether it is a sense or control lead."""
    return link.a[1] in SIGNALS or link.b[1] in SIGNALS
