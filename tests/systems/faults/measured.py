"""Currents that pass the bank's shunt by, and shunts in the wrong place."""

from __future__ import annotations

from random import Random

from tests.systems.draft import trail
from tests.systems.faults.ask import end, house, one, plain_loads, posts, start
from tests.systems.faults.poles import wire
from tests.systems.model import Circuit, Model, Place, Run


def lands_on_post(model: Model, rng: Random, circuit: Circuit) -> None:
    run = circuit.path.runs[0]
    metres = sum(r.length for r in circuit.path.runs)
    circuit.back = trail(Place(rng.choice(posts(model)), "-"), Run(run.size, metres, run.parallel), end(circuit))


def load_return_on_post(model: Model, rng: Random):
    c = one(rng, [c for c in plain_loads(model) if house(model, c)])
    if not c or model.of("main in feed"):
        return None
    lands_on_post(model, rng, c)
    return (f"unmeasured-return@{c.name}:r0",)


def panel_return_on_post(model: Model, rng: Random):
    """A panel with a return bar of its own, that bar wired to the post."""
    c = one(rng, [c for c in model.of("feeder") if house(model, c)])
    if not c or model.of("main in feed"):
        return None
    lands_on_post(model, rng, c)
    return (f"unmeasured-return@{c.name}:r0",)


def charger_return_on_post(model: Model, rng: Random):
    c = one(
        rng,
        [
            c
            for c in model.of("charger line")
            if end(c) == "feed-bar"
            and c.back is None
            and model.nodes[start(c)].kind in ("solar charger", "wind charger", "ac charger")
        ],
    )
    if not c or model.of("main in feed"):
        return None
    run = c.path.runs[0]
    c.back = trail(start(c), Run(run.size, c.path.runs[0].length, run.parallel), Place(rng.choice(posts(model)), "-"))
    return (f"unmeasured-return@{c.name}:r0",)


def bond_on_post(model: Model, rng: Random):
    c = one(rng, model.of("main bond"))
    if not c or model.of("main in feed"):
        return None
    c.path.items[0] = Place(rng.choice(posts(model)), "-")
    return (f"unmeasured-return@{c.name}:b0",)


def wire_past_shunt(model: Model, rng: Random):
    run = wire(model)
    if model.of("main in feed"):
        return None
    model.circuits.append(Circuit("bad", "return", trail(Place(rng.choice(posts(model)), "-"), run, "return-bar")))
    return ("unmeasured-return@bad:r0",)


def shunt_turned(model: Model, rng: Random):
    c = one(rng, model.of("main", "selected main"))
    if not c:
        return None
    shunt = one(rng, [i for i in c.back.items if model.nodes[i.node].kind == "shunt"])
    shunt.port = "system"
    return (f"shunt-backwards@{shunt.node}",)


def shunt_moved_to_feed(model: Model, rng: Random):
    c = one(
        rng,
        [
            c
            for c in model.of("main", "selected main")
            if sum(model.nodes[i.node].kind == "shunt" for i in c.back.items) == 1
        ],
    )
    if not c:
        return None
    at = next(i for i, item in enumerate(c.back.items) if model.nodes[item.node].kind == "shunt")
    shunt = c.back.items.pop(at)
    c.back.hops.pop(at)
    run = c.path.runs[-1]
    c.path.items.insert(-1, shunt)
    c.path.hops.append(Run(run.size, 0.3, run.parallel))
    return (f"shunt-in-feed@{shunt.node}",)


def second_bank_beyond(model: Model, rng: Random):
    """One of the batteries in parallel returns to the system's side of the shunt."""
    c = one(rng, model.of("lead", "selector lead", "string lead"))
    if not c:
        return None
    c.back.items[-1] = Place("return-bar")
    return (f"unmeasured-return@{c.name}:r0",)


def starter_return_on_post(model: Model, rng: Random):
    c = one(rng, model.of("engine return"))
    if not c or model.of("main in feed") or not any(b.back and b.back.items for b in model.of("isolator")):
        return None
    c.path.items[-1] = Place(rng.choice(posts(model)), "-")
    return (f"unmeasured-return@{c.name}:r0",)


def converter_input_on_post(model: Model, rng: Random):
    """Its input's minus on the post, its output's on the bar: a way past through its inside."""
    c = one(rng, [c for c in model.of("converter feed") if model.nodes[end(c)].fields.get("common") != "none"])
    if not c or model.of("main in feed"):
        return None
    run = c.path.runs[0]
    c.back = trail(Place(rng.choice(posts(model)), "-"), Run(run.size, run.length, run.parallel), Place(end(c), "in"))
    return (f"unmeasured-return@{c.name}:r0",)


def sub_return_bar_on_post(model: Model, rng: Random):
    """A return bar with what hangs on it, wired to the post."""
    c = one(rng, [c for c in model.of("bar line")])
    users = [o for o in model.circuits if c and o.role == "feed" and start(o) == end(c)]
    if not c or not users or model.of("main in feed"):
        return None
    run = c.path.runs[0]
    returns = model.nodes[end(c)].fields["pair"]
    c.back = trail(Place(rng.choice(posts(model)), "-"), Run(run.size, run.length, run.parallel), returns)
    return (f"unmeasured-return@{c.name}:r0",)


FAULTS = (
    converter_input_on_post,
    sub_return_bar_on_post,
    load_return_on_post,
    panel_return_on_post,
    charger_return_on_post,
    bond_on_post,
    wire_past_shunt,
    shunt_turned,
    shunt_moved_to_feed,
    second_bank_beyond,
    starter_return_on_post,
)
