"""Input voltage under full load, by hand: the root of V (E - V) / R = P."""

from __future__ import annotations

import math

import pytest

from diagrammer.rules import RULES
from diagrammer.rules.converters import converter_starved
from tests.rules.asked import found
from tests.rules.variants import bad, good

RULE = "converter-starved"
OHMS_A_METRE = 0.778 / 304.8 * (1 - 0.00323 * 5)  # 8 AWG stranded: NEC Chapter 9 Table 8 at 75 °C, brought to 70 °C


def volts(metres: float, watts: float = 24 * 15 / 0.9, source: float = 12.0) -> float:
    """A 12 V bank of 4 kA, `metres` there and back, 24 V 15 A at 90 %."""
    ohms = 12 / 4000 + 2 * metres * OHMS_A_METRE
    return (source + math.sqrt(source**2 - 4 * ohms * watts)) / 2


@pytest.mark.parametrize("metres", [1, 3, 4, 4.4, 4.6, 5, 6])
def test_the_drop_of_its_line(metres):
    findings = bad(RULE, ("[8 AWG 1 m, 6 m]", f"[8 AWG 0.5 m, {metres - 0.5:.1f} m]"))
    assert bool(findings) == (volts(metres) < 11)
    if findings:
        assert f"{volts(metres):.4g} V" in findings[0].message


def test_a_line_that_cannot_carry_it_at_all():
    (one,) = bad(RULE, ("[8 AWG 1 m, 6 m]", "[8 AWG 10 m, 20 m]"))
    assert "cannot carry" in one.message


def test_what_it_runs_now_is_counted_once():
    assert len(bad(RULE, ("power: 300 W", "power: 360 W"))) == len(bad(RULE, ("power: 300 W", "power: 3 W"))) == 1


@pytest.mark.parametrize("window, expected", [("12 V", 0), ("10.5 .. 15 V", 0), ("10.7 .. 15 V", 1)])
def test_the_window(window, expected):
    assert len(bad(RULE, ("11 .. 15 V", window))) == expected


def test_a_large_bank_nearby():
    assert good(RULE) == ()


STEP_UP = "step-up: {kind: converter, voltage: 24 V, output: 15 A, input voltage: 11 .. 15 V}"


def running(unit: str, *pairs: tuple[str, str]):
    """An inverter in place of the converter, with a load on it."""
    return bad(RULE, (STEP_UP, f"step-up: {{{unit}, input window: 11 .. 15 V}}"), ("100 A -> step-up.in", "100 A -> step-up"),
               ("winch: {kind: load, voltage: 24 V, power: 300 W}", "winch: {kind: ac load, power: 100 W}"),
               ("{feed: step-up -> winch, wire: 10 AWG 2 m}", "{ac: step-up -> winch, wire: 12 AWG 2 m}"), *pairs)


@pytest.mark.parametrize("unit, watts", [
    ("kind: inverter, neutral: bonded, power: 360 W", 400),
    ("kind: inverter, neutral: bonded, power: 320 W, efficiency: 80 %", 400),
    ("kind: inverter charger, charge: 5 A, power: 300 W", 300 / 0.9),
])
@pytest.mark.parametrize("metres", [3, 6])
def test_inverters_at_their_rated_power(unit, watts, metres):
    """Whatever they run now; 90 % where no efficiency is stated."""
    findings = running(unit, ("[8 AWG 1 m, 6 m]", f"[8 AWG 1 m, {metres - 1} m]"))
    assert [f"gets {volts(metres, watts):.4g} V" in one.message for one in findings] == [True] * (volts(metres, watts) < 11)
    assert (volts(3, watts) > 11) and (volts(6, watts) < 11)


CHARGER = """
nodes:
  start: {kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 4 kA}
  alternator: {kind: alternator, output: 100 A, voltage: 14.2 V}
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  step-up: {kind: dc charger, output: 30 A, voltage: 12 V, input voltage: 11 .. 15 V}
circuits:
  - {feed: alternator -> fuse 150 A/start, wire: 2 AWG 1 m}
  - {feed: start/fuse 60 A -> step-up.in, wire: 8 AWG METRES}
  - {feed: step-up -> fuse 40 A/bank, wire: 8 AWG 1 m}
"""


@pytest.mark.parametrize("metres", [3, 5, 5.5, 6, 7])
def test_a_dc_charger_while_the_engine_runs(metres):
    """30 A into six cells of 2.41 V at 90 %; 100 A of the alternator lift the battery by 0.3 V. It rests while parked."""
    expected = volts(metres, 30 * 14.46 / 0.9, 12 + 100 * 12 / 4000)
    findings = found(RULE, CHARGER.replace("METRES", f"{metres} m"))
    assert [f"gets {expected:.4g} V" in one.message for one in findings] == [True] * (expected < 11)


