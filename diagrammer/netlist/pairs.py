"""Nodes that a field of another node names; the bar or terminal where a pair's returns land."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.model import Node


def check(nodes: Mapping[str, Node], unreadable: Collection[str], say: Complaints) -> None:
    """Nodes that fields name are there; on a pair returns can land."""
    for node in nodes.values():
        for field in node.kind.fields:
            named = node.get(field.name) if field.form.sort in ("node", "nodes") else None
            for name in (named,) if isinstance(named, str) else named or ():
                if name in unreadable:
                    continue
                if name not in nodes:
                    say.unknown(node.places[field.name], "node", name, nodes, "Declare it under `nodes`.")
                elif field.name == "pair" and name == node.name:
                    say(node.places[field.name], f"`{name}` can't be its own pair: feed and return would be joined")
                elif field.name == "pair" and not way_back_of_pair(nodes[name]):
                    say(node.places[field.name],
                        f"`{name}` ({nodes[name].kind.name}) can't be a pair: no return lands there")


def way_back_of_pair(pair: Node | None) -> str:
    """The terminal where a return lands that is written to a pair, "" if none can."""
    for port in pair.ports if pair else ():
        if port.form == "single" and port.name == "main":
            return pair.name
        if port.form == "dc":
            return pair.terminal("-" if port.name == "main" else f"{port.name}.-")
    return ""
