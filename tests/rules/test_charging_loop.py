"""Chargers behind inverters, transfer switches, inverter chargers; and from a bank to itself."""

from __future__ import annotations

import pytest

from diagrammer.rules import RULES
from tests.rules.asked import found
from tests.rules.variants import bad, edited

RULE = "charging-loop"

COMBI = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  pedestal: {kind: shore, rating: 30 A}
  before: {kind: ac panel, rating: 30 A}
  combi: {kind: inverter charger, power: 2 kW, charge: 20 A}
  behind: {kind: ac panel, rating: 30 A}
  spare: {kind: ac charger, output: 20 A}
circuits:
  - {feed: bank/fuse class-t 250 A 20 kA -> switch battery 300 A -> combi, wire: [2/0 AWG 0.5 m, 0.5 m]}
  - {ac: pedestal -> breaker 2-pole 30 A -> before, wire: [10 AWG 0.3 m, 1 m]}
  - {ac: before/breaker 20 A -> combi.in, wire: 12 AWG 1 m}
  - {ac: combi -> behind, wire: 12 AWG 2 m}
  - {ac: PANEL/breaker 10 A -> spare.in, wire: 14 AWG 2 m}
  - {feed: spare -> fuse class-t 30 A 20 kA/bank, wire: 8 AWG 1 m}
"""


@pytest.mark.parametrize("panel, expected", [("before", 0), ("behind", 1)])
def test_an_inverter_charger_passes_shore_on_but_inverts_as_well(panel, expected):
    assert len(found(RULE, COMBI.replace("PANEL", panel))) == expected


CHANGE = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 1 kW, neutral: bonded}
  pedestal: {kind: shore, rating: 15 A}
  ashore: {kind: ac panel, rating: 16 A}
  changeover: {kind: transfer, rating: 16 A}
  aboard: {kind: ac panel, rating: 16 A}
  spare: {kind: ac charger, output: 20 A}
circuits:
  - {feed: bank/fuse class-t 150 A 20 kA -> switch battery 200 A -> inverter, wire: [2/0 AWG 0.5 m, 0.5 m]}
  - {ac: pedestal -> breaker 2-pole 15 A -> ashore, wire: [12 AWG 0.3 m, 1 m]}
  - {ac: ashore -> changeover.1, wire: 12 AWG 1 m}
  - {ac: inverter -> changeover.2, wire: 12 AWG 1 m}
  - {ac: changeover -> aboard, wire: 12 AWG 1 m}
  - {ac: PANEL/breaker 10 A -> spare.in, wire: 14 AWG 2 m}
  - {feed: spare -> fuse class-t 30 A 20 kA/bank, wire: 8 AWG 1 m}
"""


@pytest.mark.parametrize("panel, expected", [("ashore", 0), ("aboard", 1)])
def test_a_transfer_switch_stands_in_one_position_at_a_time(panel, expected):
    assert len(found(RULE, CHANGE.replace("PANEL", panel))) == expected


def test_another_bank_may_be_charged_so():
    line = "  bow: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 50 Ah}\ncircuits:"
    assert bad(RULE, ("circuits:", line), ("20 kA/bank", "20 kA/bow")) == ()


DC = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  bow: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 50 Ah}
  panel: {kind: panel, rating: 100 A}
  charger: {kind: dc charger, output: 20 A, voltage: 12 V, input voltage: 12 V}
circuits:
  - {feed: bank/fuse 100 A -> switch battery 200 A -> panel, wire: [2 AWG 0.5 m, 0.5 m]}
  - {feed: panel/fuse 30 A -> charger.in, wire: 10 AWG 1 m}
  - {feed: charger -> fuse 30 A/bow, wire: 10 AWG 1 m}