def test_a_charger_that_charges_nothing_is_not_starved():
    assert found(RULE, CHARGER.replace("METRES", "7 m").replace("  - {feed: step-up -> fuse 40 A/bank, wire: 8 AWG 1 m}\n", "")) == ()


def test_where_no_state_with_it_can_be_computed_nothing_is_said_of_a_charger():
    assert found(RULE, CHARGER.replace("METRES", "60 m")) == ()


@pytest.mark.parametrize("change", [
    ("-> switch battery 100 A -> step-up.in", "-> switch open 100 A -> step-up.in"),
    ("  - {feed: bank/fuse 60 A -> switch battery 100 A -> step-up.in, wire: [8 AWG 1 m, 6 m]}\n", ""),
])
def test_what_no_battery_feeds_is_not_starved(change):
    assert bad(RULE, change) == ()


def test_the_last_volt_before_its_line_cannot_carry_it():
    """4 R P is half a volt squared short of 144."""
    metres = ((144 - 0.5) / 4 / 400 - 12 / 4000) / 2 / OHMS_A_METRE
    assert volts(metres) == pytest.approx(6 + math.sqrt(0.5) / 2)
    (one,) = bad(RULE, ("[8 AWG 1 m, 6 m]", f"[8 AWG 1 m, {metres - 1:.4f} m]"))
    assert "gets 6.35" in one.message
    (one,) = bad(RULE, ("[8 AWG 1 m, 6 m]", f"[8 AWG 1 m, {metres - 0.9:.4f} m]"))
    assert "its line cannot carry its full load" in one.message


def test_another_converter_on_the_bank_draws_for_itself():
    """60 W at 90 % are 5.57 A, which lower the bank by 17 mV."""
    lines = ("  other: {kind: converter, voltage: 24 V, output: 15 A}\n"
             "  lamp: {kind: load, voltage: 24 V, power: 60 W}\ncircuits:\n"
             "  - {feed: bank/fuse 60 A -> other.in, wire: 2 AWG 0.1 m}\n  - {feed: other -> lamp, wire: 12 AWG 0.1 m}")
    (one,) = bad(RULE, ("circuits:", lines))
    assert f"gets {volts(7, source=12 - 5.57 * 12 / 4000):.4g} V" in one.message


@pytest.mark.parametrize("states, expected", [("alone: {heater: off}", 0), ("both: {}", 1), ("alone: {heater: off}, both: {}", 1),
                                              ("both: {}, alone: {heater: off}", 1)])
def test_the_worst_state_counts(states, expected):
    """4 m with 10 A of another load on the same line: 12 V less 10 A over it."""
    lines = ("  tee: {kind: bar, rating: 100 A, pair: tie}\n  tie: {kind: bar, rating: 100 A}\n"
             "  heater: {kind: load, voltage: 12 V, current: 10 A, duty: motor}\ncircuits:\n"
             "  - {feed: tee/fuse 15 A -> heater, wire: 10 AWG 1 m}\n  - {feed: tee -> step-up.in, wire: 2/0 AWG 0.01 m}")
    text = RULES[RULE].bad.replace("circuits:", lines).replace("100 A -> step-up.in", "100 A -> tee")
    text = text.replace("[8 AWG 1 m, 6 m]", "[8 AWG 1 m, 3 m]") + f"states: {{{states}}}\n"
    drop = 10 * (12 / 4000 + 8 * OHMS_A_METRE)
    assert volts(4) > 11 > volts(4, source=12 - drop)
    findings = found(RULE, text)
    assert [f"gets {volts(4, source=12 - drop):.3g}" in one.message for one in findings] == [True] * expected


def test_an_inverter_charger_on_shore_power_alone():
    lines = ("  pedestal: {kind: shore, rating: 16 A}\ncircuits:\n"
             "  - {ac: pedestal -> breaker 2-pole 16 A -> step-up.in, wire: [12 AWG 0.3 m, 2 m]}")
    line = "  - {feed: bank/fuse 60 A -> switch battery 100 A -> step-up, wire: [8 AWG 1 m, 6 m]}\n"
    assert running("kind: inverter charger, charge: 5 A, power: 300 W", ("circuits:", lines), (line, "")) == ()


@pytest.mark.parametrize("gets, count", [(11.0, 0), (10.999999, 1)])
def test_the_least_that_is_stated_is_enough(monkeypatch, gets, count):
    monkeypatch.setattr(converter_starved, "_volts", lambda *_: gets)
    assert len(bad(RULE)) == count
