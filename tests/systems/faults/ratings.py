"""Devices of the wrong rating, in the wrong pole, and missing in strings."""

from __future__ import annotations

from random import Random

from tests.systems.faults.ask import POST_FUSED, ampacity, device, end, first_run, number, one, start, without_device
from tests.systems.faults.protection import BIG, overfed
from tests.systems.model import Device, Model, Run


def string_fuse_forgotten(model: Model, rng: Random):
    c = one(rng, model.of("string line"))
    if not c:
        return None
    without_device(c, 1)
    return (f"unfused-strings@{start(c)}",)


def string_fuses_left_out(model: Model, rng: Random):
    """Three strings in one array node, no fuse in any."""
    node = one(rng, model.nodes_of("strings"))
    if not node:
        return None
    del node.fields["string fuse"]
    return (f"unfused-strings@{node.name}",)


def fuse_in_return(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("load") if c.back and c.back.items])
    if not c:
        return None
    run = c.back.runs[0]
    c.back.items.insert(1, Device("fuse", device(c).amps, name="F-return"))
    c.back.hops.insert(0, Run(run.size, 0.1, run.parallel))
    return ("protection-in-return@F-return",)


def only_fuse_in_return(model: Model, rng: Random):
    chosen = one(rng, [(c, s) for c, s in overfed(model, "load") if c.back and c.back.items])
    if not chosen:
        return None
    c, stands = chosen
    run = c.back.runs[0]
    c.back.items.insert(1, Device("fuse", device(c).amps))
    c.back.hops.insert(0, Run(run.size, 0.1, run.parallel))
    without_device(c, 1)
    return (f"{'protection-too-large' if stands else 'missing-protection'}@{c.name}:f0",)


def breaking_capacity_low(model: Model, rng: Random):
    c = one(rng, [c for c in model.of(*POST_FUSED) if device(c)])
    if not c:
        return None
    device(c).words, device(c).extra, device(c).name = "", "1 kA", "F-main"
    return ("interrupt-rating-too-low@F-main",)


def voltage_rating_low(model: Model, rng: Random):
    c = one(rng, [c for c in model.of(*POST_FUSED) if device(c)])
    if not c or model.volts < 48:
        return None
    device(c).words, device(c).extra, device(c).name = "", "20 kA 32 V", "F-main"
    return ("protection-voltage-too-low@F-main",)


def device_too_small(model: Model, rng: Random):
    """A device under its load's own current."""
    choices = []
    for c in model.of("load"):
        fields = model.nodes[end(c)].fields
        if ".." not in fields["voltage"] and number(fields["power"]) / number(fields["voltage"]) > 1.3:
            choices.append(c)
    c = one(rng, choices)
    if not c:
        return None
    device(c).amps, device(c).name = 1, f"{device(c).word[0].upper().replace('B', 'Q')}-small"
    return (f"protection-too-small@{device(c).name}",)


def ac_branch_breaker_oversized(model: Model, rng: Random):
    """63 A on a cable for an ac load, where the panel gets as much."""
    choices = []
    for c in model.of("ac load line"):
        lines = [f for f in model.circuits if f.role == "ac" and end(f) == start(c)]
        supplies = [d.amps for f in lines for d in f.path.items if isinstance(d, Device) and d.word == "breaker"]
        if lines and min(supplies, default=0) > BIG * ampacity(model, first_run(c)):
            choices.append((c, min(supplies)))
    chosen = one(rng, choices)
    if not chosen:
        return None
    c, amps = chosen
    device(c).amps = amps
    return (f"protection-too-large@{c.name}:a0",)


FAULTS = (
    string_fuse_forgotten,
    string_fuses_left_out,
    fuse_in_return,
    only_fuse_in_return,
    breaking_capacity_low,
    voltage_rating_low,
    device_too_small,
    ac_branch_breaker_oversized,
)
