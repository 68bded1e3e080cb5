"""Where a thing can be plugged in, what it finds there, and which bank is empty first."""

from __future__ import annotations

import pytest

from diagrammer.circuit.question import Question, ask, places
from diagrammer.netlist.read import read

TEXT = """
nodes:
  bank:  {{kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: {house} Ah, short circuit: 6 kA}}
  spare: {{kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: {spare} Ah, short circuit: 6 kA{duty}}}
  panel: {{kind: panel, rating: 30 A}}
  studs: {{kind: bar, rating: 100 A, pair: back}}
  lone:  {{kind: bar, rating: 100 A}}
  back:  {{kind: bar, rating: 100 A}}
  inverter: {{kind: inverter, power: 300 W, neutral: bonded}}
  galley: {{kind: outlet, rating: 15 A}}
circuits:
  - {{feed: bank/fuse 100 A -> switch{open} 100 A -> studs, wire: [4 AWG 1 m, 1 m]}}
  - {{feed: bank/fuse 40 A -> panel, wire: 8 AWG 1 m}}
  - {{feed: spare/fuse 100 A -> studs, return: spare -> back, wire: 4 AWG 1 m}}
  - {{feed: studs/fuse 60 A -> lone, return: none, wire: 6 AWG 1 m}}
  - {{feed: bank/fuse 60 A -> inverter, wire: 6 AWG 1 m}}
  - {{ac: inverter/breaker 2-pole 10 A -> galley, wire: 14 AWG 1 m}}
"""


def system(house: int = 100, spare: int = 100, duty: str = "", open: str = ""):
    found, problems = read(TEXT.format(house=house, spare=spare, duty=duty, open=open))
    assert not problems, problems
    return found


def asked(place: str, watts: float, hours: float = 0.0, **fields):
    one = system(**fields)
    return ask(one, Question("thing", watts, hours), one.nodes[place])[0]


def test_outlets_for_mains_and_panels_and_bars_with_their_return_for_dc():
    assert [node.name for node in places(system())] == ["galley"]
    assert [node.name for node in places(system(), 12)] == ["panel", "studs"]


def test_without_an_outlet_a_thing_of_mains_stands_at_the_ac_panel_and_else_at_the_inverter():
    panel = TEXT.replace("galley: {{kind: outlet, rating: 15 A}}", "galley: {{kind: ac panel, rating: 15 A}}")
    one, problems = read(panel.format(house=100, spare=100, duty="", open=""))
    assert not problems and [node.name for node in places(one)] == ["galley"]
    bare = TEXT.replace("  galley: {{kind: outlet, rating: 15 A}}\n", "").replace("  - {{ac: inverter/breaker 2-pole 10 A -> galley, wire: 14 AWG 1 m}}\n", "")
    one, problems = read(bare.format(house=100, spare=100, duty="", open=""))
    assert not problems and [node.name for node in places(one)] == ["inverter"]
    answer = ask(one, Question("thing", 330), one.nodes["inverter"])[0]
    assert answer.volts == pytest.approx(120, rel=0.02) and [stop.subject for stop in answer.stops] == ["inverter"]


def test_of_one_circuit_the_narrowest_limit_is_named_once():
    text = TEXT.replace("bank/fuse 40 A -> panel, wire: 8 AWG 1 m", "bank -> fuse 90 A -> panel, wire: {{feed: [12 AWG 1 m, 10 AWG 1 m], return: 6 AWG 2 m}}")
    one, problems = read(text.format(house=100, spare=100, duty="", open=""))
    assert not problems
    stops = [stop for stop in ask(one, Question("thing", 900), one.nodes["panel"])[0].stops if stop.what == "ampacity"]
    assert [(stop.subject, stop.limit) for stop in stops] == [("bank to panel", 45.0)]  # 33 CFR 183.425 Table 5, 105 °C


