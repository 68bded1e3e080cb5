"""Arrays with their controllers: one to three strings, a fuse each where there are three."""

from __future__ import annotations

from tests.systems.draft import Draft, breaker, fuse, switch, trail
from tests.systems.model import Run
from tests.systems.practice import step

ISC, IMP, VOC, VMP, DRIFT = 10.2, 9.6, 24.6, 20.4, -0.0028  # an invented 200 W module
WATTS = 195
LANDS = {12: 1, 24: 2, 48: 4}  # modules in series that charge the bank on a hot day


def array(draft: Draft) -> None:
    series = LANDS[draft.volts] + draft.rng.choice((0, 1)) if draft.volts > 12 else draft.rng.choice((2, 3))
    strings = draft.rng.choice((1, 1, 2, 2, 3)) if draft.left > 20 else draft.rng.choice((1, 2))
    cold = series * VOC * (1 + DRIFT * (draft.coldest - 25))
    limit = next(v for v in (60, 75, 100, 150, 250) if v > 1.1 * cold)
    watts = series * strings * WATTS
    output = step(1.05 * watts / (0.95 * draft.volts))
    kind = "mppt"
    if draft.volts == 12 and draft.chance(0.2):
        kind, series, limit = "pwm", 1, 60
        output = step(1.3 * ISC * strings)
    modules = {
        "power": f"{WATTS} W",
        "voc": f"{VOC} V",
        "vmp": f"{VMP} V",
        "isc": f"{ISC} A",
        "imp": f"{IMP} A",
        "voc_drift": "-0.28 %/°C",
        "series": str(series),
    }
    sun = draft.node(
        "solar",
        "sun",
        "solar charger",
        "solar charger",
        type=kind,
        max_pv_voltage=f"{limit} V",
        max_pv_current=f"{step(1.6 * ISC * strings):g} A",
        output=f"{output:g} A",
    )
    if strings < 3:
        roof = draft.node("solar", "roof", "pv", "pv", **modules, **({"parallel": str(strings)} if strings > 1 else {}))
        line(draft, roof, sun, series, strings)
    elif draft.chance(0.5):
        roof = draft.node("solar", "roof", "pv", "strings", **modules, parallel="3", string_fuse="20 A")
        line(draft, roof, sun, series, strings)
    else:
        combiner(draft, sun, modules, series, strings)
    output_line(draft, sun, "feed-bar", output)
    draft.charge += output


def line(draft: Draft, start: str, sun: str, series: int, strings: int) -> None:
    """Through an isolator to the controller: rated for 1.56 Isc a string (NEC 690.8)."""
    amps = step(1.5625 * ISC * strings)
    metres = draft.length(2, 6)
    size, parallel = draft.pick(amps, 1.25 * ISC * strings, metres, 0.02 * series * VMP)
    device = breaker(amps, "2-pole dc", f"{600} V") if draft.chance(0.6) else switch(amps, "2-pole")
    path = trail(start, Run(size, metres, parallel), device, Run(size, 0.4, parallel), f"{sun}.pv")
    draft.circuit("solar", f"{start}-line", "feed", path, part="pv line")


def combiner(draft: Draft, sun: str, modules: dict[str, str], series: int, strings: int) -> None:
    returns = draft.node("solar", "combiner-return", "bar", "combiner return", rating="100 A")
    bar = draft.node("solar", "combiner", "bar", "combiner", rating="100 A", pair=returns)
    for _ in range(strings):
        roof = draft.node("solar", "string", "pv", "string", **modules)
        metres = draft.length(2, 5)
        size, parallel = draft.pick(3 * 20, 1.25 * ISC, metres, 0.02 * series * VMP)
        path = trail(roof, Run(size, metres, parallel), fuse(20, "gpv", "1000 V"), None, bar)
        draft.circuit("solar", f"{roof}-line", "feed", path, part="string line")
    line(draft, bar, sun, series, strings)


def output_line(draft: Draft, unit: str, bar: str, output: float) -> None:
    """A charger to its bar, the device at the bar's end: from there the bank feeds a fault."""
    amps = step(1.25 * output)
    metres = draft.length(0.5, 2)
    size, parallel = draft.pick(amps, amps, metres, 0.015 * draft.volts)
    device = fuse(amps, "class-t", "20 kA") if draft.chance(0.5) else breaker(amps)
    steps: list[object] = [unit, Run(size, metres, parallel), device]
    steps += [None, bar] if draft.chance(0.7) else [Run(size, 0.15, parallel), bar]
    back = None
    if draft.left > 10 and draft.chance(0.15):  # a shunt that measures this charger alone
        meter = draft.node(
            "solar", f"{unit}-meter", "shunt", "branch shunt", rating=f"{step(max(amps, 100)):g} A", measures=unit
        )
        back = trail("return-bar", Run(size, 0.3, parallel), meter, Run(size, metres, parallel), unit)
    draft.circuit("solar", f"{unit}-out", "feed", trail(*steps), back, part="charger line")
