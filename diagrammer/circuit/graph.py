"""The netlist as a networkx MultiGraph of terminals.

Vertices are terminal ids with `node`, `port`, `pole`. Edge keys are strings: a conductor's id,
"joint 12", "inside Q1 0"; edges carry `form` ("conductor", "joint", or that of an Inside:
contact, overcurrent, shunt, diode, common, bond, resistor, capacitor), `side`, `core`, and the
model's own value as `value`. Built in file order, so iteration order is the file's.
"""

from __future__ import annotations

import networkx as nx

from diagrammer.netlist.model import System


def build(system: System) -> nx.MultiGraph:
    """The terminal graph of a system: O(terminals + conductors)."""
    graph = nx.MultiGraph()
    for terminal in system.terminals.values():
        graph.add_node(terminal.id, node=terminal.node, port=terminal.port, pole=terminal.pole)
    for wire in system.conductors:
        graph.add_edge(wire.a, wire.b, wire.id, form="conductor", side=wire.side, core=wire.core, value=wire)
    for number, joint in enumerate(system.joints):
        graph.add_edge(joint.a, joint.b, f"joint {number}", form="joint", side=joint.side, core=joint.core, value=joint)
    for number, inside in enumerate(system.insides):
        graph.add_edge(
            inside.a, inside.b, f"inside {inside.node} {number}",
            form=inside.form, side=inside.side, core=inside.core, value=inside,
        )
    return graph
