"""Limits that differ between the practices: each at its value, just under and just over it, as a rule judges by it."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from tests.circuit.test_protection_cases import THICK, THIN, branch, house, sheathed
from tests.rules.asked import found, van

AROUND = [(-1, 0), (0, 0), (1, 1)]  # steps from the limit, findings
MISSING, LARGE, SMALL, DROP, LEAST = (
    "missing-protection", "protection-too-large", "protection-too-small", "voltage-drop", "below-minimum-size")


@pytest.mark.parametrize(("step", "count"), AROUND)
@pytest.mark.parametrize(("practice", "bare", "in_conduit", "from_a_battery"), [
    ("abyc", 0.178, 1.016, 1.829),  # ABYC E-11 11.10.1.1.1 as quoted, 33 CFR 183.455(b): 7, 40 and 72 in
    ("iso", 0.2, 1.8, 1.8),  # ISO 10133 8.1: 200 mm as quoted; 1.8 m from memory
    ("nec", 0.45, 0.45, 0.45),  # common practice, from memory
])
def test_how_far_from_its_source_a_device_may_stand(practice, bare, in_conduit, from_a_battery, step, count):
    near, thick, thin = step / 1000, THICK[practice], THIN[practice]
    post = "bank -> fuse 200 A -> feed-bar"
    assert len(found(MISSING, house(post, f"[{thick} {bare + near:.4f} m, 1 m]", practice=practice))) == count
    hops = sheathed(f"{thick} {from_a_battery + near:.4f} m, 1 m")
    assert len(found(MISSING, house(post, hops, practice=practice))) == count
    tap = "feed-bar -> fuse 15 A -> pump"
    assert len(found(LARGE, branch(tap, f"[{thin} {bare + near:.4f} m, 2 m]", practice))) == count
    assert len(found(LARGE, branch(tap, sheathed(f"{thin} {in_conduit + near:.4f} m, 2 m"), practice))) == count


@pytest.mark.parametrize(("step", "count"), AROUND)
@pytest.mark.parametrize(("practice", "wire", "most"), [
    ("abyc", "2/0 AWG 1 m", 350),  # 33 CFR 183.425 Table 5: 330 A; ABYC E-11 11.10: the next made
    ("nec", "{size: 4/0 AWG, length: 1 m, terminations: 75 °C}", 250),  # Table 310.16: 230 A; 240.4(B): the next made
    ("nec", "{size: 3/0 AWG, length: 1 m, parallel: 4, terminations: 75 °C}", 800),  # 4 x 200 A
    ("nec", "{size: 4/0 AWG, length: 1 m, parallel: 4, terminations: 75 °C}", 920),  # above 800 A only its 4 x 230 A
    ("iso", "16 mm² 1 m", 90),  # ISO 13297 Table A.1; IEC 60364-4-43 433.1
])
def test_the_largest_device(practice, wire, most, step, count):
    text = house(f"bank/fuse {most + step / 100} A -> feed-bar", wire, practice=practice)
    assert [one.conductors for one in found(LARGE, text) if one.nodes != ("bank",)] == [("main:f0",)] * count


@pytest.mark.parametrize(("step", "count"), AROUND)
@pytest.mark.parametrize(("practice", "wire", "most"), [
    ("abyc", "1/0 AWG 1 m", 427.5),  # ABYC E-11 11.10, from memory: 150 % of 285 A
    ("nec", "{size: 3/0 AWG, length: 1 m, terminations: 75 °C}", 200), ("iso", "95 mm² 1 m", 310),  # their ampacity
])
def test_the_largest_sum_of_devices(practice, wire, most, step, count):
    """Two banks, each behind half of it, meet ahead of one conductor."""
    half = most / 2 + step / 100
    text = f"""
practice: {practice}
nodes:
  one:  {{kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}}
  two:  {{kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}}
  stud: {{kind: joint}}
  bar:  {{kind: bar, rating: 600 A}}
  lamp: {{kind: load, voltage: 12 V, power: 24 W}}
circuits:
  - {{feed: one/fuse {half} A -> stud, return: one -> lamp, wire: {{feed: 4/0 AWG 1 m, return: 4/0 AWG 3 m}}}}
  - {{feed: two/fuse {half} A -> stud, return: two -> lamp, wire: {{feed: 4/0 AWG 1 m, return: 4/0 AWG 3 m}}}}
  - {{name: both, feed: stud -> bar, return: none, wire: {wire}}}
  - {{feed: bar/fuse 10 A -> lamp, return: none, wire: {THIN[practice]} 2 m}}
