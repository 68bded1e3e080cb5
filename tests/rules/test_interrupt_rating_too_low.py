"""Breaking capacities against prospective currents."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read
from tests.rules.asked import found, van

RULE = "interrupt-rating-too-low"


def bank(amps: str, chemistry: str = "lifepo4", capacity: str = "200 Ah") -> str:
    stated = f", short circuit: {amps}" if amps else ""
    return f"{{kind: bank, chemistry: {chemistry}, voltage: 12 V, capacity: {capacity}{stated}, pair: return-bar}}"


@pytest.mark.parametrize(("amps", "count"), [("1.99 kA", 0), ("2 kA", 0), ("2.01 kA", 1)])
def test_at_the_battery_the_stated_current_counts(amps, count):
    """ISO 8820-5: strips break 2 kA at 32 V."""
    assert len(found(RULE, van(bank=bank(amps), main="fuse strip 200 A"))) == count


@pytest.mark.parametrize(("breaking", "count"), [("5.9 kA", 1), ("6 kA", 0)])
def test_its_own_capacity_goes_before_its_body(breaking, count):
    found_ = found(RULE, van(bank=bank("6 kA"), main=f"fuse strip 200 A {breaking}"))
    assert len(found_) == count and all(one.severity == "danger" for one in found_)


def test_where_nothing_is_known_nothing_is_said():
    assert found(RULE, van(bank=bank("50 kA"), main="fuse 200 A")) == ()
    assert found(RULE, van(bank=bank("50 kA"), main="breaker 200 A")) == ()


def test_an_estimate_is_called_one():
    """45 A for each ampere-hour of lifepo4: 9 kA."""
    (one,) = found(RULE, van(bank=bank(""), main="fuse strip 200 A"))
    assert "9 kA" in one.message and "estimated for `bank`" in one.message


@pytest.mark.parametrize(("ahead", "severity"), [("fuse class-t 200 A", "notice"), ("fuse anl 200 A", "danger")])
def test_behind_a_current_limiting_fuse_it_is_a_question_of_coordination(ahead, severity):
    text = van("{feed: feed-bar/fuse blade 10 A -> lamp, wire: 14 AWG 1 m}", bank=bank("6 kA"), main=ahead,
               nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}")
    (one,) = found(RULE, text)
    assert one.severity == severity and one.nodes == ("F2",)


def test_one_notice_for_all_behind_one_fuse():
    lines = [f"{{feed: feed-bar/fuse blade 10 A -> lamp-{n}, wire: 14 AWG 1 m}}" for n in (1, 2, 3)]
    nodes = "\n".join(f"  lamp-{n}: {{kind: load, voltage: 12 V, power: 20 W}}" for n in (1, 2, 3))
    (one,) = found(RULE, van(*lines, nodes=nodes, bank=bank("6 kA")))
    assert one.nodes == ("F2", "F3", "F4") and "2 more" in one.message


def test_far_away_the_conductors_hold_it_back():
    """20 m of 14 AWG there and back leave some hundred amperes."""
    text = van("{feed: feed-bar/fuse anl 35 A -> box, wire: 10 AWG 20 m}",
        "{feed: box/fuse blade 10 A -> lamp, wire: 14 AWG 1 m}",
               bank=bank("5 kA"), main="fuse anl 200 A",
               nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}\n  box: {kind: panel, rating: 40 A}")
    assert found(RULE, text) == ()


def test_short_circuit_currents_of_parallel_batteries_add_and_of_series_do_not():
    nodes = ("  two: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 1.2 kA}\n"
             "  one: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 1.2 kA}\n"
             "  lamp: {kind: load, voltage: %s, power: 20 W}\n  feed: {kind: panel, rating: 50 A}")
    parallel = f"nodes:\n{nodes % '12 V'}\ncircuits:\n  - {{feed: one -> two, wire: 4 AWG 0.2 m}}\n" \
        "  - {feed: one/fuse strip 50 A -> feed, return: two -> feed, wire: {feed: 6 AWG 1 m, return: 6 AWG 1 m}}\n" \
        "  - {feed: feed/fuse class-t 5 A -> lamp, wire: 14 AWG 1 m}\n"
    series = f"nodes:\n{nodes % '24 V'}\ncircuits:\n  - {{series: one -> two, wire: 4 AWG 0.2 m}}\n" \
        "  - {feed: two/fuse strip 50 A -> feed, return: one -> feed, wire: {feed: 6 AWG 1 m, return: 6 AWG 1 m}}\n" \
        "  - {feed: feed/fuse class-t 5 A -> lamp, wire: 14 AWG 1 m}\n"
    assert len(found(RULE, parallel)) == 1 and found(RULE, series) == ()


def test_a_fuse_between_two_banks_breaks_what_the_stronger_gives():
    """Each sees the other's current, not the sum: 1.5 kA each side of a 2 kA strip."""
    text = van("{feed: two/fuse strip 100 A -> feed-bar, return: two -> bank, wire: 2 AWG 0.5 m}", bank=bank("1.5 kA"),
               nodes="  two: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, short circuit: 1.5 kA}")
    assert found(RULE, text) == ()


