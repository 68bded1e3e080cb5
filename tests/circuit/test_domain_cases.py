"""Boundary cases of voltage domains: each system and all that may be found in it.

That a nominal voltage spreads by a factor of 1.1 is a practice of this program.
"""

from __future__ import annotations

import pytest

from tests.circuit.cases import expect
from tests.circuit.stock import Case

def converter(case: Case, loads: int = 3) -> Case:
    """A 24 V to 12 V converter and a 12 V panel behind it."""
    case.node("step", "converter, voltage: 12 V, output: 30 A, input voltage: 24 V")
    case.node("panel-12", "panel, rating: 60 A")
    case.line("step", "feed: feed-bar/fuse 30 A -> step.in, wire: 8 AWG 1 m")
    case.line("out", "feed: step -> panel-12, wire: 8 AWG 1 m")
    return case.loads(*(f"l{n}" for n in range(loads)), bar="panel-12")


def feeding(bad: str) -> str:
    return f"{bad}, return: none, wire: 8 AWG 1 m"


def mains(case: Case) -> Case:
    case.node("inverter", "inverter, power: 2 kW, neutral: bonded, input window: 10 .. 33 V")
    case.node("ac-panel", "ac panel, rating: 30 A")
    case.node("outlets", "outlet, rating: 15 A")
    case.line("inverter", "feed: feed-bar/fuse class-t 150 A -> inverter, wire: 1/0 AWG 1 m")
    case.line("mains", "ac: inverter -> ac-panel, wire: 10 AWG 1 m")
    return case.line("outlets", "ac: ac-panel/breaker 15 A -> outlets, wire: 12 AWG 3 m")


def test_082_other_nominal():
    expect(Case("24 V").loads("lamp-1", "lamp-2", volts="24 V").load("radio").text, "wrong-domain@radio:f0")


@pytest.mark.parametrize(("bank", "radio", "expected"), [
    ("24 V", "9 .. 32 V", ""),                              # 83
    ("48 V", "9 .. 32 V", "wrong-domain@radio:f0"),         # 84
    ("24 V", "26 .. 32 V", "wrong-domain@radio:f0"),        # 87: does not hold the nominal
    ("48 V", "36 V", "wrong-domain@radio:f0"),              # 88
    ("24 V", "24 .. 28 V", ""),                             # narrow, but about the nominal
    ("12 V", "11 .. 15 V", ""),
])
def test_083_windows(bank, radio, expected):
    expect(Case(bank).loads("lamp-1", "lamp-2", volts=bank).load("radio", radio).text, expected)


def test_085_nominal_of_another_chemistry():
    expect(Case("12.8 V").loads("lamp-1", "lamp-2").text, "")


def test_086_charger_stated_at_its_charge_voltage():
    case = Case("12.8 V").loads("lamp-1", "lamp-2")
    case.node("pedestal", "shore, rating: 30 A").node("charger", "ac charger, output: 30 A, voltage: 14.4 V")
    case.line("in", "ac: pedestal -> breaker 2-pole 30 A -> charger, wire: [10 AWG 0.2 m, 2 m]")
    expect(case.line("sun", "feed: charger -> breaker 40 A/feed-bar, wire: 8 AWG 1 m").text, "")


@pytest.mark.parametrize(("bank", "charger", "load"), [
    ("12 V", "14.6 V", "12 V"), ("24 V", "29.2 V", "24 V"), ("48 V", "58.4 V", "48 V"), ("12 V", "14.8 V", "12 V"),
    ("12 V", "14.4 V", "9 .. 14 V"), ("24 V", "28.8 V", "20 .. 28 V"),
])
def test_charge_voltages_and_loads_that_suit_the_bank(bank, charger, load):
    case = Case(bank).loads("lamp-1", "lamp-2", volts=bank).load("radio", load)
    case.node("pedestal", "shore, rating: 30 A").node("charger", f"ac charger, output: 30 A, voltage: {charger}")
    case.line("in", "ac: pedestal -> breaker 2-pole 30 A -> charger, wire: [10 AWG 0.2 m, 2 m]")
    expect(case.line("sun", "feed: charger -> breaker 40 A/feed-bar, wire: 8 AWG 1 m").text, "")


@pytest.mark.parametrize(("bank", "charger"), [
    ("36 V", "48 V"), ("12 V", "24 V"), ("48 V", "36 V"), ("24 V", "14.4 V"),
])
def test_charger_of_another_voltage(bank, charger):
    case = Case(bank).loads("lamp-1", "lamp-2", volts=bank)
    case.node("pedestal", "shore, rating: 30 A").node("charger", f"ac charger, output: 30 A, voltage: {charger}")
    case.line("in", "ac: pedestal -> breaker 2-pole 30 A -> charger, wire: [10 AWG 0.2 m, 2 m]")
    expect(case.line("sun", "feed: charger -> breaker 40 A/feed-bar, wire: 8 AWG 1 m").text, "wrong-domain@sun:f0")


