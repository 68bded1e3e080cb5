"""The house bank with its main line: one battery, several in parallel or in series, a selector, shunts."""

from __future__ import annotations

from tests.systems.draft import Draft, fuse, switch, trail
from tests.systems.model import Run
from tests.systems.practice import SENSE, step


def battery(
    draft: Draft, name: str, share: float, volts: int, kind: str = "bank", most: int = 9999, **more: str
) -> str:
    """share: of the whole demand and charge that this battery carries."""
    demand, charge = draft.demand * share, draft.charge * share
    capacity = min(most, 20 * max(2, round(max(demand / 16, charge / 12, 4))))
    cold = {"cold_cutoff": "yes"} if draft.chemistry == "lifepo4" and draft.coldest < 6 else {}
    nominal = 12.8 * volts / 12 if draft.exact else volts
    return draft.node(
        "bank",
        name,
        kind,
        "bank",
        chemistry=draft.chemistry,
        voltage=f"{nominal:g} V",
        capacity=f"{capacity} Ah",
        max_charge=f"{step(1.1 * charge + 10):g} A",
        max_discharge=f"{step(1.25 * demand + 20):g} A",
        short_circuit=f"{max(draft.fault, min(9, 1 + round(demand / 40)))} kA",
        **cold,
        **more,
    )


def meters(draft: Draft, amps: float, prefix: str = "meter") -> list[str]:
    """One shunt, sometimes two in series."""
    count = 2 if draft.left > 4 and draft.chance(0.15) else 1
    return [draft.node("bank", prefix, "shunt", "shunt", rating=f"{step(max(amps, 100)):g} A") for _ in range(count)]


def conductor(draft: Draft, device: float, amps: float, metres: float) -> tuple[str, int]:
    """A main conductor also carries what other batteries and the chargers can send back."""
    return draft.pick(max(device, draft.backfeed), amps, metres, 0.015 * draft.volts)


def main_line(
    draft: Draft, name: str, start: str, minus: str, amps: float, fused: bool, shunts: list[str], alone: bool = True
) -> None:
    """start (fused on the post or fused before) - switch - feed bar; minus - shunts - return bar.

    The fuse may stand a hand's breadth from a battery that stands alone.
    """
    size, parallel = conductor(draft, amps, amps, 1.2)

    def run(low: float, high: float) -> Run:
        return Run(size, draft.length(low, high), parallel)

    steps: list[object] = [start]
    if fused:
        device = fuse(amps, "class-t", "20 kA")
        steps += [Run(size, 0.15, parallel) if alone and draft.chance(0.4) else None, device]
    steps += [run(0.2, 0.5), switch(step(amps), "battery"), run(0.1, 0.5), "feed-bar"]
    back: list[object] = [minus]
    for shunt in shunts:
        back += [run(0.1, 0.3), shunt]
    back += [run(0.1, 0.4), "return-bar"]
    draft.circuit("bank", name, "feed", trail(*steps), trail(*back), part="main")


def single(draft: Draft, main: float) -> None:
    awake = draft.chance(0.3) and draft.left > 2
    name = battery(draft, "bank", 1, draft.volts, pair="return-bar" if awake or draft.chance(0.3) else "")
    shunts = meters(draft, main)
    watch = draft.chance(0.3) and draft.left > 1
    if watch:
        shunts.insert(0, draft.node("bank", "cell-watch", "bms", "bms", rating=f"{step(1.3 * main):g} A"))
    if not watch and len(shunts) == 1 and draft.chance(0.1):
        in_feed(draft, name, main, shunts[0])
    else:
        main_line(draft, "main", name, name, main, True, shunts)
    sense(draft, name, shunts[-1])
    if awake:
        always_on(draft, name)


def in_feed(draft: Draft, name: str, main: float, shunt: str) -> None:
    """A shunt made for the feed, in the feed."""
    draft.nodes["bank"][-1].fields["side"] = "feed"
    size, wires = conductor(draft, main, main, 1.2)

    def run() -> Run:
        return Run(size, draft.length(0.2, 0.4), wires)

    path = trail(
        name,
        None,
        fuse(main, "class-t", "20 kA"),
        run(),
        switch(step(main), "battery"),
        run(),
        shunt,
        run(),
        "feed-bar",
    )
    draft.circuit("bank", "main", "feed", path, trail(name, run(), "return-bar"), part="main in feed")


def always_on(draft: Draft, post: str) -> None:
    """An alarm ahead of the main switch, its fuse on the post; returns land beyond the shunt."""
    alarm = draft.node("bank", "smoke-alarm", "load", "alarm", voltage=f"{draft.volts} V", power="2 W", always_on="yes")
    thin, _ = draft.pick(3, 3, 5, 0.03 * draft.volts)
    draft.circuit(
        "bank",
        alarm,
        "feed",
        trail(post, None, fuse(3, "", "20 kA"), Run(thin, draft.length(1, 5)), alarm),
        part="alarm",
    )
    draft.demand += 1


def sense(draft: Draft, post: str, shunt: str) -> None:
    if not draft.chance(0.6):
        return
    lead = trail(post, None, fuse(1), Run(SENSE[draft.practice], draft.length(0.3, 1)), f"{shunt}.sense")
    draft.circuit("bank", f"{shunt}-sense", "feed", lead, part="sense")
