"""What only suffers from a fault that another rule names."""

from __future__ import annotations

import pytest

from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey
from diagrammer.rules.symptoms import incomplete, lone_alternators, suffering
from tests.circuit.cases import system

TEXT = """
practice: abyc
nodes:
  one: {kind: KIND, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  two: {kind: KIND, chemistry: agm, voltage: VOLTS, capacity: 100 Ah, duty: DUTY}
  bar: {kind: bar, rating: 200 A, pair: back}
  back: {kind: bar, rating: 200 A}
  lamp: {kind: load, voltage: 12 V, power: 10 W}
  radio: {kind: load, voltage: 24 V, power: 10 W}
circuits:
  - {name: first, feed: one/fuse 100 A -> bar, wire: 2 AWG 1 m}
  - {name: lamp, feed: bar/fuse 5 A -> lamp, wire: 14 AWG 1 m}
"""
LANDED = "{name: second, feed: two/fuse 100 A -> bar, wire: 2 AWG 1 m}"
CROSSED = "{name: second, feed: two.- -> bar, return: two.+ -> back, wire: 2 AWG 1 m}"
RADIO = "{name: radio, feed: bar/fuse 5 A -> radio, wire: 14 AWG 1 m}"  # blamed alone
APART = ("{name: second, feed: two/fuse 100 A -> bar, return: none, wire: 2 AWG 1 m}",
         "{name: home, return: two -> back, wire: 2 AWG 1 m}")


def survey(*lines: str, kind: str = "battery", volts: str = "12 V", duty: str = "house") -> Survey:
    text = TEXT.replace("KIND", kind).replace("VOLTS", volts).replace("DUTY", duty)
    return Survey(system(text + "".join(f"  - {line}\n" for line in lines)))


def of_one(found: Survey) -> bool:
    return incomplete(found, next(one for one in stores(found.cleared).all if "one" in one.names))


@pytest.mark.parametrize("kind", ["battery", "bank"])
@pytest.mark.parametrize(("lines", "given", "expected"), [
    ((LANDED,), {}, False), ((CROSSED,), {}, True), ((CROSSED,), {"duty": "starter"}, False),
    ((LANDED, RADIO), {}, False),  # another line was taken out
    ((RADIO,), {}, False),  # the second never landed
    (APART, {"volts": "24 V"}, True),  # one post still lands
])
def test_a_battery_taken_off_with_its_line_leaves_its_bank_incomplete(kind, lines, given, expected):
    found = survey(*lines, kind=kind, **given)
    assert of_one(found) is expected


MOTOR = """
practice: abyc
nodes:
  motor: {kind: alternator, output: 50 A}
  start: {kind: KIND, chemistry: agm, voltage: 12 V, capacity: 100 Ah, duty: starter}
  house: {kind: KIND, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  lamp: {kind: load, voltage: 12 V, power: 10 W}
  horn: {kind: load, voltage: 12 V, power: 10 W}
  lamp2: {kind: load, voltage: 12 V, power: 10 W}
circuits:
  - {name: lamp, feed: house/fuse 5 A -> lamp, wire: 14 AWG 1 m}
  - {name: horn, feed: start/fuse 5 A -> horn, wire: 14 AWG 1 m}
"""


@pytest.mark.parametrize("kind", ["battery", "bank"])
@pytest.mark.parametrize(("line", "lone", "suffers"), [
    ("feed: motor -> fuse 60 A/start", (), False),  # the other battery has a net of its own
    ("feed: motor -> fuse 60 A -> lamp2", ("motor",), False),
    ("feed: motor.- -> fuse 60 A/start, return: motor.+ -> start.-", (), True),
    ("", (), True),  # it lands nowhere
    ("return: motor -> start", (), True),  # nothing is led away from it, which is told
])
def test_an_alternator_is_lone_where_its_own_line_leads_to_no_battery(kind, line, lone, suffers):
    text = MOTOR.replace("KIND", kind) + (f"  - {{name: charge, {line}, wire: 6 AWG 1 m}}\n" if line else "")
    found = Survey(system(text))
    assert tuple(one.name for one in lone_alternators(found)) == lone
    assert ("motor" in suffering(found)) is suffers
