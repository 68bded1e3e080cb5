"""Which sizes, distances and positions the rules on protection name."""

from __future__ import annotations

import pytest

from diagrammer.rules.protection._words import amps
from tests.circuit.test_protection_cases import PUMP, branch, house, stud
from tests.rules.asked import found

MISSING, LARGE = "missing-protection", "protection-too-large"


def fix(text: str) -> str:
    (one,) = found(LARGE, text)
    return one.fix


@pytest.mark.parametrize(("practice", "wire", "amps", "larger"), [
    ("nec", "{size: 18 AWG, length: 2 m, insulation: 90 °C, terminations: 90 °C}", 10, "14 AWG"),
    ("abyc", "18 AWG 2 m", 25, "16 AWG"), ("iso", "0.75 mm² 2 m", 12, "1 mm²"),
])
def test_no_size_below_the_least_of_the_practice_is_told(practice, wire, amps, larger):
    """NEC 310.3: 14 AWG, though 240.4(D) has 10 A for 16 AWG; ABYC E-11 16 AWG, ISO 10133 1 mm² (all from memory)."""
    assert fix(branch(f"feed-bar/fuse {amps} A -> pump", wire, practice)).endswith(f", or {larger}.")


@pytest.mark.parametrize(("wire", "amps", "larger"), [
    ("4/0 AWG", 300, "250 kcmil"), ("250 kcmil", 300, ""), ("250 kcmil", 350, "350 kcmil")])
def test_above_4_0_awg_sizes_are_told_in_kcmil(wire, amps, larger):
    """NEC Table 310.16, 75 °C: 230, 255, 285 and 310 A (from memory); 240.4(B): the next rating."""
    said = [one.fix for one in found(LARGE, house(f"bank/fuse {amps} A -> feed-bar", f"{wire} 1 m", practice="nec"))]
    assert len(said) == bool(larger) and all(one.endswith(f", or {larger}.") for one in said)


@pytest.mark.parametrize(("practice", "wire", "most"), [("abyc", "4/0 AWG", 450), ("iso", "150 mm²", 350)])
def test_where_no_size_is_large_enough_none_is_told(practice, wire, most):
    """33 CFR 183.425 Table 5: 445 A, the next rating is 450 A; ISO 13297 Table A.1, 70 °C: 380 A."""
    text = house("bank/fuse 600 A -> feed-bar", f"{wire} 1 m", practice=practice)
    assert fix(text) == f"Take a device of at most {most} A."


def test_of_conductors_in_parallel_all_are_to_be_thicker():
    """33 CFR 183.425 Table 5, 105 °C: 16 AWG 25 A, 14 AWG 35 A; one 14 AWG alone would not do."""
    text = branch("feed-bar/fuse 60 A -> pump", "2 parallel 16 AWG 2 m")
    assert fix(text) == "Take a device of at most 50 A, or 2 parallel 14 AWG."


def behind_a_post(before: str, run: str) -> str:
    """`before` [m] of bare 2/0 AWG to a stud, whose main line is fused there, then a pump's line."""
    return stud(f"pump: feed: stud -> fuse 10 A -> pump, wire: {run}\n").replace("2/0 AWG 0.1 m", f"2/0 AWG {before} m")


@pytest.mark.parametrize(("metres", "asked"), [("0.177", True), ("0.178", True), ("0.1781", False)])
def test_what_lies_before_a_run_that_is_not_divided_counts(metres, asked):
    """33 CFR 183.455(b)(1): 7 in; a fuse at the beginning of the run would stand within them or just at their end."""
    said = [one.message for one in found(MISSING, behind_a_post(metres, "14 AWG 0.4 m"))]
    assert any("is not said" in one for one in said) == asked


@pytest.mark.parametrize(("bare", "sheathed", "most"), [
    (0.17, 1.0, "0.37 m from `bank` and `bank2`: 0.178 m is the most with a bare conductor between"),
    (0.01, 1.8, "2 m from `bank` and `bank2`: 1.829 m is the most within a sheath throughout, from a battery")])
def test_of_two_distances_the_one_further_above_its_limit_is_told(bare, sheathed, most):
    """33 CFR 183.455(b)(1) and 183.460(a): 7 in bare, 72 in within a sheath from a battery."""
    text = stud("second: feed: bank2 -> stud, return: bank2 -> bank, wire: {feed: {hops: [2/0 AWG %g m], in: conduit}, "
                "return: 2/0 AWG 0.5 m}\n"
                "pump: feed: stud -> fuse 10 A -> pump, "
                "wire: {feed: {hops: [14 AWG 0.2 m, 1 m], in: conduit}}\n" % sheathed,
                f"{PUMP}bank2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah\n")
    said = [one.message for one in found(MISSING, text.replace("2/0 AWG 0.1 m", f"2/0 AWG {bare} m"))]
    assert said == [f"the 10 A fuse `F4` stands {most}"]


