"""Boundary cases of the ways back: returns that are missing or land on another system's side."""

from __future__ import annotations

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import expect, system
from tests.circuit.stock import Case
from tests.circuit.test_loops import converter, lamps


def branch_shunt(case: Case) -> Case:
    case.node("roof", "pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A")
    case.node("sun", "solar charger, type: mppt, max pv voltage: 100 V, output: 35 A")
    case.node("sun-meter", "shunt, rating: 50 A, measures: sun")
    case.line("pv", "feed: roof -> sun.pv, wire: 10 AWG 3 m")
    return case.line("sun", "feed: sun -> breaker 40 A/feed-bar, return: sun -> sun-meter -> return-bar, "
                            "wire: {feed: 8 AWG 1 m, return: [8 AWG 0.5 m, 0.5 m]}")


def test_139_branch_shunt():
    expect(branch_shunt(lamps()).text, "")


def isolated(case: Case) -> Case:
    """An isolated converter with a bar pair of its own."""
    case.node("step", "converter, voltage: 12 V, output: 20 A, input voltage: 12 V, common: none")
    case.node("iso-return", "bar, rating: 60 A").node("iso-bar", "bar, rating: 60 A, pair: iso-return")
    case.line("step", "feed: feed-bar/fuse 30 A -> step.in, wire: 8 AWG 1 m")
    case.line("out", "feed: step -> iso-bar, return: step -> iso-return, wire: 8 AWG 1 m")
    return case.loads("b", "c", bar="iso-bar")


def test_140_isolated_converter():
    expect(isolated(lamps()).load("a", bar="iso-bar").text, "")


def test_141_isolated_load_strays():
    line = "feed: iso-bar/fuse 10 A -> a, return: return-bar -> a, wire: 14 AWG 3 m"
    expect(isolated(lamps()).load("a", line=line).text, "stray-return@a:r0")


def test_145_load_without_a_return():
    line = "feed: feed-bar/fuse 10 A -> lamp, return: none, wire: 14 AWG 3 m"
    expect(lamps().load("lamp", line=line).text, "missing-return@lamp")


def test_146_return_bar_without_its_link():
    case = lamps().node("r2", "bar, rating: 100 A").node("bar-2", "bar, rating: 100 A, pair: r2")
    case.line("sub", "feed: feed-bar/fuse 60 A -> bar-2, return: none, wire: 6 AWG 1 m")
    expect(case.loads("a", "b", "c", "d", bar="bar-2").text, "missing-return@r2")


def test_147_return_to_a_stud_that_leads_nowhere():
    case = lamps().node("s", "joint")
    case.load("lamp", line="feed: feed-bar/fuse 10 A -> lamp, return: s -> lamp, wire: 14 AWG 3 m")
    expect(case.text, "open-end@s")


def test_148_bank_without_its_return():
    case = lamps().line("main", "feed: bank/fuse class-t 200 A -> feed-bar, return: none, wire: 2/0 AWG 1 m")
    expect(case.text, "missing-return@bank unused-node@meter")


def test_panel_without_a_return_that_feeds_another():
    case = lamps().node("sub", "panel, rating: 30 A").node("p", "panel, rating: 60 A")
    case.line("pf", "feed: feed-bar/fuse 30 A -> p, return: none, wire: 8 AWG 1 m")
    case.line("sub", "feed: p/fuse 30 A -> sub, wire: 8 AWG 1 m")
    expect(case.loads("a", bar="p").loads("b", "c", bar="sub").text, "missing-return@p")


def test_load_on_a_bar_of_its_own_without_a_return():
    """The tiny system: the bar behind a load that is itself the fault is not named as well."""
    line = "feed: feed-bar/fuse 10 A -> lamp, return: none, wire: 14 AWG 3 m"
    expect(Case().load("lamp", line=line).text, "missing-return@lamp")


def test_several_without_a_return_are_several():
    line = "feed: feed-bar/fuse 10 A -> {0}, return: none, wire: 14 AWG 3 m"
    case = lamps().load("a", line=line.format("a")).load("b", line=line.format("b"))
    expect(case.text, "missing-return@a missing-return@b")


