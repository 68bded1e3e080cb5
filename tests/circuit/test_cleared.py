"""The system without the lines of which nothing can be computed."""

from __future__ import annotations

from diagrammer.circuit.cleared import cleared
from tests.circuit.cases import system
from tests.circuit.test_protection_cases import house


def test_without_lines_it_is_itself():
    found = system(house())
    assert cleared(found, ()) is found


def test_a_line_goes_with_its_conductors_and_joints_and_nothing_else():
    found = system(house())
    left = cleared(found, {"lamp-1"})
    gone = lambda before, after: {part.circuit for part in before} - {part.circuit for part in after}  # noqa: E731
    assert [line.name for line in left.circuits] == ["main", "lamp-2"]
    assert gone(found.conductors, left.conductors) == gone(found.joints, left.joints) == {"lamp-1"}
    assert [part for part in found.conductors if part.circuit != "lamp-1"] == list(left.conductors)
    assert [part for part in found.joints if part.circuit != "lamp-1"] == list(left.joints)
    assert left.nodes == found.nodes
