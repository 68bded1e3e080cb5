"""All chargers together give a bank more than it takes.

Why: lithium cells plate and may catch fire, or their protection circuit opens under load; lead gasses, heats
and loses water, and the gas can explode.

Fix: set the chargers lower, keep them from running together, or enlarge the bank.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.charging import Charge, charging
from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics.battery import charge_limit
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.symptoms import incomplete
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "the battery's data sheet",
    "common practice for what it does not say: the table of batteries, as an estimate",
)

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 50 A, short circuit: 4 kA}
  panel: {kind: panel, rating: 100 A}
  pedestal: {kind: shore, rating: 15 A}
  mains-charger: {kind: ac charger, output: 30 A}
circuits:
  - {feed: bank/fuse class-t 100 A 20 kA -> switch battery 200 A -> panel, wire: [2 AWG 0.5 m, 0.5 m]}
  - {ac: pedestal -> breaker 2-pole 15 A -> mains-charger.in, wire: [14 AWG 0.3 m, 2 m]}
  - {feed: mains-charger -> fuse class-t 40 A/panel, wire: 6 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 50 A, short circuit: 4 kA}
# ^^^^ bank-overcharged: `bank` takes no more than 50 A, but can be given 60 A: `mains-charger` 60 A
  panel: {kind: panel, rating: 100 A}
  pedestal: {kind: shore, rating: 15 A}
  mains-charger: {kind: ac charger, output: 60 A}
circuits:
  - {feed: bank/fuse class-t 100 A 20 kA -> switch battery 200 A -> panel, wire: [2 AWG 0.5 m, 0.5 m]}
  - {ac: pedestal -> breaker 2-pole 15 A -> mains-charger.in, wire: [14 AWG 0.3 m, 2 m]}
  - {feed: mains-charger -> fuse class-t 80 A/panel, wire: 2 AWG 1 m}
"""
MARGIN = 1.0001  # a limit that is met to the last digit is not passed


def check(survey: Survey) -> Iterator[Finding]:
    for store in stores(survey.cleared).all:
        limit, stated = store.limit("max charge", charge_limit)
        given = charging(survey.cleared).of(store)
        amps = sum(one.into(store.nominal) for one in given)
        if amps > limit * MARGIN and (stated or not store.starter) and not incomplete(survey, store):
            yield _finding(survey, store, given, amps, limit, stated)


def _finding(survey: Survey, store: Store, given: tuple[Charge, ...], amps: float, limit: float,
             stated: bool) -> Finding:
    takes = f"{verb(store.names, 'takes', 'take')} no more than {show(limit, 'A')}, but"
    if not stated:
        takes = (f"{verb(store.names, 'states', 'state')} no max charge ({store.first.node['chemistry']} of "
                 f"{show(store.capacity, 'Ah')} usually takes {show(limit, 'A')}) and")
    parts = [f"{name(one.node.name)} {show(one.into(store.nominal), 'A')}" for one in given]
    several = ", ".join(parts) if len(parts) <= 4 else ", ".join((*parts[:3], f"{len(parts) - 3} more"))
    guess = "warning" if store.lithium else "notice"
    return finding(
        __name__, survey, Fact("bank-overcharged", nodes=(*store.names, *(one.node.name for one in given))),
        f"{names(store.names)} {takes} can be given {show(amps, 'A')}: {several}", severity="" if stated else guess,
    )
