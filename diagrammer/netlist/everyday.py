"""What people call things, and the kinds that are meant: for the help of a message only."""

from __future__ import annotations

_LOADS = ("lamp", "light", "lights", "led", "pump", "fridge", "refrigerator", "freezer", "fan", "heater", "radio",
          "motor",
          "winch", "windlass", "thruster", "usb", "appliance", "consumer", "device", "stereo", "horn", "alarm",
          "toilet")
_CHARGERS = ("dc charger", "ac charger", "solar charger", "wind charger")

EVERYDAY: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(_LOADS, ("load", "ac load")),
    **dict.fromkeys(("busbar", "bus bar", "bus", "stud", "post", "rail"), ("bar",)),
    **dict.fromkeys(("solar panel", "solar", "module", "pv module", "pv array", "array", "solar array", "pv panel"),
                    ("pv",)),
    **dict.fromkeys(("charge controller", "solar controller", "mppt", "pwm", "regulator"), ("solar charger",)),
    **dict.fromkeys(("charger", "battery charger"), _CHARGERS),
    **dict.fromkeys(("fuse block", "fuse box", "fusebox", "fuse panel", "fuse holder", "distribution", "dc panel"),
                    ("panel",)),
    **dict.fromkeys(("breaker panel", "consumer unit", "distribution board", "ac distribution"), ("ac panel",)),
    **dict.fromkeys(("ground", "grounding"), ("earth", "chassis")),
    **dict.fromkeys(("frame", "body", "vehicle"), ("chassis",)),
    **dict.fromkeys(("monitor", "battery monitor", "meter"), ("shunt",)),
    **dict.fromkeys(("accumulator", "battery bank", "cell"), ("bank", "battery")),
    **dict.fromkeys(("inverter/charger", "inverter charger combi", "combi", "charger inverter"), ("inverter charger",)),
    **dict.fromkeys(("dc dc", "dc dc converter", "dc/dc", "step down", "step up", "buck", "boost"),
                    ("converter", "dc charger")),
    **dict.fromkeys(("dc dc charger", "b2b", "battery to battery"), ("dc charger",)),
    **dict.fromkeys(("shore power", "grid", "mains", "shore inlet"), ("shore",)),
    **dict.fromkeys(("genset", "generator set"), ("generator",)),
    **dict.fromkeys(("split charge relay", "vsr", "battery isolator", "split relay"), ("isolator",)),
    **dict.fromkeys(("battery switch", "disconnect", "main switch", "isolating switch"), ("switch", "selector")),
    **dict.fromkeys(("changeover", "changeover switch", "transfer switch"), ("transfer",)),
    **dict.fromkeys(("socket", "receptacle", "wall socket"), ("outlet",)),
    **dict.fromkeys(("gfci", "rccb", "residual current device"), ("rcd",)),
    **dict.fromkeys(("circuit breaker", "mcb"), ("breaker",)),
    **dict.fromkeys(("splice", "junction", "junction box", "connector"), ("joint",)),
    **dict.fromkeys(("terminal block", "terminal strip", "terminal"), ("terminals",)),
    **dict.fromkeys(("wind turbine", "turbine"), ("wind",)),
    **dict.fromkeys(("starter motor",), ("starter",)),
    **dict.fromkeys(("battery management system",), ("bms",)),
}