def test_coil_without_a_return():
    case = lamps().node("K1", "relay, rating: 30 A, coil: 12 V").node("pump", "load, voltage: 12 V, power: 60 W")
    case.line("pump", "feed: feed-bar/fuse 10 A -> K1 -> pump, wire: [14 AWG 1 m, 1 m]")
    case.line("coil", "feed: feed-bar/fuse 1 A -> K1.coil, return: none, wire: 18 AWG 1 m")
    expect(case.text, "missing-return@K1")


def mains(case: Case, cores: str = "") -> Case:
    case.node("pedestal", "shore, rating: 30 A").node("ac-panel", "ac panel, rating: 30 A")
    case.node("outlets", "outlet, rating: 15 A").node("kettle", "ac load, power: 1 kW")
    case.line("shore", "ac: pedestal -> breaker 2-pole 30 A -> ac-panel, wire: [10 AWG 0.2 m, 1 m]")
    case.line("outlets", "ac: ac-panel/breaker 15 A -> outlets, wire: 12 AWG 3 m")
    return case.line("kettle", f"ac: ac-panel/breaker 15 A -> kettle, wire: {{hops: [12 AWG 3 m]{cores}}}")


def test_cable_without_a_neutral():
    expect(mains(lamps()).text, "")
    expect(mains(lamps(), ", cores: L earth").text, "missing-return@kettle")


def test_bond_is_no_way_back():
    case = lamps().node("frame", "chassis").line("bond", "bond: return-bar -> frame, wire: 4 AWG 1 m")
    case.load("horn", line="feed: feed-bar/fuse 10 A -> horn, return: frame -> horn, wire: 14 AWG 3 m")
    expect(case.text, "missing-return@frame")


def test_panel_without_a_return_and_a_load_of_another_voltage_on_it():
    """The load's line begins on the panel and does not excuse it."""
    case = lamps().node("p", "panel, rating: 60 A")
    case.line("pf", "feed: feed-bar/fuse 30 A -> p, return: none, wire: 8 AWG 1 m")
    expect(case.loads("a", "b", bar="p").text, "missing-return@p")
    expect(case.load("radio", "24 V", "p").text, "missing-return@p wrong-domain@radio:f0")


def test_load_without_a_return_behind_a_converter_without_a_feed():
    case = converter(lamps(), False)
    case.load("d", line="feed: p/fuse 10 A -> d, return: none, wire: 14 AWG 3 m")
    expect(case.text, "missing-return@d unfed-node@step")


def test_a_fuse_that_is_too_large_hides_no_missing_return():
    line = "feed: feed-bar/fuse 200 A -> lamp, return: none, wire: 14 AWG 3 m"
    expect(Case().load("lamp", line=line).text, "missing-return@lamp protection-too-large@lamp:f0")


def apart(back: str, own: bool = True, tie: str = "isolator, rating: 100 A") -> Case:
    """A second bank joined to the first by an isolator only, with a return bar and a lamp of its own."""
    case = lamps().node("tie", tie).node("returns-2", "bar, rating: 400 A")
    case.node("bank-2", "bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, pair: returns-2")
    case.node("bar-2", "bar, rating: 400 A, pair: returns-2").node("meter-2", "shunt, rating: 500 A")
    if not own:
        case.line("main", "feed: bank/fuse class-t 200 A -> feed-bar, return: none, wire: 2/0 AWG 1 m").drop("meter")
    case.line("main-2", "feed: bank-2/fuse class-t 200 A -> bar-2, return: bank-2 -> meter-2 -> returns-2, "
                        "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")
    case.line("tie", "feed: feed-bar/fuse 80 A -> tie -> fuse 80 A/bar-2, return: none, wire: [4 AWG 1 m, 1 m]")
    return case.load("x", line=f"feed: bar-2/fuse 10 A -> x, return: {back} -> x, wire: 14 AWG 3 m")


def test_a_return_to_the_bank_that_an_isolator_keeps_apart_strays():
    expect(apart("returns-2").text, "")
    expect(apart("return-bar").text, "stray-return@x:r0")
    expect(apart("return-bar", tie="switch, type: battery, rating: 100 A, open: yes").text, "stray-return@x:r0")
    expect(apart("return-bar", tie="switch, type: battery, rating: 100 A").text, "")


def test_a_bank_without_its_return_hides_what_may_be_its_side():
    case = apart("loose", own=False).node("loose", "bar, rating: 100 A")
    expect(case.text, "missing-return@bank")


