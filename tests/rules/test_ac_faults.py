"""Breaking capacities and clearing on ac: what is stated, what is estimated, what is only assumed."""

from __future__ import annotations

import pytest

from tests.rules.asked import found

BREAKS, CLEARS = "interrupt-rating-too-low", "protection-will-not-clear"


def shore(device: str, practice: str = "iso", quay: str = "", rating: str = "16 A", wire: str = "2.5 mm² 1 m") -> str:
    """One load on the public supply, behind one device."""
    return f"""
practice: {practice}
nodes:
  quay:   {{kind: shore, rating: {rating}{quay}}}
  heater: {{kind: ac load, power: 200 W}}
circuits:
  - {{ac: quay/{device} -> heater, wire: {wire}}}
"""


@pytest.mark.parametrize(("breaking", "count"), [("2.99 kA", 1), ("3 kA", 0)])
def test_what_a_supply_states_must_be_broken(breaking, count):
    found_ = found(BREAKS, shore(f"breaker 2-pole 16 A {breaking}", quay=", short circuit: 3 kA"))
    assert [one.severity for one in found_] == ["danger"] * count


@pytest.mark.parametrize(("practice", "breaking", "count"), [
    ("iso", "5.9 kA", 1), ("iso", "6 kA", 0), ("nec", "9.9 kA", 1), ("nec", "10 kA", 0)])
def test_what_is_only_usual_is_asked_about(practice, breaking, count):
    found_ = found(BREAKS, shore(f"breaker 2-pole 15 A {breaking}", practice))
    assert [one.severity for one in found_] == ["notice"] * count
    assert all("is not stated" in one.message and "`short circuit` of `quay`" in one.fix for one in found_)


def test_the_body_of_a_fuse_counts_on_ac_as_well():
    """IEC 60127-2: a cartridge of low breaking capacity breaks 100 A at 10 A; UL 248-15: class T 200 kA."""
    (one,) = found(BREAKS, shore("fuse cartridge 10 A", quay=", short circuit: 1 kA"))
    assert "breaks 100 A as its body usually does" in one.message
    assert found(BREAKS, shore("fuse class-t 10 A", quay=", short circuit: 50 kA")) == ()


@pytest.mark.parametrize(("practice", "rating", "breaking", "count"), [
    ("abyc", "30 A", "2.99 kA", 1), ("abyc", "30 A", "3 kA", 0), ("abyc", "50 A", "2.99 kA", 1),
    ("abyc", "100 A", "1 kA", 0),  # the table of one line at 120 V ends at 50 A
])
def test_the_table_for_shore_power(practice, rating, breaking, count):
    """ABYC E-11 Table V-B: 120 V, 30 and 50 A: 3 kA."""
    found_ = found(BREAKS, shore(f"breaker 2-pole 15 A {breaking}", practice, rating=rating, wire="12 AWG 1 m"))
    assert [one.severity for one in found_] == ["danger"] * count


def test_the_table_is_for_breakers_and_gives_way_to_what_is_stated():
    assert found(BREAKS, shore("fuse 15 A 1 kA", "abyc", rating="30 A", wire="12 AWG 1 m")) == ()
    stated = shore("breaker 2-pole 15 A 1 kA", "abyc", ", short circuit: 0.9 kA", "30 A", "12 AWG 1 m")
    assert found(BREAKS, stated) == ()


def test_main_and_branch_breakers_of_a_split_supply():
    """ABYC E-11 Table V-B, 120/240 V 50 A: 5 kA the first, 3 kA the others."""
    text = """
nodes:
  dock:  {kind: shore, rating: 50 A, phases: 2+N}
  box:   {kind: ac panel, rating: 50 A, phases: 2+N}
  stove: {kind: ac load, power: 1 kW}
circuits:
  - {ac: dock/breaker 3-pole 50 A %s Q-main -> box, wire: 6 AWG 1 m}
  - {ac: box.L1/breaker 15 A %s Q-stove -> stove, wire: 12 AWG 1 m}
"""
    assert found(BREAKS, text % ("5 kA", "3 kA")) == ()
    assert [one.nodes for one in found(BREAKS, text % ("4.9 kA", "2.9 kA"))] == [("Q-main",), ("Q-stove",)]


@pytest.mark.parametrize(("breaking", "count"), [("0.199 kA", 1), ("0.201 kA", 0)])
def test_a_generator_is_estimated(breaking, count):
    """4.6 kW at 230 V, 10 times 20 A."""
    text = f"""
practice: iso
nodes:
  set:    {{kind: generator, power: 4.6 kW, neutral: bonded}}
  heater: {{kind: ac load, power: 200 W}}
circuits:
  - {{ac: set/breaker 2-pole 16 A {breaking} -> heater, wire: 2.5 mm² 1 m}}
"""
    found_ = found(BREAKS, text)
    assert len(found_) == count and all("as estimated for `set` from its rating" in one.message for one in found_)


