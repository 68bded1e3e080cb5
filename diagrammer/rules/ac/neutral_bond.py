"""In some operating state the neutral is not joined to earth exactly once.

Why: without a link a fault to a case trips nothing and the case stays live; with two the earth conductors carry the
load's current, cases may shock, and residual-current devices trip or stay blind.

Fix: let the source that is at work make the one link (shore: on land), and have a licensed electrician set it so as the
local code asks.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.mains import Neutral
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import joined, name
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("NEC 250.30, from memory", "IEC 60364-7-721", "ABYC E-11, as quoted on trade pages")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 1 kW, neutral: bonded}
  heater: {kind: ac load, power: 500 W}
circuits:
  - {feed: bank/fuse 150 A -> inverter, wire: 2/0 AWG 1 m}
  - {ac: inverter -> heater, wire: 12 AWG 2 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 1 kW, neutral: floating}
# ^^^^^^^^ neutral-bond: nothing joins the neutral of `inverter` to earth
  heater: {kind: ac load, power: 500 W}
circuits:
  - {feed: bank/fuse 150 A -> inverter, wire: 2/0 AWG 1 m}
  - {ac: inverter -> heater, wire: 12 AWG 2 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    seen = set()
    for neutral in survey.mains.neutrals():
        fact, message = _fault(neutral)
        if fact and fact.mark not in seen:
            seen.add(fact.mark)
            yield finding(__name__, survey, fact, f"{message}{_when(neutral)}")


def _fault(neutral: Neutral) -> tuple[Fact | None, str]:
    source = neutral.sources[0].node
    if not neutral.bonds:
        return Fact("neutral-bond", nodes=(source,)), f"nothing joins the neutral of {name(source)} to earth"
    if len(neutral.bonds) == 1:
        return None, ""
    last, cable = neutral.bonds[-1]
    others = tuple(dict.fromkeys(node for node, _ in neutral.bonds))
    at = joined([name(node) for node in others])
    message = f"the neutral of {name(source)} is joined to earth {len(neutral.bonds)} times, at {at}"
    nodes = tuple(dict.fromkeys((last, *others)))
    return Fact("neutral-bond", cables=(cable,) if cable else (), nodes=nodes), message


def _when(neutral: Neutral) -> str:
    stands = joined([f"{name(node)} at {position}" for node, position in neutral.positions if not node.startswith("interlock")])
    return f", with {stands}" if stands else ""
