"""What a system under construction knows: its random source, practice, voltage, and what hangs on the main bar."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random

from tests.systems import practice as book
from tests.systems.model import Circuit, Device, Model, Node, Path, Place, Run

SECTIONS = ("engine", "bank", "bars", "solar", "wind", "mains", "ac", "panels", "loads", "bonds")


@dataclass
class Draft:
    """Nodes and circuits by section (the file's order), and the sums that size bank and main line."""

    rng: Random
    size: int
    practice: str
    volts: int
    coldest: int  # [°C]
    hottest: int
    tight: bool = False  # built to the limits of the practice
    vehicle: str = "cabin"
    chemistry: str = "lifepo4"
    exact: bool = False  # a lithium bank states 12.8 V and not 12 V
    fault: int = 3  # [kA] of each battery: those of one bank are alike
    nodes: dict[str, list[Node]] = field(default_factory=lambda: {s: [] for s in SECTIONS})
    circuits: dict[str, list[Circuit]] = field(default_factory=lambda: {s: [] for s in SECTIONS})
    names: set[str] = field(default_factory=set)
    interlocks: list[list[str]] = field(default_factory=list)
    demand: float = 0.0  # [A] continuous, at the bank
    charge: float = 0.0  # [A] all chargers together
    through: list[float] = field(default_factory=list)  # [A] devices through which other batteries reach the main bar
    metal: str = ""  # the chassis that carries returns
    taken: dict[str, float] = field(default_factory=dict)  # [A] at the bank, by bar
    later: list[Callable[[], None]] = field(default_factory=list)  # parts that need to know the whole demand
    landings: list[tuple[str, str]] = field(default_factory=lambda: [("feed-bar", "return-bar")])

    @property
    def count(self) -> int:
        return sum(len(nodes) for nodes in self.nodes.values())

    @property
    def left(self) -> int:
        return self.size - self.count

    @property
    def backfeed(self) -> float:
        """[A] what reaches the bank's lines from the main bar: other batteries' devices, the chargers' devices."""
        return sum(self.through) + 1.6 * self.charge

    def chance(self, share: float) -> bool:
        return self.rng.random() < share

    def name(self, wanted: str) -> str:
        name, n = wanted, 2
        while name in self.names:
            name, n = f"{wanted}-{n}", n + 1
        self.names.add(name)
        return name

    def node(self, section: str, name: str, kind: str, part: str = "", **fields: str) -> str:
        name = self.name(name)
        given = {key.replace("_", " "): value for key, value in fields.items() if value}
        self.nodes[section].append(Node(name, kind, given, part))
        return name

    def circuit(self, section: str, name: str, role: str, path: Path, back: Path | None = None, **more: str) -> Circuit:
        made = Circuit(name, role, path, back, **more)
        self.circuits[section].append(made)
        return made

    def landing(self) -> tuple[str, str]:
        """A feed bar with its return bar."""
        return self.rng.choice(self.landings)

    def take(self, bar: str, amps: float) -> None:
        """A continuous current [A, at the bank's voltage] taken from a bar."""
        self.taken[bar] = self.taken.get(bar, 0) + amps
        self.demand += amps

    def length(self, low: float, high: float) -> float:
        """[m] to the nearest 5 cm."""
        return round(self.rng.uniform(low, high) * 20) / 20

    def pick(self, device: float, amps: float, metres: float, drop: float, alone: bool = False) -> tuple[str, int]:
        """alone: the device is all that feeds the conductor, which may then be as thin as the practice allows."""
        return book.pick(self.practice, self.hottest, device, amps, metres, drop, alone and self.tight)

    def amps(self, watts: float, volts: float | None = None) -> float:
        """[A] what a constant power draws when the bank is low."""
        return watts / (0.85 * (volts or self.volts))

    def model(self, title: str) -> Model:
        wire = {"insulation": f"{book.INSULATION[self.practice]} °C"}
        site = {"coldest": f"{self.coldest} °C", "hottest": f"{self.hottest} °C"}
        nodes = {n.name: n for s in SECTIONS for n in self.nodes[s]}
        circuits = [c for s in SECTIONS for c in self.circuits[s]]
        return Model(title, self.practice, site, wire, self.volts, nodes, circuits, self.interlocks)


def trail(*steps: object) -> Path:
    """A path from places (strings "node.port@stud" or Place), devices, and between them a Run or None."""
    items, hops = [], []
    for value in steps:
        if value is None or isinstance(value, Run):
            hops.append(value)
        else:
            items.append(place(value) if isinstance(value, str) else value)
    return Path(items, hops)


def place(text: str) -> Place:
    text, _, stud = text.partition("@")
    node, _, port = text.partition(".")
    return Place(node, port, stud)


def fuse(amps: float, words: str = "", extra: str = "") -> Device:
    return Device("fuse", amps, words, extra)


def breaker(amps: float, words: str = "", extra: str = "", name: str = "") -> Device:
    return Device("breaker", amps, words, extra, name)


def switch(amps: float, words: str = "") -> Device:
    return Device("switch", amps, words)
