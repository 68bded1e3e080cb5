"""The house bank with its main line: one battery, several in parallel or in series, a selector, shunts."""

from __future__ import annotations

from tests.systems.draft import Draft, fuse, switch, trail
from tests.systems.model import Path, Run
from tests.systems.practice import SENSE, step

COST = {"single": 2, "parallel": 5, "linked": 3, "series": 3, "strings": 7, "selector": 5, "apart": 4}


def forms(draft: Draft) -> list[str]:
    """Shapes of bank that the size has room for (nodes beside the two bars)."""
    room = draft.size - 4
    return [form for form, cost in COST.items() if cost <= room and not (form in ("series", "strings") and draft.volts == 12)]


def build(draft: Draft, form: str) -> None:
    """The last part made: everything that hangs on the bars is known."""
    main = step(max(1.25 * draft.demand, 1.25 * draft.charge, 60))
    FORMS[form](draft, main)


def battery(draft: Draft, name: str, share: float, volts: int, kind: str = "bank", **more: str) -> str:
    """share: of the whole demand and charge that this battery carries."""
    demand, charge = draft.demand * share, draft.charge * share
    capacity = 20 * max(2, round(max(demand / 16, charge / 12, 4)))
    cold = {"cold_cutoff": "yes"} if draft.chemistry == "lifepo4" and draft.coldest < 6 else {}
    nominal = 12.8 * volts / 12 if draft.chemistry == "lifepo4" and draft.chance(0.3) else volts
    return draft.node(
        "bank", name, kind, "bank", chemistry=draft.chemistry, voltage=f"{nominal:g} V", capacity=f"{capacity} Ah",
        max_charge=f"{step(1.1 * charge + 10):g} A", max_discharge=f"{step(1.25 * demand + 20):g} A",
        short_circuit=f"{draft.rng.choice((2, 3, 4, 5))} kA", **cold, **more,
    )


def meters(draft: Draft, amps: float, prefix: str = "meter") -> list[str]:
    """One shunt, sometimes two in series."""
    count = 2 if draft.left > 4 and draft.chance(0.15) else 1
    return [draft.node("bank", prefix, "shunt", "shunt", rating=f"{step(max(amps, 100)):g} A") for _ in range(count)]


def conductor(draft: Draft, device: float, amps: float, metres: float) -> tuple[str, int]:
    """A main conductor also carries what other batteries and the chargers can send back."""
    return draft.pick(max(device, draft.backfeed), amps, metres, 0.008 * draft.volts)


def main_line(draft: Draft, name: str, start: str, minus: str, amps: float, fused: bool, shunts: list[str],
              alone: bool = True) -> None:
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
    path = trail(name, None, fuse(main, "class-t", "20 kA"), run(), switch(step(main), "battery"), run(), shunt, run(), "feed-bar")
    draft.circuit("bank", "main", "feed", path, trail(name, run(), "return-bar"), part="main in feed")


def always_on(draft: Draft, post: str) -> None:
    """An alarm ahead of the main switch, its fuse on the post; returns land beyond the shunt."""
    alarm = draft.node("bank", "smoke-alarm", "load", "alarm", voltage=f"{draft.volts} V", power="2 W", always_on="yes")
    thin, _ = draft.pick(3, 3, 5, 0.03 * draft.volts)
    draft.circuit("bank", alarm, "feed", trail(post, None, fuse(3, "", "20 kA"), Run(thin, draft.length(1, 5)), alarm), part="alarm")
    draft.demand += 1


def bars(draft: Draft, rating: float) -> tuple[str, str]:
    returns = draft.node("bank", "bank-return", "bar", "spine", rating=f"{step(rating):g} A")
    feeds = draft.node("bank", "bank-feed", "bar", "bank bar", rating=f"{step(rating):g} A", pair="return-bar")
    return feeds, returns


def parallel(draft: Draft, main: float) -> None:
    """Two or three with a fuse each, on bars of their own."""
    count = draft.rng.choice((2, 2, 3)) if draft.left > 8 else 2
    each = step(max(main / count, 60))
    feeds, returns = bars(draft, count * each)
    others = (count - 1) * each + draft.backfeed
    for n in range(count):
        name = battery(draft, f"bank-{n + 1}", 1 / count, draft.volts)
        size, wires = draft.pick(max(each, others), each, 0.6, 0.006 * draft.volts)
        lead = trail(name, None, fuse(each, "class-t", "20 kA"), Run(size, 0.6, wires), feeds)
        draft.circuit("bank", f"lead-{n + 1}", "feed", lead, trail(name, Run(size, 0.6, wires), returns), part="lead")
    shunts = meters(draft, count * each)
    main_line(draft, "main", feeds, returns, count * each, False, shunts)
    sense(draft, feeds, shunts[0])
    if draft.chance(0.3):
        always_on(draft, feeds)


