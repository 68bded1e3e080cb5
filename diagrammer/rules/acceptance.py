"""Findings that the netlist accepts, beside what they are about: `accept: {rule: reason}`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from diagrammer.frozen import frozen
from diagrammer.netlist.model import System
from diagrammer.text.finding import Finding
from diagrammer.text.place import Place


@frozen
class Acceptance:
    """One acceptance: of which node or circuit (`owner`), with its reason."""

    owner: str
    circuit: bool
    rule: str
    reason: str
    place: Place

    def covers(self, finding: Finding) -> bool:
        """Whether a finding of this rule blames the owner: its circuit by a conductor, its node
        where it comes first among what is wrong."""
        if finding.rule != self.rule:
            return False
        if self.circuit:
            return any(cable.rpartition(":")[0] == self.owner for cable in finding.conductors[:1])
        return self.owner in finding.nodes[:1]


def acceptances(system: System) -> Iterator[Acceptance]:
    """All that a netlist accepts, in file order."""
    for owners, circuit in ((system.nodes.values(), False), (system.circuits, True)):
        for owner in owners:
            for rule, (reason, place) in owner.accept.items():
                yield Acceptance(owner.name, circuit, rule, reason, place)


def accept(finding: Finding, accepted: Iterable[Acceptance]) -> Finding:
    """The finding, with the reason where one of the acceptances covers it."""
    for one in accepted:
        if one.covers(finding):
            return replace(finding, accepted=one.reason)
    return finding
