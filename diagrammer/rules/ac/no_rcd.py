"""A socket outlet is fed without residual-current protection.

Why: what is plugged in stands in wet hands and on damp ground; a fault to its case or a cut lead can kill before any
fuse opens.

Fix: put a residual-current device of at most 30 mA (where the local code asks for it 5 mA) before the outlet, and have
a licensed electrician test it.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("IEC 60364-7-721 and 60364-4-41 415.1", "NEC 210.8, from memory", "ABYC E-11, as quoted")

GOOD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  panel: {kind: ac panel, rating: 16 A}
  galley: {kind: outlet, rating: 15 A}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> panel, wire: [12 AWG 0.3 m, 1 m]}
  - {ac: panel -> rcd 20 A 5 mA/galley, wire: 12 AWG 3 m}
"""

BAD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  panel: {kind: ac panel, rating: 16 A}
  galley: {kind: outlet, rating: 15 A}
# ^^^^^^ no-rcd: no residual-current device stands between `pedestal` and the outlet `galley`
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> panel, wire: [12 AWG 0.3 m, 1 m]}
  - {ac: panel -> galley, wire: 12 AWG 3 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    mains = survey.mains
    for node in survey.cleared.system.nodes.values():
        path = mains.unguarded(node.name) if node.kind.name == "outlet" else ()
        if path:
            fact = Fact("no-rcd", nodes=(node.name,), path=path)
            yield finding(__name__, survey, fact, f"no residual-current device stands between {name(path[0])} and the outlet {name(node.name)}")
