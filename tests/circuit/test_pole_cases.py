"""Boundary cases of the two poles: short-circuits, reversals, landings on the wrong side."""

from __future__ import annotations

from tests.circuit.cases import expect
from tests.circuit.stock import Case

MAIN_RETURN = "return: bank -> meter -> return-bar, wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}"


def lamps() -> Case:
    return Case().loads("lamp-1", "lamp-2", "lamp-3")


def plain(name: str, feed: str, back: str, size: str = "14 AWG 3 m") -> str:
    """A line of one conductor each way."""
    return f"feed: {feed} -> {name}, return: {back} -> {name}, wire: {size}"


def test_108_feed_bar_to_return_bar():
    expect(lamps().line("bad", "feed: feed-bar/fuse 10 A -> return-bar, return: none, wire: 14 AWG 1 m").text,
           "short-circuit@bad:f0")


def test_109_bank_to_a_bonded_chassis():
    case = lamps().node("frame", "chassis").line("bond", "bond: return-bar -> frame, wire: 4 AWG 1 m")
    case.line("bad", "feed: bank/fuse 10 A -> frame, return: none, wire: 14 AWG 1 m")
    expect(case.text, "short-circuit@bad:f0")


def sun(case: Case, back: str) -> Case:
    case.node("roof", "pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A")
    case.node("sun", "solar charger, type: mppt, max pv voltage: 100 V, output: 35 A")
    case.line("pv", "feed: roof -> sun.pv, wire: 10 AWG 3 m")
    return case.line("sun", f"feed: sun -> breaker 40 A/feed-bar, return: sun -> {back}, wire: 8 AWG 1 m")


def test_110_charger_return_on_the_feed_bar():
    expect(sun(lamps(), "feed-bar").text, "short-circuit@sun:r0")
    expect(sun(lamps(), "return-bar").text, "")


def test_111_load_return_on_the_feed_bar():
    expect(lamps().load("lamp", line=plain("lamp", "feed-bar/fuse 10 A", "feed-bar")).text, "missing-return@lamp:r0")


def test_112_load_fed_from_the_return_bar():
    expect(lamps().load("lamp", line=plain("lamp", "return-bar", "return-bar")).text, "unfed-node@lamp:f0")


def test_113_load_swapped():
    line = "feed: feed-bar/fuse 10 A -> lamp.-, return: return-bar -> lamp.+, wire: 14 AWG 3 m"
    expect(lamps().load("lamp", line=line).text, "reversed-polarity@lamp:f0")


def test_113_load_swapped_at_the_bars():
    line = "feed: return-bar/fuse 10 A -> lamp, return: feed-bar -> lamp, wire: 14 AWG 3 m"
    expect(lamps().load("lamp", line=line).text, "reversed-polarity@lamp:f0")


def second(case: Case, feed: str, back: str) -> Case:
    case.node("bank2", "bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah")
    case.node("bank-returns", "bar, rating: 400 A")
    case.line("main", "feed: bank/fuse class-t 200 A -> feed-bar, return: bank -> bank-returns, wire: 2/0 AWG 1 m")
    case.line("shunt", "return: bank-returns -> meter -> return-bar, wire: [2/0 AWG 0.3 m, 0.3 m]")
    return case.line("l2", f"feed: bank2.{feed}/fuse class-t 200 A -> feed-bar, return: bank2.{back} -> bank-returns, "
                           "wire: 2/0 AWG 1 m")


def test_114_second_battery_swapped():
    expect(second(lamps(), "+", "-").text, "")
    expect(second(lamps(), "-", "+").text, "reversed-polarity@l2:f0")


def test_115_only_bank_swapped():
    case = lamps().line("main", "feed: bank.-/fuse class-t 200 A -> feed-bar, return: bank.+ -> meter -> return-bar, "
                                "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")
    expect(case.text, "reversed-polarity@main:f0")


def panel(case: Case, feed: str, back: str) -> Case:
    case.node("p", "panel, rating: 60 A")
    case.line("pf", f"feed: {feed}/fuse 30 A -> p, return: {back} -> p, wire: 8 AWG 1 m")
    return case.loads("x0", "x1", "x2", "x3", bar="p")


def test_116_panel_swapped():
    expect(panel(lamps(), "feed-bar", "return-bar").text, "")
    expect(panel(lamps(), "return-bar", "feed-bar").text, "reversed-polarity@pf:f0")


def test_116_swapped_panel_of_many_loads():
    """More hangs on the panel than on the feed bar, and less than on the return bar."""
    case = panel(Case().load("lamp-1"), "return-bar", "feed-bar")
    for name in ("hull", "frame", "mast"):
        case.node(name, "chassis").line(f"{name}-bond", f"bond: return-bar -> {name}, wire: 4 AWG 1 m")
    expect(case.text, "reversed-polarity@pf:f0")


def test_116_panel_return_on_the_feed_bar():
    expect(panel(lamps(), "feed-bar", "feed-bar").text, "missing-return@pf:r0")


def test_two_faults_of_poles():
    case = lamps().load("lamp", line=plain("lamp", "feed-bar/fuse 10 A", "feed-bar"))
    case.load("spot", line=plain("spot", "return-bar", "return-bar"))
    expect(case.text, "missing-return@lamp:r0 unfed-node@spot:f0")


def test_wire_across_a_stack():
    case = Case("12 V").drop("bank", "main")
    battery = "battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah"
    case.nodes = {"b1": battery, "b2": battery, **case.nodes}
    case.line("link", "series: b1/fuse class-t 200 A -> b2, wire: 2/0 AWG 0.3 m")
    case.line("main", f"feed: b2/fuse class-t 200 A -> feed-bar, {MAIN_RETURN.replace('bank', 'b1')}")
    case.loads("lamp-1", "lamp-2", volts="24 V")
    expect(case.text, "")
    case.line("bad", "feed: feed-bar/fuse 10 A -> return-bar, return: none, wire: 14 AWG 1 m")
    expect(case.text, "short-circuit@bad:f0")


def test_wire_across_one_of_a_stack():
    case = Case("12 V").drop("bank", "main")
    battery = "battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah"
    case.nodes = {"b1": battery, "b2": battery, **case.nodes}
    case.line("link", "series: b1/fuse class-t 200 A -> b2, wire: 2/0 AWG 0.3 m")
    case.line("main", f"feed: b2/fuse class-t 200 A -> feed-bar, {MAIN_RETURN.replace('bank', 'b1')}")
    case.loads("lamp-1", "lamp-2", volts="24 V")
    case.line("bad", "feed: feed-bar/fuse 10 A -> b2.-, return: none, wire: 14 AWG 1 m")
    expect(case.text, "short-circuit@bad:f0")


def test_line_and_neutral_on_one_terminal():
    case = lamps().node("pedestal", "shore, rating: 30 A").node("ac-panel", "ac panel, rating: 30 A")
    case.node("outlets", "outlet, rating: 15 A")
    case.line("shore", "ac: pedestal -> breaker 2-pole 30 A -> ac-panel, wire: [10 AWG 0.2 m, 1 m]")
    case.line("outlets", "ac: ac-panel/breaker 15 A -> outlets, wire: 12 AWG 3 m")
    expect(case.text, "")
    expect(case.line("bad", "bond: ac-panel.L -> ac-panel.N, wire: 12 AWG 0.2 m").text, "short-circuit@bad:b0")
