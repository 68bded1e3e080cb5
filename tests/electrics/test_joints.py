"""Currents of bolted joints."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from diagrammer.electrics.joints import Joints


def test_a_chain_of_joints_passes_on_what_comes_in():
    assert Joints(4, [(0, 1), (2, 1), (2, 3)]).amps([5.0, 2.0, 0.0, -7.0]) == [5.0, -7.0, 7.0]


def test_two_joints_side_by_side_share_evenly():
    assert Joints(3, [(0, 1), (1, 0), (1, 2)]).amps([6.0, 0.0, -6.0]) == pytest.approx([3.0, -3.0, 6.0])


def test_a_joint_to_itself_carries_nothing():
    assert Joints(2, [(0, 0), (0, 1)]).amps([1.0, -1.0]) == [0.0, 1.0]


@given(st.integers(2, 9).flatmap(lambda count: st.tuples(
    st.just(count), st.lists(st.tuples(*[st.integers(0, count - 1)] * 2), max_size=15),
    st.lists(st.integers(-9, 9), min_size=count, max_size=count))))
def test_kirchhoff_holds_at_every_place(made):
    count, pairs, asked = made
    group = list(range(count))
    for i, j in pairs:
        group = [group[i] if one == group[j] else one for one in group]
    injected = [float(one) for one in asked]
    for name in set(group):  # what comes into a group must leave it
        own = [n for n in range(count) if group[n] == name]
        injected[own[0]] -= sum(injected[n] for n in own)
    left = list(injected)
    for (i, j), amps in zip(pairs, Joints(count, pairs).amps(list(injected)), strict=True):
        left[i] -= amps
        left[j] += amps
    assert left == pytest.approx([0.0] * count, abs=1e-9)
