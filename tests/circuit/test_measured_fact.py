"""What is said of a return that its shunt does not measure: where it lands, what hangs there, past which shunt.

Common practice, as in the boundary cases, whose systems these start from.
"""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system
from tests.circuit.measured import CASES, FOUR, beyond_shunt, of, unmeasured
from tests.circuit.test_measured_cases import house, load


@pytest.mark.parametrize("number, expected", [
    (117, {"lamp:r0": of(("lamp",), "bank", "lamp")}),
    (118, {"lamp:r0": of(("lamp",), "bank", "lamp"), "lamp2:r0": of(("lamp2",), "bank", "lamp2")}),
    (119, {"sub:r0": of(FOUR, "bank", "sub-bar")}),
    (121, {"r2": of(FOUR, "r2", "")}),
    (122, {"bad:r0": of(("lamp-1",), "bank", "return-bar", bypass=True)}),  # it joins both sides of the shunt
    (123, {"bond:b0": of(("hull",), "bank", "hull")}),
    (129, {"c:r0": of(("c",), "bank", "c")}),  # of two in series the one that faces the bank
    (143, {"x:r0": of(("lamp", "lamp-1"), "bank", "lamp")}),  # the lamp is the thing, not a way past
    (144, {"r:r0": of(("lamp-1",), "bank", "return-bar")}),  # the shunt leads nowhere: nothing goes past it
    (125, {"sret:r0": of(("start",), "bank", "start")}),
    (132, beyond_shunt("ret2:r0")),
    (142, {"stepin:r0": of(("step",), "bank", "step")}),
])
def test_what_is_said_of_the_boundary_cases(number, expected):
    assert unmeasured(CASES[number]) == expected


@pytest.mark.parametrize("text, nodes, path", [
    (CASES[117], (), ("bank", "lamp")), (CASES[119], (), ("bank", "sub-bar", "x0")),
    (CASES[121], ("r2", *FOUR), ("bank", "r2", "x0")), (CASES[132], (), ("bank", "bank2", "return-bar")),
    (house("x: feed: feed-bar/fuse 10 A -> x, return: x/bank, wire: {feed: 14 AWG 1 m}\n", load("x")),
     ("x",), ("bank", "x")),
], ids=["a lead", "a bar's lead", "on one bar", "a bank's lead", "bolted on"])
def test_where_it_is_flagged(text, nodes, path):
    fact, = Survey(system(text)).measured
    assert (fact.nodes, fact.path, fact.excuses) == (nodes, path, ("meter",))
    assert bool(fact.edge) == (nodes == ("x",))
