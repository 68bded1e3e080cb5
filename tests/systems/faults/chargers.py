"""Devices left out or misplaced in the lines of what charges and generates."""

from __future__ import annotations

from random import Random

from tests.systems.faults.ask import ampacity, end, first_run, one, start, through_main, without_device
from tests.systems.faults.protection import BIG
from tests.systems.model import Circuit, Model, Run


def chargers(model: Model) -> list[Circuit]:
    """Charger lines that the main bar could burn."""
    return [
        c
        for c in model.of("charger line")
        if end(c) == "feed-bar" and through_main(model) > BIG * ampacity(model, first_run(c))
    ]


def charger_fuse_at_wrong_end(model: Model, rng: Random):
    c = one(rng, chargers(model))
    if not c:
        return None
    at = c.path.devices("fuse", "breaker")[0]
    run, item = c.path.runs[0], c.path.items[at]
    c.path.items = [c.path.items[0], item, c.path.items[-1]]
    far = max(run.length, 0.6)  # [m] further than any practice allows a bare one
    c.path.hops = [Run(run.size, 0.1, run.parallel), Run(run.size, far, run.parallel)]
    return (f"protection-too-large@{c.name}:f1",)


def charger_fuse_left_out(model: Model, rng: Random):
    c = one(rng, chargers(model))
    if not c:
        return None
    without_device(c, c.path.devices("fuse", "breaker")[0])
    c.path.hops[0] = c.path.hops[0] or first_run(c)
    return (f"protection-too-large@{c.name}:f0",)


def near_fuse_left_out(part: str):
    def edit(model: Model, rng: Random):
        c = one(rng, model.of(part))
        if not c:
            return None
        without_device(c, 1)
        return (f"missing-protection@{c.name}:f0",)

    edit.__name__ = f"{part.replace(' ', '_')}_near_fuse_left_out"
    return edit


def alternator_fuse_left_out(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("alternator lead") if c.path.devices("fuse")])
    if not c:
        return None
    without_device(c, 1)
    return (f"missing-protection@{c.name}:f0",)


def alternator_lead_long(model: Model, rng: Random):
    """A self-limiting alternator without a fuse, farther than 40 in from the cranking circuit."""
    c = one(rng, [c for c in model.of("alternator lead") if not c.path.devices("fuse")])
    if not c:
        return None
    run = first_run(c)
    c.path.hops[0] = Run(run.size, 1.4, run.parallel)
    return (f"missing-protection@{c.name}:f0",)


def generator_breaker_too_far(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("generator line") if c.path.hops[0] is None])
    if not c:
        return None
    c.path.hops[0] = Run(first_run(c).size, 2.4)
    return (f"missing-protection@{c.name}:a0",)


def alternator_without_limit(model: Model, rng: Random):
    """The lead without a fuse, and the alternator's own design does not hold its current."""
    c = one(rng, [c for c in model.of("alternator lead") if not c.path.devices("fuse")])
    if not c:
        return None
    model.nodes[start(c)].fields["self limiting"] = "no"
    return (f"missing-protection@{c.name}:f0",)


FAULTS = (
    charger_fuse_at_wrong_end,
    charger_fuse_left_out,
    near_fuse_left_out("emergency"),
    near_fuse_left_out("isolator"),
    near_fuse_left_out("dc charger feed"),
    alternator_fuse_left_out,
    alternator_lead_long,
    alternator_without_limit,
    generator_breaker_too_far,
)
