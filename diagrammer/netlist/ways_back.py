"""Derived returns: a feed without a return is cut at its places with a way back, and each two
neighbours get one conductor from way back to way back."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from diagrammer.netlist import legs
from diagrammer.netlist.draft import Draft, Entry
from diagrammer.netlist.model import Conductor, Leg, Node, Stop
from diagrammer.netlist.nodes import way_back_of_pair
from diagrammer.netlist.path import Item
from diagrammer.netlist.wires import Spec

SHARED_KINDS = ("bar", "joint", "panel", "bank", "battery")  # many returns land there


@dataclass(frozen=True)
class WayBack:
    """Where the return of the feed's stop `number` lands. `own`: a - that is the node's alone."""

    number: int
    terminal: str
    own: bool


@dataclass
class Landed:
    """Returns that are there already: for each terminal the terminals they lead to, through
    devices; and the terminals in the middle of a stack of batteries."""

    returns: dict[str, list[str]] = field(default_factory=dict)
    stacked: set[str] = field(default_factory=set)

    def join(self, a: str, b: str) -> None:
        self.returns.setdefault(a, []).append(b)
        self.returns.setdefault(b, []).append(a)


def written(draft: Draft) -> Landed:
    """What the written returns and series links of all circuits have landed."""
    landed = Landed()
    for entry in draft.entries:
        for leg in entry.legs:
            if leg.role == "return":
                ends = [stop for stop in leg.stops if draft.nodes[stop.node].kind.sort != "through" or stop in (leg.stops[0], leg.stops[-1])]
                for a, b in zip(ends, ends[1:], strict=False):
                    landed.join(a.leave, b.enter)
            elif leg.role == "series":
                landed.stacked.update(stop.enter for stop in leg.stops[1:])
    return landed


def derive(draft: Draft, entry: Entry, landed: Landed) -> None:
    """Make the returns of an entry's feed; what is made is added to `landed`."""
    feed = next((leg for leg in entry.legs if leg.role == "feed"), None)
    if feed is None or entry.no_return or "return" in entry.paths:
        return
    items = entry.paths["feed"].items
    backs = [back for n, (item, stop) in enumerate(zip(items, feed.stops, strict=True)) if (back := way_back(draft, item, stop, n))]
    made: list[Conductor] = []
    for a, b in zip(backs, backs[1:], strict=False):
        if a.terminal == b.terminal or _has_one(draft, entry, feed, a, b, landed):
            continue
        if _in_stack(draft, entry, feed, a, b, landed):
            continue
        made += _connect(draft, entry, feed, a, b, len(made))
        landed.join(a.terminal, b.terminal)
    entry.conductors += made


def way_back(draft: Draft, item: Item, stop: Stop, number: int) -> WayBack | None:
    node = draft.nodes[stop.node]
    terminal = stop.leave or stop.enter
    local = terminal.removeprefix(node.name).removeprefix(".")
    if any(part.text == "-" for part in item.parts):
        return None
    pair = node.get("pair")
    if node.kind.name in ("bar", "joint"):
        back = way_back_of_pair(draft.nodes[pair]) if pair else ""
        return WayBack(number, back, False) if back else None
    if pair:
        return WayBack(number, way_back_of_pair(draft.nodes[pair]), False)
    if local.endswith("+"):
        own = node.terminal(f"{local[:-1]}-")
        if any(node.terminal(name) == own for port in node.ports for name in port.terminals()):
            return WayBack(number, own, node.kind.name not in SHARED_KINDS)
    return None


def _has_one(draft: Draft, entry: Entry, feed: Leg, a: WayBack, b: WayBack, landed: Landed) -> bool:
    """Whether a return is there already; where it lands elsewhere, the writer is asked."""
    own = [back for back in (a, b) if back.own]
    if not own or not all(back.terminal in landed.returns for back in own):
        return False
    if b.terminal not in landed.returns.get(a.terminal, ()):
        back, other = (a, b) if a.own else (b, a)
        lands = landed.returns[back.terminal][0]
        _ask(draft, entry, feed, f"the return of `{back.terminal}` is written already and lands on `{lands}`, not on `{other.terminal}`")
    return True


