"""Which returns are derived: a feed without a return is cut at its places with a way back, and each two
neighbours get one conductor from way back to way back, unless they have one already."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field

from diagrammer.frozen import changing, frozen
from diagrammer.netlist.draft import Draft, Entry
from diagrammer.netlist.model import Leg, Node, Stop
from diagrammer.netlist.pairs import way_back_of_pair
from diagrammer.netlist.path import Item

SHARED_KINDS = ("bar", "joint", "panel", "bank", "battery")  # many returns land there
STACKED_KINDS = ("bank", "battery", "pv")  # their voltages add up when + meets -


@frozen
class WayBack:
    """Where the return of the feed's stop `number` lands. `own`: a - that is the node's alone."""

    number: int
    terminal: str
    own: bool


@frozen
class Gap:
    """Two neighbours of a feed that want a return between them."""

    entry: Entry
    feed: Leg
    a: WayBack
    b: WayBack

    @property
    def own(self) -> list[WayBack]:
        return [back for back in (self.a, self.b) if back.own]


@changing
class Landed:
    """Returns that are there already: for each terminal the terminals they lead to, through devices, in file
    order; and the terminals in the middle of a stack of batteries or modules."""

    returns: dict[str, dict[str, None]] = field(default_factory=dict)
    stacked: set[str] = field(default_factory=set)

    def join(self, a: str, b: str) -> None:
        self.returns.setdefault(a, {})[b] = None
        self.returns.setdefault(b, {})[a] = None


def wanted(draft: Draft) -> dict[int, list[Gap]]:
    """The returns to make: of each entry, by its place in the file, in the order of its feed.

    Gaps with one - of its own go first, then those with two: so the order of circuits makes no difference.
    """
    landed, gaps = _written(draft), list(_gaps(draft))
    made: dict[int, list[Gap]] = {}
    for gap in sorted(gaps, key=lambda gap: len(gap.own) > 1):
        if not _has_one(draft, gap, landed) and not _in_stack(draft, gap, landed):
            landed.join(gap.a.terminal, gap.b.terminal)
            made.setdefault(id(gap.entry), []).append(gap)
    return {entry: sorted(of, key=lambda gap: gap.a.number) for entry, of in made.items()}


def _gaps(draft: Draft) -> Iterator[Gap]:
    for entry in draft.entries:
        feed = next((leg for leg in entry.legs if leg.role == "feed"), None)
        if feed is None or entry.no_return or "return" in entry.paths:
            continue
        met = enumerate(zip(entry.paths["feed"].items, feed.stops, strict=True))
        backs = [back for number, (item, stop) in met if (back := _way_back(draft, item, stop, number))]
        yield from (Gap(entry, feed, a, b) for a, b in zip(backs, backs[1:], strict=False) if a.terminal != b.terminal)


def _written(draft: Draft) -> Landed:
    """What the written returns of all circuits have landed, and what stands in series."""
    landed = Landed()
    for entry in draft.entries:
        for leg in entry.legs:
            met = [stop for n, stop in enumerate(leg.stops) if n in (0, len(leg.stops) - 1) or not _passed(draft, stop)]
            for a, b in zip(met, met[1:], strict=False):
                if leg.role == "return":
                    landed.join(a.leave, b.enter)
                landed.stacked |= _middle(draft, a, b)
    return landed


def _passed(draft: Draft, stop: Stop) -> bool:
    return draft.nodes[stop.node].kind.sort == "through"


def _middle(draft: Draft, a: Stop, b: Stop) -> set[str]:
    """The - that stands on another one's +."""
    ends = {a.leave[-1:]: a.leave, b.enter[-1:]: b.enter}
    kinds = {draft.nodes[stop.node].kind.name for stop in (a, b)}
    return {ends["-"]} if set(ends) == {"+", "-"} and a.node != b.node and kinds <= set(STACKED_KINDS) else set()


def _way_back(draft: Draft, item: Item, stop: Stop, number: int) -> WayBack | None:
    """Chassis, pins, contacts, single leads and a place whose - is written out have none."""
    node, terminal = draft.nodes[stop.node], stop.leave or stop.enter
    if any(part.text == "-" for part in item.parts):
        return None
    if node.get("pair"):
        back = way_back_of_pair(draft.nodes.get(node["pair"]))
        return WayBack(number, back, False) if back else None
    local = terminal.removeprefix(node.name).removeprefix(".")
    own = node.terminal(f"{local[:-1]}-" if local.endswith("+") else "-" if local in _outputs(node) else "?")
    if not any(node.terminal(name) == own for port in node.ports for name in port.terminals()):
        return None
    return WayBack(number, own, node.kind.name not in SHARED_KINDS)


def _outputs(node: Node) -> list[str]:
    """Single leads that give current: further outputs over the node's one -."""
    leads = {port.name for port in node.ports if port.form == "plus"}
    return [gives.port for gives in node.kind.gives(node.values) if gives.port in leads]


def _has_one(draft: Draft, gap: Gap, landed: Landed) -> bool:
    """Whether a return is there already; where it lands elsewhere, the writer is asked."""
    if not gap.own or not all(back.terminal in landed.returns for back in gap.own):
        return False
    back, other = (gap.a, gap.b) if gap.a.own else (gap.b, gap.a)
    lands = landed.returns[back.terminal]
    if other.terminal not in lands:
        _ask(draft, gap,
             f"the return of `{back.terminal}` leads to `{next(iter(lands))}` already, and not to `{other.terminal}`")
    return True


def _in_stack(draft: Draft, gap: Gap, landed: Landed) -> bool:
    """A way back from the middle of a stack of batteries would short what is below."""
    for back in (gap.a, gap.b):
        if back.terminal in landed.stacked:
            _ask(draft, gap, f"`{back.terminal}` stands in the middle of a series stack: "
                             "a return from there would short what is below")
            return True
    return False


def _ask(draft: Draft, gap: Gap, message: str) -> None:
    draft.say(gap.feed.place, message, "Write the path that it takes, `return: ...`, or `return: none`.")
