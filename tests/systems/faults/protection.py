"""Devices left out, misplaced, too large for their conductor."""

from __future__ import annotations

from random import Random

from tests.systems.faults.ask import (
    POST_FUSED,
    also,
    ampacity,
    device,
    end,
    first_run,
    one,
    start,
    thinner,
    upstream,
    way_back,
    without_device,
)
from tests.systems.model import Circuit, Model, Run
from tests.systems.practice import SIZES, step

BIG = 1.7  # a device or a supply this many times the conductor's ampacity is wrong by every practice


def post_fuse_left_out(model: Model, rng: Random):
    """No fuse at a battery of the house bank, and none within the distance."""
    c = one(rng, [c for c in model.of(*POST_FUSED) if c.path.devices("fuse")])
    if not c:
        return None
    without_device(c, c.path.devices("fuse")[0])
    farther(model, c, max(0.8, first_run(c).length))
    return (f"missing-protection@{c.name}:f0",)


def post_fuse_too_far(model: Model, rng: Random):
    """0.8 m of bare cable before the fuse."""
    c = one(rng, [c for c in model.of(*POST_FUSED) if c.path.devices("fuse")])
    if not c:
        return None
    farther(model, c, 0.8)
    return (f"missing-protection@{c.name}:f0",)


def farther(model: Model, circuit: Circuit, metres: float) -> None:
    """Bare cable [m] on a post; the others' lines as long, behind their fuses, so that all still share alike."""
    run, more = first_run(circuit), metres - (circuit.path.hops[0].length if circuit.path.hops[0] else 0)
    circuit.path.hops[0] = Run(run.size, metres, run.parallel)
    for other in model.of(*POST_FUSED):
        if other is not circuit:
            other.path.runs[-1].length += more


def overfed(model: Model, *parts: str) -> list[tuple[Circuit, bool]]:
    """Lines whose first device keeps from them far more than they can carry, and whether another stands before."""
    found = []
    for c in model.of(*parts):
        at = c.path.devices("fuse", "breaker")
        if at and at[0] == 1:
            amps, stands = upstream(model, start(c))
            if amps > BIG * ampacity(model, first_run(c)):
                found.append((c, stands))
    return found


def branch_fuse_left_out(model: Model, rng: Random):
    chosen = one(rng, overfed(model, "load", "chain", "tee", "coil", "relayed"))
    if not chosen:
        return None
    c, stands = chosen
    without_device(c, 1)
    return (f"{'protection-too-large' if stands else 'missing-protection'}@{c.name}:f0",)


def feeder_fuse_left_out(model: Model, rng: Random):
    chosen = one(
        rng,
        [
            (c, s)
            for c, s in overfed(model, "feeder", "feeder paired", "sub feeder", "sub feeder paired", "converter feed")
            if c.path.hops[0] is None
        ],
    )
    if not chosen:
        return None
    c, stands = chosen
    without_device(c, 1)
    return (f"{'protection-too-large' if stands else 'missing-protection'}@{c.name}:f0",)


def branch_device_oversized(model: Model, rng: Random):
    chosen = one(
        rng,
        [
            (c, s)
            for c, s in overfed(model, "load", "chain", "relayed")
            if upstream(model, start(c))[0] > step(BIG * ampacity(model, first_run(c)))
        ],
    )
    if not chosen:
        return None
    c, _ = chosen
    device(c).amps = step(BIG * ampacity(model, first_run(c)))
    return (f"protection-too-large@{c.name}:f0",)


def feeder_thinned(model: Model, rng: Random):
    """A panel's line far too thin for its fuse."""
    choices = []
    for c in model.of("feeder", "feeder paired", "converter feed"):
        amps = min(device(c).amps, upstream(model, start(c))[0])
        size = thinner(model, first_run(c), amps)
        if size and c.path.hops[0] is None:
            choices.append((c, size))
    chosen = one(rng, choices)
    if not chosen:
        return None
    c, size = chosen
    c.path.hops = [hop and Run(size, hop.length) for hop in c.path.hops]
    return (f"protection-too-large@{c.name}:f0",)


