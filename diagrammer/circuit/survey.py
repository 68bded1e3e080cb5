"""Everything the graph says about a system, found in the order in which a cause hides its symptoms.

    poles       short-circuit, reversed-polarity, one-sided landings
    domains     uncontrolled-source, wrong-domain
    measured    shunt-in-feed, shunt-backwards, unmeasured-return, no-shunt
    sources     two-ac-sources
    protection  missing-protection, protection-too-large, ...
    loops       open-end, unfed-node, missing-return, stray-return, unused-node

Each check is a function `find(view) -> tuple[Fact, ...]` in a module of its own. It is given a View:
the graph without the lines blamed before it, the nodes excused, nets and positions. The first of
a fact's `cables` (or, where it has none, of its `nodes`) is what is blamed: that conductor's whole
circuit is out of `view.graph` for the checks that follow, and the nodes on it are excused. Loops
look at `view.whole` and leave out what is excused. A fact has no words; the rule of its name has.
"""

from __future__ import annotations

from functools import cached_property, lru_cache

from diagrammer.circuit import domains, loops, measured, poles, protection, sources
from diagrammer.circuit.breaking import Breaking
from diagrammer.circuit.carrying import Carrying
from diagrammer.circuit.cleared import cleared
from diagrammer.circuit.doubt import doubtful
from diagrammer.circuit.drops import Drops
from diagrammer.circuit.graph import build
from diagrammer.circuit.loading import Loading
from diagrammer.circuit.mains import Mains
from diagrammer.circuit.mains_faults import MainsFaults
from diagrammer.circuit.sides import Sides
from diagrammer.circuit.study import Study, study
from diagrammer.circuit.view import Fact, View
from diagrammer.circuit.voltages import Voltages
from diagrammer.circuit.zones import Zones
from diagrammer.frozen import frozen
from diagrammer.netlist.model import System


@frozen
class Survey:
    """The checks of one system, each run once, when first asked for."""

    system: System

    @cached_property
    def start(self) -> View:
        """The system before anything is blamed."""
        graph = build(self.system)
        return View(self.system, graph, graph)

    @cached_property
    def poles(self) -> tuple[Fact, ...]:
        return poles.find(self.start)

    @cached_property
    def after_poles(self) -> View:
        return self.start.without(self.poles, poles=True)

    @cached_property
    def domains(self) -> tuple[Fact, ...]:
        return domains.find(self.after_poles)

    @cached_property
    def after_domains(self) -> View:
        return self.after_poles.without(self.domains)

    @cached_property
    def measured(self) -> tuple[Fact, ...]:
        return measured.find(self.after_domains)

    @cached_property
    def after_measured(self) -> View:
        return self.after_domains.without(fact for fact in self.measured if fact.rule != "no-shunt")

    @cached_property
    def sources(self) -> tuple[Fact, ...]:
        return sources.find(self.after_measured)

    @cached_property
    def after_sources(self) -> View:
        return self.after_measured.without(self.sources)

    @cached_property
    def protection(self) -> tuple[Fact, ...]:
        return protection.find(self.after_sources)

    @cached_property
    def after_protection(self) -> View:
        return self.after_sources.without(self.protection)

    @cached_property
    def loops(self) -> tuple[Fact, ...]:
        return loops.find(self.after_sources)

    @cached_property
    def cleared(self) -> View:
        """What can be computed: the system without the lines whose poles, voltages or ac sources are wrong."""
        facts = (*self.poles, *self.domains, *self.sources)
        system = cleared(self.system, frozenset(line for fact in facts if (line := self.start.line(fact))))
        graph = build(system) if system is not self.system else self.start.whole
        return View(system, graph, graph)

    @property
    def study(self) -> Study:
        """The computed quantities of what can be computed."""
        return study(self.cleared.system)

    @cached_property
    def lines(self) -> frozenset[str]:
        """The circuits that some fact blames."""
        return frozenset(line for fact in self.facts if (line := self.start.line(fact)))

    @cached_property
    def met_in(self) -> dict[str, list[str]]:
        """The circuits that each node is met in, of what can be computed."""
        found: dict[str, list[str]] = {}
        for line in self.cleared.system.circuits:
            for name in dict.fromkeys(stop.node for leg in line.legs for stop in leg.stops):
                found.setdefault(name, []).append(line.name)
        return found

    @cached_property
    def doubtful(self) -> frozenset[str]:
        """The circuits in which the currents computed are those of another fault."""
        return doubtful(self.start, self.cleared)

    @cached_property
    def sides(self) -> Sides:
        return Sides(self.cleared)

    @cached_property
    def zones(self) -> Zones:
        return Zones(self.cleared, self.sides)

    @cached_property
    def voltages(self) -> Voltages:
        return Voltages(self.cleared)

    @cached_property
    def loading(self) -> Loading:
        return Loading(self.cleared, self.study, self.sides)

    @cached_property
    def breaking(self) -> Breaking:
        return Breaking(self.zones, self.study, self.voltages, self.mains_faults)

    @cached_property
    def drops(self) -> Drops:
        return Drops(self.cleared, self.study, self.voltages)

    @cached_property
    def mains(self) -> Mains:
        return Mains(self.cleared)

    @cached_property
    def mains_faults(self) -> MainsFaults:
        return MainsFaults(self.cleared, self.mains.sources)

    @cached_property
    def carrying(self) -> Carrying:
        return Carrying(self.cleared)

    @cached_property
    def facts(self) -> tuple[Fact, ...]:
        """Every fact, in the order the checks ran."""
        return (*self.poles, *self.domains, *self.measured, *self.sources, *self.protection, *self.loops)

    def of(self, rule: str) -> tuple[Fact, ...]:
        """The facts that the rule of this name words."""
        return tuple(fact for fact in self.facts if fact.rule == rule)


@lru_cache(maxsize=4)
def survey(system: System) -> Survey:
    """The survey of a system, made once."""
    return Survey(system)
