"""Boundary cases of the ways there: open ends, unused nodes, nodes that nothing feeds."""

from __future__ import annotations

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import expect, system
from tests.circuit.stock import Case


def lamps() -> Case:
    return Case().loads("lamp-1", "lamp-2", "lamp-3")


def test_147_a_stud_that_leads_nowhere_on_a_line_that_is_wrong_itself():
    line = "feed: feed-bar/fuse 10 A -> radio, return: s -> radio, wire: 14 AWG 3 m"
    expect(lamps().node("s", "joint").load("radio", "24 V", line=line).text, "wrong-domain@radio:f0")


def test_149_panel_without_a_feed():
    case = lamps().node("p", "panel, rating: 60 A").line("pf", "return: return-bar -> p, wire: 8 AWG 1 m")
    expect(case.loads("a", "b", "c", bar="p").text, "unfed-node@p")


def test_149_panel_with_a_pair_and_no_feed():
    case = lamps().node("p", "panel, rating: 60 A, pair: return-bar")
    expect(case.loads("a", "b", "c", bar="p").text, "unfed-node@p")


def test_panel_without_a_feed_that_feeds_another():
    """The sub-panel is declared first; the one that no line leads to is named."""
    case = lamps().node("sub", "panel, rating: 30 A").node("p", "panel, rating: 60 A")
    case.line("pf", "return: return-bar -> p, wire: 8 AWG 1 m")
    case.line("sub", "feed: p/fuse 30 A -> sub, wire: 8 AWG 1 m")
    expect(case.loads("a", bar="p").loads("b", "c", bar="sub").text, "unfed-node@p")


def converter(case: Case, fed: bool) -> Case:
    case.node("step", "converter, voltage: 12 V, output: 20 A, input voltage: 12 V").node("p", "panel, rating: 60 A")
    if fed:
        case.line("step", "feed: feed-bar/fuse 30 A -> step.in, wire: 8 AWG 1 m")
    case.line("out", "feed: step -> p, wire: 8 AWG 1 m")
    return case.loads("a", "b", "c", bar="p")


def test_150_converter_without_a_feed():
    expect(converter(lamps(), True).text, "")
    expect(converter(lamps(), False).text, "unfed-node@step")


def test_151_switch_wired_on_one_side():
    case = lamps().node("sw", "switch, rating: 10 A").node("lamp", "load, voltage: 12 V, power: 20 W")
    expect(case.line("lamp", "feed: sw.2 -> lamp, return: return-bar -> lamp, wire: 14 AWG 3 m").text, "open-end@sw")


def test_151_switch_wired_on_the_bar_side():
    case = lamps().node("sw", "switch, rating: 10 A")
    expect(case.line("lamp", "feed: feed-bar/fuse 10 A -> sw.1, return: none, wire: 14 AWG 3 m").text, "open-end@sw")


def test_152_declared_and_never_wired():
    expect(lamps().node("spare", "load, voltage: 12 V, power: 20 W").text, "unused-node@spare")


def test_spare_bar_is_no_open_end():
    case = lamps().node("r2", "bar, rating: 100 A").node("bar-2", "bar, rating: 100 A, pair: r2")
    expect(case.line("sub", "feed: feed-bar/fuse 60 A -> bar-2, return: return-bar -> r2, wire: 6 AWG 1 m").text, "")


def test_load_without_a_feed():
    case = lamps().node("lamp", "load, voltage: 12 V, power: 20 W")
    expect(case.line("lamp", "return: return-bar -> lamp, wire: 14 AWG 3 m").text, "unfed-node@lamp")


def behind(text: str, rule: str) -> dict[str, tuple[str, ...]]:
    """{node named: the others for whom it is named} of the findings of one rule."""
    return {fact.nodes[0]: fact.behind for fact in Survey(system(text)).loops if fact.rule == rule}


def test_a_device_within_a_path_is_used():
    expect(lamps().line("lamp-1", "feed: feed-bar/fuse 10 A -> switch 10 A -> lamp-1, wire: 14 AWG 1 m").text, "")


def dead_panel() -> Case:
    case = lamps().node("p", "panel, rating: 60 A").line("pf", "return: return-bar -> p, wire: 8 AWG 1 m")
    return case.load("a", line="feed: p/fuse 10 A -> a, return: bank -> a, wire: 14 AWG 3 m")


def test_what_an_earlier_fault_excuses_is_not_unfed_as_well():
    """The load's own line is blamed; the panel that feeds it has no other use."""
    expect(dead_panel().text, "unmeasured-return@a:r0")
    case = dead_panel().loads("b", bar="p")
    expect(case.text, "unmeasured-return@a:r0 unfed-node@p")
    assert behind(case.text, "unfed-node") == {"p": ("b",)}


