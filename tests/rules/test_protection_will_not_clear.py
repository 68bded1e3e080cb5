"""Opening times against k²S², by hand."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.electrics import adiabatic
from diagrammer.electrics.device import opens_within
from diagrammer.netlist.read import read
from diagrammer.rules.protection import protection_will_not_clear
from tests.rules.asked import found, van

RULE = "protection-will-not-clear"
WINCH = "  winch: {kind: load, voltage: 12 V, power: 500 W}"
BANK = "{kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 2.5 kA, pair: return-bar}"


def line(device: str, wire: str) -> str:
    return van(f"{{feed: feed-bar/{device} -> winch, wire: {wire}}}", nodes=WINCH, bank=BANK, practice="iso",
               head="wire: {insulation: 90 °C}")


@pytest.mark.parametrize(("body", "form", "times", "seconds"), [
    ("blade", "", 1.99, float("inf")), ("blade", "", 2, 5), ("blade", "", 3, 5 * 4 / 9), ("blade", "", 60, 0.001),
    ("breaker", "curve-d", 19.9, 120 * (2.55 / 19.9) ** 2), ("breaker", "curve-d", 20, 0.1),
    ("breaker", "curve-d", 500, 0.02),
    ("something", "", 5, None),
])
def test_times(body, form, times, seconds):
    assert opens_within(body, times, form) == (pytest.approx(seconds) if seconds else seconds)


def test_by_hand():
    """16 mm² in pvc of 90 °C, k = 100: it stands I for (1600 / I)²; a curve D of 100 A takes 120 (255 / I)²: longer."""
    system, _ = read(line("breaker curve-d 100 A", "16 mm² 3 m"), "case.yaml")
    amps = Survey(system).study.faults.smallest("winch.+")
    assert 1600 / 5**0.5 < amps < 20 * 100  # it is a short circuit that heats adiabatically, below the magnetic trip
    assert (1600 / amps) ** 2 < 120 * (255 / amps) ** 2
    (one,) = found(RULE, line("breaker curve-d 100 A", "16 mm² 3 m"))
    assert one.conductors == ("feed-bar to winch:f0",)


@pytest.mark.parametrize(("device", "wire"), [
    ("breaker curve-b 100 A", "16 mm² 3 m"),  # its magnetic trip opens above 5 times
    ("fuse class-t 100 A", "16 mm² 3 m"),
    ("breaker curve-d 100 A", "16 mm² 9 m"),  # so far away that it is an overload
    ("breaker 100 A", "16 mm² 3 m"),  # nothing is known of it
])
def test_opens_in_time_or_is_not_known(device, wire):
    assert found(RULE, line(device, wire)) == ()


def test_a_device_too_large_for_the_conductor_is_another_fault():
    text = line("breaker curve-d 100 A", "10 mm² 3 m")
    assert found("protection-too-large", text) and found(RULE, text) == ()


@pytest.mark.parametrize(("wire", "count"), [
    ("16 mm² 3 m", 1), ("2 parallel 16 mm² 6 m", 0), ("2 parallel 10 mm² 4 m", 0)])
def test_conductors_in_parallel_stand_it_together(wire, count):
    """2 x 16 mm² stand the same current four times as long, 2 x 10 mm² half as long again: the breaker is in time."""
    assert len(found(RULE, line("breaker curve-d 100 A", wire))) == count


def test_the_thinner_of_two_conductors_behind_one_device_is_named():
    nodes = (WINCH + "\n  hoist: {kind: load, voltage: 12 V, power: 500 W}\n"
             "  tee: {kind: bar, rating: 300 A, pair: return-bar}")
    for thin in ("a", "b"):
        size = {name: "16 mm²" if name == thin else "20 mm²" for name in "ab"}
        text = van("{feed: feed-bar/breaker curve-d 100 A -> tee, return: none, wire: 35 mm² 0.1 m}",
                   f"{{name: a, feed: tee -> winch, wire: {size['a']} 3 m}}",
                   f"{{name: b, feed: tee -> hoist, wire: {size['b']} 3 m}}",
                   nodes=nodes, bank=BANK, practice="iso", head="wire: {insulation: 90 °C}")
        assert [one.conductors for one in found(RULE, text)] == [(f"{thin}:f0",)]


@pytest.mark.parametrize(("device", "wire"), [("breaker curve-d 100 A", "3 m"), ("fuse class-t", "16 mm² 3 m")])
def test_without_a_size_or_a_rating_nothing_is_said(device, wire):
    assert found(RULE, line(device, wire)) == ()


def test_where_a_source_stands_behind_the_device_it_decides_nothing():
    """The bank that drives the winch has no device at all, which is another fault."""
    text = """
practice: iso
wire: {insulation: 90 °C}
nodes:
  bank:  {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 1 kA}
  other: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 1 kA}
  winch: {kind: load, voltage: 12 V, power: 500 W}
circuits:
  - {feed: bank -> winch, wire: 16 mm² 3 m}
  - {feed: other/breaker curve-d 100 A -> bank, return: other -> bank, wire: {feed: 35 mm² 0.2 m, return: 35 mm² 0.2 m}}
