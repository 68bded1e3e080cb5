"""What is stacked in series and stands side by side: batteries, and the modules of solar arrays."""

from __future__ import annotations

from collections.abc import Mapping

from diagrammer.frozen import frozen

Pair = tuple[int, int]  # the nets of + and -
Level = tuple[str, ...]  # nodes side by side, + on + and - on -
String = tuple[Level, ...]  # levels from the foot to the top


@frozen
class Stack:
    """Strings between one net at the top and one at the foot (numbers of nets)."""

    top: int
    foot: int
    strings: tuple[String, ...]

    @property
    def nodes(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(node for string in self.strings for level in string for node in level))


def stacks(nets: Mapping[str, Pair]) -> tuple[Stack, ...]:
    """The stacks that nodes form whose + and - stand on these nets, in the order of the nodes.

    A + on the net of another's - stands under it. What closes on itself is no stack and is left out.
    """
    levels: dict[Pair, list[str]] = {}
    for node, ends in nets.items():
        levels.setdefault(ends, []).append(node)
    above = {plus: [pair for pair in levels if pair[1] == plus] for plus, _ in levels}
    tops = [pair for pair in levels if not above[pair[0]]]
    found: dict[Pair, list[String]] = {}
    for pair in tops:
        for string, foot in _down(levels, pair, frozenset((pair,))):
            found.setdefault((pair[0], foot), []).append(string)
    return tuple(Stack(top, foot, tuple(strings)) for (top, foot), strings in found.items())


def _down(levels: Mapping[Pair, list[str]], pair: Pair, met: frozenset[Pair]) -> list[tuple[String, int]]:
    """Every string that ends at the top with this level, and the net at its foot."""
    own = tuple(levels[pair])
    below = [one for one in levels if one[0] == pair[1] and one not in met]
    if not below:
        return [((own,), pair[1])]
    return [((*string, own), foot) for one in below for string, foot in _down(levels, one, met | {one})]
