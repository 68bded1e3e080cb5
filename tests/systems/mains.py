"""The ac side: an inverter alone, shore alone, shore and generator through an inverter charger, a transformer."""

from __future__ import annotations

from tests.systems.draft import Draft, breaker, fuse, switch, trail
from tests.systems.model import Device, Path, Run
from tests.systems.practice import BREAKERS, MAINS, pick, step

POWER = {12: (600, 1000, 1500), 24: (1000, 2000, 3000), 48: (2000, 3000, 5000)}  # [W]
THINGS = (("kettle", 800), ("microwave", 700), ("water-heater", 500), ("cooler", 400), ("bench-saw", 600), ("iron", 500))


def side(draft: Draft) -> None:
    forms = [inverter_only, shore_only]
    if draft.left > 12:
        forms += [combi, combi, transfer, isolated] + ([split] if draft.practice != "iso" else [])
    draft.rng.choice(forms)(draft)


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
    return Device("rcd", max(amps, 20 if draft.practice != "iso" else 25), "", "5 mA" if draft.practice != "iso" else "30 mA")


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
        draft.circuit("ac", node, "ac", trail(panel, None, cut(draft, amps), cable(draft, amps, draft.length(1, 5)), node),
                      part="ac load line")


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
    unit = draft.node("mains", "inverter", "inverter", "inverter", power=f"{watts} W", surge=f"{2 * watts} W",
                      neutral="bonded")
    inverter_feed(draft, unit, watts)
    amps = rated(draft, watts / MAINS[draft.practice])
    if draft.left < 4:
        return outlets_alone(draft, unit, amps)
    panel = draft.node("ac", "ac-panel", "ac panel", "ac panel", rating=f"{max(amps, 16):g} A", ways="6")
    draft.circuit("ac", f"{unit}-out", "ac", trail(unit, cable(draft, amps, 0.8), cut(draft, amps), None, panel), part="inverter output")
    things(draft, panel, 0.9 * watts, draft.left - 6)


def outlets_alone(draft: Draft, unit: str, amps: float) -> None:
    node = draft.node("ac", "outlets", "outlet", "outlet", rating=f"{amps:g} A")
    path = trail(unit, cable(draft, amps, 1), cut(draft, amps), cable(draft, amps, 0.3), rcd(draft, amps), None, node)
    draft.circuit("ac", f"{unit}-outlets", "ac", path, part="inverter output")


def inlet(draft: Draft, target: str | None, amps: float, name: str = "pedestal", switch_name: str = "") -> tuple[str, Path]:
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
    draft.circuit("ac", f"{unit}-in", "ac", trail(panel, None, cut(draft, amps), cable(draft, amps, draft.length(0.5, 2)), unit),
                  part="ac charger feed")
    amps = step(1.25 * output)
    size, wires = draft.pick(amps, output, 2, 0.02 * draft.volts)
    out = trail(unit, Run(size, draft.length(0.5, 2), wires), fuse(amps, "class-t", "20 kA"), None, "feed-bar")
    draft.circuit("ac", f"{unit}-out", "feed", out, part="charger line")
    draft.charge += output


def shore_amps(draft: Draft) -> float:
    return 16 if draft.practice == "iso" else 30


def ac_panel(draft: Draft, name: str, amps: float) -> str:
    return draft.node("ac", name, "ac panel", "ac panel", rating=f"{max(amps, 16):g} A", ways="8")


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
    path = trail(shore, cable(draft, amps, 0.15), breaker(amps, "3-pole"), cable(draft, amps, draft.length(1, 4)), panel)
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
    draft.circuit("mains", f"{unit}-out", "ac", trail(unit, run, cut(draft, rated(draft, amps), main=True), None, panel), part="transformer output")
    charger(draft, panel, 0.35 * watts)
    things(draft, panel, 0.35 * watts, min(3, draft.left - 8))


def generator(draft: Draft, name: str = "generator") -> tuple[str, float]:
    watts = 2000 if draft.practice != "iso" else 3000
    node = draft.node("mains", name, "generator", "generator", power=f"{watts} W", neutral="bonded")
    return node, rated(draft, watts / MAINS[draft.practice])


