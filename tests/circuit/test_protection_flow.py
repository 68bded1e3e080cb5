"""What can flow into a conductor, and how far the excess has come: the values by themselves."""

from __future__ import annotations

import math

import pytest

from diagrammer.circuit.carrying import Limit
from diagrammer.circuit.protection_away import FROM_HERE, FROM_INLET, FROM_POST, MICRON, Away, Way, reach
from diagrammer.circuit.protection_flow import NOTHING, Flow, together
from diagrammer.electrics.ampacity import Ampacity
from diagrammer.electrics.rounding import ROUNDING, above

INCH = 0.0254  # [m]
BANK = Flow(bare=True, away=FROM_POST)


def limit(amps: float, one: float, several: float) -> Limit:
    return Limit(Ampacity(amps, "a table"), one, several)


FOURTEEN = limit(35, 35, 52.5)  # 14 AWG, abyc


def test_a_device_cuts_a_source_without_limit_to_its_rating():
    assert BANK.through(200) == Flow(devices=200, largest=200)
    assert BANK.total == math.inf and BANK.through(200).total == 200


def test_a_device_larger_than_what_comes_changes_no_current():
    assert Flow(limited=30).through(40) == Flow(devices=30, largest=30)
    two = BANK.through(100) + BANK.through(100)
    assert two == Flow(devices=200, largest=100)
    assert two.through(250) == Flow(devices=200, largest=100)
    assert two.through(150) == Flow(devices=150, largest=150)


def test_a_device_still_to_be_chosen_will_suit():
    assert BANK.through(None).none


def test_devices_that_together_let_through_what_the_next_is_rated_stay_apart():
    """It limits nothing: each of the two may be as large as one for the conductor behind."""
    two = BANK.through(100) + BANK.through(100)
    assert two.through(200) == Flow(devices=200, largest=100)
    tenths = together([BANK.through(0.1)] * 3)  # 0.1 + 0.1 + 0.1 is not quite 0.3 in floats
    assert tenths.devices > 0.3 and tenths.through(0.3).largest == 0.1


@pytest.mark.parametrize("flow", [Flow(bare=True), Flow(devices=1), Flow(limited=1), Flow(held=1)])
def test_each_sort_of_current_by_itself_is_some(flow):
    assert not flow.none and not (flow + NOTHING).none and not (NOTHING + flow).none


def test_what_meets_at_a_point_adds_up_and_keeps_the_largest_device_and_load():
    one = Flow(devices=60, largest=60, limited=5, held=20, asked=8, away=FROM_POST)
    two = Flow(devices=40, largest=40, limited=7, held=30, asked=9, away=FROM_HERE)
    met = Flow(devices=100, largest=60, limited=12, held=50, asked=9, away=FROM_POST.worst(FROM_HERE))
    assert one + two == two + one == met
    assert (Flow(bare=True) + one).bare and (one + Flow(bare=True)).bare


def test_currents_a_billionth_apart_are_the_same():
    assert not above(35 * (1 + ROUNDING), 35) and above(35 * (1 + 3 * ROUNDING), 35)


def test_how_far_it_has_come_changes_no_current():
    assert BANK.through(60).at(FROM_HERE) == Flow(devices=60, largest=60, away=FROM_HERE)


def test_adding_is_the_same_in_any_order_and_grouping():
    flows = [BANK, BANK.through(60), Flow(limited=35), Flow(limited=90).through(100), BANK.hold(12), NOTHING]
    forth, back = together(flows), together(reversed(flows))
    assert forth == back == (flows[0] + flows[1]) + (flows[2] + together(flows[3:]))


@pytest.mark.parametrize("flow, why", [
    (BANK, "bare"),
    (BANK.through(40), "rating"),
    (BANK.through(35), ""),
    (BANK.through(30) + BANK.through(30), "sum"),  # 60 A above 150 % of 35 A
    (BANK.through(25) + BANK.through(25), ""),
    (Flow(limited=36), "limited"),
    (Flow(limited=35), ""),
    (Flow(limited=60), "limited"),  # no device has a part in it, also above 150 %
    (BANK.through(30) + Flow(limited=25), "sum"),
    (BANK.hold(150), "asked"),
    (BANK.hold(20), ""),
    (NOTHING, ""),
])
def test_what_is_too_much_for_14_awg(flow, why):
    assert flow.excess(FOURTEEN) == why


