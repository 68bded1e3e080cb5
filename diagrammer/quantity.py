"""Numbers with units as the trade writes them: the only parser of them.

Inside the program a quantity is a float in the unit of its dimension, and a conductor size is a
Size: the label keeps the system it was written in, the area comes from electrics.conductor.
"""

from __future__ import annotations

import re

from diagrammer.frozen import frozen


class Unreadable(ValueError):
    """A text that is no quantity of the dimension asked for; the message is for the writer."""


# dimension: (its unit, {spelling: factor to that unit}). The first spelling is the usual one.
DIMENSIONS: dict[str, tuple[str, dict[str, float]]] = {
    "voltage": ("V", {"V": 1, "mV": 1e-3, "kV": 1e3}),
    "current": ("A", {"A": 1, "mA": 1e-3, "kA": 1e3}),
    "power": ("W", {"W": 1, "kW": 1e3, "VA": 1, "kVA": 1e3, "mW": 1e-3, "hp": 745.6998715822702}),
    "charge": ("Ah", {"Ah": 1, "mAh": 1e-3, "kAh": 1e3}),
    "energy": ("Wh", {"Wh": 1, "kWh": 1e3}),
    "resistance": ("Ω", {"Ω": 1, "ohm": 1, "mΩ": 1e-3, "mohm": 1e-3, "kΩ": 1e3, "kohm": 1e3, "µΩ": 1e-6}),
    "length": ("m", {"m": 1, "ft": 0.3048, "in": 0.0254, "cm": 1e-2, "mm": 1e-3, "km": 1e3}),
    "duration": ("h", {"h": 1, "min": 1 / 60, "days": 24, "day": 24, "d": 24, "s": 1 / 3600}),
    "temperature": ("°C", {"°C": 1, "degC": 1, "°F": 5 / 9, "degF": 5 / 9, "K": 1}),
    "share": ("%", {"%": 1}),
    "drift": ("%/°C", {"%/°C": 1, "%/K": 1, "%/degC": 1}),
    "voltage drift": ("V/°C", {"V/°C": 1, "mV/°C": 1e-3, "V/K": 1, "mV/K": 1e-3}),
    "frequency": ("Hz", {"Hz": 1}),
    "duty": ("share of the hour", {"min/h": 1 / 60, "s/min": 1 / 60, "h/day": 1 / 24}),
}

OFFSETS = {"°F": -32.0, "degF": -32.0, "K": -273.15}  # temperature: added before the factor


@frozen
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


@frozen
class Measure:
    """A quantity as read: `value` in the unit of its dimension."""

    value: float
    dimension: str


LONGEST = 40  # characters of a quantity
_UNITS = {unit: (dimension, factor) for dimension, (_, units) in DIMENSIONS.items() for unit, factor in units.items()}
ALIKE = {"\u2126": "Ω", "\u03bc": "µ", "\u2212": "-", "º": "°"}  # signs that look like those of units
_SAME = str.maketrans(ALIKE)
_NUMBER = re.compile(r"[+-]?(?:[0-9]{1,15}(?:\.[0-9]{1,15})?|\.[0-9]{1,15})")
_FRACTION = re.compile(r"(?:([0-9]{1,3})\s+)?([0-9]{1,3})/([1-9][0-9]{0,2})")
_FEET = re.compile(r"([0-9]{1,4})\s*ft\s+(.+in)")
_SIZE = re.compile(r"(?:([1-4])/0|([0-9]{1,4}(?:\.[0-9]{1,3})?))\s*(AWG|mm²|mm2|kcmil)?")


def _split(text: str) -> tuple[float, str]:
    """Number and unit of a text."""
    fraction = _FRACTION.match(text)
    if fraction:
        whole, top, bottom = fraction.groups()
        return int(whole or 0) + int(top) / int(bottom), text[fraction.end() :].strip()
    number = _NUMBER.match(text)
    if not number:
        raise Unreadable(f"`{text}` does not begin with a number")
    return float(number.group()), text[number.end() :].strip()


