"""Devices, bars, terminals and converters that do not suit what they stand in."""

from __future__ import annotations

from random import Random

from tests.systems.draft import breaker, trail
from tests.systems.faults.ask import device, end, house, number, one, plain_loads, start
from tests.systems.model import Circuit, Device, Model, Node, Place, Run
from tests.systems.practice import RHO, SIZES, area, pick

STRANDS = "120 mm²"  # a barrel that no load's wire fills
K = 143.0  # [A √s/mm²] copper, 90 °C to 250 °C: IEC 60364-4-43 Table 43A; the largest of the usual ones
MAGNETIC = 20  # times the rating at which curve D opens at once: IEC 60898-1 Table 7
LONGEST = 5.0  # [s] for which IEC 60364-4-43 434.5.2 holds
COLD = 0.0175  # [Ω mm²/m] copper at 20 °C


def letter(circuit: Circuit) -> str:
    """What designations of its device begin with: IEC 81346-2."""
    return "F" if device(circuit).word == "fuse" else "Q"


def terminal_of_other_size(model: Model, rng: Random):
    c = one(rng, [c for c in plain_loads(model) if c.back is None])
    if not c:
        return None
    c.terminals = STRANDS
    return (f"wrong-terminal@{c.name}:f0",)


def line_of_aluminium(model: Model, rng: Random):
    """On a boat or in a vehicle, whose practices know copper only."""
    c = one(rng, [c for c in plain_loads(model) if c.back is None])
    if not c or model.practice == "nec":
        return None
    c.material = "aluminium"
    return (f"not-copper@{c.name}:f0",)


def stud_of_five(model: Model, rng: Random):
    """Five lines on one stud of the main bar."""
    lines = [c for c in model.circuits if c.role == "feed" and start(c) == "feed-bar"]
    if len(lines) < 5:
        return None
    for c in rng.sample(lines, 5):
        c.path.items[0].stud = "1"
    return ("crowded-stud@*",)


def rating_not_made(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("load") if device(c).amps in (5, 7.5, 10)])
    if not c:
        return None
    device(c).amps, device(c).name = {5: 4.65, 7.5: 6.95, 10: 9.3}[device(c).amps], f"{letter(c)}-odd"
    return (f"odd-rating@{device(c).name}",)


def branch_as_large_as_feeder(model: Model, rng: Random):
    """A branch of a panel with the panel's own rating, on a conductor that suits it."""
    choices = []
    for c in plain_loads(model):
        feeds = [f for f in model.of("feeder", "feeder paired") if end(f) == start(c)]
        others = [o for o in model.circuits if start(o) == start(c) and o is not c]
        if feeds and others and c.back is None:
            choices.append((c, device(feeds[0]).amps))
    chosen = one(rng, choices)
    if not chosen:
        return None
    c, amps = chosen
    metres = sum(run.length for run in c.path.runs)
    fields, hottest = model.nodes[end(c)].fields, number(model.site["hottest"])
    drawn = number(fields["power"]) / model.volts
    size, parallel = pick(model.practice, hottest, amps, drawn, metres, 0.015 * model.volts)
    c.path.hops = [hop and Run(size, hop.length, parallel) for hop in c.path.hops]
    device(c).amps, device(c).name = amps, f"{letter(c)}-branch"
    return (f"no-selectivity@{device(c).name}",)


def polarised_between_sources(model: Model, rng: Random):
    """A polarised breaker between a charger and the bank."""
    c = one(rng, [c for c in model.of("charger line") if c.path.devices("breaker")])
    if not c:
        return None
    device(c).words, device(c).name = "polarised", "Q-way"
    return ("one-way-breaker@Q-way",)


def polarised_turned(model: Model, rng: Random):
    """A load's polarised breaker with its supply on terminal 2."""
    choices = [c for c in plain_loads(model) if device(c).word == "breaker" and isinstance(c.path.items[1], Device)]
    c = one(rng, [c for c in choices if c.path.items[1] is device(c)])
    if not c:
        return None
    model.nodes["Q-turned"] = Node("Q-turned", "breaker", {"polarised": "yes", "rating": f"{device(c).amps:g} A"})
    c.path.items[1] = Place("Q-turned", "2")
    return ("one-way-breaker@Q-turned",)


