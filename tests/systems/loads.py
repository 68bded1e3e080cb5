"""Loads and the ways they are wired to a panel or bar."""

from __future__ import annotations

from tests.systems.draft import Draft, breaker, fuse, switch, trail
from tests.systems.model import Device, Path, Run
from tests.systems.practice import step

CATALOGUE = (  # name, watts from, to
    ("fridge", 40, 60),
    ("water-pump", 40, 70),
    ("cabin-lights", 8, 24),
    ("reading-left", 3, 10),
    ("reading-right", 3, 10),
    ("roof-fan", 20, 45),
    ("usb-desk", 18, 36),
    ("usb-berth", 18, 36),
    ("router", 8, 18),
    ("radio", 15, 30),
    ("air-heater", 30, 60),
    ("shower-pump", 40, 60),
    ("outside-lights", 6, 20),
    ("camera", 2, 6),
    ("instruments", 5, 12),
    ("plotter", 15, 35),
    ("vhf", 25, 60),
    ("anchor-light", 2, 4),
    ("deck-light", 10, 24),
    ("stove-fan", 10, 30),
    ("till", 15, 30),
    ("scales", 3, 6),
    ("aerial", 4, 10),
    ("tank-gauge", 1, 3),
    ("toilet-pump", 60, 120),
    ("gas-locker-fan", 8, 20),
    ("chart-light", 2, 5),
    ("autopilot", 40, 90),
    ("speaker", 15, 40),
    ("step-light", 1, 4),
    ("mirror-light", 2, 6),
    ("hot-plate-fan", 8, 15),
    ("bunk-fan", 4, 12),
    ("door-motor", 40, 90),
    ("printer", 15, 40),
    ("weather-mast", 2, 6),
    ("tool-charger", 40, 70),
    ("heated-rail", 30, 60),
)
FORMS = ("fuse", "fuse", "breaker", "switched", "switched", "twin", "explicit", "plugged", "chain", "joint", "relay")


def small(draft: Draft) -> float:
    """The more loads, the smaller each, so that a bank of the voltage can feed them all."""
    return 1.0 if draft.size <= 120 else 120 / draft.size


def new_load(draft: Draft, volts: int, **more: str) -> tuple[str, float]:
    """A load node of the catalogue; its name and watts."""
    name, low, high = draft.rng.choice(CATALOGUE)
    watts = max(1, round(draft.rng.uniform(low, high) * small(draft)))
    wide = volts in (12, 24) and draft.chance(0.1)
    voltage = "9 .. 33 V" if wide else f"{volts} V"
    node = draft.node("loads", name, "load", "load", voltage=voltage, power=f"{watts} W", **more)
    return node, watts


def rating(draft: Draft, watts: float, volts: int) -> float:
    return step(max(1.35 * watts / volts, draft.rng.choice((2, 3, 5, 5, 7.5))))


def sized(draft: Draft, device: float, metres: float, volts: int, share: float = 0.025) -> tuple[str, int]:
    """A branch conductor: the drop is reckoned at 0.8 of the device's rating."""
    return draft.pick(device, 0.8 * device, metres, share * volts, alone=True)


def branch(draft: Draft, at: str, back: str, volts: int, room: int, section: str = "loads") -> float:
    """One circuit from `at` (a panel, bar or way; returns land on `back`); gives the watts it takes."""
    form = draft.rng.choice(FORMS)
    if form in ("chain", "joint", "relay") and room < 4:
        form = "fuse"
    return WAYS.get(form, plain)(draft, at, back, volts, form, section)


def plain(draft: Draft, at: str, back: str, volts: int, form: str, section: str) -> float:
    load, watts = new_load(draft, volts)
    amps = rating(draft, watts, volts)
    metres = draft.length(1, 6)
    size, parallel = sized(draft, amps, metres, volts)
    run = Run(size, metres, parallel)
    near = Run(size, draft.length(0.5, metres - 0.3), parallel)
    rest = Run(size, round(metres - near.length, 2), parallel)
    written = None
    match form:
        case "switched":
            word = draft.rng.choice(("", "", "pressure", "float", "momentary", "thermostat", "door"))
            path = trail(at, None, fuse(amps), near, switch(max(amps, 10), word), rest, load)
        case "twin":
            path = trail(at, None, breaker(amps, "2-pole"), run, load)
        case "plugged":
            path = trail(at, None, breaker(amps), near, Device("plug", max(amps, 5)), rest, load)
        case "explicit":
            path = trail(at, None, fuse(amps), run, load)
            written = trail(back, Run(size, metres, parallel), load)
        case _:
            path = trail(at, None, (breaker if form == "breaker" else fuse)(amps), run, load)
    draft.circuit(section, load, "feed", path, written, part="load")
    return watts


def chain(draft: Draft, at: str, back: str, volts: int, form: str, section: str) -> float:
    """Two or three loads from one to the next, one fuse."""
    loads = [new_load(draft, volts) for _ in range(draft.rng.choice((2, 2, 3)))]
    watts = sum(w for _, w in loads)
    amps = rating(draft, watts, volts)
    metres = [draft.length(1, 3) for _ in loads]
    size, parallel = sized(draft, amps, sum(metres), volts)
    steps: list[object] = [at, None, fuse(amps)]
    for (load, _), length in zip(loads, metres, strict=True):
        steps += [Run(size, length, parallel), load]
    draft.circuit(section, loads[0][0], "feed", trail(*steps), part="chain")
    return watts


def joint(draft: Draft, at: str, back: str, volts: int, form: str, section: str) -> float:
    """A fused line to a joint, from there to two loads; the returns meet in a joint of their own."""
    first, second = new_load(draft, volts), new_load(draft, volts)
    watts = first[1] + second[1]
    amps = rating(draft, watts, volts)
    size, parallel = sized(draft, amps, 6, volts)
    returns = draft.node("panels", "tee-return", "joint")
    tee = draft.node("panels", "tee", "joint", pair=returns)
    draft.circuit(
        section, tee, "feed", trail(at, None, fuse(amps), Run(size, draft.length(1, 3), parallel), tee), part="tee"
    )
    for load, _ in (first, second):
        draft.circuit(section, load, "feed", trail(tee, Run(size, draft.length(0.5, 3), parallel), load), part="tap")
    return watts


def relay(draft: Draft, at: str, back: str, volts: int, form: str, section: str) -> float:
    """A load switched by a relay, its coil by a switch on the same panel."""
    load, watts = new_load(draft, volts)
    amps = rating(draft, watts, volts)
    metres = draft.length(1, 4)
    size, parallel = sized(draft, amps, 2 * metres, volts)
    contact = draft.node("panels", f"{load}-relay", "relay", rating=f"{max(30, amps):g} A", coil=f"{volts} V")
    run = Run(size, metres, parallel)
    draft.circuit(section, load, "feed", trail(at, None, fuse(amps), run, contact, run, load), part="relayed")
    thin, _ = sized(draft, 3, 3, volts)
    coil = trail(
        at,
        None,
        fuse(3),
        Run(thin, 1.5),
        switch(5, draft.rng.choice(("", "key", "foot"))),
        Run(thin, 1.5),
        f"{contact}.coil",
    )
    draft.circuit(section, contact, "feed", coil, part="coil")
    return watts


WAYS = {"chain": chain, "joint": joint, "relay": relay}
__all__ = ["Path", "branch", "new_load", "rating", "sized"]
