"""More terminals sit on one stud or post than the practice allows.

Why: the pile settles, the nut comes loose, and the joint heats.

Fix: put a bus bar beside it and land some of them there, the largest terminal always next to the base.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact, node_of
from diagrammer.electrics.terminal import largest_stud, most_on_stud
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("ABYC E-11: no more than four terminals on one stud (quoted)", "common practice under nec and iso")
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 100 A, pair: return-bar, stud: M8}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 5 W}
  bell:   {kind: load, voltage: 12 V, power: 5 W}
  fan:    {kind: load, voltage: 12 V, power: 5 W}
  pump:   {kind: load, voltage: 12 V, power: 50 W}
circuits:
  - {name: main, feed: bank/fuse strip 60 A -> feed-bar@1, return: bank -> meter -> return-bar, wire: [6 AWG 0.5 m]}
  - {feed: feed-bar@1/fuse blade 3 A -> lamp, wire: 16 AWG 3 m}
  - {feed: feed-bar@1/fuse blade 3 A -> bell, wire: 16 AWG 3 m}
  - {feed: feed-bar@1/fuse blade 3 A -> fan, wire: 16 AWG 3 m}
  - {feed: feed-bar@2/fuse blade 10 A -> pump, wire: 14 AWG 3 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 100 A, pair: return-bar, stud: M8}
# ^^^^^^^^ crowded-stud: 5 terminals sit on stud 1 of `feed-bar`; 4 is the most
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 5 W}
  bell:   {kind: load, voltage: 12 V, power: 5 W}
  fan:    {kind: load, voltage: 12 V, power: 5 W}
  pump:   {kind: load, voltage: 12 V, power: 50 W}
circuits:
  - {name: main, feed: bank/fuse strip 60 A -> feed-bar@1, return: bank -> meter -> return-bar, wire: [6 AWG 0.5 m]}
  - {feed: feed-bar@1/fuse blade 3 A -> lamp, wire: 16 AWG 3 m}
  - {feed: feed-bar@1/fuse blade 3 A -> bell, wire: 16 AWG 3 m}
  - {feed: feed-bar@1/fuse blade 3 A -> fan, wire: 16 AWG 3 m}
  - {feed: feed-bar@1/fuse blade 10 A -> pump, wire: 14 AWG 3 m}
"""
POSTS = ("battery", "shunt", "starter", "alternator", "switch", "fuse", "breaker", "relay", "contactor", "isolator",
         "selector", "inverter", "inverter charger", "drive")
# kinds each of whose main terminals is one stud; a bank may have several
THIN = ("sense", "midpoint", "enable", "supply", "ground", "coil", "field", "lamp")
# ports with terminals of another sort


def check(survey: Survey) -> Iterator[Finding]:
    most, elsewhere = most_on_stud(survey.system.practice), _elsewhere(survey)
    for (terminal, stud), landed in _landed(survey).items():
        if sum(survey.start.cables[cable].circuit not in elsewhere if cable else True for cable in landed) > most:
            name = node_of(terminal)
            where = f"stud {stud} of `{name}`" if stud else f"the post `{terminal}`"
            cables = tuple(dict.fromkeys(cable for cable in landed if cable))
            yield finding(
                __name__, survey, Fact("crowded-stud", nodes=(name,)),
                f"{len(landed)} terminals sit on {where}; {most} is the most", conductors=cables,
            )


def _elsewhere(survey: Survey) -> frozenset[str]:
    """The circuits that another finding asks to land elsewhere, or behind a device of their own."""
    facts = (*survey.poles, *survey.domains, *survey.measured, *survey.of("missing-protection"))
    return frozenset(line for fact in facts if (line := survey.start.line(fact)))


def _landed(survey: Survey) -> dict[tuple[str, str], list[str]]:
    """What sits on each stud: a cable for every terminal of a conductor, "" for what is bolted on."""
    studs: dict[tuple[str, str], list[str]] = {}
    for wire in survey.system.conductors:
        for end, stud in ((wire.a, wire.studs[0]), (wire.b, wire.studs[1])):
            if stud or _post(survey, end):
                studs.setdefault((end, stud), []).extend([wire.cable] * wire.wire.parallel)
    for circuit in survey.system.circuits:
        for leg in circuit.legs:
            for here, link, there in zip(leg.stops, leg.links, leg.stops[1:], strict=False):
                for one, end in ((here, here.leave), (there, there.enter)):
                    if not link and (one.stud or _post(survey, end)):
                        studs.setdefault((end, one.stud), []).append("")
    return studs


def _post(survey: Survey, end: str) -> bool:
    """Whether a terminal is one stud; of what is rated above the largest usual one nobody knows."""
    terminal = survey.system.terminals.get(end)
    if terminal is None or terminal.port in THIN:
        return False
    node = survey.system.nodes[terminal.node]
    rating = node.get("rating")
    return node.kind.name in POSTS and (rating is None or rating <= largest_stud())
