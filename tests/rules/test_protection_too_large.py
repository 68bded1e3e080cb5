"""Ratings at and above what a conductor may have, and the size that is told instead."""

from __future__ import annotations

import pytest

from diagrammer.rules.run import check
from tests.circuit.cases import system
from tests.circuit.test_protection_cases import branch, house

RULE = "protection-too-large"
CFR = {"18": 20, "16": 25, "14": 35, "12": 45, "10": 60, "8": 80, "6": 120, "4": 160, "3": 180, "2": 210, "1": 245,
       "1/0": 285, "2/0": 330, "3/0": 385, "4/0": 445}  # 33 CFR 183.425 Table 5, 105 °C [A]
ISO = {"0.75": 10, "1": 14, "1.5": 18, "2.5": 25, "4": 35, "6": 45, "10": 65, "16": 90, "25": 120, "35": 160, "50": 210,
       "70": 265, "95": 310, "120": 360, "150": 380}  # ISO 13297 Table A.1, 70 °C [A]


def fixes(text: str) -> list[str]:
    return [one.fix for one in check(system(text)) if one.rule == RULE and one.nodes != ("bank",)]


@pytest.mark.parametrize(("thin", "thick"), list(zip(CFR, list(CFR)[1:])))
def test_the_next_gauge_is_told_where_its_ampacity_takes_the_device(thin, thick):
    (fix,) = fixes(house(f"bank/fuse {CFR[thick]} A -> feed-bar", f"{thin} AWG 1 m"))
    assert fix.endswith(f", or {thick} AWG.")


@pytest.mark.parametrize(("thin", "thick"), list(zip(ISO, list(ISO)[1:])))
def test_the_next_metric_size_is_told_where_its_ampacity_takes_the_device(thin, thick):
    """IEC 60364-4-43 433.1: the rating is at most the ampacity."""
    (fix,) = fixes(house(f"bank/fuse {ISO[thick]} A -> feed-bar", f"{thin} mm² 1 m", practice="iso"))
    assert fix.endswith(f", or {thick} mm².")


@pytest.mark.parametrize(("wire", "what"), [
    ("14 AWG 2 m", "the 14 AWG from"), ("2 parallel 16 AWG 2 m", "the 2 parallel 16 AWG from")])
def test_conductors_in_parallel_are_told_as_such(wire, what):
    (one,) = [one for one in check(system(branch("feed-bar/fuse 100 A -> pump", wire))) if one.rule == RULE]
    assert what in one.message


@pytest.mark.parametrize(("practice", "wire", "most"), [
    ("abyc", "14 AWG 2 m", 35), ("abyc", "6 AWG 2 m", 125),  # ABYC E-11 11.10: 120 A, the next rating is 125 A
    ("nec", "14 AWG 2 m", 15), ("nec", "8 AWG 2 m", 40), ("nec", "6 AWG 2 m", 60),  # NEC 240.4(D); 240.4(B): 55 A, 60 A
    ("nec", "{size: 6 AWG, length: 2 m, terminations: 75 °C}", 70),  # 110.14(C), 240.4(B): 65 A, 70 A
    ("nec", "2 AWG 2 m", 125),  # above 100 A the terminals count as 75 °C: 115 A, 125 A
    ("iso", "2.5 mm² 2 m", 25), ("iso", "6 mm² 2 m", 45),  # IEC 60364-4-43 433.1
])
def test_at_and_above_the_largest_device(practice, wire, most):
    for rating, count in ((most, 0), (most + 0.01, 1)):
        found = check(system(branch(f"feed-bar/fuse {rating} A -> pump", wire, practice)))
        assert len([one for one in found if one.rule == RULE]) == count, (rating, found)


def one_said(text: str):
    (one,) = [one for one in check(system(text)) if one.rule == RULE]
    return one


def test_where_a_device_further_on_stands_is_asked_for():
    one = one_said(branch("feed-bar -> fuse 15 A -> pump", "14 AWG 3 m"))
    assert one.message.endswith("where the 15 A fuse `F4` stands is not said, it may be 3 m away, 0.178 m is the most with a "
                                "bare conductor between")
    assert one.fix == "Say how the run divides, a length for each conductor."
    assert one.reason.endswith(" It may carry 35 A by 33 CFR 183.425 Table 5, 105 °C, 14 AWG.")