def unknown(case: Case) -> Case:
    """In place of the bank a source that says nothing about its voltage."""
    case.node("bank", "alternator, output: 100 A, self limiting: no").node("meter", "shunt, rating: 500 A")
    return case.line("main", "feed: bank/fuse class-t 200 A -> feed-bar, return: bank -> meter -> return-bar, "
                             "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")


def test_089_source_without_a_voltage():
    expect(unknown(Case()).loads("lamp-1", "lamp-2").text, "")


def test_090_the_fewer_give_way():
    expect(unknown(Case()).load("radio", "24 V").loads("lamp-1", "lamp-2").text, "wrong-domain@radio:f0")


def test_091_all_against_the_bank():
    expect(Case("24 V").loads(*(f"x{n}" for n in range(10))).text, "wrong-domain@main:f0")


def test_092_three_of_each():
    case = Case("24 V").loads("y0", "y1", "y2", volts="24 V").loads("x0", "x1", "x2")
    expect(case.text, "wrong-domain@x0:f0 wrong-domain@x1:f0 wrong-domain@x2:f0")


def test_093_sub_bar_of_another_voltage():
    case = Case("24 V").loads("y0", "y1", volts="24 V").node("sub-bar", "bar, rating: 100 A, pair: return-bar")
    case.line("sub", "feed: feed-bar/fuse 60 A -> sub-bar, wire: 6 AWG 1 m")
    expect(case.loads("x0", "x1", "x2", "x3", bar="sub-bar").text, "wrong-domain@sub:f0")


def test_094_wire_past_the_converter():
    case = converter(Case("24 V").loads("y0", "y1", volts="24 V"))
    expect(case.line("bad", feeding("feed: feed-bar/fuse 30 A -> panel-12")).text, "wrong-domain@bad:f0")


def test_095_with_a_fuse_in_it():
    case = converter(Case("24 V").loads("y0", "y1", volts="24 V"))
    case.line("bad", "feed: feed-bar -> fuse 30 A -> panel-12, return: none, wire: [8 AWG 0.1 m, 1 m]")
    expect(case.text, "wrong-domain@bad:f1")  # of its two conductors the one nearer to the panel


def test_095_bolted_to_the_bar():
    case = converter(Case("24 V").loads("y0", "y1", volts="24 V"))
    expect(case.line("bad", feeding("feed: feed-bar/fuse 30 A -> panel-12")).text, "wrong-domain@bad:f0")


def test_096_auto_ranging_takes_no_side():
    case = converter(Case("24 V").loads("y0", "y1", volts="24 V")).load("tool-charger", "11 .. 60 V", "panel-12")
    expect(case.line("bad", feeding("feed: feed-bar/fuse 30 A -> panel-12")).text, "wrong-domain@bad:f0")


def test_097_two_such_wires():
    case = converter(Case("24 V").loads("y0", "y1", volts="24 V"))
    case.line("bad", feeding("feed: feed-bar/fuse 30 A -> panel-12"))
    case.line("bad2", feeding("feed: feed-bar/fuse 30 A -> panel-12"))
    expect(case.text, "wrong-domain@bad2:f0 wrong-domain@bad:f0")


def test_098_the_wire_nobody_would_miss():
    case = converter(Case("24 V").loads("y0", "y1", volts="24 V"), loads=0)
    case.loads("w0", "w1", volts="9 .. 32 V", bar="panel-12")
    expect(case.line("bad", feeding("feed: feed-bar/fuse 30 A -> panel-12")).text, "wrong-domain@bad:f0")


def test_099_radio_and_kettle():
    case = Case("24 V").loads("y0", "y1", volts="24 V").load("radio").node("kettle", "ac load, power: 1 kW")
    case.line("kettle", "bond: feed-bar -> kettle.L, wire: 14 AWG 2 m")
    expect(case.text, "wrong-domain@kettle:b0 wrong-domain@radio:f0")


def split_phase(*loads: tuple[str, str]) -> str:
    case = Case().load("lamp").node("pedestal", "shore, rating: 30 A, phases: 2+N")
    case.node("ac-panel", "ac panel, rating: 50 A, phases: 2+N")
    case.line("shore", "ac: pedestal -> breaker 3-pole 30 A -> ac-panel, wire: [10 AWG 0.2 m, 1 m]")
    for number, (lines, text) in enumerate(loads):
        case.node(f"k{number}", f"ac load, power: 1 kW, {text}")
        breaker = "breaker 15 A" if lines else "breaker 2-pole 15 A"
        case.line(f"k{number}", f"ac: ac-panel{lines}/{breaker} -> k{number}, wire: 12 AWG 3 m")
    return case.text


