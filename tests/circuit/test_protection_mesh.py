"""A block with more than one way round: what is reported first, and what its devices let through together."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from diagrammer.circuit.protection_flow import NOTHING, Flow
from diagrammer.circuit.protection_judge import Judge
from diagrammer.circuit.protection_mesh import Mesh
from diagrammer.circuit.protection_web import Piece

THIN = SimpleNamespace(one=30.0, several=30.0, ampacity=SimpleNamespace(amps=30.0))


def piece(text: str) -> Piece:
    """`a-b thin`, `a-b thick`, `a-b diode` or `a-b` and the rating of a device [A], `?` for one to be chosen."""
    ends, what = text.split()
    a, b = ends.split("-")
    if what in ("thin", "thick"):
        return Piece(a + b, "conductor", a, b, wire=SimpleNamespace(a=a, b=b, limit=THIN if what == "thin" else None))
    if what == "diode":
        return Piece(a + b, "diode", a, b, node=a + b)
    return Piece(f"{a}{b}{what}", "overcurrent", a, b, node=a + b, rating=None if what == "?" else float(what))


def mesh(text: str, amps: float = 100.0) -> Mesh:
    """The block of these pieces, a source that limits itself at s."""
    pieces = [piece(one) for one in text.split(", ")]
    points = list(dict.fromkeys(point for one in pieces for point in (one.a, one.b)))
    lengths = SimpleNamespace(of=lambda wire: (1.0, ""), sheathed=lambda wire: False)
    judge = Judge(SimpleNamespace(volts=12.0, points={point: point for point in points}),
                  SimpleNamespace(limit=lambda wire, volts: wire.limit),
                  SimpleNamespace(in_time=lambda *given: False, lengths=lengths), {})
    return Mesh(judge, points, pieces, [("s", Flow(limited=amps))])


@pytest.mark.parametrize(("text", "reported"), [
    ("s-a thin, a-b thin, b-s thin", {("sa", "s"), ("bs", "s")}),
    ("s-a thick, a-d thin, d-q thin", {("ad", "a")}),
    ("d-s diode, s-a thick, a-d thin, d-q thin", {("ad", "a")}),  # nothing comes to d over the diode
])
def test_what_stands_nearest_the_source_is_reported_and_spares_what_lies_behind(text, reported):
    assert set(mesh(text).held) == reported


def test_what_comes_past_a_reported_conductor_is_held_where_it_comes_in():
    """In a ring of thin wires the two at the source are reported: what they let by comes from each on its own side."""
    flows = mesh("s-a thin, a-b thin, b-s thin").flows
    for end in (("ab", "a"), ("ab", "b"), ("sa", "a"), ("bs", "b")):
        assert flows[end] == Flow(held=100.0), end


def test_a_reported_conductor_feeds_the_device_behind_it():
    assert mesh("s-a thin, a-z 20").flow("z") == Flow(devices=20.0, largest=20.0)


def test_what_comes_past_a_reported_conductor_is_not_counted_with_the_devices_again():
    assert mesh("s-a thin, a-z thick, s-z 10").flow("z") == Flow(devices=10.0, largest=10.0, held=100.0)


@pytest.mark.parametrize(("text", "devices", "largest"), [
    ("s-z 10, s-z 20", 30.0, 20.0), ("s-z 10, s-z ?", 10.0, 10.0), ("s-z 0.5", 0.5, 0.5), ("s-z 80, s-z 90", 100.0, 90.0),
    ("s-z 5, t-z 6, s-t 40", 11.0, 6.0),  # one that stands elsewhere is none of them
    ("s-a 10, a-d diode, d-z 10, s-b thick, b-c thick, c-d thick, a-e thick, e-f thick, f-z 11", 20.0, 11.0),
])
def test_devices_let_through_the_maximum_flow_and_the_largest_alone(text, devices, largest):
    assert mesh(text).flow("z") == Flow(devices=devices, largest=largest)


def test_no_source_gives_nothing():
    assert mesh("s-z 10, s-a thick", amps=0.0).flow("z") is NOTHING
