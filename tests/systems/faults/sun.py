"""Arrays that do not suit their controllers, or cannot be parted from them."""

from __future__ import annotations

from random import Random

from tests.systems.faults.ask import end, number, one, start
from tests.systems.model import Circuit, Model, Node, Run

ARRAYS = ("pv", "strings", "string", "pv ac")


def lines(model: Model) -> list[Circuit]:
    """From an array node straight to its controller."""
    return [c for c in model.of("pv line") if model.nodes[start(c)].part in ARRAYS]


def controllers(model: Model) -> list[Node]:
    return model.nodes_of("solar charger")


def strings_unlike(model: Model, rng: Random):
    """One of three strings of modules with a tenth less voltage."""
    node = one(rng, model.nodes_of("string"))
    if not node:
        return None
    node.fields |= {"power": "177 W", "vmp": "18.4 V"}
    return (f"mismatched-strings@{node.name}",)


def controller_of_small_current(model: Model, rng: Random):
    node = one(rng, controllers(model))
    if not node:
        return None
    node.fields["max pv current"] = "12 A"  # of 1.25 times 10.2 A a string
    return (f"pv-current-too-high@{node.name}",)


def controller_of_small_output(model: Model, rng: Random):
    """A third of what it would take."""
    node = one(rng, controllers(model))
    if not node:
        return None
    node.fields["output"] = f"{number(node.fields['output']) / 3:.1f} A"
    return (f"pv-clipped@{node.name}",)


def string_too_short(model: Model, rng: Random):
    """One module for a bank that needs two or four in series."""
    c = one(rng, lines(model))
    if not c or model.volts < 24 or model.nodes[end(c)].kind != "solar charger":
        return None
    model.nodes[start(c)].fields["series"] = "1"
    return (f"pv-voltage-too-low@{end(c)}",)


def array_switch_left_out(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("pv line") if c.path.devices("breaker", "switch")])
    if not c:
        return None
    at = c.path.devices("breaker", "switch")[0]
    before, after = c.path.hops[at - 1 : at + 1]
    c.path.items.pop(at)
    c.path.hops[at - 1 : at + 1] = [Run(before.size, before.length + after.length, before.parallel)]
    return (f"pv-without-disconnect@{end(c)}",)


def array_power_as_module(model: Model, rng: Random):
    """Twice what one module's voltage and current make."""
    node = one(rng, model.nodes_of(*ARRAYS))
    if not node:
        return None
    node.fields["power"] = f"{2 * number(node.fields['power']):g} W"
    return (f"unlikely-module@{node.name}",)


FAULTS = (
    strings_unlike,
    controller_of_small_current,
    controller_of_small_output,
    string_too_short,
    array_switch_left_out,
    array_power_as_module,
)
