"""How far away a device may stand behind a conductor that needs none: from where a smaller one begins.

33 CFR 183.455(b) and ABYC E-11 11.10.1.1.1, in a sheath: 1.016 m (40 in) from a tap, 1.829 m (72 in) from a battery.
"""

from __future__ import annotations

import pytest

from tests.circuit.cases import marks
from tests.circuit.test_protection_exempt import CRANK, LEAD, case


def tap(start: str, metres: float) -> str:
    return f"tap: {start} -> fuse 10 A -> lamp, {{hops: [14 AWG {metres} m, 1 m], in: conduit}}"


@pytest.mark.parametrize(("lines", "in_time"), [
    ((CRANK, tap("motor", 1.016)), True), ((CRANK, tap("motor", 1.018)), False),
    ((CRANK, tap("start", 1.829)), True), ((CRANK, tap("start", 1.831)), False),
    # a bank bolted to the motor is a post there, but what comes over the cranking cable is none
    ((CRANK, "house: house/motor", tap("motor", 1.016)), True),
    ((CRANK, "house: house/motor", tap("motor", 1.018)), False),
    # what the alternator sends over the cranking cable makes no tap of the post
    ((CRANK, "alt: alt -> motor, " + LEAD, tap("start", 1.829)), True),
])
def test_a_tap_of_the_cranking_cable(lines, in_time):
    found = [mark for mark in marks(case(*lines)) if mark.startswith("missing-protection")]
    assert found == ([] if in_time else ["missing-protection@tap:f0"])
