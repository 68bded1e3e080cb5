"""What flows in bolted joints, which have no resistance, by Kirchhoff's current law."""

from __future__ import annotations

from array import array
from collections.abc import Sequence

from diagrammer.electrics.elimination import Factor, Pattern
from diagrammer.electrics.groups import Groups


class Joints:
    """`pairs`: the places that each joint bolts together, of `count`.

    At the end of a tree of joints all that comes in flows on in the only joint there; so from the ends inwards. What is
    then left are rings: there the currents share evenly, as if all joints had the same resistance.
    """

    def __init__(self, count: int, pairs: Sequence[tuple[int, int]]):
        self.count = len(pairs)
        self._ends, self._others, self._numbers = array("l"), array("l"), array("l")
        left = self._peel(count, pairs)
        self._rings = [(number, *pairs[number]) for number in left]
        self._places = list(dict.fromkeys(place for _, *pair in self._rings for place in pair))
        self._factor = self._of_rings() if left else None

    def _peel(self, count: int, pairs: Sequence[tuple[int, int]]) -> list[int]:
        """Take off joint by joint from the ends of the trees; the numbers of those that are left."""
        met: list[list[int]] = [[] for _ in range(count)]
        for number, (i, j) in enumerate(pairs):
            if i != j:
                met[i].append(number)
                met[j].append(number)
        degree = [len(numbers) for numbers in met]
        left = dict.fromkeys(number for number, (i, j) in enumerate(pairs) if i != j)
        waiting = [place for place in range(count) if degree[place] == 1]
        for end in waiting:  # grows while it is walked
            if degree[end] != 1:
                continue
            number = next(one for one in met[end] if one in left)
            i, j = pairs[number]
            other = j if end == i else i
            self._ends.append(end)
            self._others.append(other)
            self._numbers.append(number if end == i else -1 - number)  # below zero: from the other to the end
            del left[number]
            degree[other] -= 1
            if degree[other] == 1:
                waiting.append(other)
        return list(left)

    def _of_rings(self) -> Factor:
        """Solves for potentials whose differences are the currents, one place of each ring at zero."""
        index = {place: n for n, place in enumerate(self._places)}
        groups, stamps = Groups(len(index)), []
        for _, i, j in self._rings:
            groups.join(index[i], index[j])
            stamps.append((index[i], index[j], 1.0))
        stamps += [(n, -1, 1.0) for n in range(len(index)) if groups.find(n) == n]
        return Pattern(len(index), [(i, j) for i, j, _ in stamps if j >= 0]).factor(stamps)

    def amps(self, injected: list[float]) -> list[float]:
        """The current [A] of each joint from its first place to its second, of what comes in at each place [A]; the
        list `injected` is used up."""
        found = [0.0] * self.count
        for end, other, number in zip(self._ends, self._others, self._numbers, strict=True):
            amps = injected[end]
            injected[other] += amps
            if number >= 0:
                found[number] = amps
            else:
                found[-1 - number] = -amps
        if self._factor:
            level = dict(zip(self._places, self._factor.solve([injected[place] for place in self._places]), strict=True))
            for number, i, j in self._rings:
                found[number] = level[i] - level[j]
        return found
