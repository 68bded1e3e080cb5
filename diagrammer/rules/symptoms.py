"""What only suffers from a fault that another rule names: a rule about something that is missing says nothing of it."""

from __future__ import annotations

from functools import lru_cache

from diagrammer.circuit.survey import Survey


@lru_cache(maxsize=4)
def suffering(survey: Survey) -> frozenset[str]:
    """The nodes on lines whose poles, voltages or ac sources are wrong, and those that nothing reaches or that lead
    nowhere."""
    lines = survey.start.without((*survey.poles, *survey.domains, *survey.sources)).excused
    return lines.union(*(fact.nodes for fact in survey.loops))
