"""A folder of modules as a mapping: what each of them holds, by its name, loaded when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from importlib import import_module
from pkgutil import iter_modules
from typing import TypeVar

T = TypeVar("T")
UNDERSCORES = str.maketrans(" -", "__")


class Folder(Mapping[str, T]):
    """What the modules of a package hold as `attribute`, those without it left out, and those that `only` refuses.

    A module is named as the value that it holds, underscores for spaces and hyphens.
    """

    def __init__(
        self, package: str, path: Iterable[str], attribute: str, only: Callable[[T], bool] = lambda one: True,
    ) -> None:
        self._package, self._attribute, self._only = package, attribute, only
        self._modules = frozenset(module.name for module in iter_modules(path))
        self._loaded: dict[str, T | None] = {}

    def _value(self, module: str) -> T | None:
        if module not in self._loaded:
            value = getattr(import_module(f"{self._package}.{module}"), self._attribute, None)
            self._loaded[module] = value if value is not None and self._only(value) else None
        return self._loaded[module]

    def __getitem__(self, name: str) -> T:
        module = name.translate(UNDERSCORES)
        value = self._value(module) if module in self._modules else None
        if value is None or value.name != name:
            raise KeyError(name)
        return value

    def __iter__(self) -> Iterator[str]:
        return iter(sorted(value.name for module in self._modules if (value := self._value(module)) is not None))

    def __len__(self) -> int:
        return sum(1 for _ in self)
