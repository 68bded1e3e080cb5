"""What only suffers from a fault that another rule names: rules about something that is missing, or about what a whole
bank does, say nothing of it."""

from __future__ import annotations

from functools import lru_cache

from diagrammer.circuit.paths import EVERYTHING, paths
from diagrammer.circuit.stores import Store
from diagrammer.circuit.survey import Survey
from diagrammer.netlist.model import Node


@lru_cache(maxsize=4)
def suffering(survey: Survey) -> frozenset[str]:
    """The nodes on lines whose poles, voltages or ac sources are wrong, and those that nothing reaches or that lead
    nowhere."""
    lines = survey.start.without((*survey.poles, *survey.domains, *survey.sources)).excused
    return lines.union(*(fact.nodes for fact in survey.loops))


def incomplete(survey: Survey, store: Store) -> bool:
    """Whether a battery, perhaps one of this bank, was taken off with a faulty line: its share is not to be judged."""
    return any(duty == store.first.node["duty"] for duty in _taken_off(survey))


@lru_cache(maxsize=4)
def _taken_off(survey: Survey) -> tuple[str, ...]:
    """The duty of each battery whose line, but for its fault, would land on it."""
    before, after = survey.start.graph, survey.cleared.graph
    if before is after:
        return ()
    return tuple(
        node["duty"] for node in survey.system.nodes.values() if node.kind.name in ("bank", "battery")
        and any(before.degree(post) and not after.degree(post) for post in (f"{node.name}.+", f"{node.name}.-"))
    )


def lone_alternators(survey: Survey) -> tuple[Node, ...]:
    """The alternators on whose net no battery stands: on the whole graph, as a battery whose line is at fault is one
    still."""
    view = survey.start
    batteries = [one.name for one in view.system.nodes.values() if one.kind.name in ("bank", "battery")]
    return tuple(
        node for node in view.system.nodes.values() if node.kind.name == "alternator"
        and node.name not in suffering(survey) and view.graph.degree(f"{node.name}.+")
        and not any(f"{one}.+" in paths(view).reach((f"{node.name}.+",), EVERYTHING) for one in batteries)
    )
