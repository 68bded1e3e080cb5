"""Conductors too thin or too long for what they are to carry."""

from __future__ import annotations

from random import Random

from tests.systems.draft import trail
from tests.systems.faults.ask import end, number, one, plain_loads, start, way_back
from tests.systems.model import Model, Run
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
    c = one(rng, choices)
    if not c:
        return None
    fields = model.nodes[end(c)].fields
    short = model.nodes[way_back(model, start(c))].kind == "chassis"  # what comes back has no length
    ohms = 0.2 * number(fields["voltage"]) ** 2 / number(fields["power"]) / len(c.path.runs)
    for run in c.path.runs:  # a fifth of the voltage
        run.length = round(ohms * area(model.practice, run.size) * run.parallel / ((2 - short) * RHO), 1)
    c.back = None
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


FAULTS = (return_thinner, line_far_too_long, line_below_minimum)
