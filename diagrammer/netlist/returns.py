"""The wire of a return, and the conductors of those that are derived."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from diagrammer.netlist import legs
from diagrammer.netlist.draft import Draft, Entry
from diagrammer.netlist.model import Conductor, Leg, Node, Stop
from diagrammer.netlist.path import Path
from diagrammer.netlist.stops import poles
from diagrammer.netlist.ways_back import Gap, WayBack
from diagrammer.netlist.wires import Hop, Spec


def spec_of(draft: Draft, entry: Entry) -> Spec:
    """The return's wire: its own, and of the feed's what that leaves out."""
    feed, own = entry.spec.feed or entry.spec, entry.spec.back
    if own and (own.base.size or any(hop.size for hop in own.hops)):
        return own
    wires = [wire for wire, _ in feed.split(max(1, len(feed.hops)))]
    last = wires[-1]
    if len({(wire.size, wire.parallel) for wire in wires if wire.size}) > 1:
        draft.say((own or feed).place or entry.place, "the feed changes its size on the way: the return's is not clear",
                  "Write `wire: {feed: ..., return: ...}`.")
    base = replace(own.base if own else feed.base, size=last.size, parallel=last.parallel)
    return replace(own, base=base) if own else Spec(base, place=feed.place)


def written(draft: Draft, entry: Entry, path: Path) -> Spec:
    """The wire of a return written beside a feed: where it says no length, it has the feed's whole one, as one run."""
    if not path.wires and not (entry.spec.back and entry.spec.back.listed):
        return Spec(entry.spec.base)
    spec = spec_of(draft, entry)
    if any(hop.length is not None for hop in spec.hops) or spec.listed:
        return spec
    strap = _strap(draft.nodes[item.name] for item in (path.items[0], path.items[-1]) if item.name in draft.nodes)
    length = (entry.spec.feed or entry.spec).length if strap is None else strap
    return _with_length(spec, length, entry)


def _with_length(spec: Spec, length: float | None, entry: Entry) -> Spec:
    if length is None:
        return spec
    hop = spec.hops[0] if spec.hops else Hop(spec.place or entry.place)
    return replace(spec, hops=(replace(hop, length=length),))


def _strap(nodes: Iterable[Node]) -> float | None:
    """[m] of the lead to a chassis that one of the nodes is."""
    return next((node["strap"] for node in nodes if node.get("strap") is not None), None)


def derive(draft: Draft, entry: Entry, gaps: list[Gap]) -> None:
    """Make an entry's returns: one leg a gap, through the second pole of what stands between."""
    spec = spec_of(draft, entry)
    stops = [_stops(draft, gap) for gap in gaps]
    count = sum(len(one) - 1 for one in stops)
    if spec.listed and len(spec.hops) != count:
        entries = legs.counted(len(spec.hops), "entry", "entries")
        draft.say(spec.place, f"{entries} for {legs.counted(count, 'conductor', 'conductors')} of the return",
                  "One size and length alone is the whole run.")
        return
    pairs = iter(enumerate(spec.split(count)))
    made = [[_conductor(entry, gap, spec, a, b, *next(pairs)) for a, b in zip(one, one[1:], strict=False)]
            for gap, one in zip(gaps, stops, strict=True)]
    for gap, one, pieces in zip(gaps, stops, made, strict=True):
        entry.legs.append(Leg("return", tuple(one), tuple(piece.cable for piece in pieces), True, gap.feed.place))
    entry.conductors += _measured(draft, entry, spec, gaps, made)


def _conductor(entry: Entry, gap: Gap, spec: Spec, a: Stop, b: Stop, number: int, wire: tuple) -> Conductor:
    cable, hop = f"{entry.name}:r{number}", wire[1]
    return Conductor(
        cable, cable, entry.name, "return", "return", "", a.leave, b.enter, wire[0],
        hop.length if hop and spec.listed else None, "", True, gap.feed.place, spec.place, (a.stud, b.stud),
    )


def _stops(draft: Draft, gap: Gap) -> list[Stop]:
    stops = [_end(draft, gap.a, gap.feed.stops[gap.a.number])]
    for stop in gap.feed.stops[gap.a.number + 1 : gap.b.number]:
        second = _second_pole(draft, draft.nodes[stop.node])
        if second:
            stops.append(Stop(stop.node, *second, "", stop.place))
            draft.passed.update(dict.fromkeys(second, stop.place))
    last = _end(draft, gap.b, gap.feed.stops[gap.b.number])
    return [replace(stops[0], enter=""), *stops[1:], replace(last, leave="")]


def _end(draft: Draft, back: WayBack, stop: Stop) -> Stop:
    node = draft.nodes.get(back.terminal) or draft.nodes[back.terminal.split(".")[0]]
    return Stop(node.name, back.terminal, back.terminal, stop.stud if node.name == stop.node else "", stop.place)


def _second_pole(draft: Draft, node: Node) -> tuple[str, str] | None:
    contacts = {port.name for port in node.ports if port.form == "contact"}
    pair = node.terminal("3"), node.terminal("4")
    free = node.kind.sort == "through" and poles(node) == 2 and {"3", "4"} <= contacts and pair[0] not in draft.passed
    return pair if free else None


def _measured(draft: Draft, entry: Entry, spec: Spec, gaps: list[Gap], made: list[list[Conductor]]) -> list[Conductor]:
    """Lengths: as said for the return; else the strap; else the feed's, each stretch its own or all as one run."""
    everything = [piece for pieces in made for piece in pieces]
    if spec.listed:
        return everything
    if spec.length is not None:
        return legs.share(entry, f"{entry.name}:r", everything, spec.length)
    feed, rest, done = entry.spec.feed or entry.spec, [], {}
    for gap, pieces in zip(gaps, made, strict=True):
        strap = _strap(draft.nodes[back.terminal] for back in (gap.a, gap.b) if back.terminal in draft.nodes)
        if strap is None and not feed.listed:
            rest += pieces
            continue
        length = _stretch(feed, gap) if strap is None else strap
        done |= {one.id: one for one in legs.share(entry, pieces[0].cable, pieces, length)}
    done |= {one.id: one for one in legs.share(entry, f"{entry.name}:r", rest, feed.length)}
    return [done[piece.id] for piece in everything]


def _stretch(feed: Spec, gap: Gap) -> float | None:
    """[m] of a listed feed between the two ways back."""
    start, end = (sum(1 for link in gap.feed.links[: back.number] if link) for back in (gap.a, gap.b))
    lengths = [hop.length for hop in feed.hops[start:end]]
    return None if None in lengths else sum(lengths)
