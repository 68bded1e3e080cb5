"""Supply or return left out, ends that lead nowhere."""

from __future__ import annotations

from random import Random

from tests.systems.draft import fuse, trail
from tests.systems.engine import CHASSIS
from tests.systems.faults.ask import end, house, one, plain_loads, start, users
from tests.systems.faults.poles import wire
from tests.systems.model import NONE, Circuit, Model, Node, Run


def load_return_left_out(model: Model, rng: Random):
    c = one(rng, plain_loads(model))
    if not c:
        return None
    c.back = NONE
    return (f"missing-return@{end(c)}",)


def panel_return_left_out(model: Model, rng: Random):
    c = one(rng, model.of("feeder", "sub feeder", "converter output"))
    if not c:
        return None
    c.back = NONE
    return (f"missing-return@{end(c)}",)


def bank_return_left_out(model: Model, rng: Random):
    main, banks = model.of("main"), model.nodes_of("bank")
    if len(main) != 1 or len(banks) != 1:
        return None
    main[0].back = NONE
    return (f"missing-return@{banks[0].name}",)


def only_return(circuit: Circuit, back: str) -> None:
    """Turn a feed into the return it made."""
    run = circuit.path.runs[0]
    circuit.role, circuit.back, circuit.part = "return", None, ""
    circuit.path = trail(back, Run(run.size, run.length, run.parallel), circuit.path.items[-1])


def load_feed_left_out(model: Model, rng: Random):
    c = one(rng, plain_loads(model))
    if not c:
        return None
    only_return(c, model.nodes[start(c)].fields.get("pair", start(c)))
    return (f"unfed-node@{end(c)}",)


def panel_feed_left_out(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("feeder", "feeder paired", "sub feeder", "sub feeder paired") if house(model, c)])
    if not c:
        return None
    panel = end(c)
    if c.part.endswith("paired"):
        model.circuits.remove(c)
    else:
        only_return(c, model.nodes[start(c)].fields.get("pair", start(c)))
    return (f"unfed-node@{panel}",)


def converter_feed_left_out(model: Model, rng: Random):
    c = one(rng, model.of("converter feed"))
    if not c:
        return None
    only_return(c, model.nodes[start(c)].fields.get("pair", start(c)))
    return (f"unfed-node@{end(c)}",)


def node_never_wired(model: Model, rng: Random):
    model.nodes["spare"] = Node("spare", "load", {"voltage": f"{model.volts} V", "power": "10 W"})
    return ("unused-node@spare",)


def load_line_left_out(model: Model, rng: Random):
    loads = model.of("load")
    c = one(rng, loads)
    if not c or len(loads) < 3:
        return None
    model.circuits.remove(c)
    return (f"unused-node@{end(c)}",)


def line_to_nowhere(model: Model, rng: Random):
    model.nodes["loose-stud"] = Node("loose-stud", "joint", {})
    model.circuits.append(Circuit("bad", "feed", trail("feed-bar", None, fuse(10), wire(model), "loose-stud")))
    return ("open-end@loose-stud",)


def switch_of_one_side(model: Model, rng: Random):
    model.nodes["loose-key"] = Node("loose-key", "switch", {"rating": "10 A"})
    model.circuits.append(Circuit("bad", "feed", trail("feed-bar", None, fuse(10), wire(model), "loose-key.1")))
    return ("open-end@loose-key",)


def isolated_load_strays(model: Model, rng: Random):
    """A load of an isolated converter returns to the main bar."""
    units = {n.name for n in model.nodes_of("converter") if n.fields.get("common") == "none"}
    panels = {end(c) for c in model.of("converter output") if start(c) in units}
    loads = [c for c in plain_loads(model) if start(c) in panels]
    c = one(rng, loads)
    if not c or len(loads) < 2:
        return None
    run = c.path.runs[0]
    c.back = trail("return-bar", Run(run.size, sum(r.length for r in c.path.runs), run.parallel), end(c))
    return (f"stray-return@{c.name}:r0",)


def converter_output_left_out(model: Model, rng: Random):
    """Nothing feeds the panel behind a converter."""
    c = one(rng, model.of("converter output"))
    if not c:
        return None
    only_return(c, start(c))
    return (f"unfed-node@{end(c)}",)


def bar_return_left_out(model: Model, rng: Random):
    """A sub bar's return bar without its link."""
    c = one(rng, model.of("bar line"))
    if not c or not users(model, end(c)):
        return None
    landed = {end(o) for o in users(model, end(c))}
    if any(model.nodes[n].kind == "converter" or model.nodes[n].fields.get("pair") in CHASSIS.values() for n in landed):
        return None  # another way back, or another system's bar as well
    c.back = NONE
    return (f"missing-return@{model.nodes[end(c)].fields['pair']}",)


def bar_feed_left_out(model: Model, rng: Random):
    c = one(rng, model.of("bar line"))
    if not c or len(users(model, end(c))) < 2:
        return None
    bar = end(c)
    run = c.path.runs[0]
    c.role, c.back, c.part = "return", None, ""
    c.path = trail("return-bar", Run(run.size, run.length, run.parallel), model.nodes[bar].fields["pair"])
    return (f"unfed-node@{bar}",)


def tee_return_left_out(model: Model, rng: Random):
    """Two loads whose common return leads nowhere."""
    c = one(rng, model.of("tee"))
    if not c:
        return None
    c.back = NONE
    return (f"missing-return@{model.nodes[end(c)].fields['pair']}",)


def coil_return_left_out(model: Model, rng: Random):
    c = one(rng, model.of("coil"))
    if not c:
        return None
    c.back = NONE
    return (f"missing-return@{end(c)}",)


FAULTS = (
    converter_output_left_out,
    bar_return_left_out,
    bar_feed_left_out,
    tee_return_left_out,
    coil_return_left_out,
    load_return_left_out,
    panel_return_left_out,
    bank_return_left_out,
    load_feed_left_out,
    panel_feed_left_out,
    converter_feed_left_out,
    node_never_wired,
    load_line_left_out,
    line_to_nowhere,
    switch_of_one_side,
    isolated_load_strays,
)