def test_100_split_phase():
    expect(split_phase((".L1", "voltage: 120 V"), (".L2", "voltage: 120 V"), ("", "voltage: 240 V, phases: 2")), "")


def test_100_between_line_and_neutral_of_split_phase():
    expect(split_phase((".L1", "voltage: 120 V"), (".L2", "voltage: 240 V")), "wrong-domain@k1:a0")


def test_101_load_of_twice_the_voltage():
    case = mains(Case().load("lamp")).node("k1", "ac load, power: 1 kW, voltage: 240 V")
    expect(case.line("k1", "ac: ac-panel/breaker 15 A -> k1, wire: 12 AWG 3 m").text, "wrong-domain@k1:a0")


def test_102_shore_of_another_country():
    case = Case().load("lamp").node("combi", "inverter charger, power: 2 kW, charge: 50 A")
    case.node("pedestal", "shore, rating: 16 A, voltage: 230 V").node("outlets", "outlet, rating: 15 A")
    case.line("combi", "feed: feed-bar/fuse class-t 200 A -> combi, wire: 2/0 AWG 1 m")
    case.line("shore", "ac: pedestal -> breaker 2-pole 16 A -> combi.in, wire: [10 AWG 0.2 m, 2 m]")
    expect(case.line("outlets", "ac: combi -> breaker 15 A -> outlets, wire: [12 AWG 0.2 m, 2 m]").text,
           "wrong-domain@shore:a0")


def test_103_dc_lamp_on_the_ac_panel():
    case = mains(Case().load("spot")).node("lamp", "load, voltage: 12 V, power: 10 W")
    case.line("lamp", "bond: ac-panel.L -> lamp.+, wire: 14 AWG 2 m")
    expect(case.text, "wrong-domain@lamp:b0")


def test_line_on_the_return_bar():
    case = mains(Case().loads("spot", "lamp"))
    expect(case.line("bad", "bond: ac-panel.L -> return-bar, wire: 14 AWG 2 m").text, "wrong-domain@bad:b0")


PV = "pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A"
SUN = "solar charger, type: mppt, max pv voltage: 100 V, output: 35 A"


def test_104_pv_on_the_bar():
    case = Case().load("lamp").node("roof", PV)
    expect(case.line("pv", "feed: roof -> fuse 15 A/feed-bar, wire: 10 AWG 3 m").text, "uncontrolled-source@pv:f0")


def test_105_pv_port_forgotten():
    case = Case().load("lamp").node("roof", PV).node("sun", SUN)
    case.line("pv", "feed: roof -> sun, return: roof -> sun, wire: 10 AWG 3 m")
    case.line("sun", "feed: sun -> breaker 40 A/feed-bar, return: sun -> return-bar, wire: 8 AWG 1 m")
    expect(case.text, "uncontrolled-source@pv:f0")


def test_105_wire_from_the_array_past_its_controller():
    case = Case().load("lamp").node("roof", PV).node("sun", SUN)
    case.line("pv", "feed: roof -> sun.pv, wire: 10 AWG 3 m")
    case.line("sun", "feed: sun -> breaker 40 A/feed-bar, wire: 8 AWG 1 m")
    case.line("bad", "feed: sun.pv -> fuse 30 A/feed-bar, return: none, wire: 10 AWG 1 m")
    expect(case.text, "uncontrolled-source@bad:f0")


def test_two_arrays_on_one_bank():
    case = Case().load("lamp").node("roof", PV).node("roof-2", PV)
    case.load("alarm", line="feed: bank/fuse 3 A -> alarm, return: return-bar -> alarm, wire: 14 AWG 3 m")
    case.line("pv", "feed: roof -> fuse 15 A/feed-bar, wire: 10 AWG 3 m")
    case.line("pv2", "feed: roof-2 -> fuse 15 A/feed-bar, wire: 10 AWG 3 m")
    expect(case.text, "uncontrolled-source@pv2:f0 uncontrolled-source@pv:f0")


def test_arrays_that_meet_before_the_bank():
    case = Case().load("lamp").node("roof", PV).node("roof-2", PV).node("stud", "bar, rating: 40 A, pair: return-bar")
    case.line("pv", "feed: roof -> stud, wire: 10 AWG 3 m").line("pv2", "feed: roof-2 -> stud, wire: 10 AWG 3 m")
    case.line("link", "feed: stud -> fuse 30 A/feed-bar, wire: 10 AWG 1 m")
    expect(case.text, "uncontrolled-source@link:f0")


