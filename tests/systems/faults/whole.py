"""Faults of the bank, the array and the whole."""

from __future__ import annotations

from random import Random

from tests.systems.faults.ask import end, number, one, start
from tests.systems.model import Model


def chemistries_mixed(model: Model, rng: Random):
    banks = [n for n in model.nodes_of("bank")]
    if len(banks) < 2 or not (model.of("lead") or model.of("link") or model.of("stack")):
        return None
    banks[-1].fields["chemistry"] = "agm" if banks[-1].fields["chemistry"] != "agm" else "flooded"
    return (f"mixed-banks@{'|'.join(n.name for n in banks)}",)


def array_too_high(model: Model, rng: Random):
    """One module more in series than the controller bears."""
    node = one(rng, model.nodes_of("pv"))
    if not node:
        return None
    sun = next(model.nodes[end(c)] for c in model.of("pv line") if start(c) == node.name)
    node.fields["series"] = str(int(number(sun.fields["max pv voltage"]) / number(node.fields["voc"])) + 1)
    return ("pv-voltage-too-high@*",)


def bank_overcharged(model: Model, rng: Random):
    banks = model.nodes_of("bank")
    if len(banks) != 1 or not model.nodes_of("solar charger"):
        return None
    banks[0].fields["max charge"] = "2 A"
    return (f"bank-overcharged@{banks[0].name}",)


def bank_overdrawn(model: Model, rng: Random):
    banks = model.nodes_of("bank")
    if len(banks) != 1:
        return None
    banks[0].fields["max discharge"] = "0.1 A"  # less than one small alarm
    return (f"bank-overdrawn@{banks[0].name}",)


def needed_behind_main(model: Model, rng: Random):
    """Something that must always be on hangs behind the main switch."""
    nodes = [n for n in model.nodes_of("load")]
    node = one(rng, nodes)
    if not node:
        return None
    node.fields["always on"] = "yes"
    return (f"switched-off-by-main@{node.name}",)


def converter_too_small(model: Model, rng: Random):
    node = one(rng, model.nodes_of("converter"))
    if not node:
        return None
    node.fields["output"] = "0.2 A"
    return (f"converter-overloaded@{node.name}",)


FAULTS = (chemistries_mixed, array_too_high, bank_overcharged, bank_overdrawn, needed_behind_main, converter_too_small)
