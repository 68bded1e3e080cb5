"""Rated voltages against the highest voltage of the circuit."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "protection-voltage-too-low"


def bank(chemistry: str, volts: str, more: str = "") -> str:
    return (f"{{kind: bank, chemistry: {chemistry}, voltage: {volts}, capacity: 100 Ah, short circuit: 1 kA, "
            f"pair: return-bar{more}}}")


@pytest.mark.parametrize(("chemistry", "volts", "main", "count"), [
    ("lifepo4", "48 V", "fuse strip 200 A 58 V", 1),  # 16 cells of 3.65 V are 58.4 V
    ("lifepo4", "48 V", "fuse strip 200 A 58.4 V", 0),
    ("lifepo4", "48 V", "fuse strip 200 A 70 V", 0),
    ("lifepo4", "24 V", "fuse strip 200 A", 0),  # 29.2 V, strips are made for 32 V
    ("flooded", "24 V", "fuse strip 200 A", 0),  # equalised at 31.2 V
    ("flooded", "24 V", "fuse strip 200 A 31 V", 1),
    ("agm", "36 V", "fuse strip 200 A", 1),
    ("agm", "48 V", "fuse class-t 200 A", 0),
    ("agm", "24 V", "breaker thermal 200 A", 0),  # made for 30 V up to 200 A, 29.4 V needed
    ("agm", "48 V", "breaker thermal 200 A", 1),
    ("agm", "24 V", "breaker thermal 250 A", 1),  # and for 14 V only above
    ("agm", "24 V", "breaker 200 A", 0),
    ("agm", "24 V", "breaker ac-only 200 A", 1),
    ("agm", "24 V", "breaker dc 200 A", 0),
])
def test_bank(chemistry, volts, main, count):
    assert len(found(RULE, van(volts=volts, main=main, bank=bank(chemistry, volts)))) == count


def test_the_stated_highest_voltage_goes_before_the_chemistry():
    text = van(main="fuse strip 200 A 58 V", bank=bank("lifepo4", "48 V", ", max voltage: 57.6 V"))
    assert found(RULE, text) == ()


@pytest.mark.parametrize(("volts", "count"), [("47 V", 1), ("48 V", 0)])
def test_pv_on_the_coldest_day(volts, count):
    """40 V at 25 °C and -0.5 %/°C: 48 V at -15 °C."""
    nodes = ("  roof: {kind: pv, power: 200 W, voc: 40 V, isc: 9 A, vmp: 33 V, imp: 8 A, voc drift: -0.5 %/°C}\n"
             "  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 20 A}")
    text = van(f"{{feed: roof -> breaker 16 A {volts} -> sun.pv, wire: [10 AWG 2 m, 1 m]}}",
        "{feed: sun -> fuse 30 A/feed-bar, wire: 8 AWG 1 m}",
               nodes=nodes, head="site: {coldest: -15 °C}")
    assert len(found(RULE, text)) == count


def test_a_stack_adds_up():
    text = """
nodes:
  low:  {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 1 kA}
  high: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 1 kA}
  box:  {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 24 V, power: 20 W}
circuits:
  - {series: low -> high, wire: 4 AWG 0.2 m}
  - {feed: high/fuse strip 50 A 29.3 V -> box, return: low -> box, wire: {feed: 6 AWG 1 m, return: 6 AWG 1 m}}
  - {feed: box/fuse blade 5 A -> lamp, wire: 14 AWG 1 m}
"""
    (one,) = found(RULE, text)
    assert one.nodes == ("F1",) and "29.4 V" in one.message


@pytest.mark.parametrize(("stated", "count"), [("", 0), ("120 V", 1), ("229 V", 1), ("230 V", 0), ("400 V", 0)])
def test_mains(stated, count):
    """A device that states nothing is not judged by a guess."""
    text = f"""
practice: iso
nodes:
  pedestal: {{kind: shore, rating: 16 A}}
  heater: {{kind: ac load, power: 1 kW}}
circuits:
  - {{ac: pedestal -> breaker 2-pole 16 A {stated} -> heater, wire: [2.5 mm² 0.3 m, 4 m]}}
"""
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize(("share", "count"), [(0.95e-9, 0), (1.05e-9, 1)])
def test_a_billionth_is_rounding(share, count):
    text = van(main=f"fuse strip 200 A {57.6 * (1 - share)!r} V", bank=bank("lifepo4", "48 V", ", max voltage: 57.6 V"))
    assert len(found(RULE, text)) == count
    text = f"""
practice: iso
nodes:
  pedestal: {{kind: shore, rating: 16 A}}
  heater: {{kind: ac load, power: 1 kW}}
circuits:
  - {{ac: pedestal -> breaker 2-pole 16 A {230 * (1 - share)!r} V -> heater, wire: [2.5 mm² 0.3 m, 4 m]}}
"""
    assert len(found(RULE, text)) == count


def test_a_device_of_two_lines_is_told_once():
    text = """
nodes:
  dock: {kind: shore, rating: 50 A, phases: 2+N}
  box:  {kind: ac panel, rating: 50 A, phases: 2+N}
circuits:
  - {ac: dock/breaker 3-pole 50 A 60 V -> box, wire: 6 AWG 1 m}
"""
    assert len(found(RULE, text)) == 1


def test_of_a_converter_the_voltage_is_what_it_gives():
    """Its input and output are joined in the positive inside; it is no device that opens."""
    nodes = "  step: {kind: converter, voltage: 5 V, output: 5 A, input voltage: 12 V, common: positive}"
    assert found(RULE, van("{feed: feed-bar/fuse 10 A -> step.in, wire: 12 AWG 1 m}", nodes=nodes)) == ()


@pytest.mark.parametrize("path", ["feed-bar/fuse 10 A/Q-lamp -> lamp", "lamp/Q-lamp/fuse 10 A -> feed-bar"])
@pytest.mark.parametrize(("volts", "count"), [("14 V", 1), ("15 V", 0)])
def test_a_switch_that_stands_open_has_it_on_one_side(path, volts, count):
    """Four cells of 3.65 V: 14.6 V."""
    text = van(f"{{feed: {path}, wire: 14 AWG 1 m}}",
               nodes=f"  lamp: {{kind: load, voltage: 12 V, power: 20 W}}\n"
                     f"  Q-lamp: {{kind: switch, rating: 20 A, voltage: {volts}, open: yes}}")
    assert len(found(RULE, text)) == count


def test_where_nothing_gives_no_voltage_is_too_high():
    text = van("{feed: stud/breaker ac-only 10 A -> lamp, wire: 14 AWG 1 m}",
               nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}\n  stud: {kind: joint, pair: return-bar}")
    assert found(RULE, text) == ()
