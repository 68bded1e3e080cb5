"""The systems that the boundary cases start from: a bank with a fused main line, a shunt, lamps.

Everything is written out: what a case changes, it writes itself.
"""

from __future__ import annotations

from tests.circuit.cases import netlist

METERED = "bank -> meter -> return-bar"


class Case:
    """A 12 V (or other) system to which nodes and lines are added; `lines` by name in file order."""

    def __init__(self, volts: str = "12 V", practice: str = "abyc", head: str = ""):
        self.practice, self.head = practice, head
        self.nodes = {
            "bank": f"bank, chemistry: agm, voltage: {volts}, capacity: 200 Ah, pair: return-bar",
            "meter": "shunt, rating: 500 A",
            "feed-bar": "bar, rating: 400 A, pair: return-bar",
            "return-bar": "bar, rating: 400 A",
        }
        self.lines = {
            "main": "feed: bank/fuse class-t 200 A -> feed-bar, return: bank -> meter -> return-bar, "
                    "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}",
        }

    def node(self, name: str, text: str) -> Case:
        self.nodes[name] = text
        return self

    def line(self, name: str, text: str) -> Case:
        self.lines[name] = text
        return self

    def drop(self, *names: str) -> Case:
        for name in names:
            self.nodes.pop(name, None)
            self.lines.pop(name, None)
        return self

    def load(self, name: str, volts: str = "12 V", bar: str = "feed-bar", line: str = "") -> Case:
        """A small load with a line of its own, fused on the bar."""
        self.node(name, f"load, voltage: {volts}, power: 20 W")
        return self.line(name, line or f"feed: {bar}/fuse 10 A -> {name}, wire: 14 AWG 3 m")

    def loads(self, *names: str, **how: str) -> Case:
        for name in names:
            self.load(name, **how)
        return self

    @property
    def text(self) -> str:
        def short(items: dict[str, str]) -> str:
            return "\n".join(f"{name}: {rest}" for name, rest in items.items())
        return netlist(short(self.nodes), short(self.lines), self.practice, self.head)
