"""What the tests of the measured side share: parts of netlists, and what is said of an unmeasured return."""

from __future__ import annotations

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system
from tests.circuit.test_measured_cases import BANK2, CONVERTERS, RETURNS, SHUNTS

CASES = {number: text for number, text, _ in RETURNS + SHUNTS + CONVERTERS}
FOUR = ("x0", "x1", "x2", "x3")
BANK3 = BANK2 + BANK2.replace("bank2", "bank3")
METER2 = "meter2: shunt, rating: 500 A\n"
RET2 = "ret2: feed: bank2/fuse 200 A -> feed-bar, return: bank2 -> return-bar, wire: 2/0 AWG 1 m\n"
ENGINE = """
start: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah
starter: starter, current: 200 A
engine: chassis
"""
APART = """
    r2: bar, rating: 600 A
    bar-2: bar, rating: 600 A, pair: r2
"""
CHARGER = "pedestal: shore, rating: 30 A\ncharger: ac charger, voltage: 12 V, output: 20 A\n"
CHARGES = """
shore: ac: pedestal -> breaker 2-pole 15 A -> charger.in, wire: [12 AWG 0.2 m, 1 m]
out: feed: charger -> fuse 30 A/feed-bar, return: charger -> {}, wire: 8 AWG 1 m
"""


def unmeasured(text: str) -> dict[str, tuple]:
    """{mark after the rule: (things, landing, beyond, shunt, bank, parallel, bypass)}"""
    return {fact.mark.partition("@")[2]: (fact.things, fact.landing, fact.beyond, fact.shunt, fact.bank,
                                          fact.parallel, fact.bypass)
            for fact in Survey(system(text)).measured if fact.rule == "unmeasured-return"}


def of(things, landing: str, beyond: str, shunt: str = "meter", bank: str = "bank", parallel: bool = False,
       bypass: bool = False) -> tuple:
    return things, landing, beyond, shunt, bank, parallel, bypass


def beyond_shunt(lead: str, name: str = "bank2", **how) -> dict[str, tuple]:
    return {lead: of((name,), name, "return-bar", parallel=True, **how)}
