"""What current reaches from a terminal, through what passes it: never through one multi-way node in two positions."""

from __future__ import annotations

from collections import deque
from collections.abc import Collection, Iterable, Mapping
from functools import lru_cache

from diagrammer.circuit.graph import edges
from diagrammer.circuit.view import View
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Inside, System

Choices = tuple[tuple[str, tuple[str, ...]], ...]  # of multi-way nodes met so far: the positions still possible

PLAIN = frozenset(("wire", "fuse", "breaker", "shunt", "plug", "resistor", "bms"))  # closed while nothing is wrong
BY_HAND = frozenset(("switch",))  # closed, and opened by hand
BY_ITSELF = frozenset(("switch by itself",))  # opened and closed by what it senses
FOR_GOOD = PLAIN | BY_HAND  # what joins two things for good
STEERED = frozenset(("relay", "selector", "transfer", "spare switch", "isolator", "diode"))
EVERYTHING = FOR_GOOD | BY_ITSELF | STEERED  # but what a charger or inverter switches inside itself

_SORT = {"fuse": "fuse", "breaker": "breaker", "rcd": "plug", "rcbo": "breaker", "plug": "plug", "relay": "relay",
         "contactor": "relay", "selector": "selector", "transfer": "transfer", "isolator": "isolator", "bms": "bms"}
SENSING = ("float", "momentary", "pressure", "ignition", "thermostat", "door", "foot")  # types of switch


def sort_of(system: System, inside: Inside) -> str:
    """What an inside edge is to a path: one of the names above; "" where none leads through."""
    node = system.nodes[inside.node]
    if inside.form in ("common", "bond", "capacitor"):
        return ""
    if inside.form in ("shunt", "diode", "resistor"):
        return inside.form
    if node.kind.name != "switch":
        return _SORT.get(node.kind.name, "inner")
    if set((node.get("type") or "").split()) & set(SENSING):
        return "switch by itself"
    return "spare switch" if node.get("open") else "switch"


@frozen
class Step:
    """How a terminal was reached: from which, by which edge ("" at the start)."""

    before: str
    key: str


class Paths:
    """The dc and ac paths of one view. Earth conductors and bonds are none."""

    def __init__(self, view: View):
        self.view = view
        self.near: dict[str, list[tuple[str, str, str, Inside | None]]] = {terminal: [] for terminal in view.graph}
        for _, _, key, data in edges(view.graph):
            value, form = data["value"], data["form"]
            if form in ("conductor", "joint"):
                if value.side != "earth":
                    self._join(value.a, value.b, key, "wire", None)
            elif sort := sort_of(view.system, value):
                self._join(value.a, value.b, key, sort, value, both=form != "diode")

    def _join(self, a: str, b: str, key: str, sort: str, inside: Inside | None, both: bool = True) -> None:
        self.near[a].append((b, key, sort, inside))
        if both:
            self.near[b].append((a, key, sort, inside))

    def reach(self, starts: Iterable[str], sorts: Collection[str] = EVERYTHING,
              positions: Mapping[str, str] | None = None, without: Collection[str] = ()) -> dict[str, Step]:
        """{terminal: how it was reached} from `starts` through edges of these sorts.

        positions: of multi-way nodes that stand fast. without: nodes through which nothing passes. O(V + E) for
        each combination of positions that is met.
        """
        fast: Choices = tuple(sorted((node, (position,)) for node, position in (positions or {}).items()))
        found = {start: Step("", "") for start in starts if start in self.near}
        queue = deque((start, fast) for start in found)
        seen, stand = set(queue), dict(fast)
        while queue:
            terminal, choices = queue.popleft()
            for other, key, sort, inside in self.near[terminal]:
                if sort not in sorts and not (sort == "inner" and inside.node in stand):
                    continue
                if inside is not None and inside.node in without:
                    continue
                left = _narrowed(choices, inside)
                if left is None or (other, left) in seen:
                    continue
                seen.add((other, left))
                found.setdefault(other, Step(terminal, key))
                queue.append((other, left))
        return found

    def sort(self, key: str) -> str:
        """The sort of an edge: "wire", or what an inside edge is to a path."""
        data = self.view.edges[key]
        return "wire" if data["form"] in ("conductor", "joint") else sort_of(self.view.system, data["value"])

    def way(self, reached: Mapping[str, Step], terminal: str) -> list[str]:
        """The keys of the edges from a start to a terminal reached."""
        keys = []
        while reached[terminal].key:
            keys.append(reached[terminal].key)
            terminal = reached[terminal].before
        return keys[::-1]


def _narrowed(choices: Choices, inside: Inside | None) -> Choices | None:
    """The positions that stay possible behind an edge; None where it is open in all of them."""
    if inside is None or not inside.positions:
        return choices
    known = dict(choices)
    left = tuple(one for one in known.get(inside.node, inside.positions) if one in inside.positions)
    if not left:
        return None
    known[inside.node] = left
    return tuple(sorted(known.items()))


@lru_cache(maxsize=4)
def paths(view: View) -> Paths:
    """The paths of a view, made once."""
    return Paths(view)
