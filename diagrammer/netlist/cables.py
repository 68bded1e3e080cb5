"""An ac path: one cable whose cores land at both ends, and pass or enter the devices between."""

from __future__ import annotations

from dataclasses import replace
from math import inf

from diagrammer.netlist import legs
from diagrammer.netlist.cores import Core, cores_of, lines_of
from diagrammer.netlist.draft import Draft, Entry
from diagrammer.netlist.model import Conductor, Inside, Joint, Leg, Node, Run, Stop, Terminal, Wire
from diagrammer.netlist.path import Item, Path
from diagrammer.netlist.spots import Spot, node_of, spot
from diagrammer.netlist.stops import through_end
from diagrammer.netlist.wires import Hop, Spec

OPENS_NEUTRAL = ("rcd", "rcbo", "plug")
DEVICES = ("fuse", "breaker", "switch", "rcd", "rcbo", "plug", "relay", "contactor", "galvanic-isolator")


def add(draft: Draft, entry: Entry, path: Path, spec: Spec) -> None:
    """The leg of a written ac path, its conductors, joints and runs, into the entry."""
    nodes = [node_of(draft, item) for item in path.items]
    if None in nodes or not legs.fits(draft, path, spec):
        return
    landings = _landings(draft, path, nodes)
    if landings is None:
        return
    stops = [_stop(item, node, landings.get(n), n, len(nodes))
             for n, (item, node) in enumerate(zip(path.items, nodes, strict=True))]
    numbers = _numbers(path)
    entry.legs.append(Leg("ac", tuple(stops), tuple("" if n is None else f"{entry.name}:a{n}" for n in numbers), False,
                          path.place))
    places, made, opened = sorted(landings), [], set(landings)
    for start, end in zip(places, places[1:], strict=False):
        cores = cores_of(draft, path, spec, landings[start], landings[end], path.items[end])
        if not cores:
            return
        for core in cores:
            chain = _chain(draft, path, nodes, start, end, core, landings[start])
            if chain is None:
                return
            opened.update(number for number, _, _ in chain)
            made += _pieces(entry, path, spec, numbers, stops, core, chain)
    entry.conductors += _runs(entry, spec, made)
    _idle(draft, path, nodes, opened)


def _idle(draft: Draft, path: Path, nodes: list[Node], opened: set[int]) -> None:
    """A device through which no core goes."""
    for number, (item, node) in enumerate(zip(path.items, nodes, strict=True)):
        if number not in opened:
            core = "earth" if node.kind.name == "galvanic-isolator" else "core"
            draft.say(item.place, f"no {core} of this cable goes through `{node.name}` ({node.kind.name})")


def _numbers(path: Path) -> list[int | None]:
    """For each joint the number of its conductor, None where it is bolted."""
    numbers, count = [], 0
    for joint in path.joints:
        numbers.append(count if joint == "->" else None)
        count += joint == "->"
    return numbers


def _landings(draft: Draft, path: Path, nodes: list[Node]) -> dict[int, Spot] | None:
    """Where the cable's cores are landed: every stop that is no device."""
    landings: dict[int, Spot] = {}
    last = len(nodes) - 1
    for number, (item, node) in enumerate(zip(path.items, nodes, strict=True)):
        if node.kind.name in DEVICES and 0 < number < last and not item.parts:
            continue
        if node.kind.sort == "through":
            how = "go through" if 0 < number < last else "end on"
            draft.say(item.place, f"an ac path can't {how} `{node.name}` ({node.kind.name})")
            return None
        if node.kind.sort == "end" and 0 < number < last:
            through_end(draft, item, node)
            return None
        found = spot(draft, item, node, "ac")
        if found is None:
            return None
        if found.port.form != "ac" or found.pole in ("N", "earth"):
            draft.say(item.place, f"an ac cable can't land on that terminal of `{node.name}`",
                      "Name an ac port, or write the circuit with `feed:`.")
            return None
        landings[number] = found
    return landings


def _stop(item: Item, node: Node, landing: Spot | None, number: int, count: int) -> Stop:
    port = node.name
    if landing and landing.port.name != "main":
        port = node.terminal(landing.port.name)
    return Stop(node.name, "" if number == 0 else port, "" if number == count - 1 else port, item.stud, item.place)


