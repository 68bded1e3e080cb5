"""Several ac sources of which one feeds at a time: interlocks, transfer switches, inverter chargers."""

from __future__ import annotations

from tests.systems.ac import ac_panel, cable, cut, rated, things
from tests.systems.draft import Draft, trail
from tests.systems.mains import POWER, charger, inlet, inverter_feed, shore_amps
from tests.systems.practice import MAINS

SET = {"abyc": 2400, "nec": 2400, "iso": 3000}  # [W] a portable generator


def generator(draft: Draft, name: str = "generator") -> tuple[str, float]:
    watts = SET[draft.practice]
    node = draft.node("mains", name, "generator", "generator", power=f"{watts} W", neutral="bonded")
    return node, rated(draft, watts / MAINS[draft.practice])


def sources(draft: Draft, target: str, amps: float) -> None:
    """Shore and generator, never both: interlocked breakers on a box, or a transfer switch."""
    if draft.chance(0.5):
        box = draft.node("mains", "source-box", "ac panel", "ac panel", rating=f"{amps:g} A", ways="2")
        shore, path = inlet(draft, box, amps, switch_name="Q-shore")
        draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
        engine, limit = generator(draft)
        own = trail(
            engine,
            None,
            cut(draft, limit, "Q-generator", main=True),
            cable(draft, max(limit, amps), draft.length(2, 6)),
            box,
        )
        draft.circuit("mains", f"{engine}-line", "ac", own, part="generator line")
        draft.circuit(
            "mains", "source-line", "ac", trail(box, cable(draft, amps, draft.length(1, 4)), target), part="source line"
        )
        draft.interlocks.append(["Q-shore", "Q-generator"])
        return
    change = draft.node("mains", "changeover", "transfer", "transfer", rating=f"{amps:g} A")
    shore, path = inlet(draft, f"{change}.1", amps)
    draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    engine, limit = generator(draft)
    own = trail(engine, None, cut(draft, limit, main=True), cable(draft, limit, draft.length(2, 6)), f"{change}.2")
    draft.circuit("mains", f"{engine}-line", "ac", own, part="generator line")
    draft.circuit(
        "mains", "source-line", "ac", trail(change, cable(draft, amps, draft.length(1, 4)), target), part="source line"
    )


def combi(draft: Draft) -> None:
    """An inverter charger between its sources and the ac panel."""
    watts = draft.rng.choice(POWER[draft.volts][1:])
    charge = {12: 40, 24: 30, 48: 20}[draft.volts]
    amps = shore_amps(draft)
    unit = draft.node(
        "mains",
        "combi",
        "inverter charger",
        "inverter charger",
        power=f"{watts} W",
        surge=f"{2 * watts} W",
        charge=f"{charge} A",
    )
    inverter_feed(draft, unit, max(watts, charge * draft.volts))
    supply = 0.75 * amps * MAINS[draft.practice]
    if draft.left > 12 and draft.chance(0.6):
        sources(draft, f"{unit}.in", amps)
        supply = min(supply, 0.8 * SET[draft.practice])
    else:
        shore, path = inlet(draft, f"{unit}.in", amps)
        draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    rest = rated(draft, max(amps, watts / MAINS[draft.practice]))
    panel = ac_panel(draft, "ac-panel", rest + amps)
    draft.circuit("ac", f"{unit}-out", "ac", trail(unit, cable(draft, rest + amps, 1), panel), part="combi output")
    things(draft, panel, min(0.8 * watts, supply - 1.4 * charge * draft.volts), min(3, draft.left - 8))
    draft.charge += charge


def transfer(draft: Draft) -> None:
    """Shore or inverter on one panel, chosen by a transfer switch; the charger sits on the shore's side."""
    watts = draft.rng.choice(POWER[draft.volts][:2])
    amps = shore_amps(draft)
    change = draft.node("mains", "changeover", "transfer", "transfer", rating=f"{amps:g} A")
    unit = draft.node(
        "mains", "inverter", "inverter", "inverter", power=f"{watts} W", surge=f"{2 * watts} W", neutral="bonded"
    )
    inverter_feed(draft, unit, watts)
    first = ac_panel(draft, "shore-panel", amps)
    shore, path = inlet(draft, first, amps)
    draft.circuit("mains", f"{shore}-line", "ac", path, part="shore line")
    charger(draft, first, 0.3 * amps * MAINS[draft.practice])
    limit = rated(draft, 0.6 * amps)
    draft.circuit(
        "mains",
        "changeover-shore",
        "ac",
        trail(first, None, cut(draft, limit, main=True), cable(draft, limit, 1.5), f"{change}.1"),
        part="transfer feed",
    )
    own = rated(draft, watts / MAINS[draft.practice])
    draft.circuit(
        "mains",
        "changeover-inverter",
        "ac",
        trail(unit, cable(draft, own, 1), cut(draft, own, main=True), None, f"{change}.2"),
        part="inverter output",
    )
    panel = ac_panel(draft, "ac-panel", amps)
    line = cable(draft, max(limit, own), 1)
    draft.circuit("mains", "changeover-out", "ac", trail(change, line, panel), part="transfer output")
    things(draft, panel, 0.8 * min(watts, 0.5 * amps * MAINS[draft.practice]), min(2, draft.left - 8))
