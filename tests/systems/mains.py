"""The ac side: an inverter alone, shore alone, shore and generator through an inverter charger, a transformer."""

from __future__ import annotations

from tests.systems.ac import ac_panel, cable, cut, outlets, rated, rcd, things
from tests.systems.draft import Draft, breaker, fuse, switch, trail
from tests.systems.model import Device, Path, Run
from tests.systems.practice import MAINS, step

POWER = {12: (600, 1000, 1500), 24: (1000, 2000, 3000), 48: (2000, 3000, 5000)}  # [W]


def inverter_feed(draft: Draft, unit: str, watts: float) -> None:
    amps = step(1.25 * draft.amps(watts))
    metres = draft.length(0.5, 1.2)
    size, wires = draft.pick(amps, 0.8 * amps, metres, 0.012 * draft.volts, alone=True)
    steps: list[object] = ["feed-bar", None, fuse(amps, "class-t", "20 kA"), Run(size, metres, wires)]
    if draft.chance(0.4):
        steps += [switch(step(amps)), Run(size, 0.3, wires)]
    draft.circuit("mains", unit, "feed", trail(*steps, unit), part="inverter feed")
    draft.take("feed-bar", draft.amps(watts))


def inverter_only(draft: Draft) -> None:
    watts = draft.rng.choice(POWER[draft.volts])
    unit = draft.node(
        "mains", "inverter", "inverter", "inverter", power=f"{watts} W", surge=f"{2 * watts} W", neutral="bonded"
    )
    inverter_feed(draft, unit, watts)
    amps = rated(draft, watts / MAINS[draft.practice])
    if draft.left < 4:
        return outlets_alone(draft, unit, amps)
    panel = draft.node("ac", "ac-panel", "ac panel", "ac panel", rating=f"{max(amps, 16):g} A", ways="6")
    draft.circuit(
        "ac",
        f"{unit}-out",
        "ac",
        trail(unit, cable(draft, amps, 0.8), cut(draft, amps), None, panel),
        part="inverter output",
    )
    things(draft, panel, 0.9 * watts, draft.left - 6)


def outlets_alone(draft: Draft, unit: str, amps: float) -> None:
    node = draft.node("ac", "outlets", "outlet", "outlet", rating=f"{amps:g} A")
    path = trail(unit, cable(draft, amps, 1), cut(draft, amps), cable(draft, amps, 0.3), rcd(draft, amps), None, node)
    draft.circuit("ac", f"{unit}-outlets", "ac", path, part="inverter output")


def inlet(
    draft: Draft, target: str | None, amps: float, name: str = "pedestal", switch_name: str = ""
) -> tuple[str, Path]:
    """Shore with its two-pole breaker near the inlet; the path goes on to `target`."""
    shore = draft.node("mains", name, "shore", "shore", rating=f"{amps:g} A")
    head = cable(draft, amps, 0.15)
    steps: list[object] = [shore, head, cut(draft, amps, switch_name, main=True)]
    if draft.vehicle == "boat" and draft.chance(0.4):
        steps += [cable(draft, amps, 0.5), Device("galvanic-isolator", max(amps, 30))]
    return shore, trail(*steps, cable(draft, amps, draft.length(1, 4)), target)


def charger(draft: Draft, panel: str, limit: float) -> None:
    """An ac charger on a panel that no inverter feeds."""
    output = draft.rng.choice([n for n in (10, 15, 20, 30, 40) if n * draft.volts * 1.35 <= limit])
    unit = draft.node("ac", "mains-charger", "ac charger", "ac charger", output=f"{output} A")
    amps = rated(draft, 1.25 * output * draft.volts * 1.3 / MAINS[draft.practice])
    draft.circuit(
        "ac",
        f"{unit}-in",
        "ac",
        trail(panel, None, cut(draft, amps), cable(draft, amps, draft.length(0.5, 2)), unit),
        part="ac charger feed",
    )
    amps = step(1.25 * output)
    size, wires = draft.pick(amps, output, 2, 0.02 * draft.volts)
    out = trail(unit, Run(size, draft.length(0.5, 2), wires), fuse(amps, "class-t", "20 kA"), None, "feed-bar")
    draft.circuit("ac", f"{unit}-out", "feed", out, part="charger line")
    draft.charge += output


def shore_amps(draft: Draft) -> float:
    return 16 if draft.practice == "iso" else 30


def shore_only(draft: Draft) -> None:
    amps = shore_amps(draft)
    panel = ac_panel(draft, "ac-panel", amps)
    shore, path = inlet(draft, panel, amps)
    draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    watts = 0.75 * amps * MAINS[draft.practice]
    if draft.left > 8 or draft.chance(0.5):
        charger(draft, panel, watts / 2)
    things(draft, panel, watts / 2, min(3, draft.left - 8))


def split(draft: Draft) -> None:
    """Shore in two halves against the neutral, small loads between one of them and the neutral."""
    amps = 50
    panel = draft.node("ac", "ac-panel", "ac panel", "ac panel", rating=f"{amps} A", ways="12", phases="2+N")
    shore = draft.node("mains", "pedestal", "shore", "shore", rating=f"{amps} A", phases="2+N")
    path = trail(
        shore, cable(draft, amps, 0.15), breaker(amps, "3-pole"), cable(draft, amps, draft.length(1, 4)), panel
    )
    draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    charger(draft, f"{panel}.L1", 1500)
    outlets(draft, f"{panel}.L2", 15)
    if draft.left > 8:
        node = draft.node("ac", "cooker", "ac load", "ac load", power="2000 W", voltage="240 V", phases="2")
        run = cable(draft, 15, draft.length(1, 4))
        draft.circuit("ac", node, "ac", trail(panel, None, breaker(15, "2-pole"), run, node), part="cooker line")


def isolated(draft: Draft) -> None:
    """Shore through an isolating transformer."""
    amps = shore_amps(draft)
    watts = amps * MAINS[draft.practice]
    unit = draft.node("mains", "transformer", "transformer", "transformer", power=f"{watts:g} W")
    panel = ac_panel(draft, "ac-panel", amps)
    shore, path = inlet(draft, f"{unit}.in", amps)
    draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    run = cable(draft, rated(draft, amps), 1)
    draft.circuit(
        "mains",
        f"{unit}-out",
        "ac",
        trail(unit, run, cut(draft, rated(draft, amps), main=True), None, panel),
        part="transformer output",
    )
    charger(draft, panel, 0.35 * watts)
    things(draft, panel, 0.35 * watts, min(3, draft.left - 8))
