"""Where a thing can be plugged in, what it finds there, and which bank is empty first."""

from __future__ import annotations

import pytest

from diagrammer.circuit.question import MARGIN, Answer, Question, Stop, _passed, alone, ask, places
from diagrammer.circuit.states import State, states
from diagrammer.electrics.network import Collapse
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


@pytest.mark.parametrize(("fields", "yes"), [
    ({}, True), ({"share": 1.0}, True), ({"share": 1.05}, False), ({"dead": True}, False),
    ({"stops": (Stop("panel", "rating", 40, 30, "A"),)}, False), ({"collapse": Collapse("bank", 0.0, 1.0)}, False),
])
def test_it_runs_where_nothing_is_against_it(fields, yes):
    assert Answer("panel", State("at rest", frozenset()), **fields).yes is yes


def test_only_bars_and_panels_take_a_further_line():
    """A bank and a joint have a pair, too."""
    text = TEXT.replace("short circuit: 6 kA}}\n  spare", "short circuit: 6 kA, pair: back}}\n  tee: {{kind: joint, pair: back}}\n  spare")
    one, problems = read(text.format(house=100, spare=100, duty="", open=""))
    assert not problems and [node.name for node in places(one, 12)] == ["panel", "studs"]


LIMITED = """
practice: {practice}
nodes:
  house: {{kind: {kind}, chemistry: lifepo4, voltage: {volts} V, capacity: 100 Ah, short circuit: 6 kA{house}}}
  studs: {{kind: bar, rating: {bar} A, pair: back}}
  back: {{kind: bar, rating: 200 A}}
  combi: {{kind: inverter charger, power: {power} W, charge: 20 A{surge}}}
  galley: {{kind: outlet, rating: {outlet} A}}
circuits:
  - {{name: main, feed: house -> fuse {fuse} A F-main -> studs, return: house -> back, wire: {{feed: {wire}, return: 4/0 AWG 2 m}}}}
  - {{feed: studs -> fuse 200 A F-combi -> combi, wire: [2/0 AWG 1 m, 1 m]}}
  - {{ac: combi -> breaker 2-pole 30 A -> galley, wire: [10 AWG 1 m, 1 m]}}
"""
WIDE = {"practice": "abyc", "kind": "bank", "volts": 12.8, "house": "", "bar": 200, "power": 2000, "surge": "", "outlet": 30,
        "fuse": 200, "wire": "[4/0 AWG 1 m, 1 m]"}


def limited(place: str, watts: float, start: float = 0.0, **fields):
    one, problems = read(LIMITED.format(**{**WIDE, **fields}))
    assert not problems, problems
    return ask(one, Question("thing", watts, start=start), one.nodes[place])[0]


@pytest.mark.parametrize(("place", "field", "low", "written", "start"), [
    ("studs", "bar", 40, "{}", 0), ("studs", "fuse", 40, "{}", 0), ("galley", "outlet", 4, "{}", 0),
    ("galley", "power", 500, "{}", 0), ("galley", "surge", 500, ", surge: {} W", 1500),
    ("studs", "house", 40, ", max discharge: {} A", 0),
])
def test_a_limit_that_is_met_to_the_last_digit_is_not_passed(place, field, low, written, start):
    """A ten-thousandth above it is rounding; two are too much."""
    assert limited(place, 1000, start).stops == ()
    (stop,) = limited(place, 1000, start, **{field: written.format(low)}).stops
    assert stop.limit == low and stop.asked == pytest.approx(max(1000, start) / {"A": 12.8 if place == "studs" else 120, "W": 1}[stop.unit], rel=0.03)
    for share, count in ((1.0, 0), (1 - 0.9e-4, 0), (1 - 2e-4, 1)):
        found = limited(place, 1000, start, **{field: written.format(f"{stop.asked * share:.9g}")}).stops
        assert len(found) == count, share


def test_a_battery_gives_what_it_may_be_discharged_at_like_a_bank():
    for kind in ("bank", "battery"):
        (stop,) = limited("studs", 1000, kind=kind, house=", max discharge: 50 A").stops
        assert (stop.subject, stop.what, stop.limit, stop.unit) == ("house", "discharge", 50, "A")


@pytest.mark.parametrize("wire", ["[6 AWG 1 m, 8 AWG 1 m]", "[8 AWG 1 m, 6 AWG 1 m]"])
def test_of_one_circuit_the_narrowest_is_named_wherever_it_stands(wire):
    """8 AWG of 105 °C: 80 A (33 CFR 183.425, Table 5); 6 AWG: 120 A."""
    answer = limited("studs", 2000, wire=wire)
    stops = {stop.what: stop for stop in answer.stops}
    assert stops["ampacity"].subject == "main" and stops["ampacity"].limit == 80
    assert stops["ampacity"].asked * answer.volts == pytest.approx(2000, rel=0.01)