def _in_stack(draft: Draft, entry: Entry, feed: Leg, a: WayBack, b: WayBack, landed: Landed) -> bool:
    """A way back from the middle of a stack of batteries would short what is below."""
    for back in (a, b):
        if back.terminal in landed.stacked:
            _ask(draft, entry, feed, f"`{back.terminal}` is the middle of a series stack: a return from there would short what is below")
            return True
    return False


def _ask(draft: Draft, entry: Entry, feed: Leg, message: str) -> None:
    draft.say(feed.place, message, "Write `return:` with its path, or `return: none`.")


def _connect(draft: Draft, entry: Entry, feed: Leg, a: WayBack, b: WayBack, count: int) -> list[Conductor]:
    """Conductors from way back to way back, through the second pole of what stands between."""
    stops = [_end(draft, a, feed.stops[a.number])]
    for stop in feed.stops[a.number + 1 : b.number]:
        second = _second_pole(draft, draft.nodes[stop.node])
        if second:
            stops.append(Stop(stop.node, *second, "", stop.place))
            for terminal in second:
                draft.passed[terminal] = stop.place
    stops.append(_end(draft, b, feed.stops[b.number]))
    spec = return_spec(draft, entry)
    wire = spec.split(1)[0][0]
    length = _length(draft, entry, spec, feed, a, b)
    made = []
    for first, last in zip(stops, stops[1:], strict=False):
        cable = f"{entry.name}:r{count + len(made)}"
        made.append(Conductor(
            cable, cable, entry.name, "return", "return", "", first.leave or first.enter, last.enter or last.leave,
            wire, length if len(stops) == 2 else None, "", True, feed.place, spec.place, (first.stud, last.stud),
        ))
    entry.legs.append(Leg("return", tuple(stops), tuple(one.cable for one in made), True, feed.place))
    return legs.share(entry, f"{entry.name}:r{count}", made, length)


def _end(draft: Draft, back: WayBack, stop: Stop) -> Stop:
    node = draft.nodes.get(back.terminal) or draft.nodes[back.terminal.split(".")[0]]
    return Stop(node.name, back.terminal, back.terminal, stop.stud if node.name == stop.node else "", stop.place)


def _second_pole(draft: Draft, node: Node) -> tuple[str, str] | None:
    contacts = {port.name for port in node.ports if port.form == "contact"}
    if node.kind.sort != "through" or (node.get("poles") or 1) < 2 or not {"3", "4"} <= contacts:
        return None
    pair = node.terminal("3"), node.terminal("4")
    return None if pair[0] in draft.passed else pair


def return_spec(draft: Draft, entry: Entry) -> Spec:
    """The return's wire: its own, and of the feed's what that leaves out."""
    spec = entry.spec
    feed = spec.feed or spec
    wires = [wire for wire, _ in feed.split(max(1, len(feed.hops)))]
    own = spec.back or Spec(feed.base)
    sizes = {(wire.size, wire.parallel) for wire in wires}
    says = any(hop.size for hop in own.hops) or own.base.size
    if len(sizes) > 1 and not says and len(sizes - {(None, 1)}) > 1:
        draft.say(feed.place, "the feed changes its size on the way: the return's is not clear",
                  "Write `wire: {feed: ..., return: ...}`.")
    if not says:
        own = replace(own, base=replace(own.base, size=wires[-1].size, parallel=wires[-1].parallel))
    return replace(own, place=own.place or feed.place)


def _length(draft: Draft, entry: Entry, spec: Spec, feed: Leg, a: WayBack, b: WayBack) -> float | None:
    for back in (a, b):
        node = draft.nodes.get(back.terminal)
        if node and node.get("strap") is not None:
            return node.get("strap")
    if spec.hops:
        return spec.length
    of_feed = entry.spec.feed or entry.spec
    if not of_feed.listed:
        return of_feed.length
    start = sum(1 for link in feed.links[: a.number] if link)
    end = sum(1 for link in feed.links[: b.number] if link)
    lengths = [hop.length for hop in of_feed.hops[start:end]]
    return None if None in lengths else sum(lengths)
