"""What is computed of a system, a line for each thing it is computed of; four digits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from diagrammer.circuit.breaking import breaks, stands
from diagrammer.circuit.charging import charging
from diagrammer.circuit.energy import households
from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey


def number(value: float | None) -> str:
    return "-" if value is None else f"{value:.4g}"


def names(found: Iterable[str]) -> str:
    return ", ".join(found) or "-"


def figures(survey: Survey) -> Iterator[str]:
    """Lines without an end."""
    for part in (volts, conductors, devices, drops, banks, mains):
        yield from part(survey)


def volts(survey: Survey) -> Iterator[str]:
    """The voltages of every net that has one, by its first terminal; short circuits there."""
    view, known, met = survey.cleared, survey.voltages, set()
    faults = survey.study.faults
    for terminal in view.system.terminals:
        if view.nets[terminal] not in met:
            met.add(view.nets[terminal])
            short = [number(found(terminal)) for found in (faults.largest, faults.of_batteries, faults.smallest)]
            if known.highest(terminal) or set(short) != {"-"}:
                yield (f"net of {terminal}: {number(known.nominal(terminal))} V, at most {number(known.highest(terminal))} V; "
                       f"short circuit [A] {' '.join(short)}")


def conductors(survey: Survey) -> Iterator[str]:
    for wire in survey.cleared.system.conductors:
        limit = survey.carrying.limit(wire, survey.voltages.of_line(wire.circuit))
        most = survey.loading.conductor(wire)
        a, b = survey.sides.of(next(key for key, data in survey.cleared.edges.items() if data["value"] is wire))
        yield (f"{wire.id}: {number(most.amps)} A {most.when or '-'}, usual {number(survey.loading.usual(wire.id).amps)} A, "
               f"bears {number(limit.ampacity.amps) if limit else '-'} A; gives {a.gives:d} {b.gives:d}")


def devices(survey: Survey) -> Iterator[str]:
    for way in survey.zones.ways:
        short, able = survey.breaking.prospective(way), breaks(way.node, survey.voltages.highest(way.a))
        rated = stands(way.node)
        yield (f"{way.node.name} {way.key}: {number(survey.loading.inside(way.key).amps)} A of {number(way.rating)} A; "
               f"breaks {number(able.value if able else None)} A of {number(short.amps if short else None)} A, "
               f"stands {number(rated.value if rated else None)} V, main {survey.breaking.main(way):d}, "
               f"limited by {survey.breaking.limited_by(way) or '-'}")


def drops(survey: Survey) -> Iterator[str]:
    for one in survey.drops.all.values():
        yield (f"{one.node}: loses {number(one.volts)} V of {number(one.base)} V in {number(one.length)} m, "
               f"allowed {number(one.share)}, {one.when}")


def banks(survey: Survey) -> Iterator[str]:
    view = survey.cleared
    for store in stores(view).all:
        charges = [f"{one.node.name} {number(one.into(store.nominal))} A" for one in charging(view).of(store)]
        yield f"bank of {names(store.names)}: {number(store.capacity)} Ah, {number(store.nominal)} V, charged by {names(charges)}"
    for one in households(view):
        yield f"household of {names(one.names)}: {number(one.use)} Wh a day of {number(one.capacity)} Wh"


def mains(survey: Survey) -> Iterator[str]:
    for one in survey.mains.neutrals():
        bonds = names(f"{node} {cable}".strip() for node, cable in one.bonds)
        at = names(f"{node} {position}" for node, position in one.positions)
        yield f"neutral of {names(source.node for source in one.sources)}: bonded {bonds}; {at}"
