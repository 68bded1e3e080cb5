"""What the second implementation says of a system, by family, beside what the product says."""

from __future__ import annotations

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.model import System
from tests.independent import domains, mains, measured, poles
from tests.independent.excuses import Excuses
from tests.independent.zones import Zones

FAMILIES = {
    "poles": {"short-circuit", "reversed-polarity", "missing-return", "unfed-node"},
    "domains": {"wrong-domain", "uncontrolled-source"},
    "measured": {"unmeasured-return", "shunt-in-feed"},
    "shunts": {"shunt-backwards"},
    "sources": {"two-ac-sources"},
    "zones": {"missing-protection", "protection-too-large", "unfused-sense-lead", "unfused-strings"},
}
ORDER = ("poles", "domains", "measured", "sources", "zones")  # blamed lines are out of the graph for what follows


def alarms(system: System, family: str, without: frozenset[str] = frozenset()) -> list:
    """What the family's own reading of the definitions finds, some circuits left out."""
    match family:
        case "poles":
            return poles.mixed(system, without)
        case "domains":
            return sorted(map(sorted, domains.clashes(system, without)))
        case "measured":
            return sorted(measured.unmeasured(system, without))
        case "sources":
            return sorted(map(sorted, mains.meeting(system, without)))
        case "shunts":
            return sorted(measured.backwards(system, without))
    return Excuses(Zones(system, without)).unexcused()


def blamed(survey: Survey, family: str) -> list[str]:
    """The circuits that the product blames, in its order."""
    cables = survey.start.cables
    found = facts(survey, family)
    return list(
        dict.fromkeys(cables[fact.cables[0]].circuit for fact in found if fact.rule in FAMILIES[family] and fact.cables)
    )


def disagreements(system: System) -> list[str]:
    """Where the two differ: an alarm that the product does not explain, or a blame without an alarm."""
    survey, found, out = Survey(system), [], frozenset()
    for family in ORDER:
        lines = blamed(survey, family)
        out |= frozenset(lines)
        left = alarms(system, family, out)
        if left and not named(survey, family):
            found.append(f"{family}: the product leaves {left[:3]} unexplained (blamed: {lines})")
        for line in lines:
            if not alarms(system, family, out - {line}) and family != "poles":
                found.append(f"{family}: nothing is wrong with {line} alone")
    backwards = {fact.nodes[0] for fact in survey.measured if fact.rule == "shunt-backwards"}
    own = set(alarms(system, "shunts", frozenset(blamed(survey, "poles") + blamed(survey, "domains"))))
    if own != backwards:
        found.append(f"shunts: {sorted(own)} against the product's {sorted(backwards)}")
    return found


def named(survey: Survey, family: str) -> bool:
    """Whether the product blames a node of this family, which takes no line out."""
    return any(fact.rule in FAMILIES[family] and not fact.cables for fact in facts(survey, family))


def facts(survey: Survey, family: str) -> tuple:
    return survey.protection if family == "zones" else getattr(survey, family)
