"""Banks of several batteries: in parallel, in series, on a selector, apart."""

from __future__ import annotations

from tests.systems.bank import always_on, battery, conductor, main_line, meters, sense
from tests.systems.draft import Draft, fuse, trail
from tests.systems.model import Run
from tests.systems.practice import SENSE, step


def bars(draft: Draft, rating: float) -> tuple[str, str]:
    returns = draft.node("bank", "bank-return", "bar", "spine", rating=f"{step(rating):g} A")
    feeds = draft.node("bank", "bank-feed", "bar", "bank bar", rating=f"{step(rating):g} A", pair="return-bar")
    return feeds, returns


def three(draft: Draft, main: float) -> None:
    parallel(draft, main, 3)


def parallel(draft: Draft, main: float, count: int = 2) -> None:
    """Two or three with a fuse each, on bars of their own."""
    each = step(max(main / count, 60))
    feeds, returns = bars(draft, count * each)
    others = (count - 1) * each + draft.backfeed
    for n in range(count):
        name = battery(draft, f"bank-{n + 1}", 1 / count, draft.volts)
        size, wires = draft.pick(max(each, others), each, 0.6, 0.01 * draft.volts)
        lead = trail(name, None, fuse(each, "class-t", "20 kA"), Run(size, 0.6, wires), feeds)
        draft.circuit("bank", f"lead-{n + 1}", "feed", lead, trail(name, Run(size, 0.6, wires), returns), part="lead")
    shunts = meters(draft, count * each)
    main_line(draft, "main", feeds, returns, count * each, False, shunts)
    sense(draft, feeds, shunts[0])
    if draft.chance(0.3):
        always_on(draft, feeds)


def linked(draft: Draft, main: float) -> None:
    """Two joined post to post, of less than 500 Ah together; feed taken from one, return from the other."""
    first, second = (battery(draft, f"bank-{n}", 0.5, draft.volts, most=240) for n in (1, 2))
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
    if len(names) == 2 and wires < 4 and draft.chance(0.4):  # a post takes four terminals
        lead = trail(names[0], None, fuse(1), Run(SENSE[draft.practice], 0.5), f"{shunts[0]}.midpoint")
        draft.circuit("bank", f"{shunts[0]}-midpoint", "feed", lead, part="sense")


def strings(draft: Draft, main: float) -> None:
    """Two strings of two batteries, a fuse on top of each."""
    each = step(max(main / 2, 60))
    feeds, returns = bars(draft, 2 * each)
    size, wires = draft.pick(each + draft.backfeed, each, 1, 0.01 * draft.volts)
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
        draft.circuit(
            "bank", f"lead-{n + 1}", "feed", lead, trail(name, Run(size, 1, wires), returns), part="selector lead"
        )
    shunts = meters(draft, 2 * main)
    size, wires = conductor(draft, 2 * main, 2 * main, 0.8)
    back: list[object] = [returns]
    for shunt in shunts:
        back += [Run(size, 0.3, wires), shunt]
    back += [Run(size, 0.3, wires), "return-bar"]
    draft.circuit(
        "bank", "main", "feed", trail(node, Run(size, 0.6, wires), "feed-bar"), trail(*back), part="selected main"
    )


def apart(draft: Draft, main: float) -> None:
    """Two banks, each with its own fuse, switch and shunt."""
    draft.through.append(main)
    for n in (1, 2):
        name = battery(draft, f"bank-{n}", 1, draft.volts)
        shunts = [draft.node("bank", f"meter-{n}", "shunt", "shunt", rating=f"{step(max(main, 100)):g} A")]
        main_line(draft, f"main-{n}", name, name, main, True, shunts)
        sense(draft, name, shunts[0])
    draft.through.pop()
