"""The measured side: all that a bank gives and takes must pass its shunt.

Common practice. The bank's shunt is taken out of the return side; the spine is what then lies
between the bank's negative and the shunt, and nothing else may hang on it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from diagrammer.circuit import cuts
from diagrammer.circuit.measured_beside import beside, measured_in_feed
from diagrammer.circuit.measured_shunts import Shunt, Sorted, sort
from diagrammer.circuit.measured_side import Side
from diagrammer.circuit.measured_spine import hanging
from diagrammer.circuit.view import Fact, View, node_of


def find(view: View) -> tuple[Fact, ...]:
    """shunt-in-feed, shunt-backwards, unmeasured-return, no-shunt."""
    side = Side(view)
    shunts = sort(view, side)
    facts: list[Fact] = [Fact("shunt-in-feed", nodes=(name,)) for name in shunts.wrong]
    facts += [Fact("shunt-backwards", nodes=(shunt.name, *_faced(side, shunt)))
              for shunt in shunts.bank if shunt.backwards]
    return (*facts, *_unmeasured(view, side, shunts))


def _faced(side: Side, shunt: Shunt) -> tuple[str, ...]:
    """The bank nearest to the end that faces it, where one is reached."""
    reached = cuts.reach(side.without((shunt.edge,)), (shunt.bank,))
    return tuple(node_of(bank) for bank in _banks(side, reached)[:1])


def _unmeasured(view: View, side: Side, shunts: Sorted) -> Iterator[Fact]:
    web = side.without(shunt.edge for shunt in shunts.bank)
    by_feed = measured_in_feed(view, side, shunts.feed)
    done: set[str] = set()
    measured: list[str] = []
    for shunt in shunts.bank:
        if shunt.bank not in done:
            part = cuts.reach(web, (shunt.bank,))
            banks = _banks(side, part)
            done.update(part)
            if banks:
                measured += banks
                here = [s for s in shunts.bank if s.bank in part]
                yield from hanging(view, side, {t: web[t] for t in part}, banks, here)
    yield from beside(view, side, web, done, measured, by_feed, shunts.bank)


def _banks(side: Side, part: Iterable[str]) -> list[str]:
    """The negatives that make the bank of one part: the house's, or an engine's where there is no other."""
    return [t for t in part if t in side.houses] or [t for t in part if t in side.starters]