def main_bar_too_small(model: Model, rng: Random):
    model.nodes["feed-bar"].fields["rating"] = "10 A"
    return ("overloaded-bar@feed-bar",)


def main_switch_too_small(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("main", "main in feed") if c.path.devices("switch")])
    if not c:
        return None
    switch = c.path.items[c.path.devices("switch")[0]]
    switch.amps, switch.name = 10, "Q-main"
    return ("overloaded-bar@Q-main",)


def slow_breaker(model: Model, rng: Random):
    """A breaker of curve D on a thin line that is long enough for it not to open at once in a fault."""
    amps = {"abyc": 20, "iso": 16}.get(model.practice)
    c = one(rng, [c for c in plain_loads(model) if house(model, c) and c.back is None])
    if not amps or not c:
        return None
    thin = SIZES[model.practice][0]
    fault = (MAGNETIC * amps * K * thin.area / LONGEST**0.5) ** 0.5  # between the two limits
    c.path = trail(
        c.path.items[0], None, breaker(amps, "curve-d", "20 kA"),
        Run(thin.label, round(model.volts / fault * thin.area / (2 * COLD), 2)), c.path.items[-1],
    )
    return (f"protection-will-not-clear@{c.name}:*",)


def second_return(model: Model, rng: Random):
    """Another wire beside a load's return, longer by half."""
    c = one(rng, [c for c in plain_loads(model) if c.back and c.back.runs
                  and model.nodes[c.back.items[0].node].kind != "chassis"])
    if not c:
        return None
    run = c.back.runs[0]
    path = trail(c.back.items[0], Run(run.size, 1.5 * run.length, run.parallel), end(c))
    model.circuits.append(Circuit("second", "return", path))
    return (f"unequal-parallels@second:r0|{c.name}:r0",)


def window_too_narrow(model: Model, rng: Random):
    """A converter whose input ends below what the bank is charged with."""
    c = one(rng, [c for c in model.of("converter feed") if house(model, c)])
    if not c:
        return None
    model.nodes[end(c)].fields["input voltage"] = f"{0.9 * model.volts:g} .. {1.12 * model.volts:g} V"
    return (f"wrong-window@{end(c)}",)


def converter_far_away(model: Model, rng: Random):
    """So far that at full load a third of the voltage would be lost."""
    shared = {start(o) for o in model.of("converter output paired")}  # whose output's return helps the input's
    c = one(rng, [c for c in model.of("converter feed") if house(model, c) and end(c) not in shared])
    if not c:
        return None
    fields, run = model.nodes[end(c)].fields, c.path.runs[-1]
    fields["input voltage"] = f"{0.9 * model.volts:g} .. {1.3 * model.volts:g} V"
    amps = number(fields["output"]) * number(fields["voltage"]) / model.volts
    run.length = round(0.22 * model.volts / amps * area(model.practice, run.size) * run.parallel / (2 * RHO), 1)
    return (f"converter-starved@{end(c)}",)


def accepted_but_not_there(model: Model, rng: Random):
    node = one(rng, model.nodes_of("load"))
    if not node:
        return None
    node.fields["accept"] = "{voltage-drop: it is meant}"
    return (f"unmatched-acceptance@{node.name}",)


def pv_line_thin(model: Model, rng: Random):
    """A conductor that does not carry the brightest sun."""
    choices = []
    for c in (c for c in model.of("pv line") if model.nodes[start(c)].part in ("pv", "pv ac")):
        fields = model.nodes[start(c)].fields
        sun = 1.25 * number(fields["isc"]) * int(fields.get("parallel", "1"))
        thin = [s.label for s in SIZES[model.practice] if s.amps < 0.85 * sun]
        if thin:
            choices.append((c, thin[-1]))
    chosen = one(rng, choices)
    if not chosen:
        return None
    c, size = chosen
    c.path.hops = [hop and Run(size, hop.length) for hop in c.path.hops]
    return (f"conductor-overloaded@{c.name}:*",)


FAULTS = (
    terminal_of_other_size,
    line_of_aluminium,
    stud_of_five,
    rating_not_made,
    branch_as_large_as_feeder,
    polarised_between_sources,
    polarised_turned,
    main_bar_too_small,
    main_switch_too_small,
    slow_breaker,
    second_return,
    window_too_narrow,
    converter_far_away,
    accepted_but_not_there,
    pv_line_thin,
)
