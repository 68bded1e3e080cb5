"""Rarer ways to wire a load."""

from __future__ import annotations

from tests.systems.draft import Draft, breaker, fuse, switch, trail
from tests.systems.loads import new_load, rating, sized
from tests.systems.model import Device, Run


def dimmed(draft: Draft) -> None:
    """A load behind a diode, another behind a resistor."""
    for device in (Device("diode", 20), Device("resistor", None, "20 mΩ 20 W")):
        load, watts = new_load(draft, draft.volts)
        amps = max(rating(draft, watts, draft.volts), 3)
        metres = draft.length(1, 3)
        size, wires = sized(draft, amps, 2 * metres, draft.volts)
        run = Run(size, metres, wires)
        draft.circuit("loads", load, "feed", trail("feed-bar", None, fuse(amps), run, device, run, load), part="dimmed")
        draft.take("feed-bar", draft.amps(watts))


def shared_key(draft: Draft) -> None:
    """One switch of two contacts in the lines of two loads."""
    key = draft.node("panels", "two-way-key", "switch", "key", rating="20 A", contacts="2")
    for entry in (key, f"{key}.3"):
        load, watts = new_load(draft, draft.volts)
        amps = rating(draft, watts, draft.volts)
        metres = draft.length(1, 3)
        size, wires = sized(draft, amps, 2 * metres, draft.volts)
        run = Run(size, metres, wires)
        draft.circuit("loads", load, "feed", trail("feed-bar", None, fuse(amps), run, entry, run, load), part="keyed")
        draft.take("feed-bar", draft.amps(watts))


def strip(draft: Draft) -> None:
    """Two lamps through the pins of a terminal strip, their returns through its other pins."""
    block = draft.node("panels", "strip", "terminals", "terminals", pins="4", rating="20 A")
    for n in (1, 2):
        load, watts = new_load(draft, draft.volts)
        amps = rating(draft, watts, draft.volts)
        metres = draft.length(1, 3)
        size, wires = sized(draft, amps, 2 * metres, draft.volts)
        run = Run(size, metres, wires)
        feed = trail("feed-bar", None, fuse(amps), run, f"{block}.{n}", run, load)
        draft.circuit(
            "loads", load, "feed", feed, trail("return-bar", run, f"{block}.{n + 2}", run, load), part="stripped"
        )
        draft.take("feed-bar", draft.amps(watts))


def pump_of_two(draft: Draft) -> None:
    """A pump with a float switch and a hand switch, each with its fuse; one return."""
    pump, watts = new_load(draft, draft.volts)
    amps = rating(draft, watts, draft.volts)
    metres = draft.length(1, 3)
    size, wires = sized(draft, amps, 2 * metres, draft.volts)
    run = Run(size, metres, wires)
    for n, word in enumerate(("float", "momentary")):
        path = trail("feed-bar", None, fuse(amps), run, switch(10, word), run, pump)
        draft.circuit("loads", f"{pump}-{word}" if n else pump, "feed", path, part="twice fed")
    draft.take("feed-bar", draft.amps(watts))


def hot_box(draft: Draft) -> None:
    """A load of several alike, and one stated by its current."""
    volts = draft.volts
    load = draft.node(
        "loads", "shelf-lights", "load", "several", voltage=f"{volts} V", power="4 W", count="3", duty="light"
    )
    other = draft.node("loads", "horn", "load", "by current", voltage=f"{volts} V", current="2 A", start="4 A")
    for name, amps in ((load, rating(draft, 12, volts)), (other, 5)):
        metres = draft.length(1, 3)
        size, wires = sized(draft, amps, metres, volts)
        draft.circuit(
            "loads", name, "feed", trail("feed-bar", None, breaker(amps), Run(size, metres, wires), name), part="alike"
        )
    draft.take("feed-bar", draft.amps(12) + 2.4)