"""


def test_a_dc_charger_from_a_bank_to_itself():
    assert found(RULE, DC) == ()
    assert len(found(RULE, edited(DC, ("30 A/bow", "30 A/panel")))) == 1


def test_a_sensing_isolator_closes_the_loop_and_a_spare_switch_does_not():
    nodes = ("circuits:", "  split: {kind: isolator, rating: 100 A}\ncircuits:")
    tie = "  - {feed: panel/fuse 100 A -> split -> fuse 100 A/bow, return: bow -> panel, wire: [2 AWG 1 m, 1 m]}\n"
    assert len(found(RULE, edited(DC, nodes) + tie)) == 1
    assert found(RULE, DC + tie.replace("split", "switch open 100 A")) == ()


def test_through_two_converters():
    text = edited(RULES[RULE].bad,
                  ("  inverter: ", "  up: {kind: converter, voltage: 24 V, output: 60 A, input voltage: 10 .. 16 V}\n"
                                   "  inverter: "),
                  ("200 A -> inverter, wire", "200 A -> up.in, wire"),
                  ("circuits:", "circuits:\n  - {feed: up -> inverter, wire: 6 AWG 1 m}"))
    assert len(found(RULE, text)) == 1


def test_what_the_sun_charges_runs_off_no_bank():
    nodes = ("circuits:", "  roof: {kind: pv, power: 100 W, voc: 22 V, isc: 6 A, vmp: 18 V, imp: 5.6 A}\n"
                          "  sun: {kind: solar charger, type: mppt, output: 10 A, max pv voltage: 75 V}\ncircuits:\n"
                          "  - {feed: roof -> sun.pv, wire: 12 AWG 4 m}\n"
                          "  - {feed: sun -> fuse class-t 15 A 20 kA/bank, wire: 12 AWG 1 m}")
    assert [one.nodes[0] for one in bad(RULE, nodes)] == ["mains-charger"]


@pytest.mark.parametrize("port", ["in", "in2"])
def test_an_inverter_charger_behind_an_inverter(port):
    """By either of its inputs."""
    nodes = ("  mains-charger: {kind: ac charger, output: 30 A}",
             "  mains-charger: {kind: inverter charger, power: 1 kW, charge: 30 A, inputs: 2}"), (
        "-> mains-charger.in,", f"-> mains-charger.{port},")
    (one,) = bad(RULE, *nodes)
    assert one.message == "`mains-charger` (30 A) runs off `inverter` (1 kW), and that off `bank`, which it charges"


def test_a_converter_states_no_power():
    nodes = ("circuits:", "  up: {kind: converter, voltage: 24 V, output: 40 A, input voltage: 10 .. 16 V}\ncircuits:")
    (one,) = found(RULE, edited(DC, nodes, ("30 A/bow", "30 A/panel"), ("circuits:", "circuits:\n"
                   "  - {feed: panel/fuse 100 A -> up.in, wire: 4 AWG 1 m}"),
                   ("panel/fuse 30 A -> charger.in", "up -> charger.in"), ("input voltage: 12 V}", "input voltage: 24 V}")))
    assert one.message == "`charger` (20 A) runs off `up`, and that off `bank`, which it charges"


def test_converters_that_feed_each_other_are_met_once():
    """Up to 24 V and down again to the bank: no charger, and no end if each were followed again."""
    lines = ("circuits:", "  up: {kind: converter, voltage: 24 V, output: 40 A, input voltage: 10 .. 16 V}\n"
                          "  down: {kind: converter, voltage: 12 V, output: 20 A, input voltage: 20 .. 30 V}\ncircuits:\n"
                          "  - {feed: panel/fuse 100 A -> up.in, wire: 4 AWG 1 m}\n"
                          "  - {feed: up -> down.in, wire: 8 AWG 1 m}\n  - {feed: down -> fuse 30 A/panel, wire: 8 AWG 1 m}")
    assert found(RULE, edited(DC, lines)) == ()


def test_an_inverter_charger_whose_input_is_on_its_own_output():
    text = edited(COMBI, ("{ac: before/breaker 20 A -> combi.in", "{ac: behind/breaker 20 A -> combi.in"), ("PANEL", "before"))
    (one,) = found(RULE, text)
    assert one.nodes == ("combi", "bank")
    assert one.message == "`combi` (20 A) runs off its own output, and that off `bank`, which it charges"
