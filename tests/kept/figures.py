"""What is computed of a system, a line for each thing it is computed of; four digits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from diagrammer.circuit.arrays import arrays
from diagrammer.circuit.breaking import breaks, stands
from diagrammer.circuit.charging import charging
from diagrammer.circuit.energy import households
from diagrammer.circuit.sides import Side
from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey


LEAST = 1e-6  # what is less comes of rounding


def number(value: float | None) -> str:
    return "-" if value is None else f"{value if abs(value) >= LEAST else 0:.4g}"


def names(found: Iterable[str]) -> str:
    return ", ".join(found) or "-"


def figures(survey: Survey) -> Iterator[str]:
    """Lines without an end."""
    for part in (volts, conductors, devices, drops, banks, modules, mains):
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
                yield (f"net of {terminal}: {number(known.nominal(terminal))} V, "
                       f"at most {number(known.highest(terminal))} V; short circuit [A] {' '.join(short)}")


def conductors(survey: Survey) -> Iterator[str]:
    for wire in survey.cleared.system.conductors:
        limit = survey.carrying.limit(wire, survey.voltages.of_line(wire.circuit))
        most = survey.loading.conductor(wire)
        a, b = survey.sides.of(next(key for key, data in survey.cleared.edges.items() if data["value"] is wire))
        when, usual = most.when if most.amps >= LEAST else "", survey.loading.usual(wire.id)
        yield (f"{wire.id}: {number(most.amps)} A {when or '-'}, usual {number(usual.amps)} A, "
               f"bears {number(limit.ampacity.amps) if limit else '-'} A; {side(a)} | {side(b)}")


def side(one: Side) -> str:
    """What stands on one side of a conductor, "-" where nothing does."""
    fields = (("short circuit", one.short_circuit), ("unlimited", one.unlimited), ("main", one.main),
              ("limited", one.limited), ("raw", one.raw), ("takers", one.takers))
    return names(f"{word} {number(value)}" for word, value in fields if abs(value) >= LEAST)


def modules(survey: Survey) -> Iterator[str]:
    site = survey.system.site
    for one in arrays(survey.cleared):
        yield (f"array of {one.port}: {number(one.open_voltage(site.coldest))} V open, "
               f"{number(one.power_voltage(site.hottest))} V at full power, {number(one.short_circuit())} A, "
               f"{number(one.power)} W")


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
        yield (f"bank of {names(store.names)}: {number(store.capacity)} Ah, {number(store.nominal)} V, "
               f"charged by {names(charges)}")
    for one in households(view):
        yield f"household of {names(one.names)}: {number(one.use)} Wh a day of {number(one.capacity)} Wh"


def mains(survey: Survey) -> Iterator[str]:
    for one in survey.mains.neutrals():
        bonds = names(f"{node} {cable}".strip() for node, cable in one.bonds)
        at = names(f"{node} {position}" for node, position in one.positions)
        yield f"neutral of {names(source.node for source in one.sources)}: bonded {bonds}; {at}"
