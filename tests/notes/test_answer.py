"""The customer's question: what is read, what stops it, and how long it lasts."""

from __future__ import annotations

import pytest

from diagrammer.circuit.question import Question, alone, ask, places
from diagrammer.netlist.read import read as netlist
from diagrammer.notes.answer import NoQuestion, read, tell

TEXT = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 6 kA, max discharge: 150 A}
  inverter: {kind: inverter, power: 1.2 kW, surge: 2.4 kW, neutral: bonded, efficiency: 90 %}
  galley: {kind: outlet, rating: 15 A}
  heater: {kind: load, voltage: 12 V, power: 600 W}
circuits:
  - {feed: bank/fuse 200 A -> inverter, wire: 2/0 AWG 1 m}
  - {ac: inverter -> breaker 15 A -> rcd 20 A 5 mA/galley, wire: [12 AWG 1 m, 2 m]}
  - {feed: bank/fuse 60 A -> heater, wire: 4 AWG 2 m}
"""


@pytest.fixture
def system():
    found, problems = netlist(TEXT)
    assert not problems
    return found


@pytest.mark.parametrize("text, power, hours, start, volts", [
    ("kettle 1500 W 5 min", 1500, 5 / 60, 0, None),
    ("pump 60 W 12 V 2 h", 60, 2, 0, 12),
    ("saw 1.2 kW start 3 kW 10 min", 1200, 10 / 60, 3000, None),
    ("fridge 5 A 12 V", 60, 0, 0, 12),
])
def test_what_is_read(text, power, hours, start, volts):
    asked = read(text)
    assert asked.question.watts == pytest.approx(power) and asked.question.hours == pytest.approx(hours)
    assert asked.question.start == pytest.approx(start) and asked.volts == volts


@pytest.mark.parametrize("text", ["kettle", "kettle 5 min", "kettle 3 bananas"])
def test_what_asks_nothing(text):
    with pytest.raises(NoQuestion):
        read(text)


def one(system, watts, hours=0.0, start=0.0):
    return ask(system, Question("thing", watts, hours, start), places(system)[0])[0]


def test_the_inverter_stops_it_above_its_power_and_not_at_it(system):
    bare = alone(Question("thing", 1150), system)
    assert one(bare, 1150).stops == ()
    assert [stop.what for stop in one(bare, 1300).stops if stop.subject == "inverter"] == ["power"]


def test_a_start_above_the_surge_stops_it(system):
    assert [stop.what for stop in one(system, 800, start=2600).stops] == ["surge"]
    assert one(system, 800, start=2300).yes


def test_the_bank_stops_it_with_everything_on_and_not_alone(system):
    together, by_itself = one(system, 1190), one(alone(Question("thing", 1190), system), 1190)
    assert [stop.subject for stop in together.stops] == ["bank"]
    assert by_itself.yes


def test_how_long_follows_from_the_charge_and_the_current(system):
    bare = alone(Question("thing", 900), system)
    answer = one(bare, 900, hours=0.5)
    amps = 900 / 0.9 / 12.8  # the wires' loss makes it a little more
    charge = 200 * 0.8 * (10 / amps) ** 0.05  # 80 % depth, exponent 1.05 (common practice), Peukert from the 20 h rate
    assert answer.hours == pytest.approx(charge / amps, rel=0.03)
    assert answer.share == pytest.approx(0.5 / answer.hours)
    assert not one(bare, 900, hours=5).yes


def test_the_words_have_both_numbers(system):
    question = Question("hob", 1800)
    text = tell(system, question, places(system)[0], ask(alone(question, system), question, places(system)[0]), ask(system, question, places(system)[0]))
    assert "gives 1.2 kW, this asks 1.81 kW" in text