@pytest.mark.parametrize(("watts", "stops"), [(370, []), (410, ["panel"])])
def test_a_panel_gives_what_it_is_rated_for(watts, stops):
    """30 A at some 12.7 V are 380 W."""
    assert [one.subject for one in asked("panel", watts).stops if one.what == "rating"] == stops


def test_what_cannot_be_carried_collapses():
    answer = asked("panel", 1e6)
    assert answer.place == "panel" and answer.collapse is not None and not answer.yes


def test_an_outlet_beyond_what_the_inverter_gives():
    assert [one.subject for one in asked("galley", 330).stops if one.what == "power"] == ["inverter"]
    assert asked("galley", 280).stops == ()


@pytest.mark.parametrize(("house", "spare", "bank"), [(100, 300, "bank"), (300, 100, "spare")])
def test_the_bank_that_is_empty_first_is_named(house, spare, bank):
    assert asked("studs", 200, house=house, spare=spare).bank == bank


def test_a_starter_battery_is_none_that_lasts():
    assert asked("studs", 200, house=300, spare=100, duty=", duty: starter").bank == "bank"
    assert asked("studs", 200, duty=", duty: starter", open=" open").bank == ""


MAINS = """
practice: abyc
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah}
  source: {SOURCE}
  galley: {kind: outlet, rating: 15 A}
  charger: {kind: ac charger, output: 10 A}
circuits:
  - {ac: source -> breaker 2-pole 20 A -> galley, wire: [12 AWG 0.3 m, 1 m]}
  - {ac: source -> breaker 2-pole 20 A -> charger.in, wire: [12 AWG 0.3 m, 1 m]}
  - {feed: charger/fuse 15 A -> bank, return: charger -> bank, wire: 12 AWG 1 m}
"""


GENSET = "kind: generator, power: 600 W, neutral: floating"


def on_mains(source: str, watts: float, start: float = 0.0):
    one, problems = read(MAINS.replace("SOURCE", source))
    assert not problems, problems
    answers = ask(one, Question("thing", watts, start=start), one.nodes["galley"])
    return {answer.state.name: answer for answer in answers}


@pytest.mark.parametrize(("source", "watts", "limit"), [
    (GENSET, 400, 0), (GENSET, 700, 5),
    ("kind: shore, rating: 10 A", 1000, 0), ("kind: shore, rating: 10 A", 1300, 10),
])
def test_a_source_of_mains_gives_what_it_is_rated_for(source, watts, limit):
    """At 120 V; what charges beside it takes some, too."""
    (name, answer), = [(name, one) for name, one in on_mains(source, watts).items() if not one.dead]
    rated = [stop for stop in answer.stops if stop.subject == "source" and stop.what == "rating"]
    assert [stop.limit for stop in rated] == ([pytest.approx(limit)] if limit else [])
    assert all(stop.asked > stop.limit for stop in rated) and "parked" not in name


def test_a_breaker_and_the_outlet_itself_stop_it():
    stops, more = ({stop.subject: stop for answer in on_mains("kind: shore, rating: 50 A", watts).values()
                    for stop in answer.stops} for watts in (2000, 2600))
    assert stops["galley"].limit == 15 and stops["galley"].unit == "A"
    assert stops["galley"].asked == pytest.approx(2000 / 120, rel=0.06)
    assert "Q1" not in stops and more["Q1"].limit == 20 and more["Q1"].what == "rating"


def test_nothing_reaches_it_when_the_source_is_away():
    found = on_mains("kind: shore, rating: 10 A", 100)
    assert [one.dead for one in found.values()] == [name.startswith("parked") for name in found]


@pytest.mark.parametrize(("hours", "share"), [(1.0, 1), (2.0, 2), (0.0, 0)])
def test_the_share_of_the_bank_grows_with_the_time(hours, share):
    one = asked("studs", 200, hours=1.0)
    assert asked("studs", 200, hours=hours).share == pytest.approx(share * one.share)
    assert one.share == pytest.approx(1 / one.hours) and one.hours == pytest.approx(asked("studs", 200).hours)
