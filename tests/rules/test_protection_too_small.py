"""The rating against what the line carries, by hand."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "protection-too-small"


def lamp(amps: str, hours: str = "", practice: str = "abyc") -> str:
    return van("{feed: feed-bar/fuse 10 A -> lamp, wire: 4 AWG 1 m}", practice=practice,
               nodes=f"  lamp: {{kind: load, voltage: 12 V, current: {amps}{hours}}}")


@pytest.mark.parametrize(("amps", "count"), [("9.9 A", 0), ("10 A", 0), ("10.1 A", 1)])
def test_at_its_rating_it_holds(amps, count):
    assert len(found(RULE, lamp(amps))) == count


@pytest.mark.parametrize(("amps", "hours", "practice", "count"), [
    ("7.9 A", ", hours: 3", "nec", 0), ("8.1 A", ", hours: 3", "nec", 1),  # NEC 210.20(A): 1.25 x 8 A = 10 A
    ("8.1 A", ", hours: 2.9", "nec", 0), ("8.1 A", "", "nec", 0), ("8.1 A", ", hours: 3", "abyc", 0),
])
def test_what_runs_three_hours_needs_a_quarter_more_under_nec(amps, hours, practice, count):
    assert len(found(RULE, lamp(amps, hours, practice))) == count


@pytest.mark.parametrize(("isc", "count"), [("12.7 A", 0), ("12.8 A", 0), ("12.9 A", 1)])
def test_a_device_of_pv_bears_156_percent(isc, count):
    """NEC 690.8 and 690.9(B): 1.25 x 1.25 x 12.8 A = 20 A."""
    text = van("{feed: roof -> breaker 20 A -> sun.pv, wire: [8 AWG 2 m, 1 m]}",
        "{feed: sun -> fuse 40 A/feed-bar, wire: 6 AWG 1 m}",
               nodes=f"  roof: {{kind: pv, power: 200 W, voc: 40 V, isc: {isc}, vmp: 33 V, imp: 12 A}}\n"
                     "  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 30 A}")
    assert len(found(RULE, text)) == count


def test_what_draws_constant_power_draws_more_from_a_low_bank():
    """115 W: 9 A at 12.8 V, and more than 10 A at 11.2 V, four cells of 2.8 V."""
    text = van("{feed: feed-bar/fuse 10 A -> lamp, wire: 4 AWG 1 m}",
        nodes="  lamp: {kind: load, voltage: 12 V, power: 115 W}")
    (one,) = found(RULE, text)
    assert "10.3 A" in one.message and "banks low" in one.message and "15 A" in one.fix


def test_outlets_behind_an_inverter_take_what_it_gives():
    """1 kW / 0.9 from 11.2 V: 99 A and more."""
    inverter = "  inverter: {kind: inverter, power: 1 kW, neutral: bonded}\n"
    ac = "{ac: inverter -> breaker 10 A -> sockets, wire: [14 AWG 1 m, 1 m]}"
    def text(amps, sockets):
        return van(f"{{feed: feed-bar/fuse {amps} -> inverter, wire: 2 AWG 1 m}}", ac, nodes=inverter + sockets)
    sockets = "  sockets: {kind: outlet, rating: 15 A}"
    assert len(found(RULE, text("90 A", sockets))) == 1
    assert found(RULE, text("125 A", sockets)) == ()
    assert found(RULE, text("90 A", "  sockets: {kind: ac load, power: 500 W}")) == ()


def test_a_load_that_is_off_in_every_state_is_not_counted():
    states = "states: {resting: {lamp: off}}"
    assert found(RULE, van("{feed: feed-bar/fuse 10 A -> lamp, wire: 4 AWG 1 m}", head=states,
                           nodes="  lamp: {kind: load, voltage: 12 V, current: 20 A}")) == ()


def test_on_a_line_of_the_wrong_voltage_nothing_is_said():
    text = van("{feed: feed-bar/fuse 10 A -> lamp, wire: 4 AWG 1 m}",
        nodes="  lamp: {kind: load, voltage: 48 V, power: 960 W}")
    assert found("wrong-domain", text) and found(RULE, text) == ()


@pytest.mark.parametrize(("second", "count"), [("hours: 3", 1), ("hours: 1", 0), ("duty: light", 0)])
def test_only_where_all_behind_a_device_runs_three_hours_it_is_a_continuous_load(second, count):
    """NEC Article 100: the maximum current is expected for three hours or more; 2 x 4.05 A x 1.25 is above 10 A."""
    nodes = ("  stud: {kind: joint, pair: return-bar}\n  one: {kind: load, voltage: 12 V, current: 4.05 A, hours: 3}\n"
             f"  two: {{kind: load, voltage: 12 V, current: 4.05 A, {second}}}")
    text = van("{feed: feed-bar/fuse 10 A -> stud, wire: 4 AWG 1 m}", "{feed: stud -> one, wire: 4 AWG 1 m}",
               "{feed: stud -> two, wire: 4 AWG 1 m}", nodes=nodes, practice="nec")
    assert len(found(RULE, text)) == count
