"""Dataclasses that are made quickly: `@frozen` does what `@dataclass(frozen=True)` does, `@changing` makes those whose
fields may be set.

A class made by dataclasses costs the compiling of six methods, 0.3 ms, and a start of the program makes
some two hundred. Here one `__init__` is compiled for all classes of as many fields, and the fields are taken from the
annotations as they stand; what they leave on the class is what `dataclasses.fields` and `replace` look for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from functools import cache, partial
from operator import attrgetter
from types import CodeType, FunctionType
from typing import Any, dataclass_transform


@dataclass
class _Sample:
    it: object


_ORDINARY = fields(_Sample)[0]._field_type  # neither of the class nor for its making only


@dataclass_transform(frozen_default=True)
def frozen(made: type | None = None, *, eq: bool = True, slots: bool = False) -> Any:
    """Give a class of annotated fields its `__init__`, and make it immutable; with `eq` equal by value, and hashable."""
    if made is None:
        return lambda made: frozen(made, eq=eq, slots=slots)
    made = _fielded(made, slots)
    methods = {"__init__": _init(made), "__repr__": _repr, "__setattr__": _setattr, "__delattr__": _delattr}
    if eq:
        methods |= _equality(tuple(one.name for one in fields(made) if one.compare))
    return _with(made, methods)


@dataclass_transform()
def changing(made: type) -> Any:
    """Give a class of annotated fields its `__init__`; its objects are equal to themselves only."""
    made = _fielded(made, False)
    return _with(made, {"__init__": _init(made), "__repr__": _repr})


def _fielded(made: type, slots: bool) -> type:
    if slots:  # takes a new class, which dataclass knows how to make
        made.__doc__ = made.__doc__ or made.__name__  # else it works out a signature
        return dataclass(init=False, repr=False, eq=False, slots=True)(made)
    every: dict[str, Field] = {}
    for base in made.__mro__[:0:-1]:
        every |= vars(base).get("__dataclass_fields__", {})
    every |= {name: _field(made, name, kind) for name, kind in vars(made).get("__annotations__", {}).items()}
    made.__dataclass_fields__, made.__match_args__ = every, tuple(every)
    return made


def _field(made: type, name: str, kind: str) -> Field:
    """The field of one annotation; what the class keeps under its name is the default."""
    given = vars(made).get(name, MISSING)
    one = given if isinstance(given, Field) else field(default=given)
    if one.default.__class__.__hash__ is None:
        raise ValueError(f"{made.__qualname__}.{name}: a default that can change is shared by all; use default_factory")
    if one is given:
        delattr(made, name) if one.default is MISSING else setattr(made, name, one.default)
    one.name, one.type, one.kw_only, one._field_type = name, kind, False, _ORDINARY
    return one


def _with(made: type, methods: dict[str, Callable]) -> type:
    for name, method in methods.items():
        if name not in vars(made):
            setattr(made, name, method)
    return made


def _init(made: type) -> Callable[..., None]:
    every = fields(made)
    anew = {one.name: one.default_factory for one in every if one.default_factory is not MISSING}
    finished = bool(anew) or hasattr(made, "__post_init__")
    code = _template(len(every), finished)
    names = {f"f{number}": one.name for number, one in enumerate(every)}
    code = code.replace(
        co_varnames=("self", *names.values()), co_consts=tuple(names.get(one, one) for one in code.co_consts),
    )
    optional = [one.default is not MISSING or one.name in anew for one in every]
    if optional != sorted(optional):
        raise TypeError(f"{made.__qualname__}: a field without a default follows one that has it")
    defaults = tuple(one.default for one, may_miss in zip(every, optional, strict=True) if may_miss)
    return FunctionType(code, {"_set": object.__setattr__, "_finish": partial(_finish, anew)}, "__init__", defaults)


@cache
def _template(count: int, finished: bool) -> CodeType:
    """An `__init__` of `count` fields f0, f1, ...; each class takes a copy of it with its own names."""
    names = [f"f{number}" for number in range(count)]
    body = [f" _set(self, {name!r}, {name})" for name in names] + [" _finish(self)"] * finished
    made: dict[str, Any] = {}
    exec("\n".join([f"def __init__({', '.join(['self', *names])}):", *(body or [" pass"])]), made)
    return made["__init__"].__code__


def _finish(anew: dict[str, Callable[[], object]], made: Any) -> None:
    """What is left to do of a new object: defaults that are made anew, and what its class adds."""
    for name, make in anew.items():
        if getattr(made, name) is MISSING:
            object.__setattr__(made, name, make())
    if hasattr(made, "__post_init__"):
        made.__post_init__()


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