def test_a_turbine_of_three_phases_needs_no_way_back():
    case = lamps().node("mill", "wind, power: 400 W, voltage: 12 V, phases: 3")
    case.node("control", "wind charger, output: 40 A, phases: 3")
    case.line("mill", "ac: mill -> control.in, wire: 8 AWG 5 m")
    case.line("control", "feed: control -> fuse 50 A/feed-bar, return: control -> return-bar, wire: 8 AWG 1 m")
    expect(case.text, "")


def test_the_second_output_of_a_charger_returns_by_the_first():
    case = lamps().node("pedestal", "shore, rating: 30 A")
    case.node("charger", "ac charger, voltage: 12 V, output: 20 A, outputs: 2")
    case.line("shore", "ac: pedestal -> breaker 2-pole 15 A -> charger.in, wire: [12 AWG 0.2 m, 1 m]")
    case.line("out", "feed: charger -> fuse 30 A/feed-bar, return: charger -> return-bar, wire: 8 AWG 1 m")
    line = "feed: charger.2/fuse 10 A -> x, return: {} -> x, wire: 14 AWG 3 m"
    expect(case.load("x", line=line.format("return-bar")).text, "")
    case.node("loose", "bar, rating: 100 A")
    expect(case.load("x", line=line.format("loose")).text, "missing-return@loose")


def test_what_charges_a_bank_is_no_source_of_its_own_supply():
    case = lamps().node("ic", "inverter charger, power: 1 kW, charge: 40 A")
    case.node("outlets", "outlet, rating: 15 A").line("out", "ac: ic/breaker 15 A -> outlets, wire: 12 AWG 3 m")
    line = "feed: feed-bar/fuse 150 A -> ic, return: {} -> ic, wire: 1/0 AWG 1 m"
    expect(case.line("ic", line.format("return-bar")).text, "")
    case.node("loose", "bar, rating: 100 A")
    expect(case.line("ic", line.format("loose")).text, "missing-return@loose")


def no_return(case: Case) -> dict[str, tuple]:
    """{node: (behind, source, bare, gives)} of the missing returns."""
    return {fact.nodes[0]: (fact.behind, fact.source, fact.bare, fact.gives)
            for fact in Survey(system(case.text)).loops if fact.rule == "missing-return"}


def test_what_is_said_of_a_missing_return():
    line = "feed: feed-bar/fuse 10 A -> lamp, return: none, wire: 14 AWG 3 m"
    assert no_return(lamps().load("lamp", line=line)) == {"lamp": ((), "bank", True, False)}
    case = lamps().node("r2", "bar, rating: 100 A").node("bar-2", "bar, rating: 100 A, pair: r2")
    case.line("sub", "feed: feed-bar/fuse 60 A -> bar-2, return: none, wire: 6 AWG 1 m")
    assert no_return(case.loads("a", "b", bar="bar-2")) == {"r2": (("a", "b"), "bank", False, False)}
    case = lamps().line("main", "feed: bank/fuse class-t 200 A -> feed-bar, return: none, wire: 2/0 AWG 1 m")
    assert no_return(case) == {"bank": ((), "", True, True)}
    assert no_return(mains(lamps(), ", cores: L earth")) == {"kettle": ((), "pedestal", True, False)}


def test_what_is_said_of_a_stray_return():
    line = "feed: iso-bar/fuse 10 A -> a, return: return-bar -> a, wire: 14 AWG 3 m"
    fact, = Survey(system(isolated(lamps()).load("a", line=line).text)).loops
    assert (fact.user, fact.source, fact.other) == ("a", "step", "bank")
    assert fact.cables == ("a:r0",) and fact.path[-1] == "a"


def test_a_load_that_is_at_fault_itself_is_not_asked_for_its_return():
    case = lamps().node("r2", "bar, rating: 100 A")
    line = "feed: feed-bar/fuse 10 A -> radio, return: r2 -> radio, wire: 14 AWG 3 m"
    expect(case.load("radio", "24 V", line=line).text, "wrong-domain@radio:f0")