@pytest.mark.parametrize(("amps", "larger"), [(90, None), (91, "3 AWG"), (120, "3 AWG"), (121, "2 AWG")])
def test_what_limits_itself_adds_to_a_device(amps, larger):
    """33 CFR 183.425 Table 5: 4 AWG 160 A, 3 AWG 180 A, 2 AWG 210 A; together at most 150 % of that."""
    text = house("bank/fuse 150 A -> feed-bar", "2/0 AWG 1 m",
                 "far: bar, rating: 300 A, pair: return-bar\npump: load, voltage: 12 V, power: 60 W\n"
                 f"sun: solar charger, type: mppt, max pv voltage: 100 V, output: {amps} A\n",
                 "sun: feed: sun -> feed-bar, wire: 2/0 AWG 0.5 m\n"
                 "far: feed: feed-bar -> far, return: none, wire: 4 AWG 2 m\n"
                 "pump: feed: far/fuse 10 A -> pump, wire: 14 AWG 2 m\n")
    if larger is None:
        assert [one for one in check(system(text)) if one.rule == RULE] == []
        return
    one = one_said(text)
    assert one.message == ("the 150 A fuse `F1` and sources that limit themselves together let "
                           f"{150 + amps} A into the 4 AWG from `feed-bar` to `far`: 240 A is the most")
    assert one.fix == f"Take devices that together let at most 240 A through, or {larger}."


def test_behind_a_conductor_that_gets_a_smaller_device_the_thin_one_needs_its_own():
    """The loads behind ask 105 A, 14 AWG may have 35 A (33 CFR 183.425 Table 5)."""
    text = house(nodes="stud: joint, pair: return-bar\npump: load, voltage: 12 V, power: 60 W\n"
                       "winch: load, voltage: 12 V, current: 100 A\n",
                 circuits="feeder: feed: feed-bar -> stud, return: none, wire: 6 AWG 2 m\n"
                          "winch: feed: stud -> winch, wire: 6 AWG 2 m\npump: feed: stud -> pump, wire: 14 AWG 2 m\n")
    (one,) = [one for one in check(system(text)) if one.rule == RULE and "`pump`" in one.message]
    assert one.message == ("the 14 AWG from `stud` to `pump` needs a device of its own: what feeds it must pass 105 A, for "
                           "this conductor 35 A is the most")
    assert one.fix == "Put a device of at most 35 A at `stud`, or at most 0.178 m from it, or 6 AWG for the conductor."


def test_of_one_device_that_passes_what_two_let_through_it_is_said_that_it_does():
    """Behind 150 A and 150 A a device of 400 A limits nothing; 4 AWG may have 240 A from several."""
    text = house("bank/fuse 150 A -> feed-bar", "2/0 AWG 1 m",
                 "bank2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah\n"
                 "far: bar, rating: 300 A, pair: return-bar\npump: load, voltage: 12 V, power: 60 W\n",
                 "second: feed: bank2/fuse 150 A -> feed-bar, return: bank2 -> bank, "
                 "wire: {feed: 2/0 AWG 0.5 m, return: 2/0 AWG 0.5 m}\n"
                 "far: feed: feed-bar/fuse 400 A -> far, return: none, wire: 4 AWG 2 m\n"
                 "pump: feed: far/fuse 10 A -> pump, wire: 14 AWG 2 m\n")
    assert one_said(text).message == "the 400 A fuse `F5` lets 300 A into the 4 AWG from `F5` to `far`: 240 A is the most"


@pytest.mark.parametrize(("amps", "fix"), [
    (1, "Take 10 AWG."), (10, "take a smaller device, a thicker conductor, or give the thin part a device of its own where "
                              "it begins.")])
def test_where_no_device_is_small_enough_none_is_told(amps, fix):
    """33 CFR 183.425 Table 5: 20 A in 18 AWG, times the root of 0.01 / 75; 10 AWG 60 A, 4/0 AWG 445 A."""
    one = one_said(branch(f"feed-bar/fuse {amps} A -> pump", "{size: 18 AWG, length: 2 m, ambient: 104.99 °C}"))
    assert one.message.endswith(": 0.231 A is the most") and one.fix == fix


def test_behind_what_a_converter_overloads_the_thin_conductor_needs_a_device_though_none_stands():
    """100 A into 10 AWG, 60 A; the winch asks 50 A at 24 V and the pump 2.5 A; 14 AWG may have 35 A."""
    text = house(nodes="stud: joint, pair: return-bar\nwinch: load, voltage: 24 V, current: 50 A\n"
                       "pump: load, voltage: 24 V, power: 60 W\nstep: converter, voltage: 24 V, output: 100 A\n",
                 circuits="step: feed: feed-bar/fuse 200 A -> step.in, wire: 2/0 AWG 0.5 m\n"
                          "far: feed: step -> stud, return: none, wire: 10 AWG 2 m\n"
                          "winch: feed: stud -> winch, wire: 8 AWG 2 m\npump: feed: stud -> pump, wire: 14 AWG 2 m\n")
    one = one_said(text)
    assert one.message.startswith("the 14 AWG from `stud` to `pump` needs a device of its own: what feeds it must pass 52.5 A")
    assert one.fix == "Put a device of at most 35 A at `stud`, or at most 0.178 m from it, or 10 AWG for the conductor."
