"""The ports of a node: where conductors land."""

from __future__ import annotations

from functools import cache

from diagrammer.frozen import frozen

LINES = {"1": ("L",), "2": ("L1", "L2"), "2+N": ("L1", "L2"), "3": ("L1", "L2", "L3"), "3+N": ("L1", "L2", "L3")}
WITH_NEUTRAL = ("1", "2+N", "3+N")


@frozen
class Port:
    """A place of a node where conductors land.

    form: "dc" (a + and a -), "plus", "minus" (one lead), "single" (one terminal of either side),
    "contact" (one end of a path through the node), "ac" (the `lines`, N if `neutral`).
    The port called "main" adds nothing to the terminal's name. All ac ports of a node share its
    terminal "earth", but for one that has an `earth` of its own.
    """

    name: str
    form: str
    lines: tuple[str, ...] = ()
    neutral: bool = True
    earth: bool = False

    def terminals(self) -> tuple[str, ...]:
        """Local names: "+", "pv.-", "sense", "out.L", "" for the terminal of a bar."""
        prefix = "" if self.name == "main" else self.name
        if self.form in ("plus", "minus") and not prefix:
            return ("+",) if self.form == "plus" else ("-",)
        if self.form in ("plus", "minus", "single", "contact"):
            return (prefix,)
        dot = f"{prefix}." if prefix else ""
        return tuple(f"{dot}{pole}" for pole in (("+", "-") if self.form == "dc" else self.cores()))

    def cores(self) -> tuple[str, ...]:
        """What an ac port has of its own: lines, N, earth."""
        return (*self.lines, *(["N"] if self.neutral else []), *(["earth"] if self.earth else []))


@cache
def dc(name: str) -> Port:
    return Port(name, "dc")


@cache
def plus(name: str) -> Port:
    return Port(name, "plus")


@cache
def minus(name: str) -> Port:
    return Port(name, "minus")


@cache
def single(name: str) -> Port:
    return Port(name, "single")


@cache
def contact(name: str) -> Port:
    return Port(name, "contact")


@cache
def ac(name: str, phases: str = "1", earth: bool = False) -> Port:
    return Port(name, "ac", LINES[phases], phases in WITH_NEUTRAL, earth)


EARTH = Port("earth", "single")
