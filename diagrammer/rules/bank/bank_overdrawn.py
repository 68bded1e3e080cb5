"""The loads ask more of the bank, or of its protection circuit, than it gives.

Why: a protection circuit that opens leaves the vehicle or boat without light, pumps and radio at the worst
moment, and batteries that are drawn too hard overheat and may vent or burn.

Fix: add batteries in parallel, run less at once, or say under `states` what never runs together.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.demand import demand
from diagrammer.circuit.loading import when
from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics.battery import discharge_limit
from diagrammer.electrics.network import Collapse
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
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, max discharge: 150 A, short circuit: 4 kA}
  panel: {kind: panel, rating: 150 A}
  heater: {kind: load, voltage: 12 V, current: 60 A, duty: heat}
  winch: {kind: load, voltage: 12 V, current: 70 A, duty: motor}
circuits:
  - {feed: bank/fuse class-t 150 A 20 kA -> switch battery 200 A -> panel, wire: [2/0 AWG 0.5 m, 0.5 m]}
  - {feed: panel/fuse class-t 80 A -> heater, wire: 4 AWG 1 m}
  - {feed: panel/fuse class-t 100 A -> winch, wire: 2 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, max discharge: 100 A, short circuit: 4 kA}
# ^^^^ bank-overdrawn: `bank` is asked for 130 A (parked, nothing charges, the banks low), but gives no more than 100 A
  panel: {kind: panel, rating: 150 A}
  heater: {kind: load, voltage: 12 V, current: 60 A, duty: heat}
  winch: {kind: load, voltage: 12 V, current: 70 A, duty: motor}
circuits:
  - {feed: bank/fuse class-t 150 A 20 kA -> switch battery 200 A -> panel, wire: [2/0 AWG 0.5 m, 0.5 m]}
  - {feed: panel/fuse class-t 80 A -> heater, wire: 4 AWG 1 m}
  - {feed: panel/fuse class-t 100 A -> winch, wire: 2 AWG 1 m}
"""
MARGIN = 1.0001  # a limit that is met to the last digit is not passed


def check(survey: Survey) -> Iterator[Finding]:
    for store in stores(survey.cleared).all:
        if not incomplete(survey, store):
            yield from _bank(survey, store)
    yield from _circuits(survey)


def _bank(survey: Survey, store: Store) -> Iterator[Finding]:
    limit, stated = store.limit("max discharge", discharge_limit)
    over = [one for one in _asked(survey, store) if one[0] > limit * MARGIN]
    if not over or store.starter and not stated:
        return
    amps, state = max(over)
    gives = f"but {verb(store.names, 'gives', 'give')} no more than {show(limit, 'A')}"
    if not stated:
        usual = f"{store.first.node['chemistry']} of {show(store.capacity, 'Ah')} usually gives {show(limit, 'A')}"
        gives = f"and {usual}; no max discharge is stated"
    fact = Fact("bank-overdrawn", nodes=store.names)
    message = f"{names(store.names)} {verb(store.names, 'is', 'are')} asked for {show(amps, 'A')} ({state}), {gives}"
    guess = "warning" if store.lithium else "notice"
    yield finding(__name__, survey, fact, message, severity="" if stated else guess)


def _asked(survey: Survey, store: Store) -> list[tuple[float, str]]:
    """The current [A] in each state, and which it is; where a bank gives way, what the loads ask of it."""
    found = [(store.amps(one.flow), when(one)) for one in survey.study.solved]
    for one in (*survey.study.low, *survey.study.nominal):
        if isinstance(one.result, Collapse) and one.result.branch in store.names:
            watts = sum(part.watts * part.factor for part in demand(survey.cleared).behind(store.tops)
                        if part.load.name not in one.state.off and part.load.name not in survey.study.momentary)
            found.append((watts / store.volts(lambda battery: battery.window.cutoff), when(one)))
    return found


def _circuits(survey: Survey) -> Iterator[Finding]:
    """Protection circuits, by their own rating."""
    for node in survey.cleared.system.nodes.values():
        rated = node.get("rating") if node.kind.name == "bms" else None
        carried = [(one.through[node.name], when(one)) for one in survey.study.solved] if rated else []
        over = [one for one in carried if one[0] > rated * MARGIN]
        if over:
            (amps, state), rating = max(over), show(rated, "A")
            message = f"{name(node.name)} carries {show(amps, 'A')} ({state}), but its rating is {rating}"
            yield finding(__name__, survey, Fact("bank-overdrawn", nodes=(node.name,)), message)
