"""The engine's side: alternator, starter battery, and what joins them to the house."""

from __future__ import annotations

from random import Random

from tests.systems.draft import fuse, trail
from tests.systems.faults.ask import also, end, number, on_post, one, start
from tests.systems.faults.poles import wire
from tests.systems.model import NONE, Circuit, Device, Model, Node, Place, Run


def alternator_too_weak(model: Model, rng: Random):
    """It gives less for good than the charger on its battery takes."""
    c = one(rng, [c for c in model.of("dc charger feed") if model.nodes[start(c)].part == "starter battery"])
    if not c:
        return None
    drawn = number(model.nodes[end(c)].fields["input current"])
    model.nodes["alternator"].fields["continuous"] = f"{0.7 * drawn:.1f} A"
    return ("alternator-overdrawn@alternator",)


@also("open-end")  # nothing else leads away from the engine's battery
def alternator_on_charger(model: Model, rng: Random):
    """The alternator straight on the charger's input, past the battery."""
    lead = one(rng, [c for c in model.of("alternator lead") if c.path.devices("fuse")])
    feed = one(rng, model.of("dc charger feed"))
    if not lead or not feed or model.of("sense") and any(start(c) == start(feed) for c in model.of("sense")):
        return None
    body = model.nodes[start(feed)].fields["pair"]
    model.circuits.remove(feed)
    lead.path.items[-1] = Place(end(feed), "in")
    if feed.back is not NONE:
        run = lead.path.runs[0]
        back = trail(Place(end(feed), "in"), Run(run.size, 1, run.parallel), body)
        model.circuits.append(Circuit("charger-return", "return", back))
    return ("alternator-without-battery@alternator",)


def regulator_too_high(model: Model, rng: Random):
    """A regulator set for flooded cells, a starter battery of gel, which bears 2.4 V a cell."""
    node = one(rng, model.nodes_of("alternator"))
    if not node:
        return None
    node.fields["voltage"] = f"{number(node.fields['voltage']) * 14.8 / 14:g} V"
    (battery,) = model.nodes_of("starter battery")
    battery.fields["chemistry"] = "gel"
    return ("charge-voltage-mismatch@alternator",)


def isolator_joins_lithium(model: Model, rng: Random):
    """The house batteries replaced by lithium, the voltage-sensing isolator left."""
    c = one(rng, model.of("isolator"))
    if not c:
        return None
    for node in model.nodes_of("bank"):
        node.fields |= {"chemistry": "lifepo4", "cold cutoff": "yes"}
    unit = next(i.node for i in c.path.items if isinstance(i, Place) and model.nodes[i.node].kind == "isolator")
    return (f"isolator-on-lithium@{unit}",)


def switch_at_alternator(model: Model, rng: Random):
    """The ignition switch opens the alternator's lead."""
    c = one(rng, model.of("alternator lead"))
    if not c:
        return None
    run = c.path.runs[0]
    c.path.items.insert(1, Device("switch", 300, "ignition"))
    c.path.hops.insert(0, Run(run.size, 0.1, run.parallel))
    run.length = round(run.length - 0.1, 2)
    return ("load-dump@alternator",)


def lamp_on_starter_battery(model: Model, rng: Random):
    node = one(rng, [n for n in model.nodes_of("starter battery") if on_post(model, n.name) < 4 and "pair" in n.fields])
    if not node:
        return None
    model.nodes["cab-lamp"] = Node("cab-lamp", "load", {"voltage": node.fields["voltage"], "power": "12 W"})
    path = trail(node.name, None, fuse(3, "", "20 kA"), wire(model), "cab-lamp")
    model.circuits.append(Circuit("bad", "feed", path, trail(node.fields["pair"], wire(model), "cab-lamp")))
    return (f"starter-drained@{node.name}",)


FAULTS = (
    alternator_too_weak,
    alternator_on_charger,
    regulator_too_high,
    isolator_joins_lithium,
    switch_at_alternator,
    lamp_on_starter_battery,
)
