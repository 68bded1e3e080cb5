"""The ac side: two sources at once, no residual-current device, no earth."""

from __future__ import annotations

from random import Random

from tests.systems.draft import breaker, trail
from tests.systems.faults.ask import also, end, one, start
from tests.systems.model import Circuit, Model, Node, Run
from tests.systems.practice import SIZES


def second_ac_source(model: Model, rng: Random):
    """A generator on a panel that something feeds already."""
    panels = [
        end(c)
        for c in model.of("inverter output", "combi output", "shore line")
        if model.nodes[end(c)].kind == "ac panel"
    ]
    panel = one(rng, [p for p in panels if "phases" not in model.nodes[p].fields])
    if not panel:
        return None
    model.nodes["spare-set"] = Node("spare-set", "generator", {"power": "1800 W", "neutral": "floating"})
    run = Run(SIZES[model.practice][2].label, 3)
    model.circuits.append(Circuit("bad", "ac", trail("spare-set", None, breaker(15, "2-pole"), run, panel)))
    return ("two-ac-sources@bad:a0|combi-out:a0",)  # nobody misses the one or the other


def bypass_without_selector(model: Model, rng: Random):
    """The source box wired to the panel behind the inverter charger as well."""
    c = one(rng, [c for c in model.of("source line") if start(c) == "source-box"])
    if not c:
        return None
    amps = 16 if model.practice == "iso" else 30
    panel = end(model.of("combi output")[0])
    path = trail("source-box", None, breaker(amps, "2-pole"), Run(c.path.runs[0].size, 2), panel)
    model.circuits.append(Circuit("bad", "ac", path))
    return ("two-ac-sources@bad:a0|combi-out:a0",)


def interlock_left_out(model: Model, rng: Random):
    if not model.interlocks:
        return None
    model.interlocks = []
    return ("two-ac-sources@generator-line:*|pedestal-line:*",)


def rcd_left_out(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("outlet line") if c.path.devices("rcd")])
    if not c:
        return None
    at = c.path.devices("rcd")[0]
    before, after = c.path.hops[at - 1], c.path.hops[at]
    c.path.items.pop(at)
    c.path.hops[at - 1 : at + 1] = [before if after is None else after]
    return (f"no-rcd@{end(c)}",)


def earth_left_out(model: Model, rng: Random):
    c = one(rng, model.of("ac load line"))
    if not c:
        return None
    c.cores = "L N"
    return (f"missing-earth@{end(c)}|{c.name}:a*",)


def neutral_bonded_twice(model: Model, rng: Random):
    """A link in the panel besides the one at the source."""
    c = one(
        rng,
        [
            c
            for c in model.of("inverter output", "combi output", "transfer output", "transformer output", "shore line")
            if model.nodes[end(c)].kind == "ac panel"
        ],
    )
    if not c:
        return None
    model.nodes[end(c)].fields["neutral"] = "bonded"
    return ("neutral-bond@*",)


def neutral_never_bonded(model: Model, rng: Random):
    node = one(rng, [n for n in model.nodes_of("inverter") if n.fields.get("neutral") == "bonded"])
    if not node:
        return None
    node.fields["neutral"] = "floating"
    return ("neutral-bond@*",)


@also("neutral-bond")  # the neutrals of two sources stay joined
def inlet_of_one_pole(model: Model, rng: Random):
    c = one(rng, model.of("shore line"))
    if not c:
        return None
    main = c.path.items[c.path.devices("breaker")[0]]
    main.words, main.name = "", main.name or "Q-inlet"
    return ("one-pole-inlet@*",)


FAULTS = (
    second_ac_source,
    bypass_without_selector,
    interlock_left_out,
    rcd_left_out,
    earth_left_out,
    neutral_bonded_twice,
    neutral_never_bonded,
    inlet_of_one_pole,
)