def later_hop_thinned(model: Model, rng: Random):
    """The conductor behind a feeder's switch far too thin."""
    choices = []
    for c in model.of("feeder", "feeder paired"):
        size = thinner(model, first_run(c), min(device(c).amps, upstream(model, start(c))[0]))
        if size and len(c.path.runs) == 2 and c.path.hops[0] is None:
            choices.append((c, size))
    chosen = one(rng, choices)
    if not chosen:
        return None
    c, size = chosen
    run = first_run(c)
    shared = model.nodes[end(c)].fields.get("pair") == way_back(model, start(c))  # no return of its own
    c.back_run = None if shared else Run(run.size, sum(r.length for r in c.path.runs), run.parallel)
    c.path.hops[-1] = Run(size, c.path.hops[-1].length)
    return (f"protection-too-large@{c.name}:f1",)


def sense_fuse_left_out(model: Model, rng: Random):
    c = one(rng, model.of("sense"))
    if not c:
        return None
    without_device(c, 1)
    return (f"unfused-sense-lead@{c.name}:f0",)


def line_fuse_left_out(*parts: str):
    """No fuse at the bar where a line of this sort begins; what stands before it lets far too much through."""

    def edit(model: Model, rng: Random):
        chosen = one(rng, [(c, s) for c, s in overfed(model, *parts) if c.path.hops[0] is None])
        if not chosen:
            return None
        c, _ = chosen
        without_device(c, 1)
        return (f"protection-too-large@{c.name}:f0",)

    edit.__name__ = f"{parts[0].replace(' ', '_')}_fuse_left_out"
    return edit


def inverter_device_oversized(model: Model, rng: Random):
    choices = [
        c
        for c, _ in overfed(model, "inverter feed", "converter feed")
        if upstream(model, start(c))[0] > step(BIG * ampacity(model, first_run(c)))
    ]
    c = one(rng, choices)
    if not c:
        return None
    device(c).amps = step(BIG * ampacity(model, first_run(c)))
    return (f"protection-too-large@{c.name}:f0",)


@also("uneven-bank")  # a thin lead gives less as well
def parallel_lead_thin(model: Model, rng: Random):
    """A battery's lead carries its own fuse, not the sum of the others."""
    leads = model.of("lead")
    c = one(rng, leads)
    if len(leads) < 3:
        return None
    own, others = device(c).amps, sum(device(o).amps for o in leads if o is not c)
    share = 1.5 if model.practice == "abyc" else 1.0  # of the ampacity, for the sum of several
    sizes = [s.label for s in SIZES[model.practice] if 1.1 * own <= s.amps and others > 1.4 * share * s.amps]
    if not sizes:
        return None
    size = sizes[-1]
    for path in (c.path, c.back):
        path.hops = [hop and Run(size, hop.length) for hop in path.hops]
    return (f"protection-too-large@{c.name}:f0",)


def alarm_fuse_at_far_end(model: Model, rng: Random):
    """Always-on load ahead of the main switch, its fuse at the load."""
    c = one(rng, [c for c in model.of("alarm") if model.nodes[start(c)].kind == "bank"])
    if not c:
        return None
    run = first_run(c)
    run.length = max(run.length, 2.0)
    c.path.items = [c.path.items[0], c.path.items[1], c.path.items[2]]
    c.path.hops = [run, None]
    return (f"missing-protection@{c.name}:f0",)


def alarm_fuse_left_out(model: Model, rng: Random):
    """A short stub without any device is not excused."""
    c = one(rng, [c for c in model.of("alarm") if model.nodes[start(c)].kind == "bank"])
    if not c:
        return None
    without_device(c, 1)
    c.path.hops[0].length = 0.1
    return (f"missing-protection@{c.name}:f0",)


FAULTS = (
    line_fuse_left_out("tie"),
    line_fuse_left_out("bar line"),
    line_fuse_left_out("inverter feed"),
    inverter_device_oversized,
    parallel_lead_thin,
    alarm_fuse_at_far_end,
    alarm_fuse_left_out,
    post_fuse_left_out,
    post_fuse_too_far,
    branch_fuse_left_out,
    feeder_fuse_left_out,
    branch_device_oversized,
    feeder_thinned,
    later_hop_thinned,
    sense_fuse_left_out,
)
