"""Sound systems, made from a seed: everything a part needs is decided before the part that feeds it."""

from __future__ import annotations

from random import Random

from tests.systems import bars, bonds, changeover, engine, extras, mains, panels, shapes, solar, wind
from tests.systems.draft import Draft
from tests.systems.model import Model
from tests.systems.practice import NoConductor
from tests.systems.render import render

TITLES = (
    "Travelling library",
    "Bird hut",
    "River barge",
    "Repair van",
    "Hill cabin",
    "Harbour ketch",
    "Field kitchen",
    "Bee keeper's wagon",
    "Survey launch",
    "Night market stall",
)


def draft(seed: int, size: int, attempt: int) -> Draft:
    rng = Random(f"system {seed} {size} {attempt}")
    chemistry = rng.choice(("lifepo4", "lifepo4", "agm", "flooded"))
    return Draft(
        rng,
        size,
        practice=rng.choice(("abyc", "nec", "iso")),
        volts=rng.choice((12, 12, 24, 24, 48) if size <= 60 else (12, 24, 24, 48, 48)),
        coldest=rng.choice((-15, -5, 0, 8)),
        hottest=rng.choice((28, 30, 35, 40)),
        tight=rng.random() < 0.4,
        vehicle=rng.choice(("van", "boat", "cabin")),
        chemistry=chemistry,
        exact=chemistry == "lifepo4" and rng.random() < 0.3,
        fault=rng.choice((2, 3, 4, 5)),
    )


def build(seed: int, size: int = 30) -> Model:
    """A sound system of about `size` declared nodes (5 and more)."""
    for attempt in range(20):
        try:
            return attempted(draft(seed, max(size, 5), attempt), seed)
        except NoConductor:  # more current than four conductors carry: another throw
            continue
    raise ValueError(f"no system of {size} nodes from seed {seed}")


def attempted(made: Draft, seed: int) -> Model:
    shape = made.rng.choice(shapes.fitting(made) or ["single"])
    grounded = made.size >= 10 and made.chance(0.5)
    reserve = 2 + shapes.cost(shape) + 2 * grounded
    bars.main_bars(made)
    for part in optional(made, reserve):
        part(made)
    for part, cost in extras.MENU:
        if made.left - reserve > cost and made.chance(0.15):
            part(made)
    loads(made, reserve - 2)
    for part in made.later:
        part()
    bars.finish(made)
    shapes.build(made, shape)
    if grounded:
        bonds.earth(made)
    return made.model(f"{made.rng.choice(TITLES)}, {made.volts} V, {seed}")


def ac_side(draft: Draft) -> None:
    forms = [mains.inverter_only, mains.shore_only]
    if draft.left > 12:
        forms += [changeover.combi, changeover.combi, changeover.transfer, mains.isolated] + (
            [mains.split] if draft.practice != "iso" else []
        )
    draft.rng.choice(forms)(draft)


def optional(made: Draft, reserve: int) -> list:
    """Parts in random order while there is room for them."""
    menu = [
        (engine.side, 7),
        (solar.array, 2),
        (solar.array, 2),
        (ac_side, 5),
        (wind.mill, 2),
        (bars.ring, 4),
        (bars.second, 2),
    ]
    made.rng.shuffle(menu)
    room, parts = made.size - reserve - 4, []
    for part, cost in menu:
        if cost <= room and made.chance(0.6):
            parts.append(part)
            room -= cost
    if not {engine.side, solar.array, wind.mill} & set(parts):  # a bank that nothing charges is not sound
        parts.append(solar.array)
        made.size += 2 * (room < 2)
    order = [bars.ring, bars.second, engine.side, solar.array, wind.mill, ac_side]
    return sorted(parts, key=order.index)


def loads(made: Draft, reserve: int) -> None:
    """Panels and converters until the size is reached; a small system hangs its loads on the bar."""
    while (room := made.left - reserve) > 0:
        if room < 4:
            watts, _ = panels.fill(made, "feed-bar", "return-bar", made.volts, room, False)
            made.take("feed-bar", made.amps(watts))
        else:
            nodes = min(room, made.rng.randint(4, 24))
            (panels.converter if made.chance(0.8 if made.volts == 48 else 0.3) else panels.panel)(made, nodes)


def generate(seed: int, size: int = 30) -> str:
    """Netlist text of a sound system: same seed and size, same text."""
    return render(build(seed, size))
