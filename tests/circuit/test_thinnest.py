"""The thinnest conductor where one runs: on its own, in a sheath, short."""

from __future__ import annotations

import pytest

from diagrammer.circuit.thinnest import allowed, covered, thinnest
from tests.circuit.cases import netlist, system


def core(wire: str, practice: str = "abyc"):
    nodes = "shore: shore, rating: 16 A\nheater: ac load, power: 1 kW"
    made = system(netlist(nodes, f"line: ac: shore -> heater, wire: {wire}", practice))
    return made, made.conductors[0]


def test_a_core_is_covered_wherever_it_runs():
    made, wire = core("{length: 3 m, size: 18 AWG, in: engine-space}")
    assert covered(wire) and thinnest(made, wire).label == "18 AWG"


@pytest.mark.parametrize(("length", "looked"), [("", True), (" 0.178 m", False), (" 0.179 m", True)])
def test_a_length_that_is_not_said_is_not_short(length, looked):
    """33 CFR 183.425 and ABYC E-11 11.14 leave out what is no longer than 0.178 m (from memory)."""
    made, wire = core(f"18 AWG{length}")
    assert (thinnest(made, wire) is not None) is looked


def test_where_a_practice_names_no_length_none_is_short():
    """NEC 310.3(A)."""
    made, wire = core("16 AWG 0.5 m", "nec")
    assert thinnest(made, wire).label == "14 AWG"


@pytest.mark.parametrize(("practice", "wire", "label"), [
    ("abyc", "{size: 20 AWG, length: 2 m}", "16 AWG"), ("abyc", "{size: 20 AWG, length: 2 m, in: conduit}", "18 AWG"),
    ("iso", "{size: 0.5 mm², length: 2 m}", "1 mm²"), ("iso", "{size: 0.5 mm², length: 2 m, in: conduit}", "0.75 mm²"),
])
def test_alone_and_in_a_sheath(practice, wire, label):
    """33 CFR 183.425(d) and (e): 16 AWG, in a sheath 18 AWG; ISO 10133 7.7: 1 mm² and 0.75 mm²."""
    made = system(netlist("bank: bank, voltage: 12 V, chemistry: agm, capacity: 100 Ah\n"
                          "lamp: load, voltage: 12 V, power: 9 W",
                          f"lamp: feed: bank -> lamp, return: none, wire: {wire}", practice))
    assert thinnest(made, made.conductors[0]).label == label


def test_ac_has_a_size_of_its_own():
    """1.5 mm² on ac, after ISO 13297 (from memory)."""
    made, wire = core("{length: 3 m, size: 1 mm²}", "iso")
    assert thinnest(made, wire).label == "1.5 mm²"


@pytest.mark.parametrize(("practice", "label"), [("nec", "12 AWG"), ("abyc", None), ("iso", None)])
def test_aluminium(practice, label):
    """NEC 310.3(A): 12 AWG (from memory); at sea it is not used."""
    made, wire = core("{length: 3 m, size: 10 AWG, material: aluminium}", practice)
    found = thinnest(made, wire)
    assert (found and found.label) == label


@pytest.mark.parametrize(("wire", "practice", "first", "last"), [
    ("18 AWG 2 m", "nec", "14 AWG", "500 kcmil"), ("1 mm² 2 m", "iso", "1.5 mm²", "300 mm²"),
    ("20 AWG 0.1 m", "abyc", "18 AWG", "500 kcmil")])
def test_what_may_be_laid_instead(wire, practice, first, last):
    """NEC 310.3(A): 14 AWG; 1.5 mm² on ac, after ISO 13297 (from memory); 33 CFR 183.425: 18 AWG."""
    sizes = allowed(*core(wire, practice))
    assert (sizes[0].label, sizes[-1].label) == (first, last)
