"""The value of one field, by its form."""

from __future__ import annotations

import re

from diagrammer import quantity
from diagrammer.kinds.kind import Field
from diagrammer.netlist.complaints import Complaints
from diagrammer.text.suggest import listed, nearest, shortened
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

_OTHER_RANGE = re.compile(r"([0-9].*?) ?(?:\bto\b|-|–|—) ?([0-9].*)")  # as people write one elsewhere
MANY = 1000  # no count of the trade is larger


class Unfit(Exception):
    """The text is no value of the field; the message is for the writer."""


def read(tree: Tree, field: Field, say: Complaints) -> object | None:
    """The value, or None with what is wrong said."""
    form = field.form
    try:
        if form.sort in _TREES:
            return _TREES[form.sort](tree)
        if not isinstance(tree, Scalar):
            raise Unfit(f"`{field.name}` is one value, not a list or a mapping")
        value = _SCALARS[form.sort](tree.text.strip(), field)
        within(value, field, tree.text)
        return value
    except (Unfit, quantity.Unreadable) as wrong:
        say(tree.place, f"{field.name}: {wrong}")
        return None


def within(value: object, field: Field, text: str) -> None:
    """Raises Unfit where a quantity, or an end of a range, is outside the field's bounds."""
    value = value.value if isinstance(value, quantity.Measure) else value
    low, high = value if isinstance(value, tuple) else (value, value)
    if not isinstance(low, (int, float)) or isinstance(low, bool):
        return
    too_low = field.least is not None and low < field.least or field.above is not None and low <= field.above
    if too_low or (field.most is not None and high > field.most):
        unit = f" {quantity.DIMENSIONS[field.form.dimensions[0]][0]}" if field.form.dimensions else ""
        ends = (("more than", field.above), ("at least", field.least), ("at most", field.most))
        bounds = [f"{word} {bound:g}{unit}" for word, bound in ends if bound is not None]
        raise Unfit(f"`{text}` is out of range: {' and '.join(bounds)}")


def _quantity(text: str, field: Field) -> float | quantity.Measure:
    """A float; a Measure where the field takes several dimensions (nodes.py settles which)."""
    measure = quantity.measure(text, *field.form.dimensions)
    return measure.value if len(field.form.dimensions) == 1 else measure


def _window(text: str, field: Field) -> object:
    ends = [end.strip() for end in text.split("..")]
    if len(ends) == 1:
        if len(text) <= quantity.LONGEST and (other := _OTHER_RANGE.fullmatch(text)):
            raise Unfit(f"`{text}`: a range is written `{other[1]} .. {other[2]}`")
        return _quantity(text, field)
    if len(ends) != 2:
        raise Unfit(f"`{shortened(text)}`: a range is `LOW .. HIGH`")
    unit = re.sub(r"^[-+0-9./\s]+", "", ends[1])
    low = ends[0] if re.search(r"[^-+0-9.\s]", ends[0]) else f"{ends[0]} {unit}"
    low, high = _quantity(low, field), _quantity(ends[1], field)
    if low >= high:
        raise Unfit(f"`{text}`: the range ends below its start")
    return (low, high)


def _word(text: str, field: Field) -> str:
    if text not in field.form.words:
        near = nearest(text, field.form.words)
        meant = f"did you mean `{near[0]}`?" if near else f"it is one of {listed(field.form.words, 'or')}"
        raise Unfit(f"`{shortened(text)}` can't be written here; {meant}")
    return text


def _yes_no(text: str, field: Field) -> bool:
    if text not in ("yes", "no"):
        raise Unfit(f"`{shortened(text)}`: write yes or no")
    return text == "yes"


def _count(text: str, field: Field) -> int:
    most = int(field.most or MANY)
    if not re.fullmatch(r"[0-9]{1,7}", text) or not 1 <= int(text) <= most:
        raise Unfit(f"`{shortened(text)}`: a whole number from 1 to {most} is wanted")
    return int(text)


def _number(text: str, field: Field) -> float:
    """A bare number, or one with a unit of the form's dimension."""
    bare = re.fullmatch(r"[0-9]{1,9}(?:\.[0-9]{1,9})?", text)
    if bare:
        return float(text)
    if not field.form.dimensions:
        raise Unfit(f"`{shortened(text)}`: a number is wanted")
    return _quantity(text, field)


def _text(text: str, field: Field) -> str:
    return text


def _names(tree: Tree) -> tuple[str, ...]:
    if isinstance(tree, Scalar):
        return (tree.text,)
    if not isinstance(tree, Sequence) or not all(isinstance(item, Scalar) for item in tree.items):
        raise Unfit("a list of names is wanted: `[a, b]`")
    return tuple(item.text for item in tree.items)


def _ports(tree: Tree) -> dict[str, str]:
    if not isinstance(tree, Mapping):
        raise Unfit("ports are `{name: dc, lead or ac}`")
    ports = {}
    for key, value in tree:
        if not isinstance(value, Scalar) or value.text not in ("dc", "lead", "ac"):
            raise Unfit(f"port `{key.text}` is dc, lead or ac")
        if not re.fullmatch(r"[\w-]{1,40}", key.text):
            raise Unfit(f"`{key.text}` can't be the name of a port")
        ports[key.text] = value.text
    if not ports:
        raise Unfit("at least one port is wanted")
    return ports


def _positions(tree: Tree) -> dict[str, tuple[tuple[str, ...], ...]]:
    """{position: groups of terminals that are joined in it}."""
    if not isinstance(tree, Mapping) or not tree.entries:
        raise Unfit("positions are `{name: a+b c+d}`, or `none` where nothing is joined")
    positions = {}
    for key, value in tree:
        if not isinstance(value, Scalar):
            raise Unfit(f"position `{key.text}` is written `a+b`, or `none`")
        groups = () if value.text == "none" else tuple(tuple(group.split("+")) for group in value.text.split())
        for group in groups:
            if len(group) < 2 or not all(re.fullmatch(r"[\w-]{1,40}", name) for name in group):
                raise Unfit(f"position `{key.text}`: `{'+'.join(group)}` joins nothing; write `a+b`")
        positions[key.text] = groups
    return positions


_TREES = {"nodes": _names, "ports": _ports, "positions": _positions}
_SCALARS = {
    "quantity": _quantity, "window": _window, "word": _word, "yes/no": _yes_no,
    "count": _count, "number": _number, "text": _text, "node": _text,
}
