"""Prospective short-circuit currents on ac, each by hand."""

from __future__ import annotations

from math import hypot

import pytest

from diagrammer.circuit import mains_faults
from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read

HOT = 1 + 0.00393 * 50  # copper at 70 °C over 20 °C (IEC 60028)
TEXT = """
practice: {practice}
nodes:
  bank:   {{kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 200 Ah, short circuit: 6 kA}}
  quay:   {{kind: shore, rating: 16 A{quay}}}
  set:    {{kind: generator, power: 4.6 kW, neutral: bonded{set}}}
  pick:   {{kind: transfer, rating: 25 A}}
  combi:  {{kind: inverter charger, power: 2.3 kW, charge: 50 A{combi}}}
  box:    {{kind: ac panel, rating: 25 A}}
  kettle: {{kind: ac load, power: 1.2 kW}}
circuits:
  - {{feed: bank/fuse class-t 100 A -> combi, wire: 50 mm² 1 m}}
  - {{ac: quay -> breaker 2-pole 16 A Q-quay -> pick.1, wire: [2.5 mm² 10 m, 2 m]}}
  - {{ac: set -> breaker 2-pole 16 A Q-set -> pick.2, wire: [2.5 mm² 10 m, 2 m]}}
  - {{ac: pick -> combi.in, wire: 2.5 mm² 2 m}}
  - {{ac: combi -> box, wire: 2.5 mm² 2 m}}
  - {{ac: box/breaker 10 A Q-box -> kettle, wire: 1.5 mm² 20 m}}
"""


def faults(practice: str = "iso", quay: str = "", set: str = "", combi: str = ""):
    system, problems = read(TEXT.format(practice=practice, quay=quay, set=set, combi=combi), "ac.yaml")
    assert system, problems
    return Survey(system).mains_faults


def largest(terminal: str, assumed: bool = False, **stated: str) -> float | None:
    found = faults(**stated).largest(terminal, assumed)
    return found and found[0]


def test_a_stated_supply_behind_its_cable():
    """230 V and 3 kA: 76.7 mΩ; 10 m of 2.5 mm² there and back, 7.98 Ω/km by IEC 60228: 159.6 mΩ."""
    assert largest("quay.L", quay=", short circuit: 3 kA") == pytest.approx(3000)
    assert largest("Q-quay.L.1", quay=", short circuit: 3 kA") == pytest.approx(230 / hypot(230 / 3000, 0.1596))
    assert faults(quay=", short circuit: 3 kA").smallest("Q-quay.L.1") == pytest.approx(
        0.95 * 230 / (230 / 3000 + 0.1596 * HOT))


@pytest.mark.parametrize(("practice", "amps"), [("iso", 6000), ("nec", 10000), ("abyc", None)])
def test_a_supply_of_which_nothing_is_stated_is_assumed_and_has_no_smallest(practice, amps):
    found = largest("quay.L", assumed=True, practice=practice)
    assert found == (amps and pytest.approx(amps)) and largest("quay.L", practice=practice) is None
    assert faults(practice=practice).smallest("quay.L") is None


def test_a_generator_gives_ten_times_its_rating_at_first():
    """4.6 kW at 230 V: 20 A, a subtransient reactance of 10 %."""
    assert largest("set.L") == pytest.approx(200)
    assert faults().smallest("set.L") is None
    kept_up = faults(set=", short circuit: 60 A")
    assert kept_up.largest("set.L")[0] == pytest.approx(200) and kept_up.smallest("set.L") == pytest.approx(0.95 * 60)


@pytest.mark.parametrize(("surge", "amps"), [("", 20), (", surge: 6.9 kW", 30)])
def test_an_inverter_gives_its_surge_or_twice_its_rating(surge, amps):
    """2.3 kW at 230 V: 10 A. 2 m of conductor is nothing beside that."""
    assert largest("combi.out.L", combi=surge, practice="iso") == pytest.approx(200, rel=0.05)  # the generator, passed through
    alone = [supply.largest for supply in faults(combi=surge).supplies if supply.name == "combi"]
    assert alone == [pytest.approx(amps)]
    assert [supply.stated for supply in faults(combi=surge).supplies if supply.name == "combi"] == [False]


def test_what_a_changeover_parts_does_not_reach():
    """The quay reaches the kettle, by the transfer and the bypass, but never the generator's own line."""
    reached = {supply.name for supply, _ in faults().reaching("kettle.L")}
    assert reached == {"quay", "set", "combi"}
    assert {supply.name for supply, _ in faults().reaching("Q-set.L.1")} == {"set"}
    assert {supply.name for supply, _ in faults().reaching("pick.2.L")} == {"set"}
    assert {supply.name for supply, _ in faults().reaching("combi.in.L")} == {"quay", "set"}


