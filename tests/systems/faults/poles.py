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
    c.back = trail(
        way_back(model, start(c)), Run(run.size, sum(r.length for r in c.path.runs), run.parallel), Place(load, "+")
    )
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
    c.back = trail(
        end(c),
        Run(run.size, sum(r.length for r in c.path.runs), run.parallel),
        Place(start(c), feed_port(model, start(c))),
    )
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


def plus_on_metal(model: Model, rng: Random):
    """A battery's plus on metal that is joined to the return side."""
    metals = [end(c) for c in model.of("frame return", "ground bond")]
    bank = one(rng, [n for n in model.nodes_of("bank")])
    metal = one(rng, metals)
    if not metal or model.of("stack", "string"):
        return None
    path = trail(bank.name, None, fuse(10, "", "20 kA"), wire(model), metal)
    model.circuits.append(Circuit("bad", "feed", path, NONE))
    return ("short-circuit@bad:*",)


def panel_swapped(model: Model, rng: Random):
    """A panel with a return bar of its own, fed from the return side."""
    c = one(rng, [c for c in model.of("feeder") if model.nodes[start(c)].kind == "bar"])
    if not c:
        return None
    back, run = way_back(model, start(c)), c.path.runs[0]
    feed_bar = start(c)
    c.path = trail(back, Run(run.size, run.length, run.parallel), end(c))
    c.back = trail(feed_bar, Run(run.size, run.length, run.parallel), end(c))
    return (f"reversed-polarity@{c.name}:*",)


def charger_swapped(model: Model, rng: Random):
    c = one(
        rng,
        [
            c
            for c in model.of("charger line")
            if c.back is None
            and model.nodes[start(c)].kind in ("solar charger", "ac charger")
            and "outputs" not in model.nodes[start(c)].fields
        ],
    )
    if not c:
        return None
    run = c.path.runs[0]
    c.path.items[0].port = "-"
    c.back = trail(Place(start(c), "+"), Run(run.size, sum(r.length for r in c.path.runs), run.parallel), "return-bar")
    return (f"reversed-polarity@{c.name}:*",)


def only_bank_swapped(model: Model, rng: Random):
    """The one bank against all that hangs on the bar."""
    banks, mains = model.nodes_of("bank"), model.of("main")
    against = [c for c in model.circuits if c.role == "feed" and "feed-bar" in (start(c), end(c)) and c.part != "main"]
    if len(banks) != 1 or len(mains) != 1 or len(against) < 4:
        return None
    if model.of("sense", "alarm", "emergency", "isolator", "diode", "bow charger"):
        return None
    mains[0].path.items[0].port, mains[0].back.items[0].port = "-", "+"
    return ("reversed-polarity@main:*",)


def feed_port(model: Model, node: str) -> str:
    return "+" if model.nodes[node].kind == "panel" else ""


FAULTS = (
    feed_on_return,
    charger_return_on_feed,
    load_swapped,
    battery_swapped,
    load_return_on_feed,
    load_fed_from_return,
    plus_on_metal,
    panel_swapped,
    charger_swapped,
    only_bank_swapped,
)
