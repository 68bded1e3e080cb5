"""Polarised breakers: which way round, and between what."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "one-way-breaker"
LAMP = "  lamp: {kind: load, voltage: 12 V, power: 20 W}\n  Q-lamp: {kind: breaker, polarised: yes, rating: 10 A}"
SUN = ("  roof: {kind: pv, power: 200 W, voc: 40 V, isc: 9 A, vmp: 33 V, imp: 8 A}\n"
       "  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 20 A}\n")


@pytest.mark.parametrize(("item", "count"), [("Q-lamp", 0), ("Q-lamp.1", 0), ("Q-lamp.2", 1)])
def test_what_gives_stands_at_1(item, count):
    found_ = found(RULE, van(f"{{feed: feed-bar -> {item} -> lamp, wire: [14 AWG 0.1 m, 3 m]}}", nodes=LAMP))
    assert len(found_) == count and all("wrong way round" in one.message for one in found_)


@pytest.mark.parametrize(("device", "count"), [("breaker polarised 30 A", 1), ("breaker 30 A", 0)])
def test_between_a_charger_and_the_bar_current_flows_both_ways(device, count):
    lines = "{feed: roof -> sun.pv, wire: 10 AWG 3 m}", f"{{feed: sun -> {device}/feed-bar, wire: 8 AWG 1 m}}"
    found_ = found(RULE, van(*lines, nodes=SUN))
    assert len(found_) == count and all("both ways" in one.message for one in found_)


def test_the_main_breaker_of_a_bank_that_is_charged():
    lines = "{feed: roof -> sun.pv, wire: 10 AWG 3 m}", "{feed: sun -> fuse 30 A/feed-bar, wire: 8 AWG 1 m}"
    assert len(found(RULE, van(*lines, nodes=SUN, main="breaker polarised 200 A"))) == 1
    assert found(RULE, van(main="breaker polarised 200 A")) == ()


def test_an_array_of_its_own_and_strings_that_meet():
    end = "{feed: sun -> fuse 30 A/feed-bar, wire: 8 AWG 1 m}"
    alone = van("{feed: roof -> breaker polarised 16 A -> sun.pv, wire: [10 AWG 3 m, 1 m]}", end, nodes=SUN)
    assert found(RULE, alone) == ()
    nodes = SUN + "  east: {kind: pv, power: 200 W, voc: 40 V, isc: 9 A, vmp: 33 V, imp: 8 A}\n" \
        "  meet: {kind: bar, rating: 50 A, pair: meet-return}\n  meet-return: {kind: bar, rating: 50 A}"
    both = van("{feed: roof -> breaker polarised 16 A/meet, wire: 10 AWG 3 m}",
        "{feed: east -> meet, wire: 10 AWG 3 m}",
               "{feed: meet -> sun.pv, wire: 8 AWG 1 m}", end, nodes=nodes)
    assert len(found(RULE, both)) == 1


def test_two_poles_in_series_are_told_once():
    nodes = LAMP.replace("rating: 10 A", "rating: 10 A, poles: 2")
    line = "{feed: feed-bar -> Q-lamp.2 -> Q-lamp.4 -> lamp, return: none, wire: [14 AWG 0.1 m, 0.1 m, 3 m]}"
    (one,) = found(RULE, van(line, nodes=nodes))
    assert "wrong way round" in one.message


def test_on_ac_polarity_does_not_matter():
    nodes = ("  quay: {kind: shore, rating: 16 A}\n  kettle: {kind: ac load, power: 500 W}\n"
             "  Q-kettle: {kind: breaker, polarised: yes, rating: 10 A}")
    assert found(RULE, van("{ac: kettle -> Q-kettle -> quay, wire: [12 AWG 0.1 m, 3 m]}", nodes=nodes)) == ()