"""
    assert [one.conductors for one in found(LARGE, text)] == [("both:f0",)] * count


@pytest.mark.parametrize(("practice", "least", "thinner"), [
    ("abyc", "18 AWG", "20 AWG"), ("nec", "14 AWG", "16 AWG"),  # ABYC E-11 11.14; NEC 310.3(A) from memory
    ("iso", "1.5 mm²", "1 mm²"),  # IEC 60364-5-52 Table 52.2 from memory
])
def test_the_thinnest_core_of_mains(practice, least, thinner):
    for wire, count in ((least, 0), (thinner, 1)):
        assert len(found(LEAST, mains("heat", 100, f"{wire} 2 m", practice))) == count


@pytest.mark.parametrize(("practice", "least", "thinner"), [
    ("abyc", "18 AWG", "20 AWG"), ("nec", "14 AWG", "16 AWG"), ("iso", "0.75 mm²", "0.5 mm²")])
def test_the_thinnest_in_a_sheath(practice, least, thinner):
    """ABYC E-11 11.14; NEC 310.3(A) from memory; ISO 10133 7.7."""
    for size, count in ((least, 0), (thinner, 1)):
        line = f"{{feed: feed-bar/fuse 2 A -> lamp, wire: {{size: {size}, length: 2 m, in: sheath}}}}"
        text = van(line, practice=practice, nodes="  lamp: {kind: load, voltage: 12 V, power: 2 W}")
        assert len(found(LEAST, text)) == count


def mains(duty: str, watts: float, wire: str, practice: str) -> str:
    """One ac load on a generator."""
    return f"""
practice: {practice}
nodes:
  set: {{kind: generator, power: 5 kW, neutral: bonded}}
  use: {{kind: ac load, power: {watts} W, duty: {duty}}}
circuits:
  - {{ac: set/breaker 2-pole 15 A -> use, wire: {wire}}}
"""


@pytest.mark.parametrize(("practice", "duty", "share"), [
    ("abyc", "light", 0.03), ("abyc", "heat", 0.10),  # ABYC E-11 11.14.2.6
    ("nec", "light", 0.03), ("nec", "heat", 0.05),  # NEC 210.19(A) and 215.2(A), informational notes
    ("iso", "light", 0.06), ("iso", "heat", 0.08),  # IEC 60364-5-52 Table G.52.1, a private supply
])
def test_what_mains_may_lose(practice, duty, share):
    def lost(metres: float) -> float:
        system, _ = read(mains(duty, 200, f"12 AWG {metres} m", practice), "case.yaml")
        one = Survey(system).drops.all["use"]
        return one.volts / one.base
    low, high = 1.0, 1500.0  # [m]
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (low, middle) if lost(middle) > share else (middle, high)
    assert lost(low) == pytest.approx(share, abs=1e-6)
    for metres, count in ((low - 0.01, 0), (low, 0), (low + 0.01, 1)):
        said = found(DROP, mains(duty, 200, f"12 AWG {metres} m", practice))
        assert [f"{100 * share:g} % is the most by {practice}" in one.message for one in said] == [True] * count


@pytest.mark.parametrize(("step", "count"), AROUND)
@pytest.mark.parametrize(("practice", "hours", "most"), [
    ("abyc", 3, 10), ("iso", 3, 10), ("nec", 2.9, 10), ("nec", 3, 8)])  # NEC 210.20(A): 1.25 x 8 A = 10 A
def test_what_a_device_of_10_a_carries(practice, hours, most, step, count):
    wire = "10 mm²" if practice == "iso" else "4 AWG"
    text = van(f"{{feed: feed-bar/fuse 10 A -> lamp, wire: {wire} 1 m}}", practice=practice,
               nodes=f"  lamp: {{kind: load, voltage: 12 V, current: {most + step / 100} A, hours: {hours}}}")
    assert len(found(SMALL, text)) == count


@pytest.mark.parametrize("practice", ["abyc", "nec", "iso"])
@pytest.mark.parametrize(("terminals", "count"), [(3, 0), (4, 0), (5, 1)])
def test_terminals_on_a_stud(practice, terminals, count):
    """ABYC E-11 as quoted; for the others common practice."""
    nodes = "\n".join(f"  lamp-{n}: {{kind: load, voltage: 12 V, power: 2 W}}" for n in range(terminals))
    lines = [f"{{feed: feed-bar@3/fuse 3 A -> lamp-{n}, wire: {THIN[practice]} 1 m}}" for n in range(terminals)]
    assert len(found("crowded-stud", van(*lines, nodes=nodes, practice=practice))) == count
