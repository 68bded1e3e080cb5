"""What devices break and stand, and what they must: capacities, prospective currents, the fuse that limits."""

from __future__ import annotations

import pytest

from diagrammer.circuit.breaking import breaks, family, stands
from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from tests.rules.asked import van

LAMP = "  lamp: {kind: load, voltage: 12 V, power: 20 W}"
BANK = "{kind: bank, chemistry: %s, voltage: 12 V, capacity: %s, short circuit: 6 kA, pair: return-bar}"


def survey(text: str) -> Survey:
    system, problems = read(text, "case.yaml")
    assert system is not None, "\n".join(f"{one.at} {one.message}" for one in problems)
    return Survey(system)


def node(main: str):
    """The device of a main line as it is written."""
    return survey(van(main=main)).system.nodes["Q1" if main.startswith("breaker") else "F1"]


def way(found: Survey, name: str):
    return next(one for one in found.zones.ways if one.node.name == name)


@pytest.mark.parametrize(("main", "body", "form"), [
    ("fuse strip 200 A", "strip", ""), ("fuse 200 A", "", ""),
    ("breaker 200 A", "breaker", "unsaid"), ("breaker thermal 200 A", "breaker", "thermal"),
])
def test_the_body_of_a_device(main, body, form):
    assert family(node(main)) == (body, form)


@pytest.mark.parametrize("main", ["fuse 200 A", "fuse strip", "breaker", "breaker thermal", "fuse"])
def test_nothing_is_usual_without_a_body_and_a_rating(main):
    assert breaks(node(main), 12) is None and stands(node(main)) is None


def test_a_switch_has_no_usual_capacity():
    found = next(one for one in survey(van()).system.nodes.values() if one.kind.name == "switch")
    assert family(found) == ("", "") and breaks(found, 12) is None and stands(found) is None


@pytest.mark.parametrize(("main", "usual"), [("fuse strip 200 A", True), ("fuse strip 200 A 32 V 2 kA", False)])
def test_what_is_not_stated_is_usual(main, usual):
    """ISO 8820-5: strips are made for 32 V and break 2 kA there."""
    for found, value in ((breaks(node(main), 12), 2000), (stands(node(main)), 32)):
        assert (found.value, found.usual, bool(found.standard)) == (value, usual, usual)


def test_only_the_batteries_on_its_net_are_estimated_for_a_device():
    text = van("{feed: aft/fuse strip 100 A -> aft-bar, return: aft -> aft-return, wire: 2 AWG 0.5 m}", nodes="""
  aft: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah}
  aft-bar: {kind: bar, rating: 100 A, pair: aft-return}
  aft-return: {kind: bar, rating: 100 A}""", bank="{kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}")
    found = survey(text)
    assert found.breaking.prospective(way(found, "F1")).estimated == ("bank",)
    assert found.breaking.prospective(way(found, "F2")).estimated == ("aft",)


@pytest.mark.parametrize(("stated", "names"), [("", ("gen",)), (", short circuit: 90 A", ())])
def test_a_generator_that_states_nothing_is_estimated(stated, names):
    found = survey(van("{ac: gen -> breaker 2-pole 20 A -> ac-panel, wire: [12 AWG 1 m, 1 m]}", nodes=(
        f"  gen: {{kind: generator, power: 3 kW, neutral: bonded{stated}}}\n  ac-panel: {{kind: ac panel, rating: 30 A}}")))
    assert found.breaking.prospective(way(found, "Q2")).estimated == names


def test_what_an_interlock_keeps_apart_does_not_flow_through_the_open_breaker():
    """Of the shore nothing is known; what the generator gives flows only while the breaker of the shore is open."""
    found = survey(van("{ac: shore -> breaker Q-shore 2-pole 20 A -> ac-panel, wire: [12 AWG 1 m, 1 m]}",
        "{ac: gen -> breaker Q-gen 2-pole 20 A -> ac-panel, wire: [12 AWG 1 m, 1 m]}\ninterlocks: [[Q-shore, Q-gen]]", nodes=(
            "  gen: {kind: generator, power: 3 kW, neutral: bonded, short circuit: 400 A}\n"
            "  shore: {kind: shore, rating: 30 A}\n  ac-panel: {kind: ac panel, rating: 30 A}")))
    assert found.breaking.prospective(way(found, "Q-shore")) is None
    assert 300 < found.breaking.prospective(way(found, "Q-gen")).amps <= 400


