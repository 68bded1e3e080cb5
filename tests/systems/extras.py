"""Rarer shapes of the language, one function each: (draft) -> None. MENU gives each its cost in nodes."""

from __future__ import annotations

from tests.systems import wirings
from tests.systems.ac import cable, cut, rated
from tests.systems.draft import Draft, fuse, switch, trail
from tests.systems.engine import on_post
from tests.systems.model import NONE, Run
from tests.systems.practice import SENSE, step
from tests.systems.solar import DRIFT, VOC, WATTS, line


def bow(draft: Draft) -> None:
    """A battery of its own for a thruster, charged through a dc charger; its returns stay on its own bar."""
    volts = draft.volts
    unit = draft.node(
        "engine",
        "bow-charger",
        "dc charger",
        "dc charger",
        voltage=f"{volts} V",
        output="20 A",
        input_voltage=f"{volts} V",
    )
    battery = draft.node(
        "engine",
        "bow-battery",
        "battery",
        "bow battery",
        chemistry="agm",
        voltage=f"{volts} V",
        capacity="120 Ah",
        short_circuit="3 kA",
        max_charge="40 A",
        max_discharge="600 A",
    )
    bar = draft.node("engine", "bow-return-bar", "bar", "bow return", rating="600 A")
    load = draft.node(
        "engine", "thruster", "load", "thruster", voltage=f"{volts} V", power=f"{150 * volts} W", duty="motor"
    )
    for name, path, amps in (
        (f"{unit}-in", ["feed-bar", None, fuse(40, "class-t", "20 kA"), 1.5, f"{unit}.in"], 40),
        (f"{unit}-out", [unit, 3.0, fuse(30, "class-t", "20 kA"), None, battery], 30),
    ):
        metres = next(p for p in path if isinstance(p, float))
        size, wires = draft.pick(amps, 0.7 * amps, metres, 0.02 * volts)
        steps = [Run(size, metres, wires) if isinstance(p, float) else p for p in path]
        draft.circuit("engine", name, "feed", trail(*steps), part="bow charger")
    size, wires = draft.pick(300, 220, 1.5, 0.02 * volts)
    feed = trail(
        battery,
        None,
        fuse(300, "class-t", "20 kA"),
        Run(size, 0.4, wires),
        switch(300, "battery"),
        Run(size, 0.8, wires),
        load,
    )
    back = trail(battery, Run(size, 0.4, wires), bar, Run(size, 0.8, wires), load)
    draft.circuit("engine", load, "feed", feed, back, part="thruster")
    draft.take("feed-bar", 28)


def held_mill(draft: Draft) -> None:
    """A turbine straight on the bar, a dump controller beside it."""
    volts = draft.volts
    mill = draft.node(
        "wind", "turbine", "wind", "held wind", power="200 W", voltage=f"{volts} V", output=f"{240 / volts:g} A"
    )
    unit = draft.node("wind", "dump-control", "dump controller", "dump controller", rating="40 A")
    heater = draft.node("wind", "dump-heater", "load", "dump load", voltage=f"{volts} V", power="250 W", duty="heat")
    amps = step(1.3 * 240 / volts)
    size, wires = draft.pick(amps, amps, 4, 0.03 * volts)
    path = trail(
        mill,
        Run(size, draft.length(2, 4), wires),
        switch(amps),
        Run(size, 0.3, wires),
        fuse(amps, "class-t", "20 kA"),
        None,
        "feed-bar",
    )
    draft.circuit("wind", f"{mill}-line", "feed", path, part="held wind line")
    size, wires = draft.pick(40, 40, 2, 0.02 * volts)
    draft.circuit(
        "wind",
        unit,
        "feed",
        trail("feed-bar", None, fuse(40, "class-t", "20 kA"), Run(size, 0.8, wires), unit),
        part="dump line",
    )
    draft.circuit("wind", heater, "feed", trail(f"{unit}.dump", Run(size, 1.2, wires), heater), part="dump load line")
    draft.charge += 240 / volts
    draft.take("feed-bar", draft.amps(250))


