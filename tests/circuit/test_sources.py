"""Boundary cases of sources of alternating current that meet."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import expect, system
from tests.circuit.stock import Case

SHORE = "breaker 2-pole 30 A"
HOUSE_END = "switch open 300 A -> fuse class-t 200 A/feed-bar, return: none, wire: [2/0 AWG 1 m, 1 m]"


def two(case: Case | None = None) -> Case:
    """Shore and a generator, an ac panel with outlets."""
    case = (case or Case()).load("lamp")
    case.node("pedestal", "shore, rating: 30 A").node("gen", "generator, power: 3 kW, neutral: floating")
    case.node("ac-panel", "ac panel, rating: 60 A").node("outlets", "outlet, rating: 15 A")
    return case.line("outlets", "ac: ac-panel/breaker 15 A -> outlets, wire: 12 AWG 3 m")


def on_transfer(case: Case) -> Case:
    case.node("changeover", "transfer, rating: 30 A")
    case.line("shore", f"ac: pedestal -> {SHORE} -> changeover.1, wire: [10 AWG 0.2 m, 2 m]")
    case.line("gen", f"ac: gen -> {SHORE} -> changeover.2, wire: [10 AWG 0.2 m, 2 m]")
    return case.line("panel", "ac: changeover -> ac-panel, wire: 10 AWG 1 m")


def on_bar(case: Case) -> Case:
    case.line("shore", f"ac: pedestal -> {SHORE} -> ac-panel, wire: [10 AWG 0.2 m, 2 m]")
    return case.line("gen", f"ac: gen -> {SHORE} -> ac-panel, wire: [10 AWG 0.2 m, 2 m]")


def test_153_transfer_switch():
    expect(on_transfer(two()).text, "")


def test_154_one_bar():
    expect(on_bar(two()).text, "two-ac-sources@gen:a0")


def test_154_interlocked():
    case = two(Case(head="interlocks: [[Q-shore, Q-gen]]"))
    case.line("shore", "ac: pedestal -> breaker Q-shore 2-pole 30 A -> ac-panel, wire: [10 AWG 0.2 m, 2 m]")
    case.line("gen", "ac: gen -> breaker Q-gen 2-pole 30 A -> ac-panel, wire: [10 AWG 0.2 m, 2 m]")
    expect(case.text, "")


def combi(case: Case, size: str = "8 AWG", more: str = "") -> Case:
    """Shore through an inverter charger to an ac panel."""
    case.node("combi", f"inverter charger, power: 2 kW, charge: 50 A{more}").node("pedestal", "shore, rating: 30 A")
    case.node("ac-panel", "ac panel, rating: 60 A").node("outlets", "outlet, rating: 15 A")
    case.line("combi", "feed: feed-bar/fuse class-t 200 A -> combi, wire: 2/0 AWG 1 m").load("lamp")
    case.line("shore", f"ac: pedestal -> {SHORE} -> combi.in, wire: [10 AWG 0.2 m, 2 m]")
    case.line("out", f"ac: combi -> ac-panel, wire: {size} 1 m")
    return case.line("outlets", "ac: ac-panel/breaker 15 A -> outlets, wire: 12 AWG 3 m")


def test_155_bypass_without_a_selector():
    case = combi(Case()).node("inlet-panel", "ac panel, rating: 30 A")
    case.line("shore", f"ac: pedestal -> {SHORE} -> inlet-panel, wire: [10 AWG 0.2 m, 2 m]")
    case.line("in", "ac: inlet-panel/breaker 30 A -> combi.in, wire: 10 AWG 1 m")
    case.line("by", "ac: inlet-panel/breaker 30 A -> ac-panel, wire: 10 AWG 1 m")
    expect(case.text, "two-ac-sources@by:a0")


def test_156_inverter_charger_alone():
    expect(combi(Case()).text, "")


def test_157_inverter_charger_that_assists():
    expect(combi(Case(), "8 AWG", ", assist: yes").text, "")


def test_second_source_behind_an_inverter_charger():
    case = combi(Case()).node("gen", "generator, power: 3 kW, neutral: floating")
    expect(case.line("bad", f"ac: gen -> {SHORE} -> ac-panel, wire: [10 AWG 0.2 m, 1 m]").text, "two-ac-sources@bad:a0")


@pytest.mark.parametrize(("more", "expected"), [(", set: pair", ""), ("", "two-ac-sources@out2:a0")])
def test_units_of_one_set(more, expected):
    case = Case().load("lamp").node("ac-panel", "ac panel, rating: 60 A").node("outlets", "outlet, rating: 15 A")
    for number in ("1", "2"):
        case.node(f"i{number}", f"inverter, power: 1 kW, neutral: floating{more}")
        case.line(f"i{number}", f"feed: feed-bar/fuse class-t 100 A -> i{number}, wire: 2 AWG 1 m")
        case.line(f"out{number}", f"ac: i{number} -> breaker 15 A -> ac-panel, wire: [12 AWG 0.5 m, 0.5 m]")
    expect(case.line("outlets", "ac: ac-panel/breaker 15 A -> outlets, wire: 12 AWG 3 m").text, expected)


def test_pv_inverter_follows():
    case = Case().load("lamp").node("inverter", "inverter, power: 2 kW, neutral: floating")
    case.node("ac-panel", "ac panel, rating: 60 A").node("outlets", "outlet, rating: 15 A")
    case.node("roof", "pv, series: 8, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A")
    case.node("grid-sun", "pv inverter, power: 1.5 kW, max pv voltage: 400 V")
    case.line("inverter", "feed: feed-bar/fuse class-t 200 A -> inverter, wire: 2/0 AWG 1 m")
    case.line("out", "ac: inverter -> breaker 2-pole 30 A -> ac-panel, wire: [10 AWG 0.5 m, 0.5 m]")
    case.line("roof", "feed: roof -> grid-sun.pv, wire: 10 AWG 6 m")
    case.line("grid-sun", "ac: grid-sun -> breaker 2-pole 20 A/ac-panel, wire: 10 AWG 2 m")
    expect(case.line("outlets", "ac: ac-panel/breaker 15 A -> outlets, wire: 12 AWG 3 m").text, "")


def starter(case: Case, line: str) -> Case:
    """Starter battery and motor beside the house bank, an emergency parallel switch between."""
    case.node("starter-battery", "battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah")
    case.node("starter", "starter, current: 300 A").node("block", "engine")
    case.line("crank", "feed: starter-battery -> starter, return: starter/block, wire: 2/0 AWG 1 m")
    case.line("crank-return", "return: block -> starter-battery, wire: 2/0 AWG 0.5 m")
    case.line("link", "return: block -> return-bar, wire: 2/0 AWG 2 m")
    return case.line("par", line)


def test_158_emergency_switch_fused_at_both_ends():
    line = f"feed: starter-battery/fuse class-t 200 A -> {HOUSE_END}"
    expect(starter(Case().load("lamp"), line).text, "")


def test_159_emergency_switch_fused_at_the_house_end():
    line = f"feed: starter-battery -> {HOUSE_END}"
    expect(starter(Case().load("lamp"), line).text, "missing-protection@par:f0")


def test_160_three_faults():
    case = Case().loads("lamp-1", "lamp-2").load("radio", "24 V")
    case.load("lamp", line="feed: feed-bar/fuse 10 A -> lamp, return: bank -> lamp, wire: 14 AWG 3 m")
    case.load("pump", line="feed: feed-bar -> pump, wire: 14 AWG 3 m")
    expect(case.text, "protection-too-large@pump:f0 unmeasured-return@lamp:r0 wrong-domain@radio:f0")


def test_161_three_others():
    case = Case().loads("lamp-1", "lamp-3")
    case.line("main", "feed: bank -> feed-bar, return: bank -> meter -> return-bar, "
                      "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")
    case.load("lamp", line="feed: feed-bar/fuse 10 A -> lamp, return: bank -> lamp, wire: 14 AWG 3 m")
    case.load("lamp2", line="feed: feed-bar/fuse 10 A -> lamp2, return: none, wire: 14 AWG 3 m")
    expect(case.text, "missing-protection@main:f0 missing-return@lamp2 unmeasured-return@lamp:r0")


def test_an_inverter_charger_that_assists_is_a_source_of_its_own_while_it_inverts():
    """Whatever makes its own voltage on the same lines meets it, assistant or not."""
    case = combi(Case(), more=", assist: yes").node("gen", "generator, power: 3 kW, neutral: floating")
    expect(case.line("bad", f"ac: gen -> {SHORE} -> ac-panel, wire: [10 AWG 0.2 m, 1 m]").text, "two-ac-sources@bad:a0")
    case.drop("pedestal", "shore")
    (fact,) = Survey(system(case.text)).sources
    assert (fact.first, fact.second) == ("combi", "gen") and dict(fact.positions) == {"combi": "inverting"}


def test_a_source_is_not_blamed_for_lines_on_which_it_meets_none():
    """Shore power of two lines, a generator on one of them: the later in the file, though shore power has more lines."""
    case = Case().load("lamp").node("pedestal", "shore, rating: 30 A, phases: 2+N")
    case.node("gen", "generator, power: 3 kW, neutral: floating").node("ac-panel", "ac panel, rating: 60 A, phases: 2+N")
    case.line("shore", "ac: pedestal -> breaker 3-pole 30 A -> ac-panel, wire: [10 AWG 0.2 m, 2 m]")
    case.line("gen", f"ac: gen -> {SHORE} -> ac-panel.L1, wire: [10 AWG 0.2 m, 2 m]")
    assert [fact.mark for fact in Survey(system(case.text)).sources] == ["two-ac-sources@gen:a0"]


def test_the_source_that_meets_most_others_is_blamed():
    case = two().node("gen-2", "generator, power: 3 kW, neutral: floating").node("sub", "ac panel, rating: 60 A, phases: 2+N")
    case.node("pedestal", "shore, rating: 30 A, phases: 2+N").node("ac-panel", "ac panel, rating: 60 A, phases: 2+N")
    case.line("shore", "ac: pedestal -> breaker 3-pole 30 A -> ac-panel, wire: [10 AWG 0.2 m, 2 m]")
    case.line("gen", f"ac: gen -> {SHORE} -> ac-panel.L1, wire: [10 AWG 0.2 m, 2 m]")
    case.line("gen-2", f"ac: gen-2 -> {SHORE} -> ac-panel.L2, wire: [10 AWG 0.2 m, 2 m]")
    case.drop("sub", "outlets")
    assert [fact.mark for fact in Survey(system(case.text)).sources] == ["two-ac-sources@shore:a0"]


def test_of_a_line_that_joins_three_sources_one_conductor_is_blamed():
    """Two generators on the panels that one shore line runs through: parted where they meet, what it also feeds is seen
    once that is mended."""
    case = Case().load("lamp").node("one", "generator, power: 3 kW, neutral: floating")
    case.node("two", "generator, power: 3 kW, neutral: floating").node("pedestal", "shore, rating: 30 A")
    for name in ("one", "two"):
        case.node(f"panel-{name}", "ac panel, rating: 60 A").node(f"outlets-{name}", "outlet, rating: 15 A")
        case.line(f"outlets-{name}", f"ac: panel-{name}/breaker 15 A -> outlets-{name}, wire: 12 AWG 3 m")
        case.line(name, f"ac: {name} -> {SHORE} -> panel-{name}, wire: [10 AWG 0.2 m, 2 m]")
    case.line("shore", f"ac: pedestal -> {SHORE} -> panel-one -> panel-two, wire: [10 AWG 0.2 m, 2 m, 2 m]")
    (fact,) = Survey(system(case.text)).sources
    assert (fact.mark, fact.first, fact.second) == ("two-ac-sources@shore:a2", "one", "two")
