"""What is written under `wire`: sizes, lengths and what the conductors are made of.

    wire = run | [ run, ... ] | { size, length, hops, parallel, insulation, ..., feed: wire, return: wire }
    run  = [ N "parallel" ] [ SIZE ] [ LENGTH ]
"""

from __future__ import annotations

import re
from dataclasses import replace

from diagrammer import quantity
from diagrammer.frozen import frozen
from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.model import Wire
from diagrammer.netlist.wire_fields import of_wire, size
from diagrammer.text.place import Place
from diagrammer.text.suggest import listed, shortened
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

KEYS = ("size", "length", "hops", "parallel", "insulation", "material", "in", "bundle", "ambient",
        "terminals", "terminations", "cores", "earth", "feed", "return")
IMPERIAL = ("ft", "in")
_ADVICE = "Write both with a space between, as `10 AWG 2 m`; sizes are in AWG, mm² or kcmil."
_RUN = re.compile(
    r"(?:([0-9]{1,2})\s+parallel\b)?\s*([1-4]/0(?:\s*AWG)?(?![0-9/])|[0-9.]+\s*(?:AWG|mm²|mm2|kcmil))?\s*(.*)"
)


@frozen
class Hop:
    """One entry of a wire list: what it says, None where it says nothing."""

    place: Place
    size: quantity.Size | None = None
    parallel: int | None = None
    length: float | None = None
    size_place: Place | None = None
    feet: bool = False  # the length was written in feet or inches


@frozen
class Spec:
    """The wire of one leg. `hops` has one entry a conductor where `listed`, else one for the run."""

    base: Wire
    hops: tuple[Hop, ...] = ()
    listed: bool = False
    place: Place | None = None
    cores: tuple[str, ...] = ()
    earth: quantity.Size | None = None
    feed: Spec | None = None
    back: Spec | None = None

    @property
    def length(self) -> float | None:
        lengths = [hop.length for hop in self.hops]
        return sum(lengths) if lengths and None not in lengths else None

    @property
    def imperial(self) -> bool:
        """Whether a length of it was written in feet or inches."""
        return any(hop.feet for one in (self, self.feed, self.back) if one for hop in one.hops)

    def split(self, count: int) -> tuple[tuple[Wire, Hop | None], ...]:
        """Wire and entry of each of `count` conductors; a size carries on."""
        if not self.hops:
            return ((self.base, None),) * count
        pairs, wire = [], self.base
        for hop in self.hops if self.listed else self.hops[:1] * count:
            wire = replace(wire, size=hop.size or wire.size, parallel=hop.parallel or wire.parallel)
            pairs.append((wire, hop))
        return tuple(pairs)


def read(tree: Tree | None, base: Wire, say: Complaints, nested: bool = False) -> Spec:
    """The spec that a `wire` value gives, on top of what holds for the whole file."""
    if tree is None:
        return Spec(base)
    if isinstance(tree, Scalar):
        return Spec(base, (_run(tree, say),), False, tree.place)
    if isinstance(tree, Sequence):
        return Spec(base, _hops(tree, say), True, tree.place)
    return _mapping(tree, base, say, nested)


def _hops(tree: Sequence, say: Complaints) -> tuple[Hop, ...]:
    for item in tree.items:
        if not isinstance(item, Scalar):
            say(item.place, "an entry of a wire list is one text: size and length")
    return tuple(_run(item, say) if isinstance(item, Scalar) else Hop(item.place) for item in tree.items)


def _run(scalar: Scalar, say: Complaints) -> Hop:
    text = " ".join(scalar.text.split())
    if re.match(r"[0-9]+ ?[x×] ?[0-9]", text):
        say(scalar.place, f"`{shortened(text)}`: cores or conductors?",
            "Write `2 parallel 70 mm²`; cores follow from the circuit.")
        return Hop(scalar.place)
    parallel, size, length = _RUN.fullmatch(text).groups()
    try:
        return Hop(
            scalar.place,
            quantity.size(size) if size else None,
            _count(parallel) if parallel else None,
            _length(length) if length else None,
            scalar.place if size else None,
            length.endswith(IMPERIAL),
        )
    except quantity.Unreadable as wrong:
        say(scalar.place, *_unreadable(text, length or "", str(wrong)))
        return Hop(scalar.place)


def _unreadable(text: str, length: str, wrong: str) -> tuple[str, str]:
    """Message and help: what is left is a length with a wrong unit, or no size and length at all."""
    if re.fullmatch(r"[0-9./]+( ?[^\s0-9]+)?", length):
        return f"wire: {wrong}", ""
    if not length:
        return f"wire: {wrong}", _ADVICE
    return f"wire: `{shortened(text)}` is no size and length", _ADVICE


def _count(text: str) -> int:
    if not 1 <= int(text) <= 20:
        raise quantity.Unreadable(f"`{text} parallel`: from 1 to 20 conductors run in parallel")
    return int(text)


def _length(text: str) -> float:
    length = quantity.measure(text, "length").value
    if not 0 <= length <= 100_000:
        raise quantity.Unreadable(f"`{text}` is no length of a conductor")
    return length


def _mapping(tree: Mapping, base: Wire, say: Complaints, nested: bool) -> Spec:
    values: dict[str, Tree] = {}
    known = [key for key in KEYS if not (nested and key in ("feed", "return"))]
    for key, value in tree:
        if key.text in known:
            values[key.text] = value
        else:
            say.unknown(key.place, "entry of a wire", key.text, known)
    wire = replace(base, **of_wire(values, say))
    hops, is_list = _entries(values, tree.place, say)
    spec = Spec(wire, hops, is_list, tree.place, _cores(values, say), size(values.get("earth"), say))
    if "feed" not in values and "return" not in values:
        return spec
    feed = _over(spec, read(values.get("feed"), wire, say, nested=True))
    back = read(values["return"], replace(feed.base, size=None), say, nested=True) if "return" in values else None
    return replace(spec, feed=feed, back=back)


def _over(outer: Spec, inner: Spec) -> Spec:
    """The feed's own wire, over what is said for feed and return together."""
    return replace(inner, cores=inner.cores or outer.cores, earth=inner.earth or outer.earth,
                   place=inner.place or outer.place,
                   hops=inner.hops or outer.hops, listed=inner.listed if inner.hops else outer.listed)


def _entries(values: dict[str, Tree], place: Place, say: Complaints) -> tuple[tuple[Hop, ...], bool]:
    hops = values.get("hops")
    if hops is not None:
        if "length" in values:
            say(values["length"].place, "`length` beside `hops`: each entry of hops has its own")
        if isinstance(hops, Sequence):
            return _hops(hops, say), True
        say(hops.place, "`hops` is a list, one entry a conductor")
        return (), False
    length = values.get("length")
    if length is None:
        return (), False
    if not isinstance(length, Scalar):
        say(length.place, "`length` is one length; for several use `hops`")
        return (), False
    try:
        return (Hop(length.place, length=_length(length.text), feet=length.text.strip().endswith(IMPERIAL)),), False
    except quantity.Unreadable as wrong:
        say(length.place, f"length: {wrong}")
        return (), False


def _cores(values: dict[str, Tree], say: Complaints) -> tuple[str, ...]:
    tree = values.get("cores")
    if tree is None:
        return ()
    known = ("L", "L1", "L2", "L3", "N", "earth")
    names = tuple(tree.text.split()) if isinstance(tree, Scalar) else ()
    for name in names or ("",):
        if name not in known:
            say(tree.place, f"`{name}` is no core; cores are some of {listed(known)}, as `cores: L N`")
    return names
