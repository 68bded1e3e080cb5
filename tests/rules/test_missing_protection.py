"""What is said of a conductor without a device, and which fix is the right one."""

from __future__ import annotations

import pytest

from diagrammer.rules.run import check
from tests.circuit.cases import system
from tests.circuit.test_protection_cases import house, tied
from tests.rules.asked import found

RULE = "missing-protection"


@pytest.mark.parametrize(("metres", "count"), [(0.177, 0), (0.178, 0), (0.179, 1)])
def test_seven_inches_bare(metres, count):
    """33 CFR 183.455(b)(1), ABYC E-11 11.10.1.1.1."""
    assert len(found(RULE, house("bank -> fuse 200 A -> feed-bar", f"[2/0 AWG {metres} m, 1 m]"))) == count


@pytest.mark.parametrize(("rating", "message", "fix"), [
    (200, "the 200 A fuse `F1` stands 2 m from `bank`: 0.178 m is the most with a bare conductor between",
     "Move `F1` to `bank`, or to at most 0.178 m from it."),
    (400, "the 400 A fuse `F1` stands 2 m from `bank`: 0.178 m is the most with a bare conductor between",
     "Put a device of at most 350 A at `bank`, or at most 0.178 m from it."),  # moving it would not do: 350 A is the most
])
def test_a_device_that_is_too_large_is_not_to_be_moved(rating, message, fix):
    (one,) = found(RULE, house(f"bank -> fuse {rating} A -> feed-bar", "[2/0 AWG 2 m, 1 m]"))
    assert (one.message, one.fix) == (message, fix)


def test_where_a_run_is_not_divided_the_division_is_asked_for():
    (one,) = found(RULE, house("bank -> fuse 200 A -> feed-bar", "2/0 AWG 0.4 m"))
    assert one.message.startswith("where the 200 A fuse `F1` stands is not said, it may be 0.4 m from `bank`")
    assert one.fix == "Say how the run divides, a length for each conductor: [2/0 AWG 0.178 m, ...]."


@pytest.mark.parametrize(("line", "feeds"), [
    ("bank2 -> bank", "which `bank2` and `bank` feed from either end"),
    ("bank2/fuse 600 A -> bank", "the 600 A fuse `F4` stands 3 m from `bank`: "),  # and no bank that has one
])
def test_only_sources_without_a_device_are_named(line, feeds):
    said = [one.message for one in check(system(tied(line))) if one.rule == RULE]
    assert len(said) == 1 and feeds in said[0]


def test_a_device_that_is_too_large_where_it_may_stand():
    """33 CFR 183.455(b)(1): 0.178 m; 2/0 AWG 330 A, the next rating is 350 A."""
    (one,) = found(RULE, house("bank -> fuse 400 A -> feed-bar", "[2/0 AWG 0.178 m, 1 m]"))
    assert one.message == ("the 400 A fuse `F1` is too large for the conductors between it and `bank`, of which the 2/0 AWG "
                           "from `bank` to `F1` may have 350 A")


def test_of_a_conductor_without_a_size_no_device_is_named():
    (one,) = found(RULE, house("bank -> feed-bar", "1 m"))
    assert one.fix == "Put a device that suits it at `bank`, or at most 0.178 m from it."


@pytest.mark.parametrize(("second", "flows"), [
    (", short circuit: 1 kA", "up to 3.5 kA flow"), ("", "all that the source gives flows")])
def test_what_flows_is_told_where_all_sources_state_it(second, flows):
    text = f"""
nodes:
  bank:  {{kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2.5 kA}}
  other: {{kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah{second}}}
  panel: {{kind: panel, rating: 60 A}}
  lamp:  {{kind: load, voltage: 12 V, power: 24 W}}
circuits:
  - {{feed: bank/other, return: bank/other}}
  - {{feed: bank -> panel, wire: 8 AWG 1 m}}
  - {{feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}}
"""
    (one,) = found(RULE, text)
    assert flows.replace("3.5 kA", "3500 A") in one.message


@pytest.mark.parametrize(("line", "fix"), [
    ("quay -> plug inlet 16 A -> breaker 2-pole 16 A -> kettle, wire: [2.5 mm² 15 m, 1 m, 2 m]",
     "Move `Q1` to `quay`, or to at most 0.2 m from it."),
    ("quay -> kettle, wire: 2.5 mm² 15 m", "Put a device of at most 25 A at `quay`, or at most 0.2 m from it.")])
def test_the_breaker_of_a_pedestal_is_to_be_written_down(line, fix):
    text = f"""
practice: iso
nodes:
  quay: {{kind: shore, rating: 16 A}}
  kettle: {{kind: ac load, power: 1 kW}}
circuits:
  - {{ac: {line}}}
"""
    (one,) = found(RULE, text)
    assert one.fix == fix + " Where the supply has its own, write it down: `quay/breaker 16 A -> ...`."
