"""What is said of a return that its shunt does not measure."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.frozen import frozen


@frozen
class Unmeasured(Fact):
    """things: the nodes whose current passes the shunt by. landing: the node on the bank's side where
    they land, beyond: the one at the far end. shunt: its name. bank: the bank measured. parallel: the
    things are a bank that stands parallel to it, and lands beyond the shunt. bypass: it joins both
    sides of the shunt."""

    things: tuple[str, ...] = ()
    landing: str = ""
    beyond: str = ""
    shunt: str = ""
    bank: str = ""
    parallel: bool = False
    bypass: bool = False


def unmeasured(view: View, cut: tuple[str, ...], near, things: tuple[str, ...], shunt: str, bank: str,
          parallel: bool = False) -> Unmeasured:
    """At the conductor; at the bar where several land on it; at the thing where one is bolted on."""
    ends = view.ends(cut[0])
    landing, beyond = (node_of(t) for t in (ends if ends[0] in near else ends[::-1]))
    wires = tuple(view.edges[key]["value"].cable for key in cut if view.edges[key]["form"] == "conductor")
    path = tuple(dict.fromkeys((bank, landing, beyond, *things[:1])))
    fact = Unmeasured("unmeasured-return", wires, path=path, excuses=(shunt,), things=things, landing=landing,
                      beyond=beyond, shunt=shunt, bank=bank, parallel=parallel)
    if len(cut) > 1:
        return replace(fact, cables=(), nodes=(landing, *things), beyond="")
    return fact if wires else replace(fact, nodes=things, edge=cut[0])
