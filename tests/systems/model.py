"""A generated system before it is text: plain values that faults edit and render.py writes out."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass
class Node:
    """One entry of `nodes`. `part` says what it is for (faults look for it): "main bar", "load" ..."""

    name: str
    kind: str
    fields: dict[str, str]
    part: str = ""


@dataclass
class Place:
    """A node as a path meets it; `port` as written after the dot."""

    node: str
    port: str = ""
    stud: str = ""


@dataclass
class Device:
    """A device written in a path: `fuse class-t 250 A 20 kA`. amps [A]; None leaves it out."""

    word: str
    amps: float | None = None
    words: str = ""
    extra: str = ""
    name: str = ""


@dataclass
class Run:
    """One conductor: size as written, length [m]."""

    size: str
    length: float
    parallel: int = 1


@dataclass
class Path:
    """items[i] and items[i + 1] are joined by hops[i]: a Run, or None where they are bolted."""

    items: list[Place | Device]
    hops: list[Run | None]

    @property
    def runs(self) -> list[Run]:
        return [hop for hop in self.hops if hop is not None]

    def devices(self, *words: str) -> list[int]:
        return [i for i, item in enumerate(self.items) if isinstance(item, Device) and item.word in words]

    def reversed(self) -> Path:
        return Path(self.items[::-1], self.hops[::-1])


NONE = Path([], [])  # `return: none`


@dataclass
class Circuit:
    """One entry of `circuits`. role: feed, return, ac, series, bond; back: its written return."""

    name: str
    role: str
    path: Path
    back: Path | None = None
    inside: str = ""  # sheath, conduit ...
    cores: str = ""
    terminals: str = ""
    material: str = ""
    part: str = ""
    back_run: Run | None = None  # the wire of a derived return, where it is not the feed's


@dataclass
class Model:
    title: str
    practice: str
    site: dict[str, str]
    wire: dict[str, str]
    volts: int = 12
    nodes: dict[str, Node] = field(default_factory=dict)
    circuits: list[Circuit] = field(default_factory=list)
    interlocks: list[list[str]] = field(default_factory=list)

    def circuit(self, name: str) -> Circuit:
        return next(c for c in self.circuits if c.name == name)

    def of(self, *parts: str) -> list[Circuit]:
        return [c for c in self.circuits if c.part in parts]

    def nodes_of(self, *parts: str) -> list[Node]:
        return [n for n in self.nodes.values() if n.part in parts]
