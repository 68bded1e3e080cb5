"""The terminals of a kind follow from its fields."""

from __future__ import annotations

import pytest

from diagrammer.kinds import KINDS
from diagrammer.kinds.kind import Values


def terminals(kind: str, **fields) -> list[str]:
    of = Values({name.replace("_", " "): value for name, value in fields.items()})
    return [local for port in KINDS[kind].ports(of) for local in port.terminals()]


@pytest.mark.parametrize(("kind", "fields", "expected"), [
    ("bank", {}, "+ -"),
    ("solar charger", {}, "+ - pv.+ pv.- sense.+ sense.- earth"),
    ("solar charger", {"load_output": 10.0}, "+ - pv.+ pv.- load.+ load.- sense.+ sense.- earth"),
    ("dc charger", {}, "+ - in.+ in.- enable sense earth"),
    ("dc charger", {"max_pv_voltage": 50.0}, "+ - in.+ in.- pv.+ pv.- enable sense earth"),
    ("ac charger", {"outputs": 3}, "+ - in.L in.N 2 3 sense.+ sense.- earth"),
    ("wind", {}, "+ - earth"),
    ("wind", {"phases": "3"}, "L1 L2 L3 earth"),
    ("wind charger", {"phases": "3"}, "+ - in.L1 in.L2 in.L3 dump.+ dump.- earth"),
    ("panel", {}, "+ -"),
    ("panel", {"pair": "return-bar"}, "+"),
    ("joint", {"phases": "2+N"}, "L1 L2 N earth"),
    ("terminals", {"pins": 3}, "1 2 3"),
    ("transformer", {}, "out.L out.N in.L in.N in.earth earth"),
    ("transformer", {"earth": "through"}, "out.L out.N in.L in.N earth"),
    ("inverter charger", {"inputs": 2}, "+ - out.L out.N in.L in.N in2.L in2.N sense.+ sense.- earth"),
    ("fuse", {"poles": 2}, "1 2 3 4"),
    ("rcd", {}, "1 2 3 4"),
    ("switch", {"contacts": 3}, "1 2 3 4 5 6"),
    ("relay", {}, "1 2 coil.+ coil.-"),
    ("isolator", {}, "1 2 ground"),
    ("shunt", {}, "battery system sense midpoint"),
    ("selector", {}, "common 1 2"),
    ("selector", {"positions": {"off": (), "on": (("house", "out"), ("start", "crank"))}}, "house out start crank"),
    ("transfer", {}, "common.L common.N 1.L 1.N 2.L 2.N earth"),
    ("ac load", {"earth": False}, "L N"),
    ("other", {"ports": {"main": "dc", "middle": "lead", "line": "ac"}}, "+ - middle line.L line.N earth"),
])
def test_terminals(kind, fields, expected):
    assert terminals(kind, **fields) == expected.split()
