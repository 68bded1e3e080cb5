"""What a kind of node is made of: fields, ports, and its electrical nature."""

from __future__ import annotations

import math
from collections.abc import Callable

from diagrammer.frozen import frozen
from diagrammer.kinds.field import (  # noqa: F401  the contract in one place
    COUNT, CURRENT, DURATION, FREQUENCY, LENGTH, NODE, NODES, NUMBER, PORTS, POSITIONS, POWER, RESISTANCE, SHARE,
    SHARED, TEMPERATURE, TEXT, VOLTAGE, YES_NO, Field, Form, Values, quantity, window, word,
)
from diagrammer.kinds.port import EARTH, LINES, Port, ac, contact, dc, minus, plus, single  # noqa: F401

UNLIMITED = math.inf  # [A] a source that gives whatever a fault asks: a battery, the public grid


@frozen
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


@frozen
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


@frozen
class Claim:
    """The voltage a port stands at or accepts, `low` to `high` [V]; ac ports accept a set.

    role orders the claims: storage, source (and charger or converter output), input, load.
    A port of a single lead stands over the node's own main -.
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


@frozen
class Kind:
    """A kind of node. `sort` is how a path meets it: point, through or end (see README).

    The functions take the node's Values: `ports` in the order of the language, the main one
    first; `inside` what passes current; `gives` what it can drive into a fault; `claims` its
    voltages; `supplies` pairs (input port, output port): the output lives while the input does;
    `positions` the names of all it can stand in, where what passes inside depends on them.
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
    words: tuple[str, ...] = ()  # what may follow it in a path: a word of a field, or a yes/no field's name
    uses: bool = False  # a load: something is meant to reach it
    positions: Of = none
    either: tuple[tuple[str, ...], ...] = ()  # of each group one field is required
    letters: Callable[[Values], str] | None = None  # where the letter depends on the fields
    symbols: Callable[[Values], str] | None = None  # and the symbol

    def letter_of(self, values: Values) -> str:
        """The letter of IEC 81346-2 that a node of these values is numbered under."""
        return self.letters(values) if self.letters else self.letter

    def symbol_of(self, values: Values) -> str:
        """The name of the symbol that draws a node of these values."""
        return self.symbols(values) if self.symbols else self.symbol
