"""Two voltages, or alternating and direct current, meet on one net.

Why: too high a voltage destroys equipment and can set it alight, too low a one stalls motors and
overheats them, and mains on a low-voltage conductor can kill whoever touches it.

Fix: give it a converter, or a place on a bar of its own voltage; work on mains is for a licensed electrician.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.domains import Clash
from diagrammer.circuit.stands import Stand
from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, span
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("common practice", "IEC 60038 for the voltages of mains, from memory")
SYMPTOMS = ("charge-voltage-mismatch", "mixed-banks", "shore-overloaded", "inverter-overloaded")

GOOD = """
title: Radio on its own voltage
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
  fan: {kind: load, voltage: 24 V, power: 24 W}
  step-down: {kind: converter, voltage: 12 V, output: 5 A, input voltage: 24 V}
  radio: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {feed: bank/fuse 30 A -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> step-down.in, wire: 14 AWG 1 m}
  - {feed: step-down -> radio, wire: 14 AWG 1 m}
"""

BAD = """
title: Radio on the wrong voltage
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
  fan: {kind: load, voltage: 24 V, power: 24 W}
  radio: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {feed: bank/fuse 30 A -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> radio, wire: 14 AWG 2 m}
  #              ^^^^^^^^^^^^^^^^^ wrong-domain: `radio` is made for 12 V, but `bank` puts 24 V on this conductor
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("wrong-domain"):
        wrong, right = fact.wrong, fact.right
        nodes = tuple(dict.fromkeys((wrong.node, *fact.nodes)))
        yield finding(__name__, survey, fact, _message(survey, fact, wrong, right), nodes=nodes)


def _message(survey: Survey, fact: Clash, wrong: Stand, right: Stand) -> str:
    what = f"{name(wrong.node)} {'is made for' if wrong.role in ('load', 'input') else 'stands at'} {_volts(wrong)}"
    if fact.many > 1:
        what += f", like {fact.many - 1} more on its side"
    where = "this conductor" if fact.cables else "this joint"
    if right.role in ("load", "input"):
        return f"{what}, but meets {name(right.node)} on {where}, which is made for {_volts(right)}"
    return f"{what}, but {name(right.node)} puts {_volts(right)} on {where}"


def _volts(stand: Stand) -> str:
    low, high = (volt + stand.height for volt in stand.stated)
    return span(low, high, "V ac" if stand.ac else "V")
