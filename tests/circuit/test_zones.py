"""Zones between overcurrent devices: what is in them, what feeds them, which side the sources are on."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.zones import Zones
from tests.circuit.cases import system
from tests.circuit.test_protection_cases import house

TEXT = house(nodes="""
    box: panel, rating: 60 A, pair: return-bar
    shore: shore, rating: 16 A
    inv: inverter, power: 500 W, neutral: bonded
    kettle: ac load, power: 400 W
    oven: ac load, power: 1 kW
    """, circuits="""
    box: feed: feed-bar/fuse F-box 60 A -> box, wire: 6 AWG 1 m
    inv: feed: box/fuse F-inv 60 A -> inv, wire: 6 AWG 1 m
    out: ac: inv -> breaker Q-out 2-pole 10 A -> kettle, wire: [14 AWG 0.5 m, 2 m]
    oven: ac: shore -> breaker Q-oven 2-pole 15 A -> oven, wire: [12 AWG 0.5 m, 2 m]
    """)


@pytest.fixture
def zones() -> Zones:
    return Survey(system(TEXT)).zones


def test_devices_stand_on_the_edges(zones):
    assert [way.node.name for way in zones.ways] == ["F1", "F2", "F3", "F-box", "F-inv", "Q-out", "Q-oven"]
    assert [way.node.name for way in zones.ways if way.ac] == ["Q-out", "Q-oven"]  # by its line only, not its neutral
    bar = zones.zone("feed-bar")
    assert {way.node.name for way in zones.edges[bar]} == {"F1", "F2", "F3", "F-box"}
    assert [(way.node.name, way.rating) for way in zones.feeding(bar)] == [("F1", 200)]


def test_the_sides_of_a_device(zones):
    way = next(one for one in zones.ways if one.node.name == "F-box")
    assert zones.source_side(way) == (zones.zone("feed-bar"), zones.zone("box.+"))
    assert zones.beyond(way, zones.zone("box.+")).unlimited and not zones.beyond(way, zones.zone("feed-bar")).unlimited


def test_conductors_of_a_zone(zones):
    """Feeds and lines; of returns and neutrals none."""
    assert [wire.id for wire in zones.wires[zones.zone("box.+")]] == ["box:f0"]
    assert [wire.id for wire in zones.wires[zones.zone("oven.L")]] == ["oven:a1.L"]
    assert zones.zone("return-bar") not in zones.wires and zones.zone("oven.N") not in zones.wires


def test_where_sources_stand(zones):
    """A battery's own zone has one, a supply's too; what an inverter gives it has from elsewhere."""
    assert zones.has_source(zones.zone("bank.+")) and zones.has_source(zones.zone("shore.L"))
    assert not zones.has_source(zones.zone("feed-bar")) and not zones.has_source(zones.zone("inv.out.L"))


def test_a_zone_and_its_members(zones):
    members = zones.members(zones.zone("feed-bar"))
    assert {"feed-bar", "F1.2", "F-box.1"} <= set(members) and "bank.+" not in members
    assert all(zones.zone(one) == zones.zone("feed-bar") for one in members)


def test_what_is_no_feed_is_a_zone_of_its_own(zones):
    for one in ("return-bar", "bank.-", "oven.N"):
        assert zones.members(zones.zone(one)) == [one]
