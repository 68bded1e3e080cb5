"""A charger runs off the bank that it charges.

Why: the losses of charger and inverter empty the bank, in a night, with nothing else on.

Fix: feed the charger from the shore's or engine's side, or switch it off whenever its supply comes from the
bank.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.charging import Charge, charging
from diagrammer.circuit.demand import FEEDING, demand
from diagrammer.circuit.paths import FOR_GOOD
from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice",)

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 1 kW, neutral: bonded}
  kettle: {kind: ac load, power: 800 W}
  pedestal: {kind: shore, rating: 15 A}
  mains-charger: {kind: ac charger, output: 30 A}
circuits:
  - {feed: bank/fuse class-t 150 A 20 kA -> switch battery 200 A -> inverter, wire: [2/0 AWG 0.5 m, 0.5 m]}
  - {ac: inverter -> breaker 10 A -> kettle, wire: [12 AWG 1 m, 1 m]}
  - {ac: pedestal -> breaker 2-pole 15 A -> mains-charger.in, wire: [14 AWG 0.3 m, 2 m]}
  - {feed: mains-charger -> fuse class-t 40 A 20 kA/bank, wire: 6 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 1 kW, neutral: bonded}
  ac-panel: {kind: ac panel, rating: 16 A}
  kettle: {kind: ac load, power: 800 W}
  mains-charger: {kind: ac charger, output: 30 A}
# ^^^^^^^^^^^^^ charging-loop: `mains-charger` (30 A) runs off `inverter` (1 kW), and that off `bank`, which it charges
circuits:
  - {feed: bank/fuse class-t 150 A 20 kA -> switch battery 200 A -> inverter, wire: [2/0 AWG 0.5 m, 0.5 m]}
  - {ac: inverter -> breaker 10 A/ac-panel, wire: 12 AWG 1 m}
  - {ac: ac-panel/breaker 10 A -> kettle, wire: 12 AWG 1 m}
  - {ac: ac-panel/breaker 10 A -> mains-charger.in, wire: 12 AWG 2 m}
  - {feed: mains-charger -> fuse class-t 40 A 20 kA/bank, wire: 6 AWG 1 m}
"""
INPUTS = {"ac charger": ("in",), "dc charger": ("in",), "inverter charger": ("in", "in2")}
JOINED = FOR_GOOD | {"isolator"}  # a sensing isolator stays closed while something charges


def check(survey: Survey) -> Iterator[Finding]:
    view = survey.cleared
    chargers = [charge for charge in charging(view).all if charge.node.kind.name in INPUTS]
    met: set[str] = set()
    for store in stores(view).all if chargers else ():
        for maker, reached in _supplied(survey, store):
            for charge in chargers:
                if charge.node.name not in met and _runs(survey, charge, reached) and charge.reaches(store):
                    met.add(charge.node.name)
                    yield _finding(survey, charge, maker, store)


def _supplied(survey: Survey, store: Store):
    """(None, what a bank's own net reaches), then (maker, what it reaches) for each converter and inverter on it."""
    asked, view = demand(survey.cleared), survey.cleared
    queue, met = [(None, asked.paths.reach(store.tops, JOINED))], set()
    feeds = asked.paths.reach(store.tops, FEEDING)
    while queue:
        maker, reached = queue.pop(0)
        yield maker, reached
        for node in asked.makers(feeds if maker is None else reached):
            if node.name not in met:
                met.add(node.name)
                queue.append((node, asked.paths.reach(asked.outputs(node), FEEDING, asked.making(node))))


def _runs(survey: Survey, charge: Charge, reached) -> bool:
    """Whether a charger's input is among what is reached."""
    ports = INPUTS[charge.node.kind.name]
    return any(terminal in reached for port in ports for terminal in survey.cleared.hot(charge.node.name, port))


def _finding(survey: Survey, charge: Charge, maker: Node | None, store: Store) -> Finding:
    what = f"{name(charge.node.name)} ({show(charge.amps, 'A')})"
    nodes = (charge.node.name, *((maker.name,) if maker not in (None, charge.node) else ()), *store.names)
    if maker is None:
        message = f"{what} runs off {names(store.names)}, which it charges"
    else:
        size = f" ({show(maker['power'], 'W')})" if maker.get("power") else ""
        by = "its own output" if maker is charge.node else f"{name(maker.name)}{size}"
        message = f"{what} runs off {by}, and that off {names(store.names)}, which it charges"
    return finding(__name__, survey, Fact("charging-loop", nodes=nodes), message)
