"""Currents against derated ampacities, by hand."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "conductor-overloaded"


def line(amps: float, wire: str, practice: str = "abyc", head: str = "") -> str:
    return van(f"{{feed: feed-bar/fuse 60 A -> winch, wire: {wire}}}", practice=practice, head=head,
               nodes=f"  winch: {{kind: load, voltage: 12 V, current: {amps} A}}")


@pytest.mark.parametrize(("wire", "practice", "head", "most"), [
    ("14 AWG 1 m", "abyc", "", 35.0),  # 33 CFR 183.425 Table 5, 105 °C
    ("{size: 14 AWG, length: 1 m, in: engine-space}", "abyc", "", 35 * 0.85),  # its note 1
    ("{size: 14 AWG, length: 1 m, insulation: 75 °C}", "abyc", "", 20.0),
    ("2 parallel 14 AWG 1 m", "abyc", "", 70.0),
    ("12 AWG 1 m", "nec", "", 20.0),  # NEC Table 310.16, 60 °C by 110.14(C)
    ("{size: 12 AWG, length: 1 m, terminations: 75 °C}", "nec", "", 25.0),  # Table 310.16, 75 °C
    ("12 AWG 1 m", "nec", "wire: {terminations: 75 °C}\nsite: {hottest: 40 °C}", 25 * 0.88),  # Table 310.15(B)(1)
    ("12 AWG 1 m", "nec", "site: {hottest: 50 °C}", 25 * 0.75),  # less than the terminals bear
    ("{size: 12 AWG, length: 1 m, ambient: 30 °C}", "nec", "site: {hottest: 50 °C}", 20.0),
    ("{size: 8 AWG, length: 1 m, material: aluminium}", "nec", "", 35.0),  # Table 310.16, aluminium, 60 °C
    ("{size: 14 AWG, length: 1 m, material: tinned}", "abyc", "", 35.0),
    ("2.5 mm² 1 m", "iso", "wire: {insulation: 85 °C}", 30.0),  # ISO 13297 Table A.1
])
def test_at_its_ampacity(wire, practice, head, most):
    assert found(RULE, line(round(most * 0.999, 4), wire, practice, head)) == ()
    assert found(RULE, line(most, wire, practice, head)) == ()
    (one,) = found(RULE, line(round(most * 1.001, 4), wire, practice, head))
    assert one.conductors == ("feed-bar to winch:f0",)


@pytest.mark.parametrize(("share", "count"), [(0.95e-6, 0), (1.05e-6, 1)])
def test_a_millionth_is_rounding(share, count):
    """33 CFR 183.425 Table 5, 105 °C: 35 A."""
    assert len(found(RULE, line(35 * (1 + share), "14 AWG 1 m"))) == count


@pytest.mark.parametrize(("first", "second", "worst"), [
    ("10 AWG", "14 AWG", 1), ("14 AWG", "10 AWG", 0), ("14 AWG", "14 AWG", 0), ("14 AWG", "16 AWG", 1)])
def test_of_a_line_the_conductor_that_bears_it_worst(first, second, worst):
    """33 CFR 183.425 Table 5, 105 °C: 60 A in 10 AWG, 35 A in 14 AWG, 25 A in 16 AWG; 66 A flow."""
    text = van(f"{{feed: feed-bar/fuse 70 A -> switch 100 A -> winch, return: return-bar -> winch, "
               f"wire: {{feed: [{first} 0.3 m, {second} 0.3 m], return: 2 AWG 1 m}}}}",
               nodes="  winch: {kind: load, voltage: 12 V, current: 66 A}")
    assert [one.conductors for one in found(RULE, text)] == [(f"feed-bar to winch:f{worst}",)]


def test_a_shared_feeder_carries_all_its_loads():
    nodes = "  box: {kind: panel, rating: 60 A, pair: return-bar}\n" + "\n".join(
        f"  lamp-{n}: {{kind: load, voltage: 12 V, current: 12 A}}" for n in (1, 2, 3))
    lines = [f"{{feed: box/fuse 15 A -> lamp-{n}, wire: 14 AWG 1 m}}" for n in (1, 2, 3)]
    (one,) = found(RULE, van("{feed: feed-bar/fuse 35 A -> box, wire: 14 AWG 1 m}", *lines, nodes=nodes))
    assert one.conductors == ("feed-bar to box:f0",) and "36 A" in one.message and "12 AWG" in one.fix


def test_loads_that_a_state_turns_off_do_not_count():
    head = "states: {working: {}, resting: {winch: off}}"
    assert len(found(RULE, line(36, "14 AWG 1 m", head=head))) == 1
    assert found(RULE, line(36, "14 AWG 1 m", head="states: {resting: {winch: off}}")) == ()


def test_pv_in_the_brightest_sun():
    """NEC 690.8(A)(1): 1.25 x 2 x 16.1 A = 40.3 A on 40 A."""
    nodes = ("  roof: {kind: pv, power: 400 W, voc: 40 V, isc: %s, vmp: 33 V, imp: 15 A, parallel: 2}\n"
             "  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 40 A}")
    lines = ("{feed: roof -> sun.pv, wire: {size: 10 AWG, length: 3 m, insulation: 60 °C}}",
             "{feed: sun -> fuse 60 A/feed-bar, wire: 6 AWG 1 m}")
    assert found(RULE, van(*lines, nodes=nodes % "16 A")) == ()
    assert len(found(RULE, van(*lines, nodes=nodes % "16.1 A"))) == 1


def test_cranking_is_not_counted():
    text = """
