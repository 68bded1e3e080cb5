"""The rules: one file each, in folders by family. The file's name is the rule's, hyphens for underscores.

    RULES   {name: Rule}, by family and name; found by walking the folders when first asked for
"""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache


@cache
def rules() -> dict:
    """Every rule by its name, in the order of the folders."""
    from diagrammer.rules.rule import load

    found = {}
    for family in sorted(part.name for part in pkgutil.iter_modules(__path__) if part.ispkg):
        package = importlib.import_module(f"{__name__}.{family}")
        modules = (part.name for part in pkgutil.iter_modules(package.__path__))
        for name in sorted(name for name in modules if not name.startswith("_")):
            rule = load(importlib.import_module(f"{package.__name__}.{name}"))
            found[rule.name] = rule
    return found


def __getattr__(name: str):
    if name == "RULES":
        return rules()
    raise AttributeError(name)
