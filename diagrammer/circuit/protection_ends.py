"""Every end of a conductor into which too much can flow, over all combinations of positions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import field, replace

from diagrammer.circuit import protection_thin
from diagrammer.circuit.carrying import Carrying
from diagrammer.circuit.positions import Combination
from diagrammer.circuit.protection_ahead import Ahead, Lengths, Met
from diagrammer.circuit.protection_cause import Cause, cause
from diagrammer.circuit.protection_exempt import Exempt
from diagrammer.circuit.protection_away import reach
from diagrammer.circuit.protection_flow import NOTHING
from diagrammer.circuit.protection_judge import Judge, Report
from diagrammer.circuit.protection_solve import Solved, solve
from diagrammer.circuit.protection_thin import Through
from diagrammer.circuit.protection_web import Loom, Web
from diagrammer.circuit.view import View
from diagrammer.frozen import changing, frozen

Mark = tuple[str, str, str]  # the conductor, the terminal at which the current enters, and why it is too much


@frozen
class End:
    """One end of a conductor into which too much can flow. ahead: the first device on the same line,
    where one stands; positions: of the selectors on whose position it depends, when it happens."""

    report: Report
    cause: Cause
    ahead: Met | None
    positions: tuple[tuple[str, str], ...]
    volts: float


@changing
class Ends:
    """by_cable: the ends found. through: what can flow into the feeds of every circuit."""

    by_cable: dict[str, list[End]] = field(default_factory=dict)
    through: dict[str, list[Through]] = field(default_factory=dict)


def ends(view: View, loom: Loom) -> Ends:
    """All that is found in the clusters of a loom, of one entry and reason the first."""
    carrying, lengths = Carrying(view), Lengths(view.system)
    limits = reach(view.system.practice)
    found = Ends()
    for cluster in loom.clusters():
        whole = loom.whole(cluster)
        exempt = Exempt(view, whole, carrying, lengths, limits)
        ahead = Ahead(whole, carrying, lengths, limits)
        here = _Here(view, ahead)
        for combination in cluster.combinations:
            web = loom.web(cluster, combination) if cluster.edges else whole
            solved = solve(Judge(web, carrying, ahead, exempt.why))
            here.add(web, solved)
            protection_thin.collect(found.through, web, solved)
        for end in here.told():
            found.by_cable.setdefault(end.report.piece.wire.cable, []).append(end)
    return found


class _Here:
    """What is found in one cluster, and in which combinations."""

    def __init__(self, view: View, ahead: Ahead):
        self.view, self.ahead = view, ahead
        self.first: dict[Mark, End] = {}
        self.met: dict[Mark, list[Combination]] = {}
        self.looked: list[tuple[Web, Solved]] = []

    def add(self, web: Web, solved: Solved) -> None:
        self.looked.append((web, solved))
        for report in solved.reports:
            mark = report.piece.key, report.entry, report.why
            self.met.setdefault(mark, []).append(web.combination)
            if mark not in self.first:
                self.first[mark] = _end(self.view, web, self.ahead, solved, report)

    def told(self) -> Iterator[End]:
        for mark, end in self.first.items():
            yield replace(end, positions=self._matter(mark, end))

    def _matter(self, mark: Mark, end: End) -> tuple[tuple[str, str], ...]:
        """Of the positions those without which current would come, but not too much."""
        key, entry, _ = mark
        fed = [web.combination for web, solved in self.looked
               if not solved.flows.get((key, web.points[entry]), NOTHING).none]
        return tuple((name, word) for name, word in end.positions if _words(name, self.met[mark]) != _words(name, fed))


def _end(view: View, web: Web, ahead: Ahead, solved: Solved, report: Report) -> End:
    met = ahead.on_line(report.piece.wire, report.entry, report.away)
    positions = tuple(web.combination.positions.items())
    return End(report, cause(view, web, solved, report), met, positions, web.volts)


def _words(name: str, combinations: Iterable[Combination]) -> set[str | None]:
    return {combination.positions.get(name) for combination in combinations}
