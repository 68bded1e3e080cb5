"""A netlist as read: typed, frozen, every value with its place. No PyYAML, no networkx here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from sys import intern

from diagrammer.frozen import frozen
from diagrammer.kinds.kind import Inner, Kind, Port, Values
from diagrammer.quantity import Size
from diagrammer.text.place import Place


@frozen
class Site:
    """Where the system lives. Temperatures [°C], sun hours [h/day], autonomy [h]."""

    coldest: float | None = None
    hottest: float | None = None
    sun_hours: float | None = None
    autonomy: float | None = None


@frozen(slots=True)
class Terminal:
    """A point where conductors land: `id` is "bank.+", "sun.pv.-", "Q1.L.2", "feed-bar".

    pole: "+", "-", "L", "L1", "L2", "L3", "N", "earth", or "" (bar, contact, joint: the side of
    the path). port: the port's name ("main" for the chief one, the contact's number).
    """

    id: str
    node: str
    port: str
    pole: str


@frozen
class Node:
    """A part of the system, declared under nodes or written inside a path (`declared` False)."""

    name: str
    kind: Kind
    values: Values
    place: Place
    places: Mapping[str, Place] = field(default_factory=dict)  # of each field's value
    declared: bool = True
    ports: tuple[Port, ...] = ()
    accept: Mapping[str, tuple[str, Place]] = field(default_factory=dict)  # rule: (reason, place)

    @property
    def label(self) -> str:
        return self.values.get("label") or self.name

    def terminal(self, local: str) -> str:
        """The terminal's id from its local name: "+", "pv.-", "" for the terminal of a bar."""
        return intern(f"{self.name}.{local}") if local else self.name

    def get(self, name: str, default=None):
        return self.values.get(name, default)

    def __getitem__(self, name: str):
        """A field that the kind requires. Raises KeyError."""
        return self.values[name]


@frozen(slots=True)
class Wire:
    """What a conductor is made of and where it runs. None: not said."""

    size: Size | None = None
    parallel: int = 1
    insulation: float | None = None  # [°C]
    material: str = "copper"
    inside: tuple[str, ...] = ()  # words of `in`: conduit, sheath, engine-space ...
    bundle: int = 1  # current-carrying conductors that run together
    ambient: float | None = None  # [°C]
    terminals: str = ""
    terminations: float | None = None  # [°C] that what it lands on is marked for

    SHEATHS = ("conduit", "sheath", "loom", "trunking", "raceway", "enclosure")

    @property
    def sheathed(self) -> bool:
        return any(word in self.SHEATHS for word in self.inside)

    @property
    def label(self) -> str:
        """Such as "2/0 AWG" or "2 parallel 70 mm²"; "" where no size is said."""
        if self.size is None:
            return ""
        return f"{self.parallel} parallel {self.size.label}" if self.parallel > 1 else self.size.label


@frozen
class Run:
    """A length that is known only as a whole, over conductors that share it [m]."""

    id: str
    length: float
    members: tuple[str, ...]  # conductor ids in path order


@frozen(slots=True)
class Conductor:
    """One core from one terminal to the next.

    cable: "main:f0": circuit, side letter (f feed, r return, a ac, s series, b bond), hop from 0;
    id: the cable, and in a cable of several cores ".L" and so on: "gen:a0.L".
    side: "feed", "return", "ac" or "earth"; a series link counts as feed.
    length [m] where this conductor's own is known; else `run` names the whole (System.runs).
    """

    id: str
    cable: str
    circuit: str
    role: str  # feed, return, ac, series, bond
    side: str
    core: str  # "" in dc, else L ... N, earth
    a: str  # terminal ids, in the order of the path
    b: str
    wire: Wire
    length: float | None
    run: str
    derived: bool
    place: Place
    size_place: Place | None = None
    studs: tuple[str, str] = ("", "")


@frozen(slots=True)
class Joint:
    """Two terminals bolted or plugged together: no conductor between."""

    circuit: str
    side: str
    core: str
    a: str
    b: str
    place: Place


@frozen(slots=True)
class Inside:
    """What passes current inside a node, between two of its terminals (ids); form and positions
    as in kinds.kind.Inner; side that of the path that goes through, "" where none does."""

    node: str
    a: str
    b: str
    form: str
    positions: tuple[str, ...] = ()
    side: str = ""
    core: str = ""


@frozen(slots=True)
class Stop:
    """A node as a path meets it. `enter` and `leave` are terminal ids (ac: the port's id, such as
    "combi.in"), alike at a point, "" where the path begins or ends."""

    node: str
    enter: str
    leave: str
    stud: str
    place: Place


@frozen(slots=True)
class Leg:
    """One path of a circuit. links[i] joins stops[i] to stops[i + 1]: the cable's id, or "" where
    the two are bolted together."""

    role: str  # feed, return, ac, series, bond
    stops: tuple[Stop, ...]
    links: tuple[str, ...]
    derived: bool
    place: Place


@frozen
class Circuit:
    """One entry of `circuits`. legs[0] is the feed (or what stands for it)."""

    name: str
    place: Place
    legs: tuple[Leg, ...]
    note: str = ""
    named: bool = False  # the name was written, not made
    feet: bool = False  # its lengths were written in feet or inches
    accept: Mapping[str, tuple[str, Place]] = field(default_factory=dict)


@frozen(eq=False)
class System:
    """A whole netlist, everything in file order. Two readings are two systems: what is computed is kept by identity."""

    file: str
    title: str
    practice: str  # abyc, nec, iso
    site: Site
    nodes: Mapping[str, Node]
    circuits: tuple[Circuit, ...]
    terminals: Mapping[str, Terminal]
    conductors: tuple[Conductor, ...]
    joints: tuple[Joint, ...]
    insides: tuple[Inside, ...]
    runs: Mapping[str, Run]
    interlocks: tuple[tuple[str, ...], ...] = ()
    states: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    place: Place | None = None
    sheet: Mapping[str, str] = field(default_factory=dict)  # title block: owner, creator, number ...
