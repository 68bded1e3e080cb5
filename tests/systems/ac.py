"""Cables, breakers, outlets and loads of the ac side."""

from __future__ import annotations

from tests.systems.draft import Draft, breaker, trail
from tests.systems.model import Device, Run
from tests.systems.practice import BREAKERS, MAINS, pick, step

THINGS = (
    ("kettle", 800),
    ("microwave", 700),
    ("water-heater", 500),
    ("cooler", 400),
    ("bench-saw", 600),
    ("iron", 500),
)


def cable(draft: Draft, amps: float, metres: float) -> Run:
    """A cable for a device of `amps` [A]: drop at most 2 %."""
    size, _ = pick(draft.practice, draft.hottest, amps, 0.8 * amps, metres, 0.02 * MAINS[draft.practice])
    return Run(size, metres)


def rated(draft: Draft, amps: float) -> float:
    return step(amps, BREAKERS[draft.practice])


def cut(draft: Draft, amps: float, name: str = "", main: bool = False) -> Device:
    """A breaker: two poles at an inlet, and everywhere with iso."""
    return breaker(amps, "2-pole" if main or draft.practice == "iso" else "", "", name)


def rcd(draft: Draft, amps: float) -> Device:
    return Device(
        "rcd", max(amps, 20 if draft.practice != "iso" else 25), "", "5 mA" if draft.practice != "iso" else "30 mA"
    )


def outlets(draft: Draft, panel: str, amps: float) -> None:
    node = draft.node("ac", "outlets", "outlet", "outlet", rating=f"{amps:g} A", count=str(draft.rng.randint(1, 4)))
    metres = draft.length(2, 6)
    run = cable(draft, amps, metres)
    if draft.practice == "iso" and draft.chance(0.3):
        path = trail(panel, None, Device("rcbo", amps, "", "30 mA"), run, node)
    elif draft.chance(0.6):
        path = trail(panel, None, cut(draft, amps), run, rcd(draft, amps), None, node)
    else:
        path = trail(panel, None, cut(draft, amps), Run(run.size, 0.5), rcd(draft, amps), run, node)
    draft.circuit("ac", node, "ac", path, part="outlet line")


def things(draft: Draft, panel: str, watts: float, room: int) -> None:
    """Outlets, and ac loads as long as the source bears them."""
    outlets(draft, panel, rated(draft, 15 if draft.practice != "iso" else 10))
    for name, power in draft.rng.sample(THINGS, min(len(THINGS), max(0, room))):
        if power > watts:
            continue
        watts -= power
        node = draft.node("ac", name, "ac load", "ac load", power=f"{power} W")
        amps = rated(draft, 1.25 * power / MAINS[draft.practice])
        draft.circuit(
            "ac",
            node,
            "ac",
            trail(panel, None, cut(draft, amps), cable(draft, amps, draft.length(1, 5)), node),
            part="ac load line",
        )


def ac_panel(draft: Draft, name: str, amps: float) -> str:
    return draft.node("ac", name, "ac panel", "ac panel", rating=f"{max(amps, 16):g} A", ways="8")
