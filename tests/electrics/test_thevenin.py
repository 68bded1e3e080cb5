"""The network seen from pairs of nodes, against the solver itself and against sums by hand."""

from __future__ import annotations

import random

import pytest

from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Branch, Load, Network, Source
from diagrammer.electrics.thevenin import seen


def test_two_batteries_in_parallel_are_one_of_half_the_resistance():
    network = Network((Branch("w", "p", "x", 0.01),), (Source("a", "p", "n", 12.0, 0.004), Source("b", "p", "n", 12.0, 0.004)))
    (far,) = seen(network, [("x", "n")])
    assert far.volts == pytest.approx(12.0)
    assert far.ohms == pytest.approx(0.012)
    assert far.short_circuit == pytest.approx(1000.0)


def test_nothing_joins_two_islands():
    network = Network((Branch("w", "q", "x", 0.01),), (Source("a", "p", "n", 12.0, 0.004),))
    (apart,) = seen(network, [("x", "n")])
    assert apart.short_circuit == 0


@pytest.mark.parametrize("seed", range(40))
def test_a_small_probe_drops_by_the_resistance(seed):
    dice = random.Random(seed)
    names = [f"n{i}" for i in range(12)]
    wires = [Branch(f"w{i}", names[i], names[dice.randrange(i)], dice.choice([0.0, dice.uniform(0.001, 0.2)])) for i in range(1, 12)]
    wires += [Branch(f"x{i}", *dice.sample(names, 2), dice.uniform(0.001, 0.2)) for i in range(3)]
    wires += [Branch("return", "g", "r", 0.003)]
    sources = [Source(f"s{i}", dice.choice(names), "g", dice.uniform(10, 14), dice.uniform(0.002, 0.05)) for i in range(2)]
    network = Network(tuple(wires), tuple(sources))
    for name, look in zip(names, seen(network, [(name, "r") for name in names]), strict=True):
        probe = solve(Network(tuple(wires), tuple(sources), (Load("probe", name, "r", "current", 1e-3),)))
        across = probe.volts[name] - probe.volts["r"]
        assert look.volts - 1e-3 * look.ohms == pytest.approx(across, rel=1e-9)
        twice = solve(Network(tuple(wires), tuple(sources), (Load("probe", name, "r", "current", 2.0),)))
        assert look.volts - 2.0 * look.ohms == pytest.approx(twice.volts[name] - twice.volts["r"], rel=1e-9)


def test_two_nodes_of_one_dead_end_see_the_way_between_them():
    """Of a trunk with two branches on it: what lies between its tips, no voltage; to the way back all of it."""
    tree = (Branch("trunk", "b+", "t", 0.1), Branch("left", "t", "l", 0.2), Branch("right", "t", "r", 0.4))
    network = Network(tree, (Source("bank", "b+", "b-", 12.0, 0.05),))
    tips, nested, far, itself = seen(network, [("l", "r"), ("l", "t"), ("r", "b-"), ("l", "l")])
    assert (tips.volts, tips.ohms) == pytest.approx((0.0, 0.6))
    assert (nested.volts, nested.ohms) == pytest.approx((0.0, 0.2))
    assert (far.volts, far.ohms) == pytest.approx((12.0, 0.55))
    assert (itself.volts, itself.ohms) == (0.0, 0.0)


def test_two_nodes_that_only_hang_together_see_no_voltage():
    (alone,) = seen(Network((Branch("w", "x", "y", 0.3), Branch("v", "y", "z", 0.3))), [("x", "z")])
    assert (alone.volts, alone.ohms) == pytest.approx((0.0, 0.6))
