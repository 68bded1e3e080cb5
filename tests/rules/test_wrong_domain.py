"""How far from the bank's voltage a load and a charger may stand before they are on another (practice of this program).

A nominal voltage stands for a tenth more and less, so two of them meet within 1.1 x 1.1 = 1.21: at 12 V from 9.92 V to
14.52 V. What charges may state the voltage it charges to, a fifth above the nominal: from 9.92 V to 1.2 x 13.2 V = 15.84 V.
"""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "wrong-domain"


@pytest.mark.parametrize(("volts", "count"), [
    ("9.9 V", 1), ("9.92 V", 0), ("12 V", 0), ("14.5 V", 0), ("14.52 V", 0), ("14.53 V", 1), ("24 V", 1),
    ("9 .. 32 V", 0), ("20 .. 32 V", 1), ("11.99 .. 30 V", 0), ("12.1 .. 30 V", 1), ("6 .. 12.01 V", 0), ("6 .. 11.9 V", 1),
    ("11.5 .. 12.5 V", 0), ("9 .. 9.5 V", 1),  # too narrow to be drawn in by a tenth: what counts is its middle
])
def test_a_load(volts, count):
    text = van("{feed: feed-bar/fuse 5 A -> lamp, wire: 14 AWG 2 m}",
               nodes=f"  lamp: {{kind: load, voltage: {volts}, power: 20 W}}", bank=BANK)
    assert [one.nodes[0] for one in found(RULE, text)] == ["lamp"] * count


BANK = "{kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 2 kA, pair: return-bar}"


@pytest.mark.parametrize(("volts", "count"), [
    ("9.9 V", 1), ("9.92 V", 0), ("14.4 V", 0), ("15.8 V", 0), ("15.84 V", 0), ("15.85 V", 1), ("24 V", 1)])
def test_a_charger(volts, count):
    text = van("{feed: charger -> fuse 30 A/feed-bar, wire: 10 AWG 1 m}",
               "{ac: pedestal -> breaker 2-pole 15 A -> charger.in, wire: [14 AWG 0.3 m, 1 m]}",
               nodes=f"  charger: {{kind: ac charger, output: 20 A, voltage: {volts}}}\n"
                     "  pedestal: {kind: shore, rating: 15 A}", bank=BANK)
    assert [one.nodes[0] for one in found(RULE, text)] == ["charger"] * count


@pytest.mark.parametrize(("volts", "count"), [
    ("19.83 V", 1), ("19.84 V", 0), ("24 V", 0), ("29.04 V", 0), ("29.05 V", 1),
])
def test_a_load_across_two_batteries_in_series(volts, count):
    nodes = ("  low: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"
             "  high: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"
             f"  lamp: {{kind: load, voltage: {volts}, power: 20 W}}")
    text = van("{series: low/fuse 100 A -> high, wire: 2 AWG 0.3 m}",
               "{feed: high/fuse 5 A -> lamp, return: low -> lamp, wire: 14 AWG 2 m}", nodes=nodes, bank=BANK)
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize(("volts", "count"), [("9.9 V", 1), ("14.4 V", 0), ("15.84 V", 0), ("15.85 V", 1)])
def test_an_alternator_may_be_given_as_its_charge_voltage(volts, count):
    text = van("{feed: alt -> fuse 100 A/feed-bar, wire: 4 AWG 1 m}",
               nodes=f"  alt: {{kind: alternator, output: 80 A, voltage: {volts}}}", bank=BANK)
    assert [one.nodes[0] for one in found(RULE, text)] == ["alt"] * count


@pytest.mark.parametrize(("volts", "count"), [("9.9 V", 1), ("9.92 V", 0), ("14.52 V", 0), ("14.53 V", 1)])
def test_a_converter_stands_at_what_it_says(volts, count):
    text = van("{feed: feed-bar/fuse 30 A -> step.in, wire: 10 AWG 1 m}", "{feed: step/fuse 5 A -> lamp, wire: 14 AWG 2 m}",
               nodes=f"  step: {{kind: converter, output: 20 A, voltage: 12 V}}\n"
                     f"  lamp: {{kind: load, voltage: {volts}, power: 20 W}}", bank=BANK)
    assert len(found(RULE, text)) == count


def mains(supply: str, load: str) -> int:
    text = van("{ac: supply -> breaker 2-pole 15 A -> kettle, wire: [14 AWG 0.3 m, 1 m]}", bank=BANK,
               nodes=f"  supply: {{kind: generator, power: 2 kW, neutral: floating, {supply}}}\n"
                     f"  kettle: {{kind: ac load, power: 1 kW, {load}}}")
    return len(found(RULE, text))


@pytest.mark.parametrize(("volts", "count"), [("109 V", 1), ("109.2 V", 0), ("120 V", 0), ("131.9 V", 0), ("132.1 V", 1)])
def test_alternating_voltages_within_a_tenth(volts, count):
    assert mains("voltage: 120 V", f"voltage: {volts}") == count


@pytest.mark.parametrize(("volts", "count"), [("240 V", 0), ("120 V", 1)])
def test_line_to_line_where_there_is_no_neutral(volts, count):
    assert mains("voltage: 240 V, phases: 2", f"voltage: {volts}, phases: 2") == count
