"""What isolates a bank and what does not."""

from __future__ import annotations

import pytest

from diagrammer.rules import RULES
from tests.rules.asked import found
from tests.rules.variants import bad, edited, good

RULE = "bank-without-disconnect"
SWITCH = "switch battery 100 A"


@pytest.mark.parametrize("device, expected", [
    (SWITCH, 0), ("switch 100 A", 0), ("breaker 50 A", 0), ("fuse 50 A", 1), ("switch float 100 A", 1),
    ("switch thermostat 100 A", 1), ("plug 100 A", 1),
])
def test_the_device_in_the_main_line(device, expected):
    assert len(good(RULE, (SWITCH, device))) == expected


def test_a_switch_in_the_return_isolates_too():
    line = "{feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}"
    switched = ("{feed: bank/fuse 50 A -> panel, return: bank -> switch battery 100 A -> panel, "
                "wire: {feed: 6 AWG 1 m, return: [6 AWG 1 m, 1 m]}}")
    assert bad(RULE, (line, switched)) == ()


def test_what_must_always_be_on_may_hang_on_the_bank():
    assert bad(RULE, ("power: 24 W}", "power: 24 W, always on: yes}")) == ()


def test_a_charger_may_hang_on_the_bank():
    nodes = ("  sun: {kind: solar charger, type: mppt, output: 10 A, max pv voltage: 75 V}\n"
             "circuits:\n"
             "  - {feed: sun -> fuse 15 A/bank, wire: 12 AWG 1 m}")
    assert good(RULE, ("circuits:", nodes)) == ()


def test_a_starter_battery_is_not_asked_for_one():
    assert bad(RULE, ("capacity: 100 Ah", "capacity: 100 Ah, duty: starter")) == ()


def lamps(count: int, device: str) -> str:
    lamp = "".join(f"  lamp-{n}: {{kind: load, voltage: 12 V, power: 5 W}}\n" for n in range(count))
    lines = "".join(f"  - {{feed: panel/{device} -> lamp-{n}, wire: 14 AWG 2 m}}\n" for n in range(count))
    text = edited(RULES[RULE].bad, ("  fan: {kind: load, voltage: 12 V, power: 24 W}\n", lamp))
    return text.replace("  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}\n", lines)


@pytest.mark.parametrize("count, expected", [(3, 0), (4, 1)])
def test_up_to_three_branches_can_be_opened_one_by_one(count, expected):
    assert len(found(RULE, lamps(count, "breaker 5 A"))) == expected


@pytest.mark.parametrize("count, expected", [(1, 0), (3, 0), (4, 1)])
def test_branches_with_one_switch_each(count, expected):
    (*_, last) = (0, *found(RULE, lamps(count, "breaker 5 A")))
    assert bool(last) == bool(expected) and (not expected or "each of 4 loads" in last.message)


def test_a_branch_that_opens_several_loads_counts_as_a_main_switch():
    text = lamps(5, "breaker 5 A").replace("  - {feed: panel/breaker 5 A -> lamp-0, wire: 14 AWG 2 m}\n",
                                           "  - {feed: panel/breaker 5 A -> tee, wire: 14 AWG 1 m}\n"
                                           "  - {feed: tee -> lamp-0, wire: 14 AWG 1 m}\n")
    text = text.replace("  - {feed: panel/breaker 5 A -> lamp-1, wire: 14 AWG 2 m}\n",
                        "  - {feed: tee -> lamp-1, wire: 14 AWG 1 m}\n")
    assert found(RULE, text.replace("circuits:", "  tee: {kind: joint}\ncircuits:")) == ()


def fourth(device: str, nodes: str = "") -> list[str]:
    """What is said where three lamps have a breaker each and the fourth has this device."""
    text = edited(lamps(4, "breaker 5 A"), ("panel/breaker 5 A -> lamp-3, wire: 14 AWG 2 m", "panel/fuse 5 A -> DEVICE"),
                  ("circuits:", f"{nodes}circuits:"))
    return [one.message for one in found(RULE, text.replace("DEVICE", f"{device} -> lamp-3, wire: [14 AWG 1 m, 1 m]"))]


EACH = "no switch isolates `bank` as a whole: each of 4 loads is switched by itself"


@pytest.mark.parametrize(("device", "nodes", "said"), [
    ("switch 20 A", "", [EACH]), ("breaker 5 A", "", [EACH]),
    ("switch battery 100 A", "", []),  # it is made to part a bank, so the branches were meant
    ("K1", "  K1: {kind: relay, rating: 20 A, coil: 12 V}\n", []),
    ("pick.1", "  pick: {kind: selector, rating: 20 A}\n", []),
    ("switch open 20 A", "", []),  # what rests open isolates nothing: three are left
])
def test_what_opens_the_fourth_branch(device, nodes, said):
    if device == "pick.1":
        line = "pick.1, return: none, wire: 14 AWG 1 m}\n  - {feed: pick -> lamp-3, return: panel -> lamp-3, wire: 14 AWG 1 m"
        text = edited(lamps(4, "breaker 5 A"), ("panel/breaker 5 A -> lamp-3, wire: 14 AWG 2 m", f"panel/fuse 5 A -> {line}"),
                      ("circuits:", f"{nodes}circuits:"))
        assert [one.message for one in found(RULE, text)] == said
    else:
        assert fourth(device, nodes) == said


def test_a_branch_that_only_charges_is_no_load():
    """Four breakers, three of them before a load."""
    nodes = ("  sun: {kind: solar charger, type: mppt, output: 10 A, max pv voltage: 75 V}\ncircuits:\n"
             "  - {feed: sun -> breaker 15 A/panel, wire: 12 AWG 1 m}")
    text = edited(lamps(3, "breaker 5 A"), ("circuits:", nodes))
    assert found(RULE, text) == ()
    assert len(found(RULE, edited(lamps(4, "breaker 5 A"), ("circuits:", nodes)))) == 1


def test_a_switch_that_is_bridged_isolates_nothing():
    nodes = ("  tee: {kind: joint}\ncircuits:\n"
             "  - {feed: panel -> switch 50 A -> tee, return: none, wire: [6 AWG 1 m, 1 m]}\n"
             "  - {feed: panel -> tee, return: none, wire: 6 AWG 1 m}")
    assert [one.message for one in found(RULE, edited(lamps(4, "breaker 5 A"), ("circuits:", nodes)))] == [EACH]