def sources(draft: Draft, target: str, amps: float) -> None:
    """Shore and generator, never both: interlocked breakers on a box, or a transfer switch."""
    if draft.chance(0.5):
        box = draft.node("mains", "source-box", "ac panel", "ac panel", rating=f"{amps:g} A", ways="2")
        shore, path = inlet(draft, box, amps, switch_name="Q-shore")
        draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
        engine, limit = generator(draft)
        own = trail(engine, None, cut(draft, limit, "Q-generator", main=True), cable(draft, max(limit, amps), draft.length(2, 6)), box)
        draft.circuit("mains", f"{engine}-line", "ac", own, part="generator line")
        draft.circuit("mains", "source-line", "ac", trail(box, cable(draft, amps, draft.length(1, 4)), target), part="source line")
        draft.interlocks.append(["Q-shore", "Q-generator"])
        return
    change = draft.node("mains", "changeover", "transfer", "transfer", rating=f"{amps:g} A")
    shore, path = inlet(draft, f"{change}.1", amps)
    draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    engine, limit = generator(draft)
    own = trail(engine, None, cut(draft, limit, main=True), cable(draft, limit, draft.length(2, 6)), f"{change}.2")
    draft.circuit("mains", f"{engine}-line", "ac", own, part="generator line")
    draft.circuit("mains", "source-line", "ac", trail(change, cable(draft, amps, draft.length(1, 4)), target), part="source line")


def combi(draft: Draft) -> None:
    """An inverter charger between its sources and the ac panel."""
    watts = draft.rng.choice(POWER[draft.volts][1:])
    charge = {12: 40, 24: 30, 48: 20}[draft.volts]
    amps = shore_amps(draft)
    unit = draft.node("mains", "combi", "inverter charger", "inverter charger", power=f"{watts} W", surge=f"{2 * watts} W",
                      charge=f"{charge} A")
    inverter_feed(draft, unit, max(watts, charge * draft.volts))
    if draft.left > 12 and draft.chance(0.6):
        sources(draft, f"{unit}.in", amps)
    else:
        shore, path = inlet(draft, f"{unit}.in", amps)
        draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    rest = rated(draft, max(amps, watts / MAINS[draft.practice]))
    panel = ac_panel(draft, "ac-panel", rest + amps)
    draft.circuit("ac", f"{unit}-out", "ac", trail(unit, cable(draft, rest + amps, 1), panel), part="combi output")
    things(draft, panel, min(0.8 * watts, 0.75 * amps * MAINS[draft.practice] - 1.4 * charge * draft.volts), min(3, draft.left - 8))
    draft.charge += charge


def transfer(draft: Draft) -> None:
    """Shore or inverter on one panel, chosen by a transfer switch; the charger sits on the shore's side."""
    watts = draft.rng.choice(POWER[draft.volts][:2])
    amps = shore_amps(draft)
    change = draft.node("mains", "changeover", "transfer", "transfer", rating=f"{amps:g} A")
    unit = draft.node("mains", "inverter", "inverter", "inverter", power=f"{watts} W", surge=f"{2 * watts} W", neutral="bonded")
    inverter_feed(draft, unit, watts)
    first = ac_panel(draft, "shore-panel", amps)
    shore, path = inlet(draft, first, amps)
    draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    charger(draft, first, 0.3 * amps * MAINS[draft.practice])
    limit = rated(draft, 0.6 * amps)
    draft.circuit("mains", "changeover-shore", "ac", trail(first, None, cut(draft, limit, main=True), cable(draft, limit, 1.5), f"{change}.1"),
                  part="transfer feed")
    own = rated(draft, watts / MAINS[draft.practice])
    draft.circuit("mains", "changeover-inverter", "ac", trail(unit, cable(draft, own, 1), cut(draft, own, main=True), None, f"{change}.2"),
                  part="inverter output")
    panel = ac_panel(draft, "ac-panel", amps)
    line = cable(draft, max(limit, own), 1)
    draft.circuit("mains", "changeover-out", "ac", trail(change, line, panel), part="transfer output")
    things(draft, panel, 0.8 * min(watts, 0.5 * amps * MAINS[draft.practice]), min(2, draft.left - 8))
