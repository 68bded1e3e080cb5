"""What an ac port stands between, for each number of lines and with or without a neutral."""

from __future__ import annotations

import pytest

from diagrammer.circuit.windings import windings
from tests.circuit.cases import netlist, system


@pytest.mark.parametrize(("phases", "volts", "expected"), [
    ("1", 120, [("L", "one.L", "one.N")]),
    ("2", 240, [("L1-L2", "one.L1", "one.L2")]),
    ("2+N", 120, [("L1", "one.L1", "one.N"), ("L2", "one.N", "one.L2")]),  # the second stands in opposition
    ("3", 400, [("L1-L2", "one.L1", "one.L2"), ("L2-L3", "one.L2", "one.L3")]),
    ("3+N", 230, [("L1", "one.L1", "one.N"), ("L2", "one.L2", "one.N"), ("L3", "one.L3", "one.N")]),
])
def test_windings(phases, volts, expected):
    made = system(netlist(f"one: shore, rating: 16 A, phases: {phases}, voltage: {volts} V", "")
                  .replace("circuits:", "circuits: []"))
    node = made.nodes["one"]
    assert windings(node, node.ports[0]) == [(*winding, volts) for winding in expected]


def test_a_port_with_a_name_of_its_own():
    made = system(netlist("one: inverter, power: 1 kW, neutral: bonded", "").replace("circuits:", "circuits: []"))
    node = made.nodes["one"]
    out = next(port for port in node.ports if port.name == "out")
    assert windings(node, out) == [("L", "one.out.L", "one.out.N", 120)]