@pytest.mark.parametrize(("capacity", "practice", "count"),
    [("500 Ah", "abyc", 0), ("501 Ah", "abyc", 1), ("500 Ah", "nec", 1)])
def test_abyc_table_v_a_asks_5_ka_of_a_main_breaker_behind_lead(capacity, practice, count):
    text = van(bank=bank("7 kA", "flooded", capacity), main="breaker thermal 200 A 5 kA", practice=practice)
    assert len(found(RULE, text)) == count


def test_self_limited_sources_do_not_count():
    nodes = ("  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 60 A}\n"
             "  roof: {kind: pv, power: 200 W, voc: 40 V, isc: 9 A, vmp: 33 V, imp: 8 A}")
    text = van("{feed: roof -> sun.pv, wire: 10 AWG 1 m}", "{feed: sun -> fuse class-t 80 A/feed-bar, wire: 2 AWG 1 m}",
               nodes=nodes, bank=bank("2 kA"), main="fuse strip 200 A")
    assert found(RULE, text) == ()  # 2 kA from the bank, which the strip just breaks


@pytest.mark.parametrize(("device", "breaking", "count"), [
    ("breaker", "4.99 kA", 1), ("breaker", "5 kA", 0), ("fuse", "5 kA", 1), ("fuse", "6 kA", 0)])
def test_the_table_of_breakers_is_none_of_fuses(device, breaking, count):
    """ABYC E-11 Table V-A: 5 kA is enough for a main breaker where 6 kA can flow; a fuse must break what flows."""
    assert len(found(RULE, van(bank=bank("6 kA", "agm"), main=f"{device} 200 A {breaking}"))) == count


@pytest.mark.parametrize("practice", ["nec", "iso"])
def test_the_table_counts_under_abyc_only(practice):
    assert len(found(RULE, van(bank=bank("6 kA", "agm"), main="breaker 200 A 5 kA", practice=practice))) == 1


@pytest.mark.parametrize(("loads", "said"), [(1, "`F2` breaks"), (2, "`F2` and 1 more break")])
def test_a_notice_counts_the_others(loads, said):
    numbers = range(1, loads + 1)
    lines = [f"{{feed: feed-bar/fuse blade 10 A -> lamp-{n}, wire: 14 AWG 1 m}}" for n in numbers]
    nodes = "\n".join(f"  lamp-{n}: {{kind: load, voltage: 12 V, power: 20 W}}" for n in numbers)
    (one,) = found(RULE, van(*lines, nodes=nodes, bank=bank("6 kA")))
    assert said in one.message


@pytest.mark.parametrize(("volts", "count"), [("24 V", 0), ("32 V", 0), ("33 V", 1), ("36 V", 1)])
def test_the_table_ends_at_32_volts(volts, count):
    """ABYC E-11 Table V-A."""
    text = van(bank=bank("6 kA", "agm").replace("12 V", volts), volts=volts, main="breaker 200 A 5 kA")
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize(("share", "count"), [(0.95e-9, 0), (1.05e-9, 1)])
def test_a_billionth_is_rounding(share, count):
    assert len(found(RULE, van(bank=bank("6 kA"), main=f"fuse strip 200 A {6 * (1 - share)!r} kA"))) == count


@pytest.mark.parametrize("practice", ["abyc", "nec", "iso"])
def test_the_table_is_for_lead(practice):
    assert len(found(RULE, van(bank=bank("6 kA"), main="breaker 200 A 5 kA", practice=practice))) == 1


def test_of_those_behind_one_fuse_the_one_that_breaks_most_is_named():
    """The far one is written first."""
    text = van("{feed: box/fuse blade 10 A -> lamp, wire: 14 AWG 1 m}", "{feed: feed-bar -> box, wire: 2/0 AWG 3 m}",
               "{feed: feed-bar/fuse blade 10 A -> fan, wire: 14 AWG 1 m}", bank=bank("6 kA"),
               nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}\n  fan: {kind: load, voltage: 12 V, power: 20 W}\n"
                     "  box: {kind: panel, rating: 200 A, pair: return-bar}")
    (one,) = found(RULE, text)
    assert set(one.nodes) == {"F2", "F3"} and one.nodes[0] == "F3" and "`F3` and 1 more break" in one.message