DC_CHARGER = "dc charger, output: 30 A, voltage: 12 V, input voltage: 12 V, max pv voltage: 50 V"


def test_one_live_input_is_enough():
    case = lamps().node("roof", "pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A").node("boost", DC_CHARGER)
    case.line("boost", "feed: boost -> breaker 40 A/feed-bar, return: boost -> return-bar, wire: 8 AWG 1 m")
    expect(case.text, "unfed-node@boost unused-node@roof")
    expect(case.line("pv", "feed: roof -> boost.pv, wire: 10 AWG 3 m").text, "")


def test_two_dead_inputs_are_one_fault():
    case = lamps().node("dead", "bar, rating: 100 A, pair: return-bar").node("boost", DC_CHARGER)
    case.line("boost", "feed: boost -> breaker 40 A/feed-bar, return: boost -> return-bar, wire: 8 AWG 1 m")
    expect(case.line("in", "feed: dead/fuse 40 A -> boost.in, wire: 8 AWG 1 m").text, "unfed-node@dead")


def test_an_ac_panel_without_a_feed_that_feeds_another():
    """The sub-panel is declared first; the one that no line leads to is named."""
    case = lamps().node("sub", "ac panel, rating: 30 A").node("p", "ac panel, rating: 30 A")
    case.node("pedestal", "shore, rating: 30 A").node("outlets", "outlet, rating: 15 A")
    case.line("sub", "ac: p/breaker 20 A -> sub, wire: 12 AWG 3 m")
    case.line("outlets", "ac: sub/breaker 15 A -> outlets, wire: 12 AWG 3 m")
    shore = "ac: pedestal -> breaker 2-pole 30 A -> p, wire: [10 AWG 0.2 m, 1 m]"
    expect(case.text, "unused-node@pedestal unfed-node@p")
    assert behind(case.text, "unfed-node") == {"p": ("outlets",)}
    expect(case.line("shore", shore).text, "")


def test_an_unfed_load_alone_stands_for_itself():
    case = lamps().node("lamp", "load, voltage: 12 V, power: 20 W")
    case.line("lamp", "return: return-bar -> lamp, wire: 14 AWG 3 m")
    assert behind(case.text, "unfed-node") == {"lamp": ()}


def test_what_hangs_on_crossed_poles_is_not_dead_as_well():
    case = lamps().node("p", "panel, rating: 60 A").loads("a", "b", bar="p")
    expect(case.line("pf", "feed: return-bar/fuse 30 A -> p, return: feed-bar -> p, wire: 8 AWG 1 m").text,
           "reversed-polarity@pf:f0")


SECOND = "bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah"
METER = "return: second -> meter2 -> return-bar, wire: 2/0 AWG 0.3 m"


def test_a_source_whose_return_alone_is_wired_leads_nowhere():
    """A line copied, and its first name not changed."""
    case = lamps().node("second", SECOND).node("meter2", "shunt, rating: 500 A")
    expect(case.line("main2", METER).text, "open-end@second")
    expect(case.line("feed2", "feed: second/fuse 200 A -> feed-bar, return: none, wire: 2/0 AWG 1 m").text, "")
    case = lamps().node("alt", "alternator, output: 60 A")
    expect(case.line("alt", "return: alt -> return-bar, wire: 6 AWG 1 m").text, "open-end@alt")


def test_a_sense_lead_does_not_make_a_feed_but_it_ends_on_the_post():
    """What is on the post may be seen: only a bare one is told."""
    case = lamps().node("second", SECOND).node("meter2", "shunt, rating: 500 A").line("main2", METER)
    expect(case.line("sense", "feed: second/fuse 1 A -> meter2.sense, wire: 18 AWG 0.5 m").text, "")


def test_a_converter_that_leads_nowhere_is_told_by_what_it_should_feed():
    case = Case("24 V").loads("lamp-1", volts="24 V").node("step", "converter, voltage: 12 V, output: 10 A")
    case.node("box", "panel, rating: 30 A").load("fan", bar="box")
    case.line("step", "feed: feed-bar/fuse 10 A -> step.in, wire: 14 AWG 1 m")
    expect(case.line("box", "return: step -> box, wire: 12 AWG 1 m").text, "unfed-node@box")


def test_the_top_of_a_stack_that_feeds_nothing():
    case = lamps().node("low", "battery, chemistry: agm, voltage: 12 V, capacity: 80 Ah").node(
        "high", "battery, chemistry: agm, voltage: 12 V, capacity: 80 Ah")
    case.line("low", "return: low -> return-bar, wire: 2 AWG 0.3 m")
    expect(case.line("up", "series: low -> high, wire: 2 AWG 0.3 m").text, "no-shunt@low")
