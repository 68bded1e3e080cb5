"""How the rules on protection speak of distances and of several devices."""

from __future__ import annotations

import pytest

from diagrammer.rules.run import check
from tests.circuit.cases import system
from tests.circuit.test_protection_cases import branch, house, sheathed
from tests.rules.asked import found

MISSING, LARGE = "missing-protection", "protection-too-large"


@pytest.mark.parametrize(("practice", "most"), [("abyc", 0.178), ("nec", 0.45), ("iso", 0.2)])
@pytest.mark.parametrize(("over", "count"), [(-0.001, 0), (0, 0), (0.001, 1)])
def test_how_far_a_device_may_stand_bare(practice, most, over, count):
    """33 CFR 183.455(b)(1) and ABYC E-11 11.10.1.1.1: 7 in; ISO 10133 8.1: 200 mm; nec: common practice."""
    size = {"abyc": "2/0 AWG", "nec": "3/0 AWG", "iso": "70 mm²"}[practice]
    text = house("bank -> fuse 200 A -> feed-bar", f"[{size} {most + over:.3f} m, 1 m]", practice=practice)
    said = [one.message for one in found(MISSING, text)]
    assert len(said) == count and all(f"{most:g} m is the most with a bare conductor between" in one for one in said)


@pytest.mark.parametrize(("practice", "most", "sort"), [
    ("abyc", 1.829, "within a sheath throughout, from a battery"), ("nec", 0.45, "within a sheath throughout"),
    ("iso", 1.8, "within a sheath throughout")])
@pytest.mark.parametrize(("over", "count"), [(-0.001, 0), (0, 0), (0.001, 1)])
def test_how_far_a_device_may_stand_within_a_sheath(practice, most, sort, over, count):
    """33 CFR 183.460(a) and ABYC E-11: 72 in from a battery; ISO 10133 8.1 (from memory)."""
    size = {"abyc": "2/0 AWG", "nec": "3/0 AWG", "iso": "70 mm²"}[practice]
    text = house("bank -> fuse 200 A -> feed-bar", sheathed(f"{size} {most + over:.3f} m, 1 m"), practice=practice)
    said = [one.message for one in found(MISSING, text)]
    assert len(said) == count and all(f"{most:g} m is the most {sort}" in one for one in said)


@pytest.mark.parametrize(("over", "count"), [(-0.001, 0), (0, 0), (0.001, 1)])
def test_how_far_a_device_may_stand_from_a_bar_within_a_sheath(over, count):
    """33 CFR 183.455(b)(2): 40 in from what is no battery."""
    text = branch("feed-bar -> fuse 15 A -> pump", sheathed(f"14 AWG {1.016 + over:.3f} m, 2 m"))
    assert len(found(LARGE, text)) == count


def banks(count: int, head: str = "", switched: str = "") -> list[str]:
    """What is too large where so many banks with 150 A each feed a bar, from which 4 AWG goes on."""
    numbers = range(2, count + 1)
    nodes = "".join(f"bank-{n}: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah\n" for n in numbers)
    lines = "".join(f"line-{n}: feed: bank-{n}/fuse 150 A -> feed-bar, return: bank-{n} -> bank, "
                    "wire: {feed: 2/0 AWG 0.5 m, return: 2/0 AWG 0.5 m}\n" for n in numbers)
    if switched:
        nodes += "Q-one: switch, rating: 300 A\nQ-two: switch, rating: 300 A\n"
        lines = lines.replace("fuse 150 A -> feed-bar", "fuse 150 A/Q-two -> feed-bar", 1)
    text = house(f"bank/fuse 150 A{'/Q-one' if switched else ''} -> feed-bar", "2/0 AWG 1 m",
                 nodes + "far: bar, rating: 300 A, pair: return-bar\npump: load, voltage: 12 V, power: 60 W\n",
                 lines + "far: feed: feed-bar -> far, return: none, wire: 4 AWG 2 m\n"
                 "pump: feed: far/fuse 10 A -> pump, wire: 14 AWG 2 m\n")
    return [one.message for one in check(system(text.replace("nodes:", f"{head}\nnodes:"))) if one.rule == LARGE]


@pytest.mark.parametrize(("count", "said"), [
    (2, "the 150 A fuse `F1` and the 150 A fuse `F4` together let 300 A"),
    (3, "the 150 A fuse `F1`, the 150 A fuse `F4` and the 150 A fuse `F5` together let 450 A"),
    (4, "the 150 A fuse `F1`, the 150 A fuse `F4` and 2 others together let 600 A")])
def test_up_to_three_devices_are_named(count, said):
    """4 AWG carries 160 A (33 CFR 183.425 Table 5), together at most 150 % of that, 240 A."""
    assert banks(count) == [f"{said} into the 4 AWG from `feed-bar` to `far`: 240 A is the most"]


def test_what_an_interlock_keeps_apart_does_not_add_up():
    assert banks(2, "interlocks: [[Q-one, Q-two]]", "yes") == []
    (one,) = banks(3, "interlocks: [[Q-one, Q-two]]", "yes")
    assert "together let 300 A into" in one and "interlock" not in one
    (one,) = banks(3, "", "yes")
    assert "together let 450 A into" in one
