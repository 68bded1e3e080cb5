"""Inlets, inverters and the chargers behind them: too small, unprotected, in a ring."""

from __future__ import annotations

from random import Random

from tests.systems.draft import breaker, fuse, trail
from tests.systems.faults.ask import end, number, one, start, without_device
from tests.systems.faults.poles import wire
from tests.systems.model import Circuit, Device, Model, Node, Run
from tests.systems.practice import SIZES


def galvanic_isolator_left_out(model: Model, rng: Random):
    """The earth of the shore supply on a plate in the water."""
    c = one(rng, [c for c in model.of("shore line") if c.path.devices("galvanic-isolator")])
    wet = [end(g) for g in model.of("ground bond") if model.nodes[end(g)].kind == "sea plate"]
    cases = {model.nodes[start(bond)].kind for bond in model.of("case bond")}
    if not c or not wet or not cases & {"ac charger", "inverter charger"} or model.nodes_of("transformer"):
        return None
    without_device(c, c.path.devices("galvanic-isolator")[0])
    return (f"galvanic-path@{start(c)}",)


def inlet_breaker_far(model: Model, rng: Random):
    """A breaker on land, and 4 m of cable from the inlet to the one on board."""
    c = one(rng, model.of("shore line"))
    if not c:
        return None
    if c.path.devices("plug"):  # an inlet is there
        at = c.path.devices("plug")[0]
        main = c.path.items[c.path.devices("breaker")[0]]
        c.path.items[at].name = "X-inlet"
        c.path.hops[at].length = 4.0
        c.path.items.insert(1, Device("breaker", main.amps, main.words))  # on land
        c.path.hops.insert(0, None)
        return ("no-inlet-breaker@X-inlet",)
    main, far = c.path.items[1], c.path.hops[0]
    c.path.items[1:1] = [Device("breaker", main.amps, main.words), Device("plug", main.amps, "inlet", name="X-inlet")]
    c.path.hops[:1] = [None, Run(far.size, 2.0), Run(far.size, 4.0)]
    return ("no-inlet-breaker@X-inlet",)


def inverter_too_small(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("inverter output") if users(model, end(c))])
    if not c:
        return None
    fields = model.nodes[start(c)].fields
    fields["power"] = f"{0.7 * max(number(model.nodes[end(o)].fields['power']) for o in users(model, end(c))):g} W"
    fields.pop("surge", None)
    return (f"inverter-overloaded@{start(c)}",)


def users(model: Model, panel: str) -> list[Circuit]:
    return [c for c in model.of("ac load line") if start(c) == panel]


def inlet_too_small(model: Model, rng: Random):
    """A pedestal of half an ampere for a charger."""
    fed = ("ac panel", "inverter charger", "transformer")
    c = one(rng, [c for c in model.of("shore line") if model.nodes[end(c)].kind in fed])
    if not c or not (model.of("ac charger feed") or model.nodes_of("inverter charger")):
        return None
    model.nodes[start(c)].fields["rating"] = "0.5 A"
    return (f"shore-overloaded@{start(c)}",)


def charger_on_inverter(model: Model, rng: Random):
    """A charger on the panel that the inverter feeds."""
    c = one(rng, [c for c in model.of("inverter output") if model.nodes[end(c)].kind == "ac panel"])
    if not c:
        return None
    model.nodes["loop-charger"] = Node("loop-charger", "ac charger", {"output": "2 A"})
    amps = 15 if model.practice == "nec" else 5 if model.practice == "abyc" else 6
    device = breaker(amps, "2-pole" if model.practice == "iso" else "")
    line = Run(SIZES[model.practice][0].label, 1.0)
    model.circuits.append(Circuit("loop-in", "ac", trail(end(c), None, device, line, "loop-charger")))
    out = trail("loop-charger", wire(model), fuse(5, "class-t", "20 kA"), None, "feed-bar")
    model.circuits.append(Circuit("loop-out", "feed", out))
    return ("charging-loop@loop-charger",)


FAULTS = (galvanic_isolator_left_out, inlet_breaker_far, inverter_too_small, inlet_too_small, charger_on_inverter)