def linked(draft: Draft, main: float) -> None:
    """Two joined post to post; feed taken from one, return from the other."""
    first, second = (battery(draft, f"bank-{n}", 0.5, draft.volts) for n in (1, 2))
    shunts = meters(draft, main)
    size, wires = conductor(draft, main, main, 0.3)
    def link() -> Run:
        return Run(size, 0.15, wires)
    draft.circuit("bank", "link", "feed", trail(first, link(), second), trail(first, link(), second), part="link")
    main_line(draft, "main", first, second, main, True, shunts, alone=False)
    sense(draft, first, shunts[0])


def series(draft: Draft, main: float) -> None:
    """Batteries of 12 V (or 24 V) upwards to the bank's voltage."""
    each = 12 if draft.volts == 24 or draft.chance(0.5) and draft.left > 6 else 24
    names = [battery(draft, f"b{n + 1}", 1, each, "battery") for n in range(draft.volts // each)]
    size, wires = conductor(draft, main, main, 0.5)
    links: list[object] = [names[0]]
    for name in names[1:]:
        links += [Run(size, 0.15, wires), name]
    draft.circuit("bank", "stack", "series", trail(*links), part="stack")
    shunts = meters(draft, main)
    main_line(draft, "main", names[-1], names[0], main, True, shunts, alone=False)
    sense(draft, names[-1], shunts[0])
    if len(names) == 2 and draft.chance(0.4):
        lead = trail(names[0], None, fuse(1), Run(SENSE[draft.practice], 0.5), f"{shunts[0]}.midpoint")
        draft.circuit("bank", f"{shunts[0]}-midpoint", "feed", lead, part="sense")


def strings(draft: Draft, main: float) -> None:
    """Two strings of two batteries, a fuse on top of each."""
    each = step(max(main / 2, 60))
    feeds, returns = bars(draft, 2 * each)
    size, wires = draft.pick(each + draft.backfeed, each, 1, 0.006 * draft.volts)
    for n in (1, 2):
        low, high = (battery(draft, f"b{n}{place}", 0.5, draft.volts // 2, "battery") for place in ("-low", "-high"))
        draft.circuit("bank", f"stack-{n}", "series", trail(low, Run(size, 0.15, wires), high), part="string")
        lead = trail(high, None, fuse(each, "class-t", "20 kA"), Run(size, 0.6, wires), feeds)
        draft.circuit("bank", f"lead-{n}", "feed", lead, trail(low, Run(size, 0.6, wires), returns), part="string lead")
    shunts = meters(draft, 2 * each)
    main_line(draft, "main", feeds, returns, 2 * each, False, shunts)
    sense(draft, feeds, shunts[0])


def selector(draft: Draft, main: float) -> None:
    """Two banks on a selector 1-2-both, their returns on one bar before the shunt."""
    node = draft.node("bank", "selector", "selector", "selector", rating=f"{step(2 * main):g} A")
    returns = draft.node("bank", "battery-returns", "bar", "spine", rating=f"{step(2 * main):g} A")
    for n, place in enumerate(("bank-port", "bank-starboard")):
        name = battery(draft, place, 1, draft.volts)
        size, wires = conductor(draft, main + draft.backfeed, main, 1)
        lead = trail(name, None, fuse(main, "class-t", "20 kA"), Run(size, 1, wires), f"{node}.{n + 1}")
        draft.circuit("bank", f"lead-{n + 1}", "feed", lead, trail(name, Run(size, 1, wires), returns), part="selector lead")
    shunts = meters(draft, 2 * main)
    size, wires = conductor(draft, 2 * main, 2 * main, 0.8)
    back: list[object] = [returns]
    for shunt in shunts:
        back += [Run(size, 0.3, wires), shunt]
    back += [Run(size, 0.3, wires), "return-bar"]
    draft.circuit("bank", "main", "feed", trail(node, Run(size, 0.6, wires), "feed-bar"), trail(*back), part="selected main")


def apart(draft: Draft, main: float) -> None:
    """Two banks, each with its own fuse, switch and shunt."""
    draft.through.append(main)
    for n in (1, 2):
        name = battery(draft, f"bank-{n}", 1, draft.volts)
        shunts = [draft.node("bank", f"meter-{n}", "shunt", "shunt", rating=f"{step(max(main, 100)):g} A")]
        main_line(draft, f"main-{n}", name, name, main, True, shunts)
        sense(draft, name, shunts[0])
    draft.through.pop()


def sense(draft: Draft, post: str, shunt: str) -> None:
    if not draft.chance(0.6):
        return
    lead = trail(post, None, fuse(1), Run(SENSE[draft.practice], draft.length(0.3, 1)), f"{shunt}.sense")
    draft.circuit("bank", f"{shunt}-sense", "feed", lead, part="sense")


FORMS = {"single": single, "parallel": parallel, "linked": linked, "series": series, "strings": strings, "selector": selector, "apart": apart}
__all__ = ["FORMS", "Path", "build", "forms"]
