"""The house style of a node's fields, a circuit's entries, a path, a quantity: each in one line."""

from __future__ import annotations

import re
from dataclasses import replace

from diagrammer.kinds import KINDS
from diagrammer.netlist.circuits import ROLES
from diagrammer.text.compose import flow
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree


def node(tree: Tree) -> str | None:
    """A node's fields in one line, the kind first."""
    entries = sorted(tree.entries, key=lambda entry: entry[0].text not in ("kind", "part"))
    kind = KINDS.get(next((value.text for key, value in entries if key.text == "kind" and isinstance(value, Scalar)),
                          ""))
    forms = {field.name: field.form.sort for field in kind.fields} if kind else {}
    return _or_none(Mapping(tuple((key, _spaced(value, forms.get(key.text, ""))) for key, value in entries), tree.place,
                            True))


def circuit(tree: Mapping) -> str | None:
    return _or_none(Mapping(tuple((key, _value(key.text, value)) for key, value in tree), tree.place, True))


def flow_of(key: str, tree: Tree) -> str | None:
    return _or_none(_value(key, tree), inside=False)


def _or_none(tree: Tree, inside: bool = True) -> str | None:
    try:
        return flow(tree, inside)
    except ValueError:
        return None


def _value(key: str, tree: Tree) -> Tree:
    """A circuit's entry with its path or wire in the house style."""
    if key in ROLES and isinstance(tree, Scalar):
        return replace(tree, text=path(tree.text))
    return _wire(tree) if key == "wire" else tree


def path(text: str) -> str:
    words = " ".join(text.split())
    return re.sub(r" ?/ ?", "/", re.sub(r" ?-> ?", " -> ", words))


def _wire(tree: Tree) -> Tree:
    if isinstance(tree, Scalar):
        return replace(tree, text=quantities(tree.text))
    if isinstance(tree, Sequence):
        return replace(tree, items=tuple(_wire(item) for item in tree.items))
    return replace(tree,
                   entries=tuple((key, value if key.text in ("terminals", "cores", "in") else _wire(value))
                                 for key, value in tree))


def _spaced(tree: Tree, form: str) -> Tree:
    return replace(tree, text=quantities(tree.text)) if form in ("quantity", "window") and isinstance(tree,
                                                                                                      Scalar) else tree


def quantities(text: str) -> str:
    """One space between a number and its unit, mm² as such."""
    text = re.sub(r"(?<=[0-9])(?=[A-Za-zΩµ°%])", " ", " ".join(text.split()))
    return re.sub(r"\bmm2\b", "mm²", re.sub(r" ?\.\. ?", " .. ", text))
