"""Contracting a network changes its size, not its solution."""

from __future__ import annotations

import pytest
from hypothesis import given, settings, strategies as st

from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Branch, Collapse, Load, Network, Source
from diagrammer.electrics.nodal import Nodal, left_over
from diagrammer.electrics.thevenin import seen
from diagrammer.electrics.wiring import Wiring, wiring_of
from tests.oracles.networks import network

CHAIN = (Branch("f", "b+", "x", 0.1), Branch("fuse", "x", "y", 0.0), Branch("g", "y", "l+", 0.2),
         Branch("r", "l-", "b-", 0.3), Branch("open", "x", "nowhere", 1.0))
LAMP = Network(CHAIN, (Source("bank", "b+", "b-", 12.0, 0.1),), (Load("lamp", "l+", "l-", "power", 50.0),))


@settings(max_examples=60, deadline=None)
@given(st.integers(5000, 9999))
def test_what_is_left_out_changes_nothing(seed):
    """Against the wiring that keeps every node, in which no chain is contracted."""
    net = network(seed)
    names = [name for branch in net.branches for name in (branch.a, branch.b)]
    found, whole = solve(net), solve(net, Wiring(net.branches, (*names, *net.ends)))
    assert type(found) is type(whole)
    if isinstance(found, Collapse):
        assert found.load == whole.load and found.share == whole.share
        return
    for name, volts in whole.volts.items():
        assert found.volts[name] == pytest.approx(volts, rel=1e-9, abs=1e-9)
    for name, amps in whole.amps.items():
        assert found.amps[name] == pytest.approx(amps, rel=1e-7, abs=1e-7)
    assert (found.dead, found.low) == (whole.dead, whole.low)


def test_a_chain_to_a_load_leaves_the_source_s_terminals():
    wiring = wiring_of(LAMP)
    assert wiring.count == 4 and set(wiring.node) == {"b+", "b-", "l+", "l-", "x", "y", "nowhere"}
    assert Nodal(LAMP, wiring).size == 1  # the battery, with the conductor between added to it, and the lamp
    flow = solve(LAMP)
    assert flow.amps["g"] == pytest.approx(flow.amps["lamp"]) and flow.amps["open"] == pytest.approx(0.0, abs=1e-12)
    assert flow.amps["lamp"] * (12.0 - 0.7 * flow.amps["lamp"]) == pytest.approx(50.0)
    assert flow.volts["nowhere"] == flow.volts["x"] == flow.volts["y"]


def test_an_end_that_only_another_state_uses_is_not_told_of():
    wiring = Wiring(CHAIN, (*LAMP.ends, "elsewhere"))
    assert "elsewhere" not in solve(LAMP, wiring).volts
    (look,) = seen(LAMP, [("b+", "elsewhere")])
    assert look.short_circuit == 0.0


@given(st.floats(1.0, 1000.0), st.floats(0.0, 1e4), st.floats(0.0, 10.0))
def test_the_voltage_behind_a_resistance_is_the_higher_of_two(volts, watts, ohms):
    found = left_over(volts, watts, ohms)
    if found == 0.0:
        assert volts**2 <= 4 * ohms * watts * (1 + 1e-12)
    else:
        assert found + ohms * watts / found == pytest.approx(volts) and found >= volts / 2


@pytest.mark.parametrize("sort", ["power", "current", "resistance"])
def test_a_load_that_no_source_reaches_the_right_way_round_is_dead(sort):
    turned = Network(CHAIN, LAMP.sources, (Load("lamp", "l-", "l+", sort, 5.0),))
    assert solve(turned).dead == ("lamp",)