def measure(text: str, *dimensions: str) -> Measure:
    """Read a quantity of one of the `dimensions`.

    Raises Unreadable, with a message for the writer, where it is none.
    """
    text = text.strip().translate(_SAME)
    if len(text) > LONGEST:
        raise Unreadable(f"`{text[:LONGEST]} ...` is no quantity")
    feet = _FEET.fullmatch(text)
    if feet and "length" in dimensions:
        return Measure(int(feet[1]) * 0.3048 + measure(feet[2], "length").value, "length")
    value, unit = _split(text)
    if unit not in _UNITS:
        raise Unreadable(_no_unit(text, unit, dimensions))
    dimension, factor = _UNITS[unit]
    if dimension not in dimensions:
        raise Unreadable(f"`{text}` is {_a(dimension)}; {_wanted(dimensions)}")
    return Measure((value + OFFSETS.get(unit, 0.0)) * factor, dimension)


def _no_unit(text: str, unit: str, dimensions: tuple[str, ...]) -> str:
    if not unit:
        return f"`{text}` has no unit; {_wanted(dimensions)}"
    if unit.startswith(","):
        return f"`{text}`: a number has a decimal point and no thousands mark"
    twin = next((known for known in _UNITS if known.casefold() == unit.casefold()), "")
    return f"`{unit}` is no unit" + (f" (did you mean `{twin}`?)" if twin else f"; {_wanted(dimensions)}")


def _a(name: str) -> str:
    return f"an {name}" if name[0] in "aeiou" else f"a {name}"


def _wanted(dimensions: tuple[str, ...]) -> str:
    if len(dimensions) == 1:
        return f"{_a(dimensions[0])} is wanted here, in {', '.join(list(DIMENSIONS[dimensions[0]][1])[:3])}"
    names = [f"{_a(dimension)} ({DIMENSIONS[dimension][0]})" for dimension in dimensions]
    return f"{', '.join(names[:-1])} or {names[-1]} is wanted here"


def size(text: str) -> Size:
    """Read a conductor size: `4/0 AWG`, `2/0`, `70 mm²`, `70 mm2`, `250 kcmil`.

    Raises Unreadable.
    """
    found = _SIZE.fullmatch(text.strip())
    if not found or not (found[1] or found[3]):
        raise Unreadable(f"`{text[:LONGEST]}` is no conductor size; write `10 AWG`, `2/0 AWG`, `6 mm²` or `250 kcmil`")
    if found[1]:
        if found[3] not in (None, "AWG"):
            raise Unreadable(f"`{text}`: only AWG sizes are written with `/0`")
        return awg(1 - int(found[1]))
    number, system = float(found[2]), found[3].replace("mm2", "mm²")
    if system == "AWG" and (number != int(number) or number > 40):
        raise Unreadable(f"`{text}`: AWG sizes are whole numbers from 40 to 1, then 1/0 to 4/0")
    if number <= 0 and system != "AWG":
        raise Unreadable(f"`{text}`: a conductor has some area")
    return Size(system, number if system != "AWG" or number else 0)


_PREFIXED = ("V", "A", "W", "Ω", "Wh")


def show(value: float, unit: str, digits: int = 3) -> str:
    """A value for reading, three significant digits: 12.5 A, 1.2 kA, 30 mA, 0.178 m."""
    prefix, factor = "", 1.0
    rounded = abs(float(f"{value:.{digits}g}"))
    if unit in _PREFIXED and rounded >= 1000:
        prefix, factor = "k", 1e3
    elif unit in _PREFIXED and 0 < rounded < 0.1:
        prefix, factor = "m", 1e-3
    value /= factor
    decimals = max(0, digits - len(str(int(abs(value))))) if abs(value) >= 1 else digits
    shown = f"{value:.{decimals}f}"
    return f"{shown.rstrip('0').rstrip('.') if '.' in shown else shown} {prefix}{unit}"