nodes:
  engine: {kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah}
  motor:  {kind: starter, current: 900 A}
circuits:
  - {feed: engine -> motor, wire: 2 AWG 1 m}
"""
    assert found(RULE, text) == ()


@pytest.mark.parametrize("wire", ["1 m", "{size: 40 AWG, length: 1 m}",
    "{size: 16 AWG, length: 1 m, material: aluminium}"])
def test_what_no_table_has_is_not_judged(wire):
    assert found(RULE, line(200, wire)) == ()


def test_a_line_that_is_blamed_already_is_left_out():
    text = van("{feed: feed-bar/fuse 10 A -> lamp, wire: 14 AWG 1 m}",
        nodes="  lamp: {kind: load, voltage: 48 V, power: 1.5 kW}")
    assert found("wrong-domain", text) and found(RULE, text) == ()
    short = van("{feed: feed-bar -> return-bar, return: none, wire: 14 AWG 1 m}")
    assert found("short-circuit", short) and found(RULE, short) == ()


@pytest.mark.parametrize(("together", "amps", "count"), [
    (3, 35, 0), (4, 28, 0), (4, 28.1, 1), (6, 28.1, 1), (7, 24.5, 0), (7, 24.6, 1)])
def test_conductors_that_lie_together_carry_less(together, amps, count):
    """NEC Table 310.15(C)(1): 80 % of four to six, 70 % of seven to nine; 10 AWG at 75 °C: 35 A."""
    wire = f"{{size: 10 AWG, length: 1 m, bundle: {together}, terminations: 75 °C}}"
    assert len(found(RULE, line(amps, wire, "nec"))) == count


def test_what_helps_where_the_terminals_hold_it_down():
    """NEC 110.14(C): 8 AWG 40 A at 60 °C, 50 A at 75 °C."""
    (one,) = found(RULE, line(41, "{size: 8 AWG, length: 1 m, insulation: 90 °C}", "nec"))
    assert "it may carry 40 A (NEC Table 310.16, 60 °C, 8 AWG, terminals of 60 °C: NEC 110.14(C))" in one.message
    assert one.fix == "Take 6 AWG or thicker, or say `terminations` where both ends are marked for more."
    (other,) = found(RULE, line(46, "{size: 8 AWG, length: 1 m, bundle: 6, insulation: 90 °C, terminations: 75 °C}", "nec"))
    assert other.fix.endswith("better insulation, or a cooler place.")


@pytest.mark.parametrize(("amps", "size"), [(35.1, "12 AWG"), (45, "12 AWG"), (45.1, "10 AWG"), (60.1, "8 AWG")])
def test_the_thinnest_size_that_carries_it_is_told(amps, size):
    """33 CFR 183.425 Table 5, 105 °C: 12 AWG 45 A, 10 AWG 60 A."""
    (one,) = found(RULE, line(amps, "14 AWG 1 m"))
    assert one.fix.startswith(f"Take {size} or thicker")


def test_parallel_conductors_are_told_as_such():
    (one,) = found(RULE, line(75, "2 parallel 14 AWG 1 m"))
    assert "the 2 parallel 14 AWG" in one.message and one.fix.startswith("Take 2 parallel 12 AWG")


@pytest.mark.parametrize(("watts", "metres", "rules"), [
    (340, 1, ()),  # 340 W from an empty bank take some 34 A, 14 AWG carries 35 A
    (340, 2, ("conductor-overloaded",)),  # the drop that is allowed lets them rise above that
    (340, 3, ("voltage-drop",)),  # and more so the one that is not, whose fault it then is
    (390, 4, ("conductor-overloaded", "voltage-drop")),  # more than 35 A with no drop at all
])
def test_a_current_that_only_a_drop_makes_is_the_drop_s_fault(watts, metres, rules):
    text = van(f"{{feed: feed-bar/fuse 60 A -> winch, wire: 14 AWG {metres} m}}",
               nodes=f"  winch: {{kind: load, voltage: 12 V, power: {watts} W}}", volts="12.8 V")
    assert tuple(rule for rule in ("conductor-overloaded", "voltage-drop") if found(rule, text)) == rules


@pytest.mark.parametrize(("chemistry", "count"), [("agm", 0), ("lifepo4", 1)])
def test_a_current_between_unlike_batteries_is_not_blamed_on_their_leads(chemistry, count):
    """The winch overloads the thin lead of the bank beside; where the two are unlike, that is what flows there."""
    text = van("{name: beside, feed: other/fuse 30 A -> feed-bar, wire: 18 AWG 0.3 m}",
               "{feed: feed-bar/fuse 200 A -> winch, wire: 2/0 AWG 1 m}", volts="12.8 V",
               nodes=f"  other: {{kind: bank, chemistry: {chemistry}, voltage: 12.8 V, capacity: 200 Ah, "
                     "short circuit: 6 kA}\n  winch: {kind: load, voltage: 12 V, current: 180 A}")
    assert len([one for one in found(RULE, text) if one.conductors[0].startswith("beside")]) == count


@pytest.mark.parametrize(("practice", "wire", "amps", "least"), [
    ("nec", "{size: 18 AWG, length: 1 m, insulation: 90 °C, terminations: 90 °C}", 15, "14 AWG"),
    ("iso", "0.75 mm² 1 m", 11, "1 mm²"), ("iso", "{size: 0.75 mm², length: 1 m, in: sheath}", 11, "1 mm²")])
def test_no_size_below_the_least_of_the_practice_is_told(practice, wire, amps, least):
    """NEC 310.3: 14 AWG (from memory), though 16 AWG of 90 °C carries 18 A by Table 310.16; ISO 10133: 1 mm²."""
    (one,) = [one for one in found(RULE, line(amps, wire, practice)) if one.conductors == ("feed-bar to winch:f0",)]
    assert one.fix.startswith(f"Take {least} or thicker")


@pytest.mark.parametrize(("amps", "fix"), [(445, "Take 4/0 AWG or thicker"), (446, "Take")])
def test_where_no_size_carries_it_none_is_told(amps, fix):
    """33 CFR 183.425 Table 5, 105 °C: 4/0 AWG, the last, carries 445 A."""
    (one,) = [one for one in found(RULE, line(amps, "14 AWG 0.1 m")) if one.conductors == ("feed-bar to winch:f0",)]
    assert one.fix.startswith(fix) == (amps == 445), one.fix
