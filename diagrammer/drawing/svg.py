"""Elements of SVG as values, and their text: escaped, closed, attributes sorted, numbers rounded."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, lru_cache

from diagrammer.frozen import frozen

NAMESPACE = "http://www.w3.org/2000/svg"

# What XML 1.0 does not allow at all, not even escaped.
FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
ESCAPES = (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;"))  # the ampersand before those that have one


@frozen
class Element:
    name: str
    attributes: tuple[tuple[str, str], ...]
    children: tuple[Element | str, ...] = ()


def element(name: str, *children: Element | str | None, **attributes: object) -> Element:
    """An element. `class_` and `data_node` stand for class and data-node; None and "" are left out."""
    written = [(_attribute(key), _value(value)) for key, value in attributes.items()]
    return Element(name, tuple(sorted([one for one in written if one[1]])),
                   tuple([child for child in children if child is not None]))


@cache
def _attribute(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


@lru_cache(maxsize=4096)
def number(value: float) -> str:
    """At most two decimals, no zeros at the end, never "-0"."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def points(path: Iterable[tuple[float, float]], closed: bool = False) -> str:
    """The path data of straight lines."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in path) + ("Z" if closed else "")


def escape(text: str) -> str:
    """Text as it stands in SVG; characters that XML does not allow become U+FFFD."""
    if not text.isprintable():
        text = FORBIDDEN.sub("\ufffd", text)
    for sign, written in ESCAPES:
        text = text.replace(sign, written)
    return text


def render(tree: Element) -> str:
    """One element a line, but for elements that hold text."""
    opening = " ".join([tree.name, *[f'{key}="{escape(value)}"' for key, value in tree.attributes]])
    if not tree.children:
        return f"<{opening}/>"
    if any(isinstance(child, str) for child in tree.children):
        inner = "".join(escape(child) if isinstance(child, str) else render(child) for child in tree.children)
        return f"<{opening}>{inner}</{tree.name}>"
    inner = "\n".join(render(child) for child in tree.children)
    return f"<{opening}>\n{inner}\n</{tree.name}>"


def _value(value: object) -> str:
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, float):
        return number(value)
    if isinstance(value, (list, tuple)):
        return " ".join(_value(item) for item in value)
    return str(value)