def grid_sun(draft: Draft) -> None:
    """A pv inverter on the panel behind an inverter charger."""
    panel = next((c.path.items[-1].node for c in draft.circuits["ac"] if c.part == "combi output"), None)
    if panel is None or any(c.part == "source line" for c in draft.circuits["mains"]):
        return  # it would send back through the sources' box
    cold = 6 * VOC * (1 + DRIFT * (draft.coldest - 25))
    unit = draft.node(
        "ac", "roof-inverter", "pv inverter", "pv inverter", power="1200 W", max_pv_voltage=f"{step(1.2 * cold):g} V"
    )
    roof = draft.node(
        "solar",
        "roof-ac",
        "pv",
        "pv ac",
        power=f"{WATTS} W",
        voc=f"{VOC} V",
        vmp="20.4 V",
        isc="10.2 A",
        imp="9.6 A",
        voc_drift="-0.28 %/°C",
        series="6",
    )
    line(draft, roof, unit, 6, 1)
    amps = rated(draft, 14)
    draft.circuit(
        "ac",
        f"{unit}-out",
        "ac",
        trail(unit, cable(draft, amps, 3), cut(draft, amps), None, panel),
        part="pv inverter output",
    )


def charger_senses(draft: Draft) -> None:
    """A solar charger's own sense leads, both poles."""
    sun = next((n.name for n in draft.nodes["solar"] if n.kind == "solar charger"), None)
    if sun:
        lead = trail("feed-bar", None, fuse(1), Run(SENSE[draft.practice], draft.length(0.5, 1.5)), f"{sun}.sense")
        draft.circuit("solar", f"{sun}-sense", "feed", lead, part="sense")


def driven(draft: Draft) -> None:
    """A three-phase motor on a drive."""
    volts = draft.volts
    unit = draft.node("ac", "hoist-drive", "drive", "drive", power=f"{20 * volts} W", voltage=f"{volts} V")
    motor = draft.node(
        "ac", "hoist", "other", "motor", ports="{main: ac}", letter="M", phases="3", power=f"{20 * volts} W"
    )
    size, wires = draft.pick(40, 28, 1.5, 0.02 * volts)
    draft.circuit(
        "ac",
        unit,
        "feed",
        trail("feed-bar", None, fuse(40, "class-t", "20 kA"), Run(size, 1, wires), unit),
        part="drive feed",
    )
    draft.circuit("ac", motor, "ac", trail(f"{unit}.motor", Run(size, 2), motor), part="motor line")
    draft.take("feed-bar", 24)


def second_output(draft: Draft) -> None:
    draft.later.append(lambda: keep_starter(draft))


def keep_starter(draft: Draft) -> None:
    """The mains charger's second output keeps the starter battery; their negatives are joined already."""
    chargers = [n for n in draft.nodes["ac"] if n.kind == "ac charger"]
    starter = [n for n in draft.nodes["engine"] if n.part == "starter battery"]
    joined = any(
        c.part in ("isolator", "engine bond", "diode") or c.part == "emergency" and c.back is not NONE
        for c in draft.circuits["engine"]
    )
    if not (chargers and starter and joined and f"{draft.volts} V" == starter[0].fields["voltage"]):
        return
    if on_post(draft, starter[0].name) > 3:
        return
    chargers[0].fields["outputs"] = "2"
    amps = step(1.25 * float(chargers[0].fields["output"].split()[0]))
    size, wires = draft.pick(amps, amps, 2, 0.02 * draft.volts)
    path = trail(
        f"{chargers[0].name}.2",
        Run(size, draft.length(1, 2), wires),
        fuse(amps, "class-t", "20 kA"),
        None,
        starter[0].name,
    )
    draft.circuit("ac", f"{chargers[0].name}-2", "feed", path, NONE, part="second output")


MENU = (
    (bow, 4),
    (held_mill, 3),
    (grid_sun, 2),
    (charger_senses, 0),
    (wirings.dimmed, 2),
    (wirings.shared_key, 3),
    (wirings.strip, 3),
    (wirings.pump_of_two, 1),
    (wirings.hot_box, 2),
    (driven, 2),
    (second_output, 0),
)
