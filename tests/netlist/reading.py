"""Reads short netlists for the tests: circuits over a stock of nodes, and what became of them as lines of text."""

from __future__ import annotations

import re

from diagrammer.netlist.model import System
from diagrammer.netlist.read import read
from diagrammer.text.finding import Problem

STOCK = {
    "bank": "kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah",
    "paired-bank": "kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, pair: return-bar",
    "b1": "kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah",
    "b2": "kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah",
    "b3": "kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah",
    "meter": "kind: shunt, rating: 500 A",
    "guard": "kind: bms, rating: 100 A",
    "feed-bar": "kind: bar, rating: 300 A, pair: return-bar",
    "lone-bar": "kind: bar, rating: 300 A",
    "return-bar": "kind: bar, rating: 300 A",
    "earth-bar": "kind: bar, rating: 100 A",
    "panel": "kind: panel, rating: 60 A",
    "paired-panel": "kind: panel, rating: 60 A, pair: return-bar",
    "chassis": "kind: chassis, strap: 0.3 m",
    "metal-panel": "kind: panel, rating: 60 A, pair: chassis",
    "engine-block": "kind: engine",
    "lamp": "kind: load, voltage: 12 V, power: 10 W",
    "lamp-1": "kind: load, voltage: 12 V, power: 10 W",
    "lamp-2": "kind: load, voltage: 12 V, power: 10 W",
    "pump": "kind: load, voltage: 12 V, power: 60 W",
    "roof": "kind: pv, power: 100 W, voc: 22 V, isc: 6 A",
    "sun": "kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V",
    "alternator": "kind: alternator, output: 90 A",
    "step": "kind: converter, voltage: 12 V, output: 20 A, input voltage: 24 V",
    "mains-charger": "kind: ac charger, output: 20 A, outputs: 2",
    "inverter": "kind: inverter, power: 1 kW, neutral: floating",
    "combi": "kind: inverter charger, power: 3 kW, charge: 70 A",
    "isolator": "kind: isolator, rating: 100 A",
    "K1": "kind: relay, rating: 80 A, coil: 12 V",
    "key": "kind: switch, contacts: 2, type: key",
    "selector": "kind: selector, rating: 300 A",
    "strip": "kind: terminals, pins: 4",
    "splice": "kind: joint, pair: return-bar",
    "pedestal": "kind: shore, rating: 30 A",
    "ac-panel": "kind: ac panel, rating: 30 A",
    "outlet": "kind: outlet, rating: 15 A",
    "outlet-2": "kind: outlet, rating: 15 A",
    "heater": "kind: ac load, power: 1 kW",
    "rod": "kind: rod",
}
NAME = re.compile(r"[A-Za-z0-9_][\w-]*")


def netlist(circuits: str, nodes: str = "", head: str = "") -> str:
    """The text of a netlist: circuits a line each, over the stock's nodes that they name and over `nodes`."""
    own = [line for line in nodes.strip().splitlines() if line.strip()]
    declared = {line.split(":")[0].strip() for line in own}
    named = set(NAME.findall(circuits)) | {word for line in own for word in NAME.findall(line)}
    for name in list(named):
        named |= set(NAME.findall(STOCK.get(name, "")))
    stock = [f"{name}: {{{fields}}}" for name, fields in STOCK.items() if name in named - declared]
    lines = [line for line in circuits.strip("\n").splitlines() if line.strip()]
    return "\n".join([
        *([head] if head else []), "nodes:", *(f"  {line.strip()}" for line in stock + own), "circuits:",
        *(line if line.startswith(("  ", "interlocks:", "states:")) else f"  - {{{line}}}" for line in lines), "",
    ])


def system(circuits: str, nodes: str = "", head: str = "") -> System:
    """The system of circuits that must read without a problem."""
    text = netlist(circuits, nodes, head)
    found, problems = read(text)
    assert not problems, "\n".join([text, *(f"{p.at}: {p.message} {p.help}" for p in problems)])
    return found


def problems(circuits: str, nodes: str = "", head: str = "") -> tuple[Problem, ...]:
    return read(netlist(circuits, nodes, head))[1]


def said(circuits: str, nodes: str = "", head: str = "") -> str:
    """All messages, with their help, a line each."""
    return "\n".join(f"{one.message} {one.help}".strip() for one in problems(circuits, nodes, head))


def edges(of: System, *sides: str) -> list[str]:
    """Conductors `a -> b` and joints `a / b`, of these sides or of all, in the model's order."""
    wires = [f"{one.a} -> {one.b}" for one in of.conductors if not sides or one.side in sides]
    return wires + [f"{one.a} / {one.b}" for one in of.joints if not sides or one.side in sides]


def derived(of: System) -> list[str]:
    return [f"{one.a} -> {one.b}" for one in of.conductors if one.derived]


def conductor(of: System, a: str, b: str):
    return next(one for one in of.conductors if {one.a, one.b} == {a, b})


def insides(of: System, node: str) -> list[str]:
    return [f"{one.a} {one.form} {one.b} {one.side}".strip() for one in of.insides if one.node == node]
