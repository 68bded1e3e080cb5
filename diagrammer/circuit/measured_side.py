"""The return side as a measuring shunt sees it: what conducts there, what hangs there."""

from __future__ import annotations

from collections.abc import Mapping

from diagrammer.circuit import cuts
from diagrammer.circuit.view import View, node_of
from diagrammer.netlist.model import Node

PASSING = ("conductor", "joint", "contact", "overcurrent", "shunt", "diode", "resistor")
SENSE_PORTS = ("sense", "midpoint", "supply", "ground")
LANDINGS = ("bar", "joint", "terminals", "panel")  # one piece of metal for many
SOLDERED = 1000.0  # a bolted joint is cut only where no conductor would do


class Side:
    """Return conductors, dc bonds, and what passes current between them."""

    def __init__(self, view: View):
        self.view = view
        self.web = cuts.web(view.graph, self._keep)
        self.houses, self.starters = self._storage()

    def _keep(self, key: str, data: Mapping) -> bool:
        return not data["core"] and data["side"] in ("return", "earth") and data["form"] in PASSING

    def _storage(self) -> tuple[dict[str, str], dict[str, str]]:
        """{negative: node} of what stores energy: for the house, for an engine. Unwired ones are out."""
        houses: dict[str, str] = {}
        starters: dict[str, str] = {}
        for name, give in self.view.gives:
            minus = self.view.pole(name, give.port, "-")
            if give.role == "storage" and self.web.get(minus):
                starter = self.view.system.nodes[name].get("duty") == "starter"
                (starters if starter else houses)[minus] = name
        return houses, starters

    def node(self, terminal: str) -> Node:
        return self.view.system.nodes[node_of(terminal)]

    def passes(self, terminal: str) -> bool:
        """Whether what has this terminal only passes current on, or takes too little to count."""
        node, port = self.node(terminal), self.view.system.terminals[terminal].port
        if port in SENSE_PORTS:
            return True
        if node.kind.sort == "through":
            return port != "coil"
        return node.kind.name in (*LANDINGS, "selector")

    def without(self, edges) -> dict[str, list[tuple[str, str]]]:
        """The web with these edges taken out."""
        gone = set(edges)
        return {t: [(other, key) for other, key in found if key not in gone] for t, found in self.web.items()}

    def weight(self, key: str) -> float:
        form = self.view.edges[key]["form"]
        return 1.0 if form == "conductor" else SOLDERED if form == "joint" else float("inf")
