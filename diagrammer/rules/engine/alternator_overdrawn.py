"""The chargers on an alternator take more than it can give continuously.

Why: it runs at full output hour after hour, overheats and fails, and the engine's battery is drawn down while
driving.

Fix: set the charger lower, take a smaller one, or fit an alternator that is made for continuous output.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.batteries import charge_voltage
from diagrammer.circuit.converters import EFFICIENCY
from diagrammer.circuit.paths import paths
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = (
    "the alternator's data sheet",
    "common practice: a converter's losses of 10 % where its input current is not stated",
)

GOOD = """
nodes:
  block: {kind: engine}
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah}
  alternator: {kind: alternator, output: 90 A, continuous: 60 A, voltage: 14.2 V}
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, cold cutoff: yes}
  dc-charger: {kind: dc charger, output: 40 A, voltage: 12 V, input voltage: 12 V, input current: 46 A}
circuits:
  - {feed: alternator -> fuse 125 A/engine-battery, return: alternator/block, wire: 2 AWG 1 m}
  - {return: engine-battery -> block, wire: 2 AWG 1 m}
  - {feed: engine-battery/fuse 60 A -> dc-charger.in, wire: 6 AWG 2 m}
  - {feed: dc-charger -> fuse 60 A/bank, wire: 6 AWG 1 m}
"""

BAD = """
nodes:
  block: {kind: engine}
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah}
  alternator: {kind: alternator, output: 90 A, continuous: 60 A, voltage: 14.2 V}
# ^^^^^^^^^^ alternator-overdrawn: `alternator` gives 60 A continuously, but `dc-charger` takes 70 A
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, cold cutoff: yes}
  dc-charger: {kind: dc charger, output: 60 A, voltage: 12 V, input voltage: 12 V, input current: 70 A}
circuits:
  - {feed: alternator -> fuse 125 A/engine-battery, return: alternator/block, wire: 2 AWG 1 m}
  - {return: engine-battery -> block, wire: 2 AWG 1 m}
  - {feed: engine-battery/fuse 80 A -> dc-charger.in, wire: 4 AWG 2 m}
  - {feed: dc-charger -> fuse 80 A/bank, wire: 4 AWG 1 m}
"""
MARGIN = 1.0001  # a limit that is met to the last digit is not passed
LEADS = frozenset(("wire", "fuse", "breaker", "switch", "switch by itself", "shunt", "plug", "bms"))  # to its own bank


def check(survey: Survey) -> Iterator[Finding]:
    view, met = survey.cleared, set()
    machines = {f"{node.name}.+": node for node in view.system.nodes.values() if node.kind.name == "alternator"}
    inputs = {f"{node.name}.in.+": node for node in view.system.nodes.values() if node.kind.name == "dc charger"}
    for start, node in machines.items():
        if node.name in met:
            continue
        reached = paths(view).reach((start,), LEADS)
        here = [one for terminal, one in machines.items() if terminal in reached]
        met.update(one.name for one in here)
        chargers = [one for terminal, one in inputs.items() if terminal in reached and f"{one.name}.+" not in reached]
        gives = sum(one.get("continuous") or one["output"] for one in here)
        takes = sum(_takes(survey, one, node) for one in chargers)
        if takes > gives * MARGIN:
            yield _finding(survey, here, chargers, gives, takes)


def _takes(survey: Survey, charger: Node, alternator: Node) -> float:
    """Input current [A] of a charger at full output: as stated, else by output, voltages and the usual losses."""
    stated = charger.get("input current")
    if stated is not None:
        return stated
    system = survey.cleared.system
    out = charge_voltage(system, f"{charger.name}.+")
    into = alternator.get("voltage") or charge_voltage(system, f"{alternator.name}.+")
    return charger["output"] * out / (EFFICIENCY * into) if out and into else 0.0


def _finding(survey: Survey, here: list[Node], chargers: list[Node], gives: float, takes: float) -> Finding:
    machines, users = [node.name for node in here], [node.name for node in chargers]
    about = "" if all(node.get("input current") is not None for node in chargers) else "about "
    long = "continuously" if any(node.get("continuous") for node in here) else "at most"
    message = (f"{names(machines)} {verb(machines, 'gives', 'give')} {show(gives, 'A')} {long}, but {names(users)} "
               f"{verb(users, 'takes', 'take')} {about}{show(takes, 'A')}")
    return finding(__name__, survey, Fact("alternator-overdrawn", nodes=(*machines, *users)), message)