@pytest.mark.parametrize(("main", "ahead"), [
    ("fuse class-t 200 A 5.99 kA", ""),  # would burst itself
    ("fuse class-t 200 A 6 kA", "F1"),
    ("fuse class-t 200 A", "F1"),  # UL 248-15: breaks 20 kA
    ("fuse class-t", ""),  # what it breaks is not known
    ("fuse anl 200 A 6 kA", ""),  # breaks it, but cuts nothing off
    ("fuse nh 200 A 25 kA", "F1"),
])
def test_the_fuse_ahead_limits_if_it_breaks_what_flows(main, ahead):
    found = survey(van("{feed: feed-bar/fuse blade 10 A -> lamp, wire: 14 AWG 1 m}", nodes=LAMP, main=main))
    assert found.breaking.limited_by(way(found, "F2")) == ahead
    assert found.breaking.limited_by(way(found, "F1")) == ""


def test_the_limiting_fuse_may_stand_several_devices_ahead():
    found = survey(van("{feed: feed-bar/fuse anl 60 A -> box, wire: 6 AWG 1 m}",
        "{feed: box/fuse blade 10 A -> lamp, wire: 14 AWG 1 m}",
                       nodes=f"{LAMP}\n  box: {{kind: panel, rating: 60 A}}"))
    assert found.breaking.limited_by(way(found, "F3")) == "F1"


@pytest.mark.parametrize("limited", ["", ", self limiting: yes"])
def test_what_an_alternator_gives_is_not_limited_by_the_fuse_of_the_bank(limited):
    text = van("{feed: feed-bar/fuse blade 10 A -> lamp, wire: 14 AWG 1 m}", "{feed: alt -> feed-bar, wire: 2 AWG 1 m}",
               nodes=f"{LAMP}\n  alt: {{kind: alternator, voltage: 12 V, output: 100 A{limited}}}")
    found = survey(text)
    assert found.breaking.limited_by(way(found, "F2")) == ""


def test_of_a_source_without_limit_nothing_is_known_to_be_limited():
    """The alternator alone feeds: what it drives into a short circuit is not known."""
    found = survey("""
nodes:
  alt: {kind: alternator, voltage: 12 V, output: 100 A, self limiting: no}
  box: {kind: panel, rating: 100 A}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {feed: alt/fuse class-t 100 A -> box, wire: 2 AWG 1 m}
  - {feed: box/fuse blade 10 A -> lamp, wire: 14 AWG 1 m}
""")
    assert found.breaking.prospective(way(found, "F1")) is None
    assert found.breaking.limited_by(way(found, "F2")) == ""


def test_no_fuse_stands_ahead_of_one_between_two_banks():
    found = survey(van("{feed: two/fuse class-t 100 A -> feed-bar, return: two -> bank, wire: 2 AWG 0.5 m}",
                       nodes="  two: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah}"))
    assert [found.breaking.limited_by(way(found, name)) for name in ("F1", "F2")] == ["", ""]


def test_two_fuses_side_by_side_share_what_flows_and_neither_is_known_to_limit_it():
    text = van("{feed: bank/fuse class-t 200 A -> feed-bar, return: none, wire: 2/0 AWG 1 m}",
        "{feed: feed-bar/fuse blade 10 A -> lamp, wire: 14 AWG 1 m}", nodes=LAMP)
    found = survey(text)
    assert found.breaking.limited_by(way(found, "F3")) == ""


@pytest.mark.parametrize(("one", "other", "ah"), [
    ("agm", "flooded", 300), ("agm", "lifepo4", None), ("lifepo4", "agm", None), ("lifepo4", "lifepo4", None)])
def test_the_lead_on_the_net_of_a_device(one, other, ah):
    """ABYC E-11 Table V-A sizes main breakers by the ampere-hours of lead-acid batteries connected."""
    text = van("{feed: two -> bank, wire: 2/0 AWG 0.2 m}", bank=BANK % (one, "200 Ah"),
               nodes="  two: {kind: bank, chemistry: %s, voltage: 12 V, capacity: 100 Ah}" % other)
    found = survey(text)
    assert found.breaking.lead(way(found, "F1")) == ah


def test_lead_on_another_net_does_not_count():
    text = van("{feed: feed-bar/fuse 30 A -> booster.in, wire: 10 AWG 1 m}",
        "{feed: aft/fuse strip 50 A -> booster, wire: 10 AWG 1 m}", bank=BANK % ("agm", "200 Ah"), nodes="""
  booster: {kind: dc charger, voltage: 12 V, output: 20 A}
  aft: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, short circuit: 4 kA, pair: return-bar}""")
    found = survey(text)
    assert found.breaking.lead(way(found, "F1")) == 200
    assert found.breaking.lead(way(found, "F3")) is None
