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


@pytest.mark.parametrize(("wire", "said"), [
    ("18 AWG 2 m", "16 AWG, the least by abyc on its own"),
    ("{size: 20 AWG, length: 2 m, in: sheath}", "18 AWG, the least by abyc in a sheath")])
def test_says_what_is_the_least_there(wire, said):
    text = van(f"{{feed: feed-bar/fuse 2 A -> lamp, wire: {wire}}}", nodes="  lamp: {kind: load, voltage: 12 V, power: 2 W}")
    (one,) = found(RULE, text)
    assert one.message.endswith(f"is thinner than {said}")


@pytest.mark.parametrize("lead", [
    "feed: bank/fuse 1 A -> meter.sense", "feed: meter.sense -> fuse 1 A/bank", "feed: feed-bar/fuse 1 A -> split.coil",
    "feed: feed-bar/fuse 1 A -> guard.supply", "return: return-bar -> both.ground"])
def test_leads_that_sense_or_control_are_left_out(lead):
    text = van(f"{{{lead}, wire: 22 AWG 1 m}}",
        "{feed: feed-bar/fuse 20 A -> split -> lamp, wire: [12 AWG 1 m, 1 m]}",
               nodes="  lamp: {kind: load, voltage: 12 V, power: 2 W}\n"
                     "  split: {kind: relay, rating: 30 A, coil: 12 V}\n"
                     "  guard: {kind: bms, rating: 100 A}\n  both: {kind: isolator, rating: 100 A}")
    assert found(RULE, text) == ()


def test_a_lead_that_ends_at_a_load_is_none_that_controls():
    """The feed goes on to a coil, the return of the lamp on the way does not."""
    text = van("{feed: feed-bar/fuse 1 A -> lamp -> split.coil, wire: [22 AWG 1 m, 1 m]}",
               nodes="  lamp: {kind: load, voltage: 12 V, power: 2 W}\n  split: {kind: relay, rating: 30 A, coil: 12 V}")
    assert [one.nodes for one in found(RULE, text)] == [("return-bar", "lamp")]


@pytest.mark.parametrize("line", [
    "{bond: return-bar -> hull, wire: 22 AWG 1 m}",  # of bonds other clauses hold
    "{feed: feed-bar/fuse 2 A -> lamp, wire: 2 m}"])
def test_bonds_and_unknown_sizes_are_not_judged(line):
    nodes = "  hull: {kind: hull}\n  lamp: {kind: load, voltage: 12 V, power: 2 W}"
    assert found(RULE, van(line, nodes=nodes)) == ()


def test_once_a_size_of_a_circuit():
    """Two sizes of one line that are too thin, the return in one of them, and the line of another load."""
    text = van("{feed: feed-bar/fuse 2 A -> switch 5 A -> lamp, return: return-bar -> lamp, "
               "wire: {feed: [18 AWG 0.4 m, 20 AWG 1 m], return: 20 AWG 2 m}}",
               "{feed: feed-bar/fuse 2 A -> bell, wire: 18 AWG 1 m}",
               nodes="  lamp: {kind: load, voltage: 12 V, power: 2 W}\n  bell: {kind: load, voltage: 12 V, power: 2 W}")
    assert [one.conductors for one in found(RULE, text)] == [
        ("feed-bar to lamp:f0",), ("feed-bar to lamp:f1",), ("feed-bar to bell:f0",)]


def test_ac_cores_lie_in_a_cable():
    nodes = "  quay: {kind: shore, rating: 16 A}\n  kettle: {kind: ac load, power: 500 W}"
    def text(size):
        return van(f"{{ac: quay -> breaker 2-pole 6 A -> kettle, wire: [{size} 0.5 m, 3 m]}}", practice="iso",
            nodes=nodes)
    assert found(RULE, text("1.5 mm²")) == ()
    assert len(found(RULE, text("1 mm²"))) == 1
    earth = van("{ac: quay/breaker 2-pole 6 A -> kettle, wire: {size: 1.5 mm², length: 3 m, earth: 1 mm²}}",
                practice="iso", nodes=nodes)
    assert found(RULE, earth) == ()  # its earth is no live conductor
