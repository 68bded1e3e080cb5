"""Stacks and strings from the nets of + and -."""

from __future__ import annotations

import pytest

from diagrammer.circuit.strings import Stack, stacks


@pytest.mark.parametrize(("nets", "expected"), [
    ({"a": (1, 0)}, [Stack(1, 0, ((("a",),),))]),
    ({"a": (1, 0), "b": (1, 0)}, [Stack(1, 0, ((("a", "b"),),))]),  # side by side
    ({"a": (2, 1), "b": (1, 0)}, [Stack(2, 0, ((("b",), ("a",)),))]),  # from the foot to the top
    ({"a": (2, 1), "b": (1, 0), "c": (2, 3), "d": (3, 0)}, [Stack(2, 0, ((("b",), ("a",)), (("d",), ("c",))))]),  # two
    ({"a": (2, 1), "b": (1, 0), "c": (5, 4)}, [Stack(2, 0, ((("b",), ("a",)),)), Stack(5, 4, ((("c",),),))]),  # apart
    ({"a": (2, 1), "b": (1, 0), "c": (1, 0)}, [Stack(2, 0, ((("b", "c"), ("a",)),))]),
    ({"a": (2, 1), "b": (1, 0), "c": (2, 0)}, [Stack(2, 0, ((("b",), ("a",)), (("c",),)))]),  # one string is shorter
    ({"a": (2, 1), "b": (1, 0), "c": (1, 3)}, [  # two feet
        Stack(2, 0, ((("b",), ("a",)),)), Stack(2, 3, ((("c",), ("a",)),))]),
    ({"a": (1, 0), "b": (0, 1)}, []),  # closed on itself
    ({"a": (1, 1)}, []),
    ({"a": (2, 1), "b": (1, 1)}, [Stack(2, 1, ((("b",), ("a",)),))]),  # each is gone through once
    ({"a": (3, 2), "b": (2, 1), "c": (1, 2)}, [Stack(3, 2, ((("c",), ("b",), ("a",)),))]),
    ({}, []),
])
def test_stacks(nets, expected):
    assert list(stacks(nets)) == expected


def test_the_nodes_of_a_stack_are_named_once():
    (one,) = stacks({"a": (3, 2), "b": (2, 1), "c": (2, 1), "d": (1, 0)})
    assert sorted(one.nodes) == ["a", "b", "c", "d"]
