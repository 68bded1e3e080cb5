"""The bars everything hangs on: one pair, a ring of three, a second pair tied to the first."""

from __future__ import annotations

from tests.systems.draft import Draft, fuse, trail
from tests.systems.model import Path, Run
from tests.systems.practice import step


def main_bars(draft: Draft) -> None:
    draft.node("bars", "feed-bar", "bar", "main bar", pair="return-bar")
    draft.node("bars", "return-bar", "bar", "main return")


def ring(draft: Draft) -> None:
    """Two more feed bars, the three joined in a ring; they share the return bar."""
    for place in ("port", "starboard"):
        name = draft.node("bars", f"{place}-bar", "bar", "ring bar", pair="return-bar")
        draft.landings.append((name, "return-bar"))


def second(draft: Draft) -> None:
    """A second feed bar with a return bar of its own."""
    returns = draft.node("bars", "aft-return-bar", "bar", "sub return")
    name = draft.node("bars", "aft-feed-bar", "bar", "sub bar", pair=returns)
    draft.landings.append((name, returns))


def finish(draft: Draft) -> None:
    """Lines between the bars, now that it is known what each of them feeds."""
    ringed, carried = [n.name for n in draft.nodes["bars"] if n.part == "ring bar"], {}
    if ringed:
        amps = carried["ring bar"] = step(max(1.25 * sum(draft.taken.get(name, 0) for name in ringed), 60))
        for a, b in (("feed-bar", ringed[0]), (ringed[0], ringed[1]), (ringed[1], "feed-bar")):
            draft.circuit("bars", f"tie-{b}", "feed", between(draft, a, b, amps, True), part="tie")
    for node in [n for n in draft.nodes["bars"] if n.part == "sub bar"]:
        amps = step(max(1.25 * draft.taken.get(node.name, 0), 60))
        both = draft.chance(0.4)
        draft.circuit("bars", node.name, "feed", between(draft, "feed-bar", node.name, amps, both), part="bar line")
    if draft.metal:
        amps = step(max(1.25 * draft.demand, 100))
        size, parallel = draft.pick(amps, amps, 1, 0.01 * draft.volts)
        draft.circuit(
            "bars",
            "frame-return",
            "return",
            trail("return-bar", Run(size, 0.6, parallel), draft.metal),
            part="frame return",
        )
    for node in [n for n in draft.nodes["bars"] if n.kind == "bar"]:
        main = node.part in ("main bar", "main return")
        through = 3 * (1.25 * max(draft.demand, draft.charge) + 60) + sum(draft.through) if main else 2 * max(amps, carried.get(node.part, 0))
        node.fields = {"rating": f"{step(through):g} A"} | node.fields


def between(draft: Draft, a: str, b: str, amps: float, both: bool) -> Path:
    """A conductor from bar to bar, fused at the first or at both ends."""
    metres = draft.length(0.5, 2)
    size, parallel = draft.pick(amps, amps, metres, 0.01 * draft.volts)
    far = [fuse(amps, "class-t", "20 kA"), None] if both else []
    return trail(a, None, fuse(amps, "class-t", "20 kA"), Run(size, metres, parallel), *far, b)