"""
    assert found("missing-protection", text) and found(RULE, text) == ()


@pytest.mark.parametrize(("share", "count"), [(0.95e-9, 1), (1.05e-9, 0)])
def test_a_device_a_billionth_above_what_the_conductor_may_have(share, count):
    system, _ = read(line("breaker curve-d 100 A", "16 mm² 3 m"), "case.yaml")
    survey = Survey(system)
    most = next(survey.carrying.limit(wire, 12.0).one for wire in system.conductors if wire.circuit == "feed-bar to winch")
    assert len(found(RULE, line(f"breaker curve-d {most * (1 + share)!r} A", "16 mm² 3 m"))) == count


def length_for(amps: float, device: str, size: str) -> float:
    """[m] at whose end so much flows: its inverse grows evenly with the length."""
    def inverse(metres: float) -> float:
        return 1 / Survey(read(line(device, f"{size} {metres} m"), "case.yaml")[0]).study.faults.smallest("winch.+")
    return 1 + (1 / amps - inverse(1)) / (inverse(2) - inverse(1))


@pytest.mark.parametrize(("seconds", "count"), [(4.99, 1), (4.999999, 1), (5.000001, 0), (5.01, 0)])
def test_heating_is_adiabatic_up_to_five_seconds(seconds, count):
    """IEC 60364-4-43 434.5.2: 16 mm² in pvc of 90 °C stands 1600 A for a second; a curve D of 100 A takes longer."""
    metres = length_for(1600 / seconds**0.5, "breaker curve-d 100 A", "16 mm²")
    assert len(found(RULE, line("breaker curve-d 100 A", f"16 mm² {metres:.12f} m"))) == count


@pytest.mark.parametrize(("seconds", "count"), [(0.0999, 0), (0.1001, 0), (0.15, 1)])
def test_below_a_tenth_of_a_second_the_let_through_decides(seconds, count):
    """0.75 mm² in pvc of 90 °C stands 75 A for a second; a curve D of 10 A takes 0.1 s from 200 A on, 2 s below."""
    metres = length_for(75 / seconds**0.5, "breaker curve-d 10 A", "0.75 mm²")
    assert len(found(RULE, line("breaker curve-d 10 A", f"0.75 mm² {metres:.12f} m"))) == count


def test_of_two_lines_the_one_that_is_furthest_from_clearing_is_named():
    """By time against time: a thin conductor far away before a thick one nearby, in which more flows."""
    nodes = (WINCH + "\n  hoist: {kind: load, voltage: 12 V, power: 500 W}\n"
             "  tee: {kind: bar, rating: 300 A, pair: return-bar}")
    text = van("{feed: feed-bar/breaker curve-d 100 A -> tee, return: none, wire: 35 mm² 0.1 m}",
               "{name: near, feed: tee -> winch, wire: 20 mm² 2 m}", "{name: far, feed: tee -> hoist, wire: 16 mm² 3 m}",
               nodes=nodes, bank=BANK, practice="iso", head="wire: {insulation: 90 °C}")
    assert [one.conductors for one in found(RULE, text)] == [("far:f0",)]


@pytest.mark.parametrize(("metres", "said"), [(3, "may take 59 s"), (5, "need not open at all")])
def test_says_how_long_the_device_takes(metres, said):
    """18 AWG at 105 °C by the tables of abyc behind 20 A."""
    text = van(f"{{feed: feed-bar/breaker curve-d 20 A -> winch, wire: 18 AWG {metres} m}}", nodes=WINCH, bank=BANK)
    (one,) = found(RULE, text)
    assert one.message.endswith(said), one.message


def test_a_line_that_nothing_feeds_or_two_devices_do():
    loose = van("{feed: stud -> winch, wire: 16 mm² 3 m}", nodes=WINCH + "\n  stud: {kind: joint, pair: return-bar}",
                bank=BANK, practice="iso", head="wire: {insulation: 90 °C}")
    assert found(RULE, loose) == ()
    nodes = WINCH + "\n  tee: {kind: bar, rating: 300 A, pair: return-bar}"
    feeds = ["{feed: feed-bar/breaker curve-d 100 A -> tee, return: none, wire: 35 mm² 0.1 m}"]
    text = "{feed: tee -> winch, wire: 16 mm² 3 m}"
    for count in (1, 0):  # of two that share the current nobody knows
        assert len(found(RULE, van(*feeds, text, nodes=nodes, bank=BANK, practice="iso",
                                   head="wire: {insulation: 90 °C}"))) == count
        feeds *= 2


@pytest.mark.parametrize(("stands", "takes", "count"), [
    (5.0, 6.0, 1), (5.0, 5.0, 0), (0.1, 0.2, 1), (1.0, 1.0, 0), (1.0, 1.001, 1)])
def test_exactly_at_the_limits(monkeypatch, stands, takes, count):
    """IEC 60364-4-43 434.5.2: t at most (k S / I)², up to and with 5 s, from 0.1 s on."""
    monkeypatch.setattr(adiabatic, "longest", lambda *_: stands)
    monkeypatch.setattr(protection_will_not_clear, "opens_within", lambda *_: takes)
    told = [one.conductors for one in found(RULE, line("breaker curve-d 100 A", "16 mm² 3 m"))]
    assert told.count(("feed-bar to winch:f0",)) == count
