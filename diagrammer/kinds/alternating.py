"""Alternating current inside a node: phases, voltages, currents, the neutral's bond."""

from __future__ import annotations

from math import sqrt

from diagrammer.kinds.kind import LINES, VOLTAGE, Claim, Field, Inner, Values, ac, window, word

PHASES = Field("phases", word(*LINES), default="1", says="live lines, +N with a neutral: 1 (L N), 2, 2+N, 3, 3+N")
MAINS = Field(
    "voltage", VOLTAGE, least=1, most=1000,
    says="line to neutral (phases 2 and 3: line to line); unsaid 120 V with abyc and nec, 230 V with iso",
)
INPUT = Field(
    "input voltage", window("voltage"), least=1, most=1000,
    says="ac voltage or window it takes, line to neutral; unsaid 120 V with abyc and nec, 230 V with iso",
)
NOMINAL = (100.0, 110.0, 115.0, 120.0, 127.0, 200.0, 208.0, 220.0, 230.0, 240.0, 277.0, 400.0, 480.0)
# [V] supplies that a window is read as: IEC 60038 and older national values, from memory


def phases(values: Values) -> str:
    return str(values.get("phases") or "1")


def port(name: str, values: Values):
    """An ac port of the node's own phases."""
    return ac(name, phases(values))


def volts(base: float, wiring: str) -> tuple[float, ...]:
    """[V] the set of voltages between the cores: line to neutral, then line to line. Split phase
    stands in opposition (twice the voltage), three phases at 120 degrees (square root of 3)."""
    return {"2+N": (base, 2 * base), "3+N": (base, sqrt(3) * base)}.get(wiring, (base,))


def amps(power: float | None, base: float, wiring: str) -> float:
    """[A] in each line at the rated `power` [W], balanced; 0 where the power is not known."""
    share = {"1": 1, "2": 1, "2+N": 2, "3": sqrt(3), "3+N": 3}[wiring]
    return (power or 0.0) / (share * base)


def claim(name: str, values: Values, role: str, field: str = "voltage") -> tuple[Claim, ...]:
    """What an ac port stands at or takes, from a nominal voltage or a window of them."""
    value = values.get(field) or values.grid
    if isinstance(value, tuple) and value[0] != value[1]:
        taken = tuple(v for v in NOMINAL if value[0] <= v <= value[1])
        return (Claim(name, *value, role, stated=True, volts=taken),)
    base = value[0] if isinstance(value, tuple) else value
    known = volts(base, phases(values))
    return (Claim(name, min(known), max(known), role, volts=known),)


def neutral(*words: str, required: bool = False, default: str | None = None) -> Field:
    """The field that says how the neutral stands to earth."""
    meaning = {"bonded": "joined to earth here", "floating": "not joined here", "relay": "joined while it inverts"}
    says = "neutral to earth: " + ", ".join(f"{name} ({meaning[name]})" for name in words)
    return Field("neutral", word(*words), required=required, default=default, says=says)


def bond(values: Values, prefix: str = "", positions: tuple[str, ...] = ()) -> tuple[Inner, ...]:
    """The link from neutral to earth where the node has one and a neutral at all."""
    if not phases(values).endswith("N") and phases(values) != "1":
        return ()
    return (Inner(f"{prefix}N", "earth", "bond", positions),)
