"""An ac enclosure has no protective conductor.

Why: when a live core touches its case nothing opens, and whoever touches the case is the way to earth: this kills.

Fix: run the earth core with the cable to its earth terminal, and have it tested as the local code asks.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.mains import LINES
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("IEC 60364-4-41 411.3.1", "NEC 250.4 and 250.110, from memory", "ABYC E-11, from memory")

GOOD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> heater, wire: [12 AWG 0.3 m, 4 m]}
"""

BAD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> heater, wire: {hops: [12 AWG 0.3 m, 4 m], cores: L N}}
  #                                         ^^^^^^ missing-earth: no protective conductor comes to `heater`: the cable has no earth core
"""


def check(survey: Survey) -> Iterator[Finding]:
    view, lines_said = survey.cleared, set()
    for node in survey.mains.unearthed():
        lines = {terminal.id for terminal in view.system.terminals.values() if terminal.node == node and terminal.pole in LINES}
        cable = next((wire.cable for wire in view.system.conductors if {wire.a, wire.b} & lines), "")
        circuit = view.cables[cable].circuit if cable else ""
        if circuit and circuit in lines_said:  # a chain of outlets on one cable has one fault
            continue
        lines_said.add(circuit)
        cores = {wire.core for wire in view.system.conductors if wire.cable == cable}
        why = "" if "earth" in cores or not cable else ": the cable has no earth core"
        fact = Fact("missing-earth", nodes=(node,), cables=(cable,) if cable else ())
        place = next((stop.place for circuit in view.system.circuits for leg in circuit.legs if leg.role == "ac"
                      for stop in leg.stops if stop.node == node), None)
        yield finding(__name__, survey, fact, f"no protective conductor comes to {name(node)}{why}", at=place)
