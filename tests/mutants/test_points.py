"""The tool that mutates: what it changes, and that a change reaches the running program."""

from __future__ import annotations

import importlib.util

import pytest

from tests.mutants.points import changed, points
from tests.mutants.swap import put

TEXT = '''
from functools import cache
LEAST = 3
NAME = "not touched"

class Scale:
    """How much."""

    @property
    def large(self) -> bool:
        return any(n > LEAST for n in self.of() if n != 5)

    def of(self) -> tuple[int, ...]:
        return (1, 2) if LEAST in (3,) else (-4,)

@cache
def many(n: int = 2) -> float:
    """Said."""
    if n and not n < 2:
        raise ValueError(f"{n} is too much")
    return n * 1.5
'''


def results(module) -> tuple:
    scale = module.Scale()
    module.many.cache_clear()
    return module.LEAST, scale.large, scale.of(), module.many(1), module.many(0)


@pytest.fixture
def module(tmp_path):
    file = tmp_path / "scale.py"
    file.write_text(TEXT)
    spec = importlib.util.spec_from_file_location("scale", file)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_every_kind_of_change():
    assert [(point.function, point.what) for point in points(TEXT)] == [
        ("", "one more than 3"), ("Scale.large", "return the opposite"), ("Scale.large", "any -> all"),
        ("Scale.large", "> -> >="), ("Scale.large", "drop filter n != 5"), ("Scale.large", "!= -> =="),
        ("Scale.large", "one more than 5"), ("Scale.of", "return ()"), ("Scale.of", "swap if and else"),
        ("Scale.of", "in -> not in"), ("Scale.of", "one more than 3"), ("Scale.of", "one more than 1"),
        ("Scale.of", "one more than 2"), ("Scale.of", "drop -"), ("Scale.of", "one more than 4"),
        ("many", "and -> or"), ("many", "drop operand n"), ("many", "drop operand not n < 2"), ("many", "drop not"),
        ("many", "< -> <="), ("many", "one more than 2"), ("many", "return 0.0"), ("many", "* -> /"),
        ("many", "a tenth more than 1.5")]


@pytest.mark.parametrize(("function", "what", "found"), [
    ("", "one more than 3", (4, False, (-4,), 1.5, 0.0)),
    ("Scale.large", "return the opposite", (3, True, (1, 2), 1.5, 0.0)),
    ("Scale.of", "return ()", (3, False, (), 1.5, 0.0)),
    ("many", "return 0.0", (3, False, (1, 2), 0.0, 0.0)),
])
def test_a_change_reaches_the_program(module, function, what, found):
    assert results(module) == (3, False, (1, 2), 1.5, 0.0)
    (point,) = [one for one in points(TEXT) if (one.function, one.what) == (function, what)]
    assert put(module, changed(TEXT, point), function)
    assert results(module) == found


def test_what_is_not_there_cannot_be_put(module):
    assert not put(module, TEXT, "Scale.missing")
    assert not put(module, TEXT, "")  # nothing differs
