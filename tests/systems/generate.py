"""Sound systems, made from a seed: everything a part needs is decided before the part that feeds it."""

from __future__ import annotations

from random import Random

from tests.systems import bank, bars, bonds, engine, extras, mains, panels, solar, wind
from tests.systems.draft import Draft
from tests.systems.model import Model
from tests.systems.render import render

TITLES = ("Travelling library", "Bird hut", "River barge", "Repair van", "Hill cabin", "Harbour ketch", "Field kitchen",
          "Bee keeper's wagon", "Survey launch", "Night market stall")


def draft(seed: int, size: int) -> Draft:
    rng = Random(f"system {seed} {size}")
    practice = rng.choice(("abyc", "nec", "iso"))
    volts = rng.choice((12, 12, 24, 24, 48) if size <= 60 else (12, 24, 24, 48, 48))
    return Draft(rng, size, practice, volts, coldest=rng.choice((-15, -5, 0, 8)), hottest=rng.choice((28, 30, 35, 40)), tight=rng.random() < 0.4,
                 vehicle=rng.choice(("van", "boat", "cabin")), chemistry=rng.choice(("lifepo4", "lifepo4", "agm", "flooded")))


def build(seed: int, size: int = 30) -> Model:
    """A sound system of about `size` declared nodes (5 and more)."""
    made = draft(seed, max(size, 5))
    shape = made.rng.choice(bank.forms(made) or ["single"])
    grounded = made.size >= 10 and made.chance(0.5)
    reserve = 2 + bank.COST[shape] + 2 * grounded
    bars.main_bars(made)
    for part in optional(made, reserve):
        part(made)
    for part, cost in extras.MENU:
        if made.left - reserve > cost and made.chance(0.15):
            part(made)
    loads(made, reserve - 2)
    bars.finish(made)
    bank.build(made, shape)
    if grounded:
        bonds.earth(made)
    return made.model(f"{made.rng.choice(TITLES)}, {made.volts} V, {seed}")


def optional(made: Draft, reserve: int) -> list:
    """Parts in random order while there is room for them."""
    menu = [(engine.side, 7), (solar.array, 2), (solar.array, 2), (mains.side, 5), (wind.mill, 2), (bars.ring, 4), (bars.second, 2)]
    made.rng.shuffle(menu)
    room, parts = made.size - reserve - 4, []
    for part, cost in menu:
        if cost <= room and made.chance(0.6):
            parts.append(part)
            room -= cost
    order = [bars.ring, bars.second, engine.side, solar.array, wind.mill, mains.side]
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