@pytest.mark.parametrize(("metres", "count"), [(40, 0), (54, 0), (57, 1), (90, 0)])
def test_far_down_a_cable_a_breaker_is_too_slow(metres, count):
    """2.5 mm² in pvc of 70 °C stands I for (115 x 2.5 / I)², a curve C of 20 A takes 0.1 s from 200 A on, below it
    120 (51 / I)². At 40 m 272 A flow, at 54 m 204 A, at 57 m 194 A, at 90 m an overload."""
    text = shore("breaker curve-c 2-pole 20 A 6 kA", quay=", short circuit: 6 kA", rating="32 A",
                 wire=f"2.5 mm² {metres} m")
    found_ = found(CLEARS, text)
    assert len(found_) == count and all(one.severity == "danger" for one in found_)


def test_where_the_supply_states_nothing_nothing_is_said_of_clearing():
    assert found(CLEARS, shore("breaker curve-c 2-pole 20 A 6 kA", rating="32 A", wire="2.5 mm² 57 m")) == ()


@pytest.mark.parametrize("surge", ["", ", surge: 20 kW"])
def test_an_inverter_switches_itself_off(surge):
    """However little it drives, that is no danger to the conductor."""
    text = f"""
practice: iso
nodes:
  bank:     {{kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 200 Ah, short circuit: 6 kA}}
  inverter: {{kind: inverter, power: 10 kW, neutral: bonded{surge}}}
  heater:   {{kind: ac load, power: 200 W}}
circuits:
  - {{feed: bank/fuse class-t 250 A -> inverter, wire: 95 mm² 1 m}}
  - {{ac: inverter/breaker curve-c 2-pole 16 A 6 kA -> heater, wire: 1.5 mm² 20 m}}
"""
    assert found(CLEARS, text) == () and found(BREAKS, text) == ()


def test_a_generator_that_keeps_little_up():
    """Stated 100 A: 1.5 mm² stands 95 A for 3.3 s, a curve C of 16 A may take 22 s."""
    text = """
practice: iso
nodes:
  set:    {kind: generator, power: 5 kW, neutral: bonded%s}
  heater: {kind: ac load, power: 200 W}
circuits:
  - {ac: set/breaker curve-c 2-pole 16 A 6 kA -> heater, wire: 1.5 mm² 1 m}
"""
    assert found(CLEARS, text % "") == ()
    (one,) = found(CLEARS, text % ", short circuit: 100 A")
    assert one.severity == "danger"
    assert found(CLEARS, text.replace("curve-c", "curve-b") % ", short circuit: 100 A") == ()


@pytest.mark.parametrize(("share", "count"), [(0.95e-9, 0), (1.05e-9, 1)])
@pytest.mark.parametrize(("practice", "kiloamperes", "quay", "rating"), [
    ("iso", 3, ", short circuit: 3 kA", "16 A"), ("iso", 6, "", "16 A"), ("abyc", 3, "", "30 A")])
def test_a_billionth_is_rounding(practice, kiloamperes, quay, rating, share, count):
    """What is stated, what is usual, what the table says."""
    device = f"breaker 2-pole 15 A {kiloamperes * (1 - share)!r} kA"
    assert len(found(BREAKS, shore(device, practice, quay, rating, "10 AWG 1 m"))) == count


@pytest.mark.parametrize(("practice", "stated", "severity"), [
    ("abyc", "", "danger"), ("nec", "", "notice"), ("nec", ", short circuit: 5 kA", "danger")])
def test_a_device_of_two_lines_is_told_once(practice, stated, severity):
    text = f"""
practice: {practice}
nodes:
  dock: {{kind: shore, rating: 50 A, phases: 2+N{stated}}}
  box:  {{kind: ac panel, rating: 50 A, phases: 2+N}}
circuits:
  - {{ac: dock/breaker 2-pole 50 A 2 kA -> box, wire: 6 AWG 1 m}}
"""
    assert [one.severity for one in found(BREAKS, text)] == [severity]


def test_of_two_supplies_the_one_that_asks_more_counts():
    """ABYC E-11 Table V-B: of the first breaker 3 kA behind 30 A and one line, 5 kA behind 50 A and two."""
    text = """
interlocks: [[Q-quay, Q-dock]]
nodes:
  quay: {kind: shore, rating: 30 A}
  dock: {kind: shore, rating: 50 A, phases: 2+N}
  box:  {kind: ac panel, rating: 50 A, phases: 2+N}
  stove: {kind: ac load, power: 1 kW}
circuits:
  - {ac: quay -> switch 2-pole 30 A Q-quay -> box.L1, wire: [6 AWG 1 m, 1 m]}
  - {ac: dock -> switch 3-pole 50 A Q-dock -> box, wire: [6 AWG 1 m, 1 m]}
  - {ac: box.L1/breaker 15 A 2 kA -> stove, wire: 12 AWG 1 m}
"""
    (one,) = found(BREAKS, text)
    assert one.message.endswith("on 50 A shore power it must break 5 kA")