def floating(out: str) -> Case:
    case = lamps().node("step", "converter, voltage: 12 V, output: 20 A, input voltage: 12 V, common: none")
    case.node("p", "panel, rating: 60 A")
    case.line("step", "feed: feed-bar/fuse 30 A -> step.in, return: return-bar -> step.in, wire: 8 AWG 1 m")
    return case.line("out", f"feed: step -> p, {out}wire: 8 AWG 1 m")


def test_a_converter_without_a_return_is_named_unless_what_it_feeds_is():
    bare = "feed: p/fuse 10 A -> d, return: none, wire: 14 AWG 3 m"
    expect(floating("").loads("a", bar="p").text, "")
    expect(floating("return: none, ").loads("a", "b", bar="p").text, "missing-return@p")
    expect(floating("return: none, ").load("d", line=bare).text, "missing-return@d missing-return@step")


def test_a_bank_on_a_stud_that_leads_nowhere_hides_the_returns_that_miss_it():
    main = "feed: bank/fuse class-t 200 A -> feed-bar, return: bank -> meter -> s, wire: {feed: 2/0 AWG 1 m, " \
           "return: [2/0 AWG 0.3 m, 0.3 m]}"
    expect(lamps().node("s", "joint").line("main", main).text, "open-end@s")


def test_a_load_on_a_stud_that_leads_nowhere_hides_no_other():
    case = lamps().node("s", "joint").node("r2", "bar, rating: 100 A")
    line = "feed: feed-bar/fuse 10 A -> {0}, return: {1} -> {0}, wire: 14 AWG 3 m"
    case.load("a", line=line.format("a", "s")).load("b", line=line.format("b", "r2"))
    expect(case.text, "open-end@s missing-return@r2")


def test_returns_that_meet_only_each_other():
    line = "feed: feed-bar/fuse 10 A -> {0}, return: {1}, wire: 14 AWG 3 m"
    case = lamps().load("a", line=line.format("a", "a -> b")).load("b", line=line.format("b", "none"))
    expect(case.text, "missing-return@a")
    assert no_return(case) == {"a": (("b",), "bank", False, False)}


def test_a_load_behind_a_diode_makes_no_feed_dead():
    """What lies before the diode is not fed from behind it; the return bar that nothing leads to is found all the
    same."""
    case = lamps().node("r2", "bar, rating: 100 A").node("D-1", "diode, rating: 10 A")
    line = "feed: feed-bar/fuse 10 A -> a, return: r2 -> a, wire: 14 AWG 3 m"
    case.load("a", line=line).load("b", line="feed: b -> D-1 -> fuse 10 A/feed-bar, wire: 14 AWG 3 m")
    assert no_return(case) == {"r2": (("a",), "bank", False, False)}


def test_a_stack_and_a_converter_on_one_return():
    case = Case().drop("bank", "main")
    battery = "battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah"
    case.nodes = {"b1": battery, "b2": battery, **case.nodes}
    case.line("link", "series: b1/fuse class-t 200 A -> b2, wire: 2/0 AWG 0.3 m")
    case.line("main", "feed: b2/fuse class-t 200 A -> feed-bar, return: b1 -> meter -> return-bar, "
                      "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")
    case.node("step", "converter, voltage: 12 V, output: 20 A, input voltage: 24 V")
    case.node("p", "panel, rating: 60 A, pair: return-bar")
    case.line("step", "feed: feed-bar/fuse 30 A -> step.in, return: return-bar -> step.in, wire: 8 AWG 1 m")
    case.line("out", "feed: step -> p, return: step -> return-bar, wire: 8 AWG 1 m")
    expect(case.load("lamp-1", "24 V").load("lamp-2", bar="p").text, "")


def test_what_returns_over_crossed_poles_has_its_return_missing_once():
    case = lamps().node("p", "panel, rating: 60 A").loads("a", "b", bar="p")
    expect(case.line("pf", "feed: feed-bar/fuse 30 A -> p, return: feed-bar -> p, wire: 8 AWG 1 m").text, "missing-return@pf:r0")


def test_a_converter_whose_output_is_not_in_use_needs_no_return_there():
    case = lamps().node("step", "converter, voltage: 12 V, output: 20 A, input voltage: 12 V, common: none")
    expect(case.line("step", "feed: feed-bar/fuse 30 A -> step.in, return: return-bar -> step.in, wire: 8 AWG 1 m").text, "")
