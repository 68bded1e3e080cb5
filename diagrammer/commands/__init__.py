"""The commands, one file each, found by walking the folder.

A command module has NAME, HELP, `arguments(parser)` and `run(arguments) -> int`: the exit status.
"""

from __future__ import annotations

import importlib
import pkgutil
from types import ModuleType


def names() -> tuple[str, ...]:
    return tuple(sorted(module.name for module in pkgutil.iter_modules(__path__) if not module.name.startswith("_")))


def command(name: str) -> ModuleType:
    return importlib.import_module(f"{__name__}.{name}")
