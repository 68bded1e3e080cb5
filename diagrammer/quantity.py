"""Numbers with units as the trade writes them: the only parser of them.

Inside the program a quantity is a float in the unit of its dimension, and a conductor size is a
Size: the label keeps the system it was written in, the area comes from electrics.conductor.
"""

from __future__ import annotations

import re
from dataclasses import dataclass


class Unreadable(ValueError):
    """A text that is no quantity of the dimension asked for; the message is for the writer."""


# dimension: (its unit, {spelling: factor to that unit}). The first spelling is the usual one.
DIMENSIONS: dict[str, tuple[str, dict[str, float]]] = {
    "voltage": ("V", {"V": 1, "mV": 1e-3, "kV": 1e3}),
    "current": ("A", {"A": 1, "mA": 1e-3, "kA": 1e3}),
    "power": ("W", {"W": 1, "kW": 1e3, "mW": 1e-3, "VA": 1, "kVA": 1e3, "hp": 745.6998715822702}),
    "charge": ("Ah", {"Ah": 1, "mAh": 1e-3, "kAh": 1e3}),
    "energy": ("Wh", {"Wh": 1, "kWh": 1e3}),
    "resistance": ("Ω", {"Ω": 1, "ohm": 1, "mΩ": 1e-3, "mohm": 1e-3, "kΩ": 1e3, "kohm": 1e3, "µΩ": 1e-6}),
    "length": ("m", {"m": 1, "mm": 1e-3, "cm": 1e-2, "ft": 0.3048, "in": 0.0254, "km": 1e3}),
    "duration": ("h", {"h": 1, "min": 1 / 60, "s": 1 / 3600, "days": 24, "day": 24, "d": 24}),
    "temperature": ("°C", {"°C": 1, "degC": 1, "°F": 5 / 9, "degF": 5 / 9, "K": 1}),
    "share": ("%", {"%": 1}),
    "drift": ("%/°C", {"%/°C": 1, "%/K": 1, "%/degC": 1}),
    "voltage drift": ("V/°C", {"V/°C": 1, "mV/°C": 1e-3, "V/K": 1, "mV/K": 1e-3}),
    "frequency": ("Hz", {"Hz": 1}),
    "duty": ("share of the hour", {"min/h": 1 / 60, "s/min": 1 / 60, "h/day": 1 / 24}),
}

OFFSETS = {"°F": -32.0, "degF": -32.0, "K": -273.15}  # temperature: added before the factor

NUMBER = r"[+-]?(?:\d+(?:\.\d+)?|\.\d+)"
_QUANTITY = re.compile(rf"({NUMBER})\s*(\D.*)?")
_SIZE = re.compile(r"(\d{1,2}|[1-4]/0|\d+(?:\.\d+)?)\s*(AWG|mm²|mm2|kcmil)")


@dataclass(frozen=True)
class Size:
    """A conductor size. system: "AWG" (number -3 for 4/0 ... 40), "mm²", "kcmil"."""

    system: str
    number: float

    @property
    def label(self) -> str:
        if self.system == "AWG":
            n = int(self.number)
            return f"{1 - n}/0 AWG" if n <= 0 else f"{n} AWG"
        return f"{self.number:g} {self.system}"


def awg(number: int) -> Size:
    return Size("AWG", number)


def mm2(number: float) -> Size:
    return Size("mm²", number)
