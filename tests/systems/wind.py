"""A small wind generator with its controller."""

from __future__ import annotations

from tests.systems.draft import Draft, breaker, switch, trail
from tests.systems.model import Run
from tests.systems.practice import step
from tests.systems.solar import output_line


def mill(draft: Draft) -> None:
    watts = draft.rng.choice((150, 300, 400))
    output = step(1.3 * watts / draft.volts)
    three = draft.chance(0.5)
    phases = {"phases": "3"} if three else {}
    wind = draft.node(
        "wind",
        "mill",
        "wind",
        "wind",
        power=f"{watts} W",
        voltage=f"{draft.volts} V",
        open_voltage=f"{3 * draft.volts} V",
        output=f"{output:g} A",
        **phases,
    )
    unit = draft.node(
        "wind",
        "mill-control",
        "wind charger",
        "wind charger",
        output=f"{output:g} A",
        open_voltage=f"{4 * draft.volts} V",
        **phases,
    )
    amps = step(1.25 * output)
    metres = draft.length(3, 8)
    size, parallel = draft.pick(amps, output, metres, 0.03 * draft.volts)
    device = breaker(amps, "3-pole") if three else switch(amps, "2-pole")
    path = trail(wind, Run(size, metres, parallel), device, Run(size, 0.5, parallel), f"{unit}.in")
    draft.circuit("wind", f"{wind}-line", "ac" if three else "feed", path, part="wind line")
    output_line(draft, unit, "feed-bar", output)
    draft.charge += output
