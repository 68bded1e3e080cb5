"""Direct current inside a node: the voltages its ports claim, the terminals that are one."""

from __future__ import annotations

from functools import lru_cache

from diagrammer.kinds.kind import Claim, Field, Inner, Values, word

COMMON = Field(
    "common", word("negative", "one", "positive", "none"), default="negative",
    says="which terminals of its dc ports are joined inside: negative, one (a single stud), positive, none (isolated)",
)


@lru_cache(maxsize=256)  # many nodes claim the same
def claim(port: str, value: object, role: str, factor: float = 1.0) -> tuple[Claim, ...]:
    """One claim from a nominal voltage [V] or a window of them; none where it is not known."""
    if value is None:
        return ()
    low, high = value if isinstance(value, tuple) else (value, value)
    return (Claim(port, low * factor, high * factor, role, stated=low != high),)


def _pole(values: Values) -> str:
    how = values.get("common") or "negative"
    return {"negative": "-", "one": "-", "positive": "+", "none": ""}[how]


def joined(values: Values, *ports: str) -> tuple[Inner, ...]:
    """What joins the other dc `ports` to the main one, by the field `common`."""
    pole = _pole(values)
    return tuple(Inner(f"{port}.{pole}", pole, "common") for port in ports if pole)


def switched(values: Values, port: str) -> tuple[Inner, ...]:
    """A dc port fed from the main one through a switch, its other pole straight from the main port's:
    unlike what a converter joins, that is a way back, so both are contacts."""
    kept, opened = ("+", "-") if _pole(values) == "+" else ("-", "+")
    return Inner(f"{port}.{kept}", kept, "contact"), Inner(opened, f"{port}.{opened}", "contact")
