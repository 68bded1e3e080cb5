"""The kinds of node, a file each. KINDS: all by name; DEVICES: those that a path may hold."""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

from diagrammer.kinds.kind import Kind


def _found() -> dict[str, Kind]:
    modules = (import_module(f"{__name__}.{found.name}") for found in iter_modules(__path__))
    kinds = (module.KIND for module in modules if hasattr(module, "KIND"))
    return {kind.name: kind for kind in sorted(kinds, key=lambda kind: kind.name)}


KINDS: dict[str, Kind] = _found()
DEVICES: dict[str, Kind] = {name: kind for name, kind in KINDS.items() if kind.device}
