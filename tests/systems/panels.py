"""Panels and what feeds them: a fused line from a bar, a sub panel, a converter."""

from __future__ import annotations

from tests.systems.draft import Draft, breaker, fuse, switch, trail
from tests.systems.loads import branch
from tests.systems.model import Run
from tests.systems.practice import step

PANELS = ("dc-panel", "galley-panel", "cabin-panel", "nav-panel", "bow-panel", "aft-panel", "workshop-panel")


def metal(draft: Draft) -> str:
    """The vehicle's frame, where returns may land."""
    frame = next((n.name for s in draft.nodes.values() for n in s if n.kind == "chassis"), "")
    draft.metal = frame or draft.node("bars", "frame", "chassis", "chassis", strap="0.4 m")
    return draft.metal


def fill(draft: Draft, at: str, back: str, volts: int, nodes: int, studs: bool) -> tuple[float, int]:
    """Load circuits of about `nodes` nodes; gives watts and the number of ways used."""
    start, watts, ways = draft.count, 0.0, 0
    while draft.count - start < nodes:
        before = len(draft.circuits["loads"])
        where = f"{at}@{ways + 1}" if studs else at
        watts += branch(draft, where, back, volts, nodes - (draft.count - start))
        made = draft.circuits["loads"][before:]
        ways += sum(c.path.items[0].node == at for c in made)
    return watts, ways


def panel(draft: Draft, nodes: int) -> None:
    """A panel at the bank's voltage on one of the bars, perhaps with a sub panel."""
    bar, back = draft.landing()
    if draft.vehicle == "van" and draft.chance(0.3):
        back = metal(draft)
    own = back in ("return-bar", "aft-return-bar") and draft.chance(0.4)
    name = draft.node("panels", draft.rng.choice(PANELS), "panel", "panel", **({} if own else {"pair": back}))
    returns = name if own else back
    watts = 0.0
    if nodes > 8 and draft.chance(0.4):
        watts += sub_panel(draft, name, returns, nodes // 3)
        nodes -= nodes // 3
    more, ways = fill(draft, name, returns, draft.volts, nodes - 1, draft.chance(0.3))
    feeder(draft, bar, name, watts + more, draft.volts, ways + 1, own)
    draft.take(bar, draft.amps(watts + more))


def feeder(
    draft: Draft, bar: str, name: str, watts: float, volts: int, ways: int, own: bool, part: str = "feeder"
) -> None:
    """A fused line to a panel, sized for what hangs on it."""
    amps = step(max(1.35 * watts / volts, 10))
    metres = draft.length(0.5, 2)
    size, parallel = draft.pick(amps, 0.8 * amps, metres, 0.01 * volts, alone=True)
    run = Run(size, metres, parallel)
    node = next(n for n in draft.nodes["panels"] if n.name == name)
    node.fields |= {"rating": f"{max(amps, 30):g} A", "ways": str(ways + draft.rng.choice((0, 1, 2, 4)))}
    form = draft.rng.choice(("fuse", "fuse", "breaker", "late", "switched"))
    match form:
        case "breaker":
            path = trail(bar, None, breaker(amps), run, name)
        case "late":  # the fuse a hand's breadth from the bar
            path = trail(bar, Run(size, 0.15, parallel), fuse(amps), run, name)
        case "switched":
            path = trail(bar, None, fuse(amps), Run(size, 0.4, parallel), switch(max(amps, 20)), run, name)
        case _:
            path = trail(bar, None, fuse(amps), run, name)
    draft.circuit("panels", name, "feed", path, part=part if own else f"{part} paired")


def sub_panel(draft: Draft, above: str, returns: str, nodes: int) -> float:
    own = draft.chance(0.5)
    name = draft.node("panels", "sub-panel", "panel", "panel", **({} if own else {"pair": returns}))
    watts, ways = fill(draft, name, name if own else returns, draft.volts, nodes - 1, False)
    feeder(draft, above, name, watts, draft.volts, ways, own, "sub feeder")
    return watts


def converter(draft: Draft, nodes: int) -> None:
    """A converter to 12 V (24 V from a 12 V bank) with a panel behind it."""
    bar, back = draft.landing()
    volts = 24 if draft.volts == 12 else 12
    step_name = {12: "step-down", 24: "step-up"}[volts]
    isolated = draft.chance(0.2)
    own = isolated or draft.chance(0.6)
    name = draft.node("panels", f"panel-{volts}", "panel", "panel", **({} if own else {"pair": back}))
    watts, ways = fill(draft, name, name if own else back, volts, nodes - 2, False)
    output = step(max(1.35 * watts / volts, 10))
    unit = draft.node(
        "panels",
        step_name,
        "converter",
        "converter",
        voltage=f"{volts} V",
        output=f"{output:g} A",
        input_voltage=f"{draft.volts} V",
        **({"common": "none"} if isolated else {}),
    )
    node = next(n for n in draft.nodes["panels"] if n.name == name)
    node.fields |= {"rating": f"{max(output, 30):g} A", "ways": str(ways + 2)}
    drawn = output * volts / (0.85 * 0.85 * draft.volts)
    amps = step(1.2 * drawn)
    metres = draft.length(0.5, 2)
    size, parallel = draft.pick(amps, 0.8 * amps, metres, 0.01 * draft.volts, alone=True)
    path = trail(bar, None, fuse(amps), Run(size, metres, parallel), f"{unit}.in")
    draft.circuit("panels", unit, "feed", path, part="converter feed")
    metres = draft.length(0.4, 1)
    size, parallel = draft.pick(1.25 * output, output, metres, 0.01 * volts)
    line = Run(size, metres, parallel)
    if draft.chance(0.3):
        out = trail(unit, line, breaker(step(1.25 * output)), Run(size, 0.3, parallel), name)
        size, parallel = draft.pick(step(1.25 * output), output, metres, 0.01 * volts)
        out.hops[0] = Run(size, metres, parallel)
        out.hops[1] = Run(size, 0.3, parallel)
    else:
        out = trail(unit, line, name)
    draft.circuit("panels", name, "feed", out, part="converter output" if own else "converter output paired")
    draft.take(bar, drawn)