@pytest.mark.parametrize(("fields", "first"), [({"bar": 50, "fuse": 60}, "studs"), ({"bar": 60, "fuse": 50}, "F-main")])
def test_the_narrowest_limit_comes_first(fields, first):
    stops = limited("studs", 1000, **fields).stops
    assert len(stops) == 2 and stops[0].subject == first and stops[0].limit == 50


def test_what_cannot_even_start_is_told_after_what_is_passed():
    stops = limited("studs", 1000, 1e6, fuse=60).stops
    assert [(stop.subject, stop.what, stop.limit) for stop in stops] == [("F-main", "rating", 60), ("studs", "start", 0)]
    assert limited("studs", 1000, 1100).stops == ()


@pytest.mark.parametrize(("start", "whats"), [(0, ["power"]), (1500, ["power"]), (1501, ["power", "surge"])])
def test_what_starts_as_it_runs_has_no_start(start, whats):
    stops = limited("galley", 1500, start, power=1000, surge=", surge: 1100 W").stops
    assert [stop.what for stop in stops] == whats
    assert [stop.what for stop in limited("galley", 1500, 1900, power=1000).stops] == ["power"]  # no surge is stated


def test_conductors_that_lie_together_carry_less_from_50_volts_on():
    """ABYC E-11, as quoted: bundles are derated from 50 V on."""
    wire = "{size: 6 AWG, length: 2 m, bundle: 8}"
    low, high = (limited("studs", watts, volts=volts, wire=wire, power=500) for volts, watts in ((12.8, 1200), (64, 6000)))
    assert [stop.what for stop in low.stops] == [] and [stop.what for stop in high.stops] == ["ampacity"]


@pytest.mark.parametrize(("wiring", "limit"), [("", 5.0), (", phases: 2", 2.5), (", phases: 2+N", 2.5)])
def test_a_generator_gives_its_power_over_all_its_lines(wiring, limit):
    """600 W at 120 V, at 240 V between two lines, and at twice 120 V."""
    volts = ", voltage: 240 V" if wiring == ", phases: 2" else ""
    text = MAINS.replace("SOURCE", GENSET + wiring + volts).replace("kind: outlet, rating: 15 A", f"kind: outlet, rating: 15 A{wiring}{volts}")
    text = text.replace("breaker 2-pole 20 A -> galley", f"breaker {'3-pole' if wiring.endswith('N') else '2-pole'} 20 A -> galley")
    text = text[:text.index("  - {ac: source -> breaker 2-pole 20 A -> charger.in")].replace("  charger: {kind: ac charger, output: 10 A}\n", "")
    one, problems = read(text)
    assert not problems, problems
    found = {answer.state.name: answer for answer in ask(one, Question("thing", 900), one.nodes["galley"])}
    (answer,) = [one for one in found.values() if not one.dead]
    assert [stop.limit for stop in answer.stops if stop.subject == "source"] == [pytest.approx(limit)]


@pytest.mark.parametrize(("watts", "lasts"), [(0.1, False), (0.137, True), (0.2, True)])
def test_a_bank_that_gives_a_hundredth_of_an_ampere_or_less_rests(watts, lasts):
    answer = limited("studs", watts)
    assert (answer.hours is not None) is lasts and answer.bank == ("house" if lasts else "")
    assert lasts or answer.share == 0


def test_how_long_a_bank_lasts():
    """80 of 100 Ah of a lithium bank (common practice), at 128 W from some 12.8 V: ten amperes. The inverter rests."""
    answer = limited("studs", 128)
    assert answer.hours == pytest.approx(80 / (128 / answer.volts), rel=0.05)


def test_alone_all_loads_are_off_and_the_rest_stands_as_it_did():
    text = MAINS.replace("SOURCE", "kind: shore, rating: 30 A").replace(
        "  galley:", "  kettle: {kind: ac load, power: 1 kW}\n  lamp: {kind: load, voltage: 12 V, power: 60 W}\n  galley:").rstrip() + (
        "\n  - {ac: source -> breaker 2-pole 20 A -> kettle, wire: [12 AWG 0.3 m, 1 m]}\n"
        "  - {feed: bank/fuse 10 A -> lamp, return: lamp -> bank, wire: 14 AWG 1 m}\n")
    one, problems = read(text)
    assert not problems, problems
    bare = alone(Question("thing", 500), one)
    before, after = states(one), states(bare)
    assert [state.name for state in after] == [f"{state.name}, nothing else on" for state in before]
    assert [(state.running, state.positions) for state in after] == [(state.running, state.positions) for state in before]
    assert all(state.off == {"kettle", "lamp"} for state in after)


def test_a_conductor_of_no_known_size_stops_nothing():
    assert limited("studs", 1000, wire="2 m").stops == ()


@pytest.mark.parametrize(("asked", "passed"), [
    (8.0, False), (8.0 * MARGIN, False), (8.0 * MARGIN + 1e-9, True), (0.0, False)])
def test_a_limit_is_passed_beyond_its_last_digit(asked, passed):
    assert list(_passed("bar", "rating", asked, 8.0)) == [Stop("bar", "rating", asked, 8.0, "A")] * passed
