"""Batteries in parallel are larger together than one device for all of them may protect.

Why: the healthy ones drive the sum of their short-circuit currents into one that fails, and nothing between them opens:
it can burst and burn.

Fix: put a fuse of a high breaking capacity on the post of each battery, or of each string.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.nets import Nets
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics.protection import single
from diagrammer.electrics.rounding import above
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("ABYC E-11 11.10.1.4.1 (July 2025, quoted): above 500 Ah a device between each battery and the main one",
           "common practice under nec and iso")
GOOD = """
practice: abyc
nodes:
  left:   {kind: battery, chemistry: agm, voltage: 12 V, capacity: 300 Ah, short circuit: 3 kA}
  right:  {kind: battery, chemistry: agm, voltage: 12 V, capacity: 300 Ah, short circuit: 3 kA}
  joined: {kind: bar, rating: 300 A, pair: joined-return}
  joined-return: {kind: bar, rating: 300 A}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 200 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
circuits:
  - {feed: left/fuse class-t 100 A -> joined, wire: 2 AWG 0.4 m}
  - {feed: right/fuse class-t 100 A -> joined, wire: 2 AWG 0.4 m}
  - feed:   joined -> switch battery 200 A -> panel
    return: joined-return -> meter -> return-bar
    wire:   [2/0 AWG 0.4 m, 0.4 m]
  - {feed: panel/fuse class-t 10 A -> pump, wire: 14 AWG 3 m}
"""
BAD = """
practice: abyc
nodes:
  left:   {kind: battery, chemistry: agm, voltage: 12 V, capacity: 300 Ah, short circuit: 3 kA}
# ^^^^ unfused-batteries: `left` and `right` are 600 Ah in parallel with no device between them; 500 Ah is the most
  right:  {kind: battery, chemistry: agm, voltage: 12 V, capacity: 300 Ah, short circuit: 3 kA}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 200 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
circuits:
  - {feed: left -> right, wire: 2/0 AWG 0.3 m}
  - feed:   left/fuse class-t 200 A -> switch battery 200 A -> panel
    return: right -> meter -> return-bar
    wire:   [2/0 AWG 0.4 m, 0.4 m]
  - {feed: panel/fuse class-t 10 A -> pump, wire: 14 AWG 3 m}
"""
JOIN = ("switch", "plug")  # kinds through which batteries count as joined for good: opened by hand only


def check(survey: Survey) -> Iterator[Finding]:
    view = survey.cleared
    nets = Nets(view.graph, lambda data: _joined(survey, data))
    groups: dict[tuple[int, str], list[str]] = {}
    for name, one in batteries(view.system).items():
        groups.setdefault((nets[f"{name}.+"], one.node["duty"]), []).append(name)
    lower = {nets[f"{name}.-"] for name in batteries(view.system)}
    most = single("batteries")
    for (net, _), found in groups.items():
        total = sum(batteries(view.system)[name].capacity for name in found)
        if len(found) > 1 and above(total, most) and net not in lower:
            yield finding(
                __name__, survey, Fact("unfused-batteries", nodes=tuple(found)),
                f"{names(found)} are {show(total, 'Ah')} in parallel with no device between them; "
                f"{show(most, 'Ah')} is the most",
            )


def _joined(survey: Survey, data) -> bool:
    """Joined with nothing between that opens by itself."""
    if data["form"] in ("conductor", "joint", "shunt"):
        return True
    node = survey.system.nodes[data["value"].node]
    return node.kind.name in JOIN and not node.get("open")