def test_the_place_of_an_interlock_is_no_position_that_is_told():
    """Two banks on one bar, one at a time; the fuse of one is too large for what follows."""
    text = house("bank/fuse 150 A/Q-one -> feed-bar", "2/0 AWG 1 m",
                 "bank2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah\nQ-one: switch, rating: 300 A\n"
                 "Q-two: switch, rating: 300 A\nfar: bar, rating: 300 A, pair: return-bar\n" + PUMP,
                 "second: feed: bank2/fuse 300 A/Q-two -> feed-bar, return: bank2 -> bank, "
                 "wire: {feed: 2/0 AWG 0.5 m, return: 2/0 AWG 0.5 m}\n"
                 "far: feed: feed-bar -> far, return: none, wire: 4 AWG 2 m\n"
                 "pump: feed: far/fuse 10 A -> pump, wire: 14 AWG 2 m\n")
    (one,) = found(LARGE, text.replace("nodes:", "interlocks: [[Q-one, Q-two]]\nnodes:"))
    assert one.message == ("only the 300 A fuse `F4` protects the 4 AWG from `feed-bar` to `far`: 175 A is the most")


def test_the_position_that_lets_too_much_is_told():
    """One bank behind 150 A at position 1, another behind 300 A at position 2; 4 AWG may have 175 A."""
    text = house("bank/fuse 150 A -> choice.1", "2/0 AWG 1 m",
                 "bank2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah\nchoice: selector, rating: 400 A\n"
                 "far: bar, rating: 300 A, pair: return-bar\n" + PUMP,
                 "second: feed: bank2/fuse 300 A -> choice.2, return: bank2 -> bank, "
                 "wire: {feed: 2/0 AWG 0.5 m, return: 2/0 AWG 0.5 m}\n"
                 "far: feed: choice -> far, return: none, wire: 4 AWG 2 m\n"
                 "pump: feed: far/fuse 10 A -> pump, wire: 14 AWG 2 m\n")
    (one,) = found(LARGE, text)
    assert "the 4 AWG from `choice` to `far` with `choice` at 2: 175 A is the most" in one.message


def test_what_has_no_size_is_a_conductor():
    (one,) = found(MISSING, house("bank -> feed-bar", "1 m"))
    assert "between `bank` and the conductor from `bank` to `feed-bar`" in one.message
    assert one.fix == "Put a device that suits it at `bank`, or at most 0.178 m from it."


@pytest.mark.parametrize(("before", "place", "most"), [
    ("0.1", ", or to at most 0.078 m from it", 0.078), ("0.177", ", or to at most 0.001 m from it", 0.001),
    ("0.10007", ", or to at most 0.077 m from it", 0.077), ("0.1775", "", 0), ("0.178", "", 0)])
def test_what_lies_before_is_no_longer_to_be_had(before, place, most):
    """33 CFR 183.455(b)(1): 7 in along the conductor, from the source on; whole millimetres are told."""
    (one,) = found(MISSING, behind_a_post(before, "[14 AWG 0.2 m, 1 m]"))
    assert one.fix == f"Move `F4` to `stud`{place}."
    held = behind_a_post(before, f"[14 AWG {most} m, 1 m]") if most else behind_a_post(before, "14 AWG 1 m").replace(
        "stud -> fuse 10 A", "stud/fuse 10 A")
    assert found(MISSING, held) == ()
    (one,) = found(MISSING, behind_a_post(before, "14 AWG 0.4 m"))
    such = f": [14 AWG {most:g} m, ...]" if most else ""
    assert one.fix == f"Say how the run divides, a length for each conductor{such}."


@pytest.mark.parametrize(("before", "place"), [("0.1", ", or {}at most 0.078 m from it"), ("0.178", "")])
def test_what_lies_before_counts_behind_a_device_as_well(before, place):
    """A bar behind 200 A, 8 AWG to a stud and a fuse there; what else begins at the stud needs one too."""
    def text(line: str) -> str:
        return house("bank/fuse 200 A -> feed-bar", "2/0 AWG 1 m",
                     "stud: joint, pair: return-bar\nfar: bar, rating: 100 A, pair: return-bar\n" + PUMP,
                     f"a: feed: feed-bar -> stud, return: none, wire: 8 AWG {before} m\n"
                     f"far: feed: stud/fuse 80 A -> far, return: none, wire: 8 AWG 2 m\npump: feed: stud -> {line}\n")
    assert fix(text("fuse 10 A -> pump, wire: [14 AWG 0.2 m, 1 m]")) == f"Move `F5` to `stud`{place.format('to ')}."
    assert fix(text("pump, wire: 14 AWG 2 m")) == (  # 3 AWG 180 A, the next rating is 200 A
        f"Put a device of at most 35 A at `stud`{place.format('')}, or 3 AWG for the conductor.")


@pytest.mark.parametrize(("value", "said"), [
    (35, "35 A"), (7.5, "7.5 A"), (9999, "9999 A"), (10_000, "10 kA"), (10_500, "10.5 kA"), (200_000, "200 kA")])
def test_currents(value, said):
    assert amps(value) == said


def test_the_way_is_told_in_a_reason_without_gaps():
    (one,) = found(MISSING, house("bank -> feed-bar"))
    assert one.reason.endswith(f"The way from the source: {', '.join(one.path)}.") and "  " not in one.reason


def test_a_device_that_is_too_large_is_no_question_of_how_the_run_divides():
    (one,) = found(MISSING, house("bank -> fuse 400 A -> feed-bar", "2/0 AWG 0.4 m"))
    assert one.fix == "Put a device of at most 350 A at `bank`, or at most 0.178 m from it."
