"""The thinnest conductor where one runs: on its own, in a sheath, short."""

from __future__ import annotations

import pytest

from diagrammer.circuit.thinnest import covered, thinnest
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
