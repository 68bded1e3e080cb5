"""A pv array, wind or water turbine charges a bank with no controller between.

Why: nothing stops the charge when the bank is full; it overheats, gives off gas that can explode or
burns, and a turbine whose bank is cut off races.

Fix: lead it to the input of a charge controller made for it, or for a turbine add a dump controller.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.domains import Uncontrolled
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, number, span
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("NEC 690.72, from memory", "common practice")

GOOD = """
title: Module behind its controller
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  roof: {kind: pv, power: 100 W, voc: 22 V, vmp: 18 V, isc: 6 A}
  sun: {kind: solar charger, type: mppt, max pv voltage: 75 V, output: 15 A}
circuits:
  - {feed: roof -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 20 A/bank, wire: 10 AWG 1 m}
"""

BAD = """
title: Module straight on the bank
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  roof: {kind: pv, power: 100 W, voc: 22 V, vmp: 18 V, isc: 6 A}
circuits:
  - {feed: roof -> fuse 15 A/bank, wire: 10 AWG 4 m}
  #        ^^^^^^^^^^^^^^^^^ uncontrolled-source: `roof` (18 to 22 V, up to 7.5 A) charges `bank` with no controller ...
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("uncontrolled-source"):
        nodes = tuple(dict.fromkeys((fact.source, *fact.nodes)))
        yield finding(__name__, survey, fact, _message(survey, fact), nodes=nodes)


def _message(survey: Survey, fact: Uncontrolled) -> str:
    """Its voltage and current, the bank it meets."""
    view = survey.start
    volts = [span(claim.low, claim.high, "V") for node, claim in view.claims if node == fact.source]
    amps = [f"up to {number(give.amps)} A" for node, give in view.gives if node == fact.source and give.amps]
    said = ", ".join(volts + amps)
    numbers = f" ({said})" if said else ""
    return f"{name(fact.source)}{numbers} charges {name(fact.bank)} with no controller between"
