"""Questions that several faults ask of a model."""

from __future__ import annotations

from random import Random

from tests.systems.model import Circuit, Device, Model, Place, Run
from tests.systems.practice import SIZES, above

POST_FUSED = ("main", "lead", "selector lead", "string lead", "main in feed")  # lines that begin on a battery's post


def also(*rules: str):
    """These findings are true consequences of the fault as well."""

    def mark(edit):
        edit.also = frozenset(rules)
        return edit

    return mark


def one(rng: Random, choices: list):
    return rng.choice(choices) if choices else None


def number(text: str) -> float:
    """The number of "12 V", "1.2 kW"."""
    value, unit = text.split()
    return float(value) * (1000 if unit.startswith("k") else 1)


def on_post(model: Model, node: str) -> int:
    """Terminals on a battery's plus; four is the most that a stud takes (ABYC E-11)."""
    ends = [pair for c in model.circuits if c.role == "feed"
            for pair in ((c.path.items[0], c.path.hops[0]), (c.path.items[-1], c.path.hops[-1]))]
    return sum(hop.parallel if hop else 1 for item, hop in ends if getattr(item, "node", "") == node)


def first_run(circuit: Circuit) -> Run:
    return circuit.path.runs[0]


def ampacity(model: Model, run: Run) -> float:
    """[A] of the table, not derated: what a fault must clearly exceed."""
    return above(model.practice, run.size) * run.parallel


def start(circuit: Circuit) -> str:
    return circuit.path.items[0].node


def end(circuit: Circuit) -> str:
    return circuit.path.items[-1].node


def device(circuit: Circuit) -> Device | None:
    """The first overcurrent device of its path."""
    at = circuit.path.devices("fuse", "breaker", "rcbo")
    return circuit.path.items[at[0]] if at else None


def without_device(circuit: Circuit, index: int) -> None:
    """Take a device out; of two conductors that met there the second stays."""
    before, after = circuit.path.hops[index - 1], circuit.path.hops[index]
    keep = after if after is not None else before
    circuit.path.items.pop(index)
    circuit.path.hops[index - 1 : index + 1] = [keep]


def posts(model: Model) -> list[str]:
    """Batteries of the house bank whose minus is the bank's."""
    stack = model.of("stack", "string")
    return [start(c) for c in stack] if stack else [n.name for n in model.nodes_of("bank")]


def way_back(model: Model, node: str) -> str:
    """Where the returns of what hangs on a node land."""
    return model.nodes[node].fields.get("pair", node)


def feeding(model: Model, node: str) -> list[Circuit]:
    return [c for c in model.circuits if c.role == "feed" and end(c) == node and not c.path.items[-1].port]


def through_main(model: Model) -> float:
    """[A] the largest device between the bank and the main bar."""
    return max((device(c).amps for c in model.of(*POST_FUSED) if device(c)), default=0.0)


def upstream(model: Model, node: str) -> tuple[float, bool]:
    """What a fault behind `node` gets: [A], and whether an overcurrent device says so."""
    if node == "feed-bar":
        return through_main(model), True
    lines = feeding(model, node)
    devices = [device(c).amps for c in lines if device(c)]
    units = [model.nodes[start(c)].fields for c in lines if model.nodes[start(c)].kind == "converter"]
    limit = min((float(fields["output"].split()[0]) for fields in units), default=1e9)
    return min(max(devices, default=1e9), limit), bool(devices)


def house(model: Model, circuit: Circuit) -> bool:
    """Whether it starts on a bar or panel at the bank's voltage."""
    node = start(circuit)
    while node not in ("feed-bar",):
        lines = feeding(model, node)
        if not lines or model.nodes[start(lines[0])].kind in ("converter",):
            return False
        node = start(lines[0])
    return True


def plain_loads(model: Model) -> list[Circuit]:
    """Circuits with one load at the end and one return conductor."""
    return [
        c
        for c in model.of("load")
        if not any("2-pole" in i.words or i.word == "plug" for i in c.path.items if isinstance(i, Device))
    ]


def users(model: Model, node: str) -> list[Circuit]:
    """Lines that take from a bar or panel."""
    return [c for c in model.circuits if c.role == "feed" and start(c) == node]


def settled(model: Model, besides: Circuit) -> bool:
    """Whether other loads on the main bars say which voltage is right there."""
    sure = [
        c
        for c in model.of("load", "chain")
        if c is not besides
        and house(model, c)
        and start(c) != end(besides)
        and ".." not in model.nodes[end(c)].fields["voltage"]
    ]
    return len(sure) > 0


def thinner(model: Model, run: Run, amps: float) -> str | None:
    """The thickest size that `amps` [A] overload by far."""
    sizes = [s.label for s in SIZES[model.practice] if 1.7 * s.amps < amps and s.amps < above(model.practice, run.size)]
    return sizes[-1] if sizes else None


__all__ = ["Place"]
