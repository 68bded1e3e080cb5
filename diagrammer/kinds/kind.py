"""What a kind of node is made of: fields, ports, and its electrical nature."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

UNLIMITED = math.inf  # [A] a source that gives whatever a fault asks: a battery, the public grid


@dataclass(frozen=True)
class Values(Mapping):
    """The fields of one node as read: quantities as floats in the unit of their dimension
    (see quantity.py), windows as (low, high), words as str, yes/no as bool, counts as int."""

    given: Mapping[str, object]
    practice: str = "abyc"

    def __getitem__(self, name: str) -> object:
        return self.given[name]

    def __iter__(self):
        return iter(self.given)

    def __len__(self) -> int:
        return len(self.given)

    @property
    def mains(self) -> float:
        """[V] line to neutral where nothing else is said."""
        return self.get("voltage") or (230.0 if self.practice == "iso" else 120.0)


@dataclass(frozen=True)
class Form:
    """What may be written in a field.

    `sort` is one of: quantity, window (a quantity or `LOW .. HIGH`), word, yes/no, count (whole
    number from 1), text, node (a node's name), nodes (a list of names), ports, positions,
    material to the kinds `other` and the multi-way switches.
    """

    sort: str
    dimensions: tuple[str, ...] = ()  # names of quantity.DIMENSIONS
    words: tuple[str, ...] = ()


def quantity(*dimensions: str) -> Form:
    return Form("quantity", dimensions)


def window(*dimensions: str) -> Form:
    return Form("window", dimensions)


def word(*words: str) -> Form:
    return Form("word", words=words)


YES_NO, COUNT, TEXT, NODE, NODES = (Form(s) for s in ("yes/no", "count", "text", "node", "nodes"))
VOLTAGE, CURRENT, POWER, DURATION = (quantity(d) for d in ("voltage", "current", "power", "duration"))
RESISTANCE, TEMPERATURE, LENGTH, SHARE = (quantity(d) for d in ("resistance", "temperature", "length", "share"))


@dataclass(frozen=True)
class Field:
    """One field of a kind. `least` and `most` bound a quantity, in the dimension's unit."""

    name: str
    form: Form
    required: bool = False
    default: object = None
    says: str = ""
    least: float | None = None
    most: float | None = None


@dataclass(frozen=True)
class Port:
    """A place of a node where conductors land.

    form: "dc" (a + and a -), "plus", "minus" (one lead), "single" (one terminal of either side),
    "contact" (one end of a path through the node), "ac" (the `lines`, N if `neutral`, earth).
    The port called "main" adds nothing to the terminal's name.
    """

    name: str
    form: str
    lines: tuple[str, ...] = ()
    neutral: bool = True

    def terminals(self) -> tuple[str, ...]:
        """Local names: "+", "pv.-", "sense", "out.L", "" for the terminal of a bar."""
        prefix = "" if self.name == "main" else self.name
        if self.form in ("plus", "minus", "single", "contact"):
            return (prefix,)
        dot = f"{prefix}." if prefix else ""
        if self.form == "dc":
            return (f"{dot}+", f"{dot}-")
        return tuple(f"{dot}{core}" for core in (*self.lines, *(["N"] if self.neutral else [])))


def dc(name: str) -> Port:
    return Port(name, "dc")


def plus(name: str) -> Port:
    return Port(name, "plus")


def minus(name: str) -> Port:
    return Port(name, "minus")


def single(name: str) -> Port:
    return Port(name, "single")


def contact(name: str) -> Port:
    return Port(name, "contact")


LINES = {"1": ("L",), "2": ("L1", "L2"), "2+N": ("L1", "L2"), "3": ("L1", "L2", "L3"), "3+N": ("L1", "L2", "L3")}


def ac(name: str, phases: str = "1") -> Port:
    return Port(name, "ac", LINES[phases], neutral=phases in ("1", "2+N", "3+N"))


EARTH = Port("earth", "single")


@dataclass(frozen=True)
class Inner:
    """What passes current inside a node, from one local terminal to another.

    form: "contact" (switch, relay, selector), "overcurrent" (fuse, breaker), "shunt", "diode"
    (one way, a to b), "common" (terminals joined inside a converter), "bond" (neutral to earth),
    "resistor", "capacitor" (a galvanic isolator: no dc). `positions` are those of the node in
    which it is closed; none means always.
    """

    a: str
    b: str
    form: str
    positions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Gives:
    """What a port can drive into a fault: `amps` [A], UNLIMITED for batteries, shore, generators.

    role: "storage", "source" (alternator, shore, generator), "raw" (pv, wind, hydro: not to land
    on a bank without a controller), "charger", "converter" (inverters too).
    `positions`: those of the node in which it gives; none means always.
    """

    port: str
    amps: float
    role: str
    positions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Claim:
    """The voltage a port stands at or accepts, `low` to `high` [V]; ac ports accept a set.

    role orders the claims: storage, source (and charger or converter output), input, load.
    """

    port: str
    low: float
    high: float
    role: str
    stated: bool = False  # a range was stated, rather than one nominal value
    volts: tuple[float, ...] = ()  # ac: line to neutral and line to line


Of = Callable[[Values], tuple]


def none(values: Values) -> tuple:
    return ()


@dataclass(frozen=True)
class Kind:
    """A kind of node. `sort` is how a path meets it: point, through or end (see README).

    The functions take the node's Values: `ports` in the order of the language, the main one
    first; `inside` what passes current; `gives` what it can drive into a fault; `claims` its
    voltages; `supplies` pairs (input port, output port): the output lives while the input does.
    """

    name: str
    letter: str
    sort: str
    symbol: str
    says: str
    fields: tuple[Field, ...]
    ports: Of
    inside: Of = none
    gives: Of = none
    claims: Of = none
    supplies: Of = none
    device: bool = False  # may be written in a path
    words: tuple[str, ...] = ()  # what may follow it in a path, beside quantities
    uses: bool = False  # a load: something is meant to reach it


SHARED = (
    Field("label", TEXT, says="what the drawing writes instead of the name"),
    Field("note", TEXT, says="a remark for the install notes"),
    Field("part", TEXT, says="a named part of the workshop's own list, whose fields are taken over"),
    Field("accept", TEXT, says="findings accepted here, each with the reason"),
)