def test_where_the_size_is_not_known_only_a_missing_device_is_too_much():
    assert BANK.excess(None) == "bare"
    assert BANK.through(400).excess(None) == ""


def test_one_device_of_the_next_made_size_is_not_a_sum():
    nec = limit(175, 200, 175)  # 2/0 AWG at 75 °C, NEC 240.4(B): one device of 200 A, of several 175 A in all
    assert BANK.through(200).excess(nec) == ""
    assert (BANK.through(100) + BANK.through(100)).excess(nec) == "sum"


def test_what_is_held_passes_no_more_than_its_load_and_the_next_device_its_rating():
    held = BANK.hold(20)
    assert not held.bare and held.excess(limit(18, 18, 27)) == "asked"
    assert held.through(60) == Flow(devices=60, largest=60)


@pytest.mark.parametrize("inches, sheathed, start, allowed", [
    (7, False, FROM_POST, True),  # 33 CFR 183.455(b)(1): 7 in
    (7.1, False, FROM_POST, False),
    (7.1, True, FROM_HERE, True),
    (40, True, FROM_HERE, True),  # 33 CFR 183.455(b)(2): 40 in in a sheath or enclosure throughout
    (40.1, True, FROM_HERE, False),
    (72, True, FROM_POST, True),  # 33 CFR 183.460(a), with the sheath of ABYC E-11 11.10.1.1.1
    (72.1, True, FROM_POST, False),
    (72, False, FROM_POST, False),
])
def test_the_distances_of_33_cfr_183_455_and_460(inches, sheathed, start, allowed):
    away = start.onward(inches * INCH, "", sheathed)
    assert away.within(reach("abyc")) is allowed
    assert away.within(reach("cfr")) is allowed


def test_one_bare_piece_makes_the_run_bare():
    away = FROM_POST.onward(0.1, "", False).onward(0.1, "", True)
    assert away == Away(bare=Way(0.2, ""))
    assert not away.within(reach("abyc"))


def test_the_longest_way_counts_for_each_sort():
    worst = FROM_POST.onward(0.5, "", True).worst(FROM_POST.onward(0.9, "", True)).worst(FROM_HERE)
    assert worst.battery.length == 0.9 and worst.sheathed.length == 0.0 and not worst.bare.length > 0


def test_pieces_of_one_run_are_as_long_as_the_run_together():
    whole = Way(0.0).onward(1.5, "run").onward(1.5, "run")
    assert whole.length == 1.5
    assert whole.onward(0.3, "").onward(1.5, "run").length == 3.3  # another stretch of it may be the whole as well


def test_of_two_ways_alike_the_first_counts():
    assert Way(1.0, "one").longer(Way(1.0, "two")).run == "one"
    assert Way(1.0, "one").longer(Way(1.1, "two")).run == "two"


@pytest.mark.parametrize(("away", "begun"), [
    (Away(), False), (FROM_HERE, True), (FROM_POST, True), (FROM_INLET, True), (Away(bare=Way(0.0)), True),
])
def test_an_excess_that_starts_here_has_begun(away, begun):
    assert away.begun is begun


@pytest.mark.parametrize("practice", ["abyc", "cfr"])
def test_the_reach_from_a_bare_start_and_from_a_battery(practice):
    """33 CFR 183.455(b)(1): 7 in; 183.460(a): 72 in. To a micron a length is the same."""
    limits = reach(practice)
    assert (limits.bare, limits.from_battery) == pytest.approx((7 * INCH, 72 * INCH), abs=1e-3)
    assert Away(bare=Way(limits.bare + MICRON)).within(limits)
    assert not Away(bare=Way(limits.bare + 2 * MICRON)).within(limits)


@pytest.mark.parametrize(("over", "allowed"), [(0.0, True), (0.95e-6, True), (1.05e-6, False)])
def test_every_distance_begins_at_nought_and_is_the_same_to_a_micron(over, allowed):
    limits = reach("abyc")
    for start, most in zip((Away(bare=Way(0.0)), FROM_HERE, FROM_POST, FROM_INLET), limits.most):
        assert start.onward(most + over, "", sheathed=True).within(limits) is allowed, start


@pytest.mark.parametrize(("over", "too_much"), [(0.0, False), (0.95e-9, False), (1.05e-9, True)])
def test_a_current_is_the_same_to_a_billionth(over, too_much):
    assert above(40 * (1 + over), 40) is too_much
