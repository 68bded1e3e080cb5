"""What is passed through and what is charged together ask more than the inlet or the generator gives.

Why: the breaker on land or of the generator opens, and everything goes dark each time the kettle is on while the bank is
charged.

Fix: lower the charge current or the input limit, run less at once, or have a licensed electrician bring a larger
supply.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.mains import SUPPLIES
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.circuit.windings import windings
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, number
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("IEC 60364-4-43 433.1, from memory", "common practice")
SYMPTOMS = ("protection-too-small", "conductor-overloaded", "overloaded-bar", "voltage-drop")
TOUCH = 1e-4  # relative: a limit that is met is not passed

GOOD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1.5 kW}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> heater, wire: [12 AWG 0.3 m, 4 m]}
"""

BAD = """
nodes:
  pedestal: {kind: shore, rating: 10 A}
# ^^^^^^^^ shore-overloaded: `pedestal` gives 10 A, but what it feeds takes 12.9 A (on shore power)
  heater: {kind: ac load, power: 1.5 kW}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> heater, wire: [12 AWG 0.3 m, 4 m]}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for node in survey.cleared.system.nodes.values():
        if node.kind.name not in SUPPLIES:
            continue
        asked, limit, when = _most(survey, node)
        if asked > limit * (1 + TOUCH):
            yield finding(
                __name__, survey, Fact("shore-overloaded", nodes=(node.name,)),
                f"{name(node.name)} gives {number(limit)} A, but what it feeds takes {number(asked)} A ({when})",
            )


def _most(survey: Survey, node) -> tuple[float, float, str]:
    """Largest current of one line [A], what the node gives [A], and the state."""
    lines = windings(node, node.ports[0])
    limit = node.get("rating") or node["power"] / sum(volts for *_, volts in lines)
    running = (one for one in survey.study.nominal if one.flow and node.name in one.state.running)
    asked = ((one.flow.amps[f"{node.name} {name_}"], limit, one.state.name) for one in running for name_, *_ in lines)
    return max(asked, key=lambda one: one[0], default=(0.0, limit, ""))
