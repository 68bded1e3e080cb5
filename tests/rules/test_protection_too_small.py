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


@pytest.mark.parametrize(("share", "count"), [(0.95e-6, 0), (1.05e-6, 1)])
def test_a_millionth_is_rounding(share, count):
    assert len(found(RULE, lamp(f"{10 * (1 + share)!r} A"))) == count


@pytest.mark.parametrize(("practice", "hours", "said"), [
    ("nec", ", hours: 3", "the 10 A fuse `F2` carries 10.1 A, and needs 12.6 A for that (parked, nothing charges)"),
    ("nec", "", "the 10 A fuse `F2` carries 10.1 A (parked, nothing charges, the banks low)"),
    ("abyc", ", hours: 3", "the 10 A fuse `F2` carries 10.1 A (parked, nothing charges, the banks low)")])
def test_says_what_it_needs(practice, hours, said):
    (one,) = found(RULE, lamp("10.1 A", hours, practice))
    assert one.message == said


@pytest.mark.parametrize(("first", "second", "count"), [(5, 9, 0), (5, 11, 1), (11, 5, 1), (11, 11, 1)])
def test_of_a_device_of_two_lines_the_worse_one_counts(first, second, count):
    text = f"""
nodes:
  dock: {{kind: shore, rating: 50 A, phases: 2+N}}
  box:  {{kind: ac panel, rating: 50 A, phases: 2+N}}
  one:  {{kind: ac load, power: {first * 120} W}}
  two:  {{kind: ac load, power: {second * 120} W}}
circuits:
  - {{ac: dock/breaker 2-pole 10 A Q-main -> box, wire: 2 AWG 0.1 m}}
  - {{ac: box.L1/breaker 15 A -> one, wire: 2 AWG 0.1 m}}
  - {{ac: box.L2/breaker 15 A -> two, wire: 2 AWG 0.1 m}}
"""
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize(("watts", "metres", "rules"), [
    (340, 1, ()),  # 340 W from an empty bank take some 34 A
    (340, 2, (RULE,)),  # the drop that is allowed lets them rise above 35 A
    (340, 3, ("voltage-drop",)),  # and more so the one that is not, whose fault it then is
    (390, 4, (RULE, "voltage-drop")),  # more than 35 A with no drop at all
])
def test_a_current_that_only_a_drop_makes_is_the_drop_s_fault(watts, metres, rules):
    text = van(f"{{feed: feed-bar/fuse 35 A -> winch, wire: 14 AWG {metres} m}}",
               nodes=f"  winch: {{kind: load, voltage: 12 V, power: {watts} W}}", volts="12.8 V")
    assert tuple(rule for rule in (RULE, "voltage-drop") if found(rule, text)) == rules


@pytest.mark.parametrize(("chemistry", "count"), [("agm", 0), ("lifepo4", 1)])
def test_a_current_between_unlike_batteries_is_not_blamed_on_the_fuse(chemistry, count):
    text = van("{name: beside, feed: other/fuse 25 A -> feed-bar, wire: 18 AWG 0.3 m}",
               "{feed: feed-bar/fuse 200 A -> winch, wire: 2/0 AWG 1 m}", volts="12.8 V",
               nodes=f"  other: {{kind: bank, chemistry: {chemistry}, voltage: 12.8 V, capacity: 200 Ah, "
                     "short circuit: 6 kA}\n  winch: {kind: load, voltage: 12 V, current: 180 A}")
    assert len([one for one in found(RULE, text) if one.nodes == ("F2",)]) == count


@pytest.mark.parametrize("beside", ["feed-bar -> pump", "bank -> pump"])
def test_what_hangs_ahead_of_a_device_makes_it_no_continuous_load(beside):
    """A pump that always runs, at the bar or at the bank itself; of the winch nothing of that kind is said."""
    text = van("{feed: feed-bar/fuse 190 A -> winch, wire: 4/0 AWG 1 m}", f"{{feed: {beside}, wire: 4/0 AWG 1 m}}",
               practice="nec", nodes="  winch: {kind: load, voltage: 12 V, current: 180 A}\n"
                                     "  pump: {kind: load, voltage: 12 V, current: 5 A, hours: 24}")
    assert found(RULE, text) == ()


@pytest.mark.parametrize(("amps", "count"), [("8 A", 0), ("8.1 A", 1)])
def test_a_continuous_load_behind_a_converter(amps, count):
    """NEC 210.20(A): 1.25 x 8 A = 10 A."""
    text = van("{feed: feed-bar/fuse 20 A -> step.in, wire: 10 AWG 1 m}",
               "{feed: step -> fuse 10 A -> lamp, wire: [12 AWG 0.1 m, 1 m]}", practice="nec",
               nodes="  step: {kind: converter, voltage: 12 V, output: 20 A}\n"
                     f"  lamp: {{kind: load, voltage: 12 V, current: {amps}, hours: 3}}")
    assert len([one for one in found(RULE, text) if one.nodes == ("F3",)]) == count


@pytest.mark.parametrize(("stated", "before", "behind", "small"), [
    ("", 25, 25, ["F2"]), (", input current: 20 A", 25, 25, []), (", input current: 20.1 A", 25, 25, ["F2"]),
    (", input current: 16 A", 22, 25, ["F2"]), (", input current: 16 A", 25, 24, ["F3"]), ("", 30, 24.9, ["F3"])])
def test_a_charger_always_runs_for_long(stated, before, behind, small):
    """NEC 210.20(A): 1.25 x 20 A behind it; before it 22.1 A flow, which it may state to be less for good."""
    text = van(f"{{feed: engine/fuse {before} A -> boost.in, wire: 6 AWG 2 m}}",
               f"{{feed: boost -> fuse {behind} A/feed-bar, wire: 6 AWG 2 m}}",
               "{feed: alt -> fuse 150 A/engine, return: alt -> engine, wire: 2 AWG 1 m}", practice="nec",
               nodes=f"  boost: {{kind: dc charger, output: 20 A, voltage: 12 V{stated}}}\n"
                     "  engine: {kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah, "
                     "short circuit: 800 A}\n  alt: {kind: alternator, output: 100 A, voltage: 14 V}")
    assert [one.nodes[0] for one in found(RULE, text)] == small
