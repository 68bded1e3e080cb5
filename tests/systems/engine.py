"""The engine's side: starter battery, alternator, starter motor, and how it charges the house bank."""

from __future__ import annotations

from tests.systems.draft import Draft, fuse, switch, trail
from tests.systems.model import NONE, Run
from tests.systems.practice import SENSE, area, step

CHASSIS = {"van": "frame", "boat": "engine-block", "cabin": "generator-block"}


def side(draft: Draft) -> None:
    """Seven nodes or so. A lithium bank is charged through a converter, others also by an isolator."""
    volts = draft.volts if draft.volts < 48 else 24
    body = draft.node("engine", CHASSIS[draft.vehicle], "chassis", "chassis", strap="0.3 m")
    battery = draft.node(
        "engine",
        "engine-battery",
        "battery",
        "starter battery",
        duty="starter",
        chemistry="flooded",
        voltage=f"{volts} V",
        capacity=f"{draft.rng.choice((70, 90, 110))} Ah",
        short_circuit="2 kA",
        pair=body,
    )
    output = draft.rng.choice((70, 90, 110))
    alternator = draft.node(
        "engine",
        "alternator",
        "alternator",
        "alternator",
        voltage=f"{14 * volts / 12:g} V",
        output=f"{output} A",
        continuous=f"{0.75 * output:g} A",
    )
    cranking = draft.chance(0.7)
    size, wires = draft.pick(280, 280, 1, 0.04 * volts)
    draft.circuit(
        "engine", "engine-return", "return", trail(battery, Run(size, 0.4, wires), body), part="engine return"
    )
    motor = ""
    if cranking:
        motor = draft.node("engine", "engine-starter", "starter", "starter", current="220 A", voltage=f"{volts} V")
        path = trail(
            battery, Run(size, 0.5, wires), switch(300, "battery"), Run(size, draft.length(0.5, 1.5), wires), motor
        )
        draft.circuit("engine", "cranking", "feed", path, trail(motor, None, body), part="cranking")
    same = volts == draft.volts
    split = same and draft.chemistry != "lifepo4" and draft.chance(0.6)
    if split and draft.chance(0.4):
        diodes(draft, alternator, battery, body, output, size, wires)
    else:
        alternator_line(draft, alternator, battery, motor, body, output, volts)
        if split:
            draft.later.append(lambda: isolator(draft, battery, body, output, size, wires))
        else:
            charger(draft, battery, body, 0.75 * output, volts)
    if same and draft.chance(0.4):
        draft.later.append(lambda: emergency(draft, battery, body))


def alternator_line(
    draft: Draft, alternator: str, battery: str, motor: str, body: str, output: float, volts: int
) -> None:
    """Fused at the battery, or (self-limiting) straight to the starter's stud, short and sheathed."""
    amps = step(1.2 * output)
    size, wires = draft.pick(amps, output, 2, 0.02 * volts)
    if motor and draft.chance(0.4):
        path, inside = (
            trail(alternator, Run(size, draft.length(0.2, 0.4 if draft.practice == "nec" else 0.95), wires), motor),
            "conduit",
        )
    else:
        path, inside = trail(alternator, Run(size, draft.length(0.8, 2), wires), fuse(amps, "strip"), None, battery), ""
    if volts == 24 and not inside:
        path.items[1].words = "class-t"
    draft.circuit(
        "engine", "alternator-lead", "feed", path, trail(alternator, None, body), inside=inside, part="alternator lead"
    )


def diodes(draft: Draft, alternator: str, battery: str, body: str, output: float, size: str, wires: int) -> None:
    """The alternator on a stud, from there a diode to each of the two batteries, fused at the batteries' ends."""
    stud = draft.node("engine", "split-stud", "joint", "split stud")
    amps = step(1.2 * output)
    wire, parallel = draft.pick(amps, 0.8 * amps, 3, 0.03 * draft.volts)
    lead = trail(alternator, Run(wire, draft.length(0.3, 1), parallel), stud)
    draft.circuit("engine", "alternator-lead", "feed", lead, trail(alternator, None, body), part="alternator to diodes")
    for target, back in (
        (battery, NONE),
        ("feed-bar", trail(body, thicker(draft, size, wires, wire, parallel), "return-bar")),
    ):
        unit = draft.node("engine", "split-diode", "isolator", "isolator", rating=f"{max(amps, 140):g} A", type="diode")
        path = trail(
            stud,
            Run(wire, draft.length(0.3, 0.6), parallel),
            unit,
            Run(wire, draft.length(0.5, 1.5), parallel),
            fuse(amps, "class-t", "20 kA"),
            None,
            target,
        )
        draft.circuit("engine", unit, "feed", path, back, part="diode")
    draft.through.append(amps)
    draft.charge += output


def thicker(draft: Draft, size: str, wires: int, other: str, parallel: int) -> Run:
    """A metre of the thicker of two conductors."""
    return max(
        (Run(size, 1, wires), Run(other, 1, parallel)), key=lambda run: area(draft.practice, run.size) * run.parallel
    )