def test_units_of_one_set_add():
    text = """
practice: iso
nodes:
  left:  {kind: inverter, power: 2.3 kW, surge: 4.6 kW, neutral: bonded, set: pair}
  right: {kind: inverter, power: 2.3 kW, surge: 4.6 kW, neutral: floating, set: pair}
  box:   {kind: ac panel, rating: 25 A}
circuits:
  - {ac: left -> box, wire: 2.5 mm² 1 m}
  - {ac: right -> box, wire: 2.5 mm² 1 m}
"""
    system, _ = read(text, "set.yaml")
    amps, supplies = Survey(system).mains_faults.largest("box.L")
    assert amps == pytest.approx(40, rel=0.01) and [one.name for one in supplies] == ["left", "right"]


def test_between_two_lines_the_voltage_doubles_as_the_way_does():
    """120/240 V, 5 kA line to neutral, 10 AWG of 1.24 Ω/kft at 75 °C: between the lines the loss of one line counts."""
    text = """
practice: nec
nodes:
  post: {kind: shore, rating: 50 A, phases: 2+N, short circuit: 5 kA}
  box:  {kind: ac panel, rating: 50 A, phases: 2+N}
circuits:
  - {ac: post -> box, wire: 10 AWG 10 m}
"""
    system, _ = read(text, "split.yaml")
    ohms = 1.24 / 304.8 / (1 + 0.00393 * 55) * 10
    assert Survey(system).mains_faults.largest("box.L1")[0] == pytest.approx(120 / hypot(120 / 5000, ohms))


def test_the_smallest_is_that_of_the_weakest_supply():
    """16 m of 2.5 mm² and 20 m of 1.5 mm², there and back: 7.98 and 13.3 Ω/km (IEC 60228, class 5)."""
    ohms = 2 * (16 * 7.98e-3 + 20 * 13.3e-3)
    found = faults(quay=", short circuit: 3 kA", set=", short circuit: 60 A").smallest("kettle.L")
    assert found == pytest.approx(0.95 * 230 / (230 / 60 + ohms * HOT))


PLAIN = """
practice: iso
nodes:
  post: {kind: shore, rating: 16 A, short circuit: 3 kA}
  box: {kind: ac panel, rating: 16 A}
circuits:
"""


@pytest.mark.parametrize(("lines", "ohms"), [
    (["{ac: post -> box, wire: 2.5 mm² 10 m}"], 0.1596),
    (["{ac: post -> box, wire: 2 parallel 2.5 mm² 10 m}"], 0.0798),
    (["{ac: post -> breaker 2-pole 16 A/box, wire: 2.5 mm² 10 m}"], 0.1596),  # a breaker adds nothing
    (["{ac: post/breaker 2-pole 16 A/box}"], 0.0),
    (["{ac: post -> box, wire: 10 m}"], 0.0),  # of no known size: nothing that holds it back
    (["{ac: post -> box, wire: 2.5 mm² 20 m}", "{ac: post -> box, wire: 2.5 mm² 10 m}"], 0.1596),  # the better way
    (["{ac: post -> box, wire: 2.5 mm² 10 m}", "{ac: post -> box, wire: 2.5 mm² 20 m}"], 0.1596),
])
def test_what_holds_the_current_back(lines, ohms):
    """There and back, 7.98 Ω/km (IEC 60228, class 5 of 2.5 mm²)."""
    system, problems = read(PLAIN + "".join(f"  - {line}\n" for line in lines))
    assert system and not problems, problems
    found = Survey(system).mains_faults
    assert found.largest("box.L")[0] == pytest.approx(230 / hypot(230 / 3000, ohms), rel=1e-6)


def test_a_supply_with_nothing_on_it_has_its_own_current():
    system, problems = read(PLAIN + "  []\n")
    assert system, problems
    assert Survey(system).mains_faults.largest("post.L")[0] == pytest.approx(3000)


def test_of_a_motor_drive_nothing_is_known():
    text = PLAIN + "  - {ac: drive.motor -> motor, wire: 2.5 mm² 2 m}\n"
    text = text.replace("  box:", "  drive: {kind: drive, power: 2 kW, voltage: 48 V}\n  motor: {kind: other, ports: {main: ac}, phases: 3}\n  box:")
    system, problems = read(text)
    assert system, problems
    found = Survey(system).mains_faults
    assert [one.largest for one in found.supplies] == [3000, None] and found.largest("drive.motor.L1") is None


def test_a_surge_counts_as_often_as_the_table_says(monkeypatch):
    """Every edition says once; three times would be three times 6.9 kW at 230 V."""
    monkeypatch.setattr(mains_faults, "ac_usual", lambda source, practice, unit: 3.0 if source == "surge" else 7.0)
    supplies = faults(combi=", surge: 6.9 kW").supplies
    assert [one.largest for one in supplies if one.name == "combi"] == [pytest.approx(90)]
