"""Puts a changed source into modules that are loaded already, so that a trial need not load the program anew."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from functools import cached_property
from types import CodeType, FunctionType, ModuleType


def put(module: ModuleType, source: str, function: str) -> bool:
    """Gives `function`, or what is defined outside of functions where that is "", the code of `source`; whether it could."""
    code = compile(source, module.__file__, "exec", dont_inherit=True)
    return _function(module, code, function) if function else _values(module, code)


def _function(module: ModuleType, code: CodeType, name: str) -> bool:
    """The outermost function that holds `name` is replaced: what it defines is made when it runs."""
    loaded, codes = dict(_functions(module, vars(module))), dict(_codes(code))
    holding = sorted((one for one in codes if name == one or name.startswith(one + ".")), key=len)
    found = next((one for one in holding if one in loaded), None)
    if found:
        loaded[found].__code__ = codes[found]
    return bool(found)


def _codes(code: CodeType) -> Iterator[tuple[str, CodeType]]:
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            if "<" not in inner.co_qualname:
                yield inner.co_qualname, inner
            yield from _codes(inner)


def _functions(module: ModuleType, names) -> Iterator[tuple[str, FunctionType]]:
    """The functions that a module defines, also within its classes and behind decorators."""
    for one in list(names.values()):
        if isinstance(one, type):
            if one.__module__ == module.__name__:
                yield from _functions(module, vars(one))
        elif (function := _bare(one)) and function.__code__.co_filename == module.__file__:
            yield function.__code__.co_qualname, function


def _bare(one) -> FunctionType | None:
    """What a decorator stands around."""
    while not isinstance(one, FunctionType) or hasattr(one, "__wrapped__"):
        if isinstance(one, property):
            one = one.fget
        elif isinstance(one, cached_property):
            one = one.func
        elif isinstance(one, staticmethod | classmethod):
            one = one.__func__
        elif hasattr(one, "__wrapped__"):
            one = one.__wrapped__
        else:
            return None
    return one


def _values(module: ModuleType, code: CodeType) -> bool:
    """Every module that has taken a changed value by its name gets the new one."""
    new = dict(vars(module))
    exec(code, new)  # noqa: S102, the program's own text
    done = False
    for name, value in new.items():
        old = vars(module).get(name)
        if not (name.startswith("__") or callable(value) or isinstance(value, ModuleType) or _same(old, value)):
            done = True
            for other in (module, *sys.modules.values()):
                if getattr(other, "__dict__", {}).get(name) is old:
                    setattr(other, name, value)
    return done


def _same(old, new) -> bool:
    try:
        return bool(old == new)
    except Exception:  # noqa: BLE001, a value that cannot be compared was not changed
        return True