def isolator(draft: Draft, battery: str, body: str, output: float, size: str, wires: int) -> None:
    """A voltage-sensing isolator between the two, fused at both ends for what the house may draw."""
    amps = step(max(1.2 * output, 1.1 * draft.demand))
    unit = draft.node("engine", "split-charge", "isolator", "isolator", rating=f"{max(amps, 140):g} A", type="sensing")
    wire, parallel = draft.pick(amps, 0.8 * amps, 3, 0.03 * draft.volts)
    path = trail(
        battery,
        None,
        fuse(amps, "class-t", "20 kA"),
        Run(wire, draft.length(0.8, 2), parallel),
        unit,
        Run(wire, draft.length(0.5, 1), parallel),
        fuse(amps, "class-t", "20 kA"),
        None,
        "feed-bar",
    )
    back = trail(body, thicker(draft, size, wires, wire, parallel), "return-bar")
    draft.circuit("engine", unit, "feed", path, back, part="isolator")
    if draft.chance(0.5):
        lead = trail(f"{unit}.ground", Run(SENSE[draft.practice], 0.4), "return-bar")
        draft.circuit("engine", f"{unit}-ground", "return", lead, part="isolator ground")
    draft.through.append(amps)
    draft.charge += output


def charger(draft: Draft, battery: str, body: str, limit: float, volts: int) -> None:
    """A dc charger, fused at both ends; one negative stud, a common negative, or isolated."""
    output = max(n for n in (10, 15, 20, 30, 40) if n * draft.volts / (0.8 * volts) <= limit)
    drawn = output * draft.volts / (0.85 * volts)
    common = draft.rng.choice(("", "", "one", "none"))
    unit = draft.node(
        "engine",
        "dc-charger",
        "dc charger",
        "dc charger",
        voltage=f"{draft.volts} V",
        output=f"{output} A",
        input_voltage=f"{volts} V",
        input_current=f"{drawn:.0f} A",
        common=common,
    )
    amps = step(1.25 * drawn)
    size, wires = draft.pick(amps, amps, 4, 0.03 * volts)
    feed = trail(battery, None, fuse(amps, "class-t", "20 kA"), Run(size, draft.length(1, 4), wires), f"{unit}.in")
    if common == "one":
        draft.circuit("engine", f"{unit}-in", "feed", feed, NONE, part="dc charger feed")
        draft.circuit(
            "engine", "engine-bond", "return", trail("return-bar", Run(size, 1, wires), body), part="engine bond"
        )
    else:
        draft.circuit("engine", f"{unit}-in", "feed", feed, part="dc charger feed")
    amps = step(1.25 * output)
    joint = step(1.25 * max(drawn, output))  # what the input draws may come back by the same negative
    size, wires = draft.pick(joint, output, 1.5, 0.015 * draft.volts)
    out = trail(unit, Run(size, draft.length(0.4, 1.5), wires), fuse(amps, "class-t", "20 kA"), None, "feed-bar")
    draft.circuit("engine", f"{unit}-out", "feed", out, part="charger line")
    if draft.chance(0.4) and on_post(draft, battery) < 3:
        thin = SENSE[draft.practice]
        lead = trail(
            battery, None, fuse(1), Run(thin, draft.length(1, 3)), switch(5, "ignition"), Run(thin, 1), f"{unit}.enable"
        )
        draft.circuit("engine", f"{unit}-enable", "feed", lead, part="sense")
    draft.charge += output


def on_post(draft: Draft, battery: str) -> int:
    """Terminals on a battery's plus so far; four is the most that a stud takes (ABYC E-11)."""
    count = 0
    for circuit in (c for section in draft.circuits.values() for c in section if c.role == "feed"):
        for item, hop in (
            (circuit.path.items[0], circuit.path.hops[0]),
            (circuit.path.items[-1], circuit.path.hops[-1]),
        ):
            if getattr(item, "node", "") == battery:
                count += hop.parallel if hop else 1
    return count


def emergency(draft: Draft, battery: str, body: str) -> None:
    """A normally open switch from the starter battery to the house bar, fused at both ends."""
    if on_post(draft, battery) > 3:
        return
    amps = 250.0
    size, wires = draft.pick(amps, amps, 2, 0.04 * draft.volts)
    path = trail(
        battery,
        None,
        fuse(amps, "class-t", "20 kA"),
        Run(size, draft.length(0.5, 1), wires),
        switch(300, "open"),
        Run(size, draft.length(0.5, 1), wires),
        fuse(amps, "class-t", "20 kA"),
        None,
        "feed-bar",
    )
    joined = any(c.part in ("isolator", "engine bond", "diode") for c in draft.circuits["engine"])
    back = NONE if joined else trail(body, Run(size, 1, wires), "return-bar")
    draft.circuit("engine", "emergency", "feed", path, back, part="emergency")
    draft.through.append(amps)
