"""Opening times against k²S², by hand."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.electrics.device import opens_within
from diagrammer.netlist.read import read
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
