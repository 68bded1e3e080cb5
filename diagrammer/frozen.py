"""Frozen dataclasses that are made quickly: `@frozen` does what `@dataclass(frozen=True)` does.

A class made by dataclasses costs the compiling of six methods, 0.3 ms, and a start of the program makes
some two hundred. Here only `__init__` is compiled.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, dataclass, fields
from operator import attrgetter
from typing import Any, dataclass_transform


@dataclass_transform(frozen_default=True)
def frozen(made: type | None = None, *, eq: bool = True) -> Any:
    """Give a class of annotated fields its `__init__`, and make it immutable; with `eq` equal by value, and hashable."""
    if made is None:
        return lambda made: frozen(made, eq=eq)
    made.__doc__ = made.__doc__ or made.__name__  # else dataclass works out a signature
    dataclass(init=False, repr=False, eq=False)(made)
    methods = {"__init__": _init(made), "__repr__": _repr, "__setattr__": _setattr, "__delattr__": _delattr}
    if eq:
        methods |= _equality(tuple(one.name for one in fields(made) if one.compare))
    for name, method in methods.items():
        if name not in vars(made):
            setattr(made, name, method)
    return made


def _init(made: type) -> Callable[..., None]:
    names = {"_set": object.__setattr__, "_MISSING": MISSING}
    given, body = ["self"], []
    for one in fields(made):
        value = one.name
        if one.default_factory is not MISSING:
            names[f"_make_{one.name}"] = one.default_factory
            given.append(f"{one.name}=_MISSING")
            value = f"_make_{one.name}() if {one.name} is _MISSING else {one.name}"
        elif one.default is not MISSING:
            names[f"_default_{one.name}"] = one.default
            given.append(f"{one.name}=_default_{one.name}")
        else:
            given.append(one.name)
        body.append(f" _set(self, {one.name!r}, {value})")
    body += [" self.__post_init__()"] if hasattr(made, "__post_init__") else []
    exec("\n".join([f"def __init__({', '.join(given)}):", *(body or [" pass"])]), names)
    return names["__init__"]


def _equality(compared: tuple[str, ...]) -> dict[str, Callable]:
    key = attrgetter(*compared) if compared else lambda one: ()

    def __eq__(self, other):
        return key(self) == key(other) if other.__class__ is self.__class__ else NotImplemented

    def __hash__(self):
        return hash(key(self))

    return {"__eq__": __eq__, "__hash__": __hash__}


def _repr(self) -> str:
    shown = (f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
    return f"{type(self).__qualname__}({', '.join(shown)})"


def _setattr(self, name: str, value: object) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _delattr(self, name: str) -> None:
    raise FrozenInstanceError(f"cannot delete field {name!r}")