def _chain(
    draft: Draft, path: Path, nodes: list[Node], start: int, end: int, core: Core, landing: Spot,
) -> list[tuple[int, str, str]] | None:
    """(item's number, terminal entered, terminal left) along one core, devices that pass it whole left out."""
    lines = len(lines_of(landing))
    chain = [(start, "", core.a)]
    for number in range(start + 1, end):
        node = nodes[number]
        opens = _opens(draft, path.items[number], node, lines)
        if opens is None:
            return None
        if not opens(core.name):
            continue
        first = draft.passed.get(f"{node.name}.{core.name}")
        if first:
            draft.say(path.items[number].place,
                      f"`{node.name}` is passed a second time (the first is in line {first.line})",
                      "A contact is passed once.")
            return None
        draft.passed[f"{node.name}.{core.name}"] = path.items[number].place
        chain.append((number, *_core_terminals(draft, node, core.name)))
    return [*chain, (end, core.b, "")]


def _opens(draft: Draft, item: Item, node: Node, lines: int):
    """Which cores a device opens, as a question of the core's name."""
    kind = node.kind.name
    if kind == "galvanic-isolator":
        return lambda core: core == "earth"
    if kind == "plug":
        return lambda core: True
    poles = node.get("poles") if "poles" in node.places else lines + (kind in OPENS_NEUTRAL)
    if poles not in (lines, lines + 1):
        counts = legs.counted(poles, "pole", "poles"), legs.counted(lines, "line", "lines")
        draft.say(item.place, f"{counts[0]} in a cable of {counts[1]}",
                  f"It opens {lines}, or {lines + 1} with the neutral.")
        return None
    neutral = poles == lines + 1 or kind in OPENS_NEUTRAL
    return lambda core: core != "earth" and (core != "N" or neutral)


def _core_terminals(draft: Draft, node: Node, core: str) -> tuple[str, str]:
    ends = tuple(node.terminal(f"{core}.{number}") for number in (1, 2))
    for number, end in enumerate(ends, 1):
        draft.cores[end] = Terminal(end, node.name, str(number), core)
    draft.in_ac.add(node.name)
    forms = [inner.form for inner in node.kind.inside(node.values)] or ["contact"]
    draft.core_insides.append(Inside(node.name, *ends, forms[0], (), _side(core), core))
    return ends


def _side(core: str) -> str:
    return "earth" if core == "earth" else "ac"


def _pieces(
    entry: Entry, path: Path, spec: Spec, numbers: list[int | None], stops: list[Stop], core: Core,
    chain: list[tuple[int, str, str]],
) -> list[Conductor]:
    """The conductors and joints of one core."""
    wires, made = spec.split(path.wires), []
    for (i, _, a), (j, b, _) in zip(chain, chain[1:], strict=False):
        hops = [n for n in numbers[i:j] if n is not None]
        if not hops:
            entry.joints.append(Joint(entry.name, _side(core.name), core.name, a, b, path.place))
            continue
        wire, hop = min((wires[n] for n in hops), key=_thinness)
        if core.name == "earth" and spec.earth:
            wire = replace(wire, size=spec.earth)
        if not wire.inside:
            wire = replace(wire, inside=("sheath",))  # the cores of a cable have a sheath
        lengths = [wires[n][1].length if wires[n][1] and (spec.listed or path.wires == 1) else None for n in hops]
        own = None if None in lengths else sum(lengths)
        if own is None and hops == list(range(path.wires)):
            own = spec.length
        cable = f"{entry.name}:a{hops[0]}"
        made.append(Conductor(
            f"{cable}.{core.name}", cable, entry.name, "ac", _side(core.name), core.name, a, b, wire, own, "", False,
            stops[i].place.to(stops[j].place), hop.size_place if hop else None, (stops[i].stud, stops[j].stud),
        ))
    return made


def _thinness(wired: tuple[Wire, Hop | None]) -> float:
    """[mm²] of one stretch: a core that passes a device whole counts as its thinnest, the unsaid last."""
    from diagrammer.electrics.conductor import area  # here: few cables change size, and tables take time to load

    return area(wired[0].size) if wired[0].size else inf


def _runs(entry: Entry, spec: Spec, made: list[Conductor]) -> list[Conductor]:
    """Cores whose pieces have only a whole length get a run each."""
    if spec.listed or spec.length is None:
        return made
    runs: dict[str, list[str]] = {}
    for one in made:
        if one.length is None:
            runs.setdefault(one.core, []).append(one.id)
    for core, members in runs.items():
        entry.runs.append(Run(f"{entry.name}:a.{core}", spec.length, tuple(members)))
    return [replace(one, run=f"{entry.name}:a.{one.core}") if one.length is None else one for one in made]
