"""Conductors too thin or too long for what they are to carry."""

from __future__ import annotations

from random import Random

from tests.systems.draft import trail
from tests.systems.faults.ask import also, end, number, one, plain_loads, start, way_back
from tests.systems.model import Circuit, Model, Run
from tests.systems.practice import RHO, SIZES, area


def return_thinner(model: Model, rng: Random):
    sizes = [s.label for s in SIZES[model.practice]]
    choices = [c for c in plain_loads(model) if sizes.index(c.path.runs[0].size) >= 2]
    c = one(rng, choices)
    if not c:
        return None
    thin = sizes[sizes.index(c.path.runs[0].size) - 2]
    c.back = trail(way_back(model, start(c)), Run(thin, sum(r.length for r in c.path.runs)), end(c))
    return (f"thin-return@{c.name}:r0",)


def line_far_too_long(model: Model, rng: Random):
    choices = []
    for c in plain_loads(model):
        fields = model.nodes[end(c)].fields
        if (
            ".." not in fields["voltage"]
            and number(fields["power"]) / number(fields["voltage"]) > 2
        ):
            choices.append(c)
    return _lengthened(model, one(rng, choices), 0.2)


def line_that_carries_nothing(model: Model, rng: Random):
    """So long that no voltage is left at which what it feeds gets its power."""
    loads = [c for c in plain_loads(model) if ".." not in model.nodes[end(c)].fields["voltage"]]
    return _lengthened(model, one(rng, loads), 0.9)


def _lengthened(model: Model, c: Circuit | None, share: float):
    """A line that loses this share of the nominal voltage at nominal current, which a load of constant power exceeds."""
    if not c:
        return None
    fields = model.nodes[end(c)].fields
    _stretch(model, c, share * number(fields["voltage"]) ** 2 / number(fields["power"]))
    return (f"voltage-drop@{c.name}:*|{end(c)}",)


def _stretch(model: Model, c: Circuit, ohms: float) -> None:
    """Gives a line and its way back so much resistance [Ω]."""
    short = model.nodes[way_back(model, start(c))].kind == "chassis"  # what comes back has no length
    for run in c.path.runs:
        run.length = round(ohms / len(c.path.runs) * area(model.practice, run.size) * run.parallel / ((2 - short) * RHO), 1)
    c.back = None


@also("protection-will-not-clear")  # little flows in a short circuit there, too
def inverter_line_that_carries_nothing(model: Model, rng: Random):
    """At the power of its loads the line of an inverter has no solution."""
    watts = sum(number(n.fields["power"]) for n in model.nodes.values() if n.kind == "ac load")
    c = one(rng, [c for c in model.of("inverter feed") if model.nodes[end(c)].kind == "inverter"])
    if not c or not watts:
        return None
    fields = model.nodes[end(c)].fields
    _stretch(model, c, 0.6 * model.volts ** 2 / min(watts, number(fields["power"])))
    if any("window" in field for field in fields):
        return (f"converter-starved@{end(c)}",)  # of which the drop is a symptom
    return (f"voltage-drop@{c.name}:*|{end(c)}",)


def line_below_minimum(model: Model, rng: Random):
    """A conductor thinner than the practice allows at all, behind a fuse that suits it."""
    choices = []
    for c in plain_loads(model):
        fields = model.nodes[end(c)].fields
        if (
            ".." not in fields["voltage"]
            and number(fields["power"]) / number(fields["voltage"]) < 0.5
        ):
            choices.append(c)
    c = one(rng, choices)
    if not c:
        return None
    c.path.items[1].amps = 1
    thin = "0.5 mm²" if model.practice == "iso" else "22 AWG"
    c.path.hops = [hop and Run(thin, 0.8) for hop in c.path.hops]
    c.back = None
    return (f"below-minimum-size@{c.name}:*",)


FAULTS = (
    return_thinner, line_far_too_long, line_that_carries_nothing, inverter_line_that_carries_nothing, line_below_minimum,
)