def test_turbine_with_a_dump_controller():
    case = Case().load("lamp").node("mill", "wind, power: 300 W, voltage: 12 V")
    case.node("brake", "dump controller, rating: 60 A")
    case.node("heater", "load, voltage: 12 V, power: 400 W")
    case.line("mill", "feed: mill -> fuse 40 A/feed-bar, wire: 8 AWG 2 m")
    expect(case.text, "uncontrolled-source@mill:f0 unused-node@brake unused-node@heater")
    case.line("brake", "feed: feed-bar/fuse 60 A -> brake, wire: 6 AWG 1 m")
    expect(case.line("heater", "feed: brake.dump -> heater, wire: 6 AWG 1 m").text, "")


def test_106_pv_on_a_load():
    case = Case().load("spot").node("roof", PV).node("lamp", "load, voltage: 12 V, power: 10 W")
    expect(case.line("pv", "feed: roof -> lamp, wire: 10 AWG 3 m").text, "wrong-domain@pv:f0")


def two_banks(second: str, positions: str) -> Case:
    case = Case().node("bank", "bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah")
    case.node("bank2", f"bank, chemistry: agm, voltage: {second}, capacity: 200 Ah")
    case.node("battery-returns", "bar, rating: 400 A").node("selector", f"selector, rating: 300 A{positions}")
    case.line("main", "feed: bank/fuse class-t 200 A -> selector.1, return: bank -> battery-returns, wire: 2/0 AWG 1 m")
    case.line("m2", "feed: bank2/fuse class-t 200 A -> selector.2, return: bank2 -> battery-returns, wire: 2/0 AWG 1 m")
    return case.line("common", "feed: selector -> feed-bar, return: battery-returns -> meter -> return-bar, "
                               "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")


NEVER_BOTH = ", positions: {off: none, 1: 1+common, 2: 2+common}"


def test_107_selector_between_two_voltages():
    expect(two_banks("24 V", NEVER_BOTH).loads("lamp-1", "lamp-2").text, "wrong-domain@m2:f0")


def test_107_load_wrong_in_every_position():
    case = two_banks("12 V", NEVER_BOTH).loads("lamp-1", "lamp-2").load("radio", "24 V")
    expect(case.text, "wrong-domain@radio:f0")


def test_107_only_load_wrong_in_every_position():
    case = two_banks("12 V", NEVER_BOTH).loads("radio", "spot", volts="24 V")
    expect(case.text, "wrong-domain@common:f0")


STACK = {
    "b1": "battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah",
    "b2": "battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah",
}


def stack() -> Case:
    case = Case().drop("bank", "main")
    case.nodes = {**STACK, **case.nodes}
    case.line("link", "series: b1/fuse class-t 200 A -> b2, wire: 2/0 AWG 0.3 m")
    return case.line("main", "feed: b2/fuse class-t 200 A -> feed-bar, return: b1 -> meter -> return-bar, "
                             "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")


def test_stack_adds_up():
    expect(stack().loads("lamp-1", "lamp-2", volts="24 V").text, "")


def test_stack_of_two_against_a_12_volt_load():
    expect(stack().loads("lamp-1", "lamp-2", volts="24 V").load("radio").text, "wrong-domain@radio:f0")


def test_12_volt_load_on_the_middle_of_a_stack():
    case = stack().loads("lamp-1", "lamp-2", volts="24 V").node("radio", "load, voltage: 12 V, power: 20 W")
    case.line("radio", "feed: b1/fuse 10 A -> radio, return: return-bar -> radio, wire: 14 AWG 2 m")
    expect(case.text, "")


def test_24_volt_load_on_the_middle_of_a_stack():
    case = stack().loads("lamp-1", "lamp-2", volts="24 V").node("radio", "load, voltage: 24 V, power: 20 W")
    case.line("radio", "feed: b1/fuse 10 A -> radio, return: return-bar -> radio, wire: 14 AWG 2 m")
    expect(case.text, "wrong-domain@radio:f0")


def test_load_bolted_to_the_bar():
    """Where no conductor would do, the joint is named, by its node."""
    case = Case("24 V").loads("y0", "y1", volts="24 V").node("radio", "load, voltage: 12 V, power: 20 W")
    expect(case.line("radio", "feed: feed-bar/radio, return: return-bar -> radio, wire: 14 AWG 2 m").text,
           "wrong-domain@radio")
