"""Feed and return meet or are swapped."""

from __future__ import annotations

from random import Random

from tests.systems.draft import fuse, trail
from tests.systems.faults.ask import end, one, plain_loads, start, way_back
from tests.systems.model import NONE, Circuit, Model, Path, Place, Run
from tests.systems.practice import ABYC, SIZES


def wire(model: Model, metres: float = 1.0) -> Run:
    """A conductor that suits a 10 A fuse."""
    return Run(SIZES[model.practice][1 if SIZES[model.practice] is not ABYC else 0].label, metres)


def feed_on_return(model: Model, rng: Random):
    """A wire from feed bar to return bar."""
    bars = [n for n in model.nodes_of("main bar", "ring bar", "sub bar")]
    bar = one(rng, bars)
    path = trail(bar.name, None, fuse(10), wire(model), way_back(model, bar.name))
    model.circuits.append(Circuit("bad", "feed", path, NONE))
    return ("short-circuit@bad:f0",)


def charger_return_on_feed(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("charger line") if end(c) == "feed-bar" and c.back is None])
    if not c:
        return None
    run = c.path.runs[0]
    c.back = trail(start(c), Run(run.size, run.length, run.parallel), "feed-bar")
    return (f"short-circuit@{c.name}:r0",)


def load_swapped(model: Model, rng: Random):
    c = one(rng, plain_loads(model))
    if not c:
        return None
    run, load = c.path.runs[0], end(c)
    c.path.items[-1].port = "-"
    c.back = trail(way_back(model, start(c)), Run(run.size, sum(r.length for r in c.path.runs), run.parallel), Place(load, "+"))
    return (f"reversed-polarity@{c.name}:*",)


def battery_swapped(model: Model, rng: Random):
    """One of several batteries in parallel with its posts exchanged."""
    c = one(rng, model.of("lead"))
    if not c:
        return None
    c.path.items[0].port, c.back.items[0].port = "-", "+"
    return (f"reversed-polarity@{c.name}:*",)


def load_return_on_feed(model: Model, rng: Random):
    c = one(rng, plain_loads(model))
    if not c:
        return None
    run = c.path.runs[0]
    c.back = trail(end(c), Run(run.size, sum(r.length for r in c.path.runs), run.parallel), Place(start(c), feed_port(model, start(c))))
    return (f"missing-return@{c.name}:r0",)


def load_fed_from_return(model: Model, rng: Random):
    """Its feed begins on the return bar."""
    c = one(rng, [c for c in plain_loads(model) if "pair" in model.nodes[start(c)].fields])
    if not c:
        return None
    back = way_back(model, start(c))
    run = c.path.runs[-1]
    port = "-" if model.nodes[back].kind == "panel" else ""
    c.path = Path([Place(back, port), c.path.items[-1]], [Run(run.size, run.length, run.parallel)])
    c.back = trail(back, Run(run.size, run.length, run.parallel), end(c))
    return (f"unfed-node@{c.name}:f0",)


def feed_port(model: Model, node: str) -> str:
    return "+" if model.nodes[node].kind == "panel" else ""


FAULTS = (feed_on_return, charger_return_on_feed, load_swapped, battery_swapped, load_return_on_feed, load_fed_from_return)
