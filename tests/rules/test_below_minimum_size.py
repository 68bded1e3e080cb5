"""The thinnest conductors of each practice."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "below-minimum-size"


@pytest.mark.parametrize(("practice", "wire", "count"), [
    ("abyc", "16 AWG 2 m", 0), ("abyc", "18 AWG 2 m", 1), ("abyc", "18 AWG 0.17 m", 0), ("abyc", "18 AWG 0.18 m", 1),
    ("abyc", "{size: 18 AWG, length: 2 m, in: sheath}", 0), ("abyc", "{size: 20 AWG, length: 2 m, in: sheath}", 1),
    ("iso", "1 mm² 2 m", 0), ("iso", "0.75 mm² 2 m", 1), ("iso", "0.75 mm² 0.2 m", 0),
    ("iso", "{size: 0.75 mm², length: 2 m, in: conduit}", 0),
    ("iso", "18 AWG 2 m", 1), ("nec", "14 AWG 2 m", 0), ("nec", "16 AWG 2 m", 1),
    ("nec", "{size: 12 AWG, length: 2 m, material: aluminium}", 0),  # NEC 310.3(A)
    ("nec", "{size: 14 AWG, length: 2 m, material: aluminium}", 1),
    ("abyc", "{size: 22 AWG, length: 2 m, material: aluminium}", 0),  # not-copper says it
])
def test_single_and_sheathed(practice, wire, count):
    text = van(f"{{feed: feed-bar/fuse 2 A -> lamp, wire: {wire}}}", practice=practice,
        nodes="  lamp: {kind: load, voltage: 12 V, power: 2 W}")
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize("lead", ["bank/fuse 1 A -> meter.sense", "feed-bar/fuse 1 A -> split.coil"])
def test_leads_that_sense_or_control_are_left_out(lead):
    text = van(f"{{feed: {lead}, wire: 22 AWG 1 m}}",
        "{feed: feed-bar/fuse 20 A -> split -> lamp, wire: [12 AWG 1 m, 1 m]}",
               nodes="  lamp: {kind: load, voltage: 12 V, power: 2 W}\n"
                     "  split: {kind: relay, rating: 30 A, coil: 12 V}")
    assert found(RULE, text) == ()


def test_ac_cores_lie_in_a_cable():
    nodes = "  quay: {kind: shore, rating: 16 A}\n  kettle: {kind: ac load, power: 500 W}"
    def text(size):
        return van(f"{{ac: quay -> breaker 2-pole 6 A -> kettle, wire: [{size} 0.5 m, 3 m]}}", practice="iso",
            nodes=nodes)
    assert found(RULE, text("1.5 mm²")) == ()
    assert len(found(RULE, text("1 mm²"))) == 1
