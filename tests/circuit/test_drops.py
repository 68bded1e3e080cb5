"""What is lost on the way to what draws and back, by the formula of ISO 10133 Annex A: E = 0.0164 I L / S (read)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from diagrammer.circuit.drops import Drop, Drops
from diagrammer.circuit.study import study
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.voltages import Voltages
from diagrammer.circuit.ways import Poles
from tests.circuit.cases import netlist, system

BANK = "bank: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 200 kA\n"


def drops(nodes: str, lines: str, head: str = "", practice: str = "iso"):
    return Survey(system(netlist(nodes, lines, practice, head))).drops


def lost(amps: float, metres: float, square: float = 2.5) -> float:
    return 0.0164 * amps * metres / square


SPLIT = """
first: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah
second: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah
mid: bar, rating: 50 A
rail: bar, rating: 50 A
post: bar, rating: 50 A
far: bar, rating: 50 A
lamp: load, voltage: 12 V, current: 5 A
"""
APART = """
own: return: first -> mid, wire: 2.5 mm² 1 m
on: return: mid -> rail, wire: 2.5 mm² 2 m
away: return: rail -> post, wire: 2.5 mm² 4 m
to: return: post -> second, wire: 2.5 mm² 8 m
out: return: rail -> far, wire: 2.5 mm² 16 m
lamp: feed: second/fuse 10 A -> lamp, return: far -> lamp, wire: {feed: 2.5 mm² 32 m, return: 2.5 mm² 64 m}
"""


def test_the_way_back_ends_at_the_source_from_which_the_way_there_began():
    """Another bank hangs on the same returns, to which nothing flows."""
    found = drops(SPLIT, APART).all["lamp"]
    assert [wire.id for wire, _ in found.lost] == ["lamp:f0", "to:r0", "away:r0", "out:r0", "lamp:r0"]
    assert {wire.id: volts for wire, volts in found.lost} == pytest.approx({
        "lamp:f0": lost(5, 32), "to:r0": lost(5, 8), "away:r0": lost(5, 4), "out:r0": lost(5, 16), "lamp:r0": lost(5, 64)})
    assert found.lines == pytest.approx({
        "lamp": lost(5, 96), "to": lost(5, 8), "away": lost(5, 4), "out": lost(5, 16)})
    assert found.volts == pytest.approx(lost(5, 124)) == pytest.approx(sum(found.lines.values()))
    assert (found.length, found.base, found.share, found.ac) == (124, 12, 0.1, False)
    assert found.over == pytest.approx(lost(5, 124) - 1.2) and found.when == "parked, nothing charges"


def test_nothing_lost_is_not_ac():
    assert not Drop("panel", 0.0, 12.0, 0.03, 0.0, (), "").ac


FAR = BANK.replace("200 kA", "2 kA") + """
near: bar, rating: 100 A, pair: back
back: bar, rating: 100 A
tail: bar, rating: 100 A, pair: back
beyond: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 20 kA
alt: alternator, output: 90 A, self limiting: yes
lamp: load, voltage: 12 V, current: 5 A
dcc: dc charger, voltage: 12 V, output: 10 A
third: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah
"""
CHARGED = """
main: feed: bank/fuse 100 A -> near, return: bank -> back, wire: 16 mm² 0.5 m
alt: feed: alt -> fuse 100 A/bank, return: alt -> bank, wire: 16 mm² 1 m
tail: feed: near -> tail, return: none, wire: 10 mm² 8 m
lamp: feed: tail/fuse 10 A -> lamp, wire: 2.5 mm² 1 m
beyond: feed: tail -> switch 100 A -> switch 100 A -> switch 100 A -> fuse 100 A/beyond, return: beyond -> back, wire: {feed: [10 mm² 0.1 m, 0.1 m, 0.1 m, 0.1 m], return: 16 mm² 1 m}
dcc: feed: bank/fuse 20 A -> dcc.in, return: dcc.in -> bank, wire: 4 mm² 2 m
third: feed: dcc -> fuse 20 A/third, wire: 4 mm² 2 m
"""


def test_a_dc_drop_counts_where_nothing_charges():
    """With the engine on a charge current to the bank beyond shares the lamp's line and loses more there."""
    found = drops(FAR, CHARGED)
    assert found.all["lamp"].when == "parked, nothing charges"
    running = next(one for one in found.study.nominal if "engine" in one.state.name)
    wire = next(wire for wire in found.system.conductors if wire.circuit == "tail")
    assert running.amps(wire) > 10 and found.all["lamp"].lines["tail"] < lost(5, 8, 10)


def test_what_draws_only_while_something_charges_is_judged_then():
    found = drops(FAR, CHARGED).all["dcc"]
    assert "engine running" in found.when and found.volts > 0.1


def test_an_ac_drop_counts_in_the_worst_state():
    """Over a long shore cable more is lost than behind the inverter."""
    nodes = BANK + """
combi: inverter charger, power: 3 kW, charge: 40 A
quay: shore, rating: 16 A
kettle: ac load, power: 1150 W
"""
    lines = """
combi: feed: bank/fuse 300 A -> combi, wire: 95 mm² 1 m
quay: ac: quay/breaker 2-pole 16 A -> combi.in, wire: 2.5 mm² 30 m
kettle: ac: combi/breaker 10 A -> kettle, wire: 2.5 mm² 5 m
"""
    found = drops(nodes, lines).all["kettle"]
    assert found.when == "on shore power" and found.ac and set(found.lines) == {"quay", "kettle"}
    assert found.lines["kettle"] == pytest.approx(0.0225 * 5 * 10 / 2.5, rel=0.1)  # IEC 60364-5-52 Annex G


def test_the_largest_drop_of_several_states_is_told_with_its_state():
    head = "states: {fan only: {pump: off}, both: {fan: on}, none: {pump: off, fan: off}, again: {fan: on}}"
    nodes = BANK + "tee: bar, rating: 30 A\nfan: load, voltage: 12 V, current: 2 A\npump: load, voltage: 12 V, current: 5 A"
    lines = """
tee: feed: bank/fuse 20 A -> tee, return: none, wire: 2.5 mm² 10 m
fan: feed: tee -> fan, return: fan -> bank, wire: 2.5 mm² 1 m
pump: feed: tee -> pump, return: pump -> bank, wire: 2.5 mm² 1 m
"""
    found = drops(nodes, lines, head).all
    assert list(found) == ["fan", "pump"]
    assert (found["fan"].when, found["fan"].volts) == ("both", pytest.approx(lost(7, 10) + lost(2, 2)))
    assert (found["pump"].when, found["pump"].volts) == ("both", pytest.approx(lost(7, 10) + lost(5, 2)))


LAMP = "lamp: feed: bank/fuse 10 A -> lamp, wire: WIRE\n"


@pytest.mark.parametrize(("wire", "volts"), [
    ("2.5 mm² 10 m", lost(5, 20)), ("2 parallel 2.5 mm² 10 m", lost(5, 10)), ("10 m", 0),
    ("{size: 2.5 mm², length: 10 m, material: aluminium}", lost(5, 20) * 0.02688 / 0.0164),
])
def test_what_a_conductor_loses(wire, volts):
    """Aluminium: in the proportion of the resistivities (computed)."""
    found = drops(BANK + "lamp: load, voltage: 12 V, current: 5 A", LAMP.replace("WIRE", wire)).all["lamp"]
    assert found.volts == pytest.approx(volts) and found.length == 20


CONSUMERS = BANK + """
lamp: load, voltage: 12 V, power: 10 W, critical: yes
radio: load, voltage: 9 .. 16 V, power: 10 W
box: panel, rating: 20 A
up: converter, voltage: 24 V, output: 2 A, input voltage: 12 V
inv: inverter, power: 500 W, neutral: bonded
combi: inverter charger, power: 500 W, charge: 10 A
dcc: dc charger, voltage: 12 V, output: 10 A
motor: drive, voltage: 12 V, power: 300 W
light: ac load, power: 10 W, duty: light
heater: ac load, power: 100 W
spare: bar, rating: 10 A
"""
EACH = "".join(f"{name}: feed: bank/fuse 50 A -> {name}{port}, wire: 10 mm² 1 m\n" for name, port in [
    ("lamp", ""), ("radio", ""), ("box", ""), ("up", ".in"), ("inv", ""), ("combi", ""), ("dcc", ".in"), ("motor", "")]) + """
spare: feed: bank/fuse 5 A -> spare, return: none, wire: 2.5 mm² 1 m
light: ac: inv/breaker 10 A -> light, wire: 2.5 mm² 1 m
heater: ac: combi/breaker 10 A -> heater, wire: 2.5 mm² 1 m
"""


def test_to_what_a_drop_counts_and_of_which_voltage():
    found = drops(CONSUMERS, EACH)
    said = {one.node: (one.plus, one.minus, one.base, one.critical) for one in found.consumers}
    assert said == {
        "lamp": ("lamp.+", "lamp.-", 12, True), "radio": ("radio.+", "radio.-", 12.8, False),
        "box": ("box.+", "box.-", 12.8, True), "up": ("up.in.+", "up.in.-", 12.8, False),
        "inv": ("inv.+", "inv.-", 12.8, False), "combi": ("combi.+", "combi.-", 12.8, False),
        "dcc": ("dcc.in.+", "dcc.in.-", 12.8, False), "motor": ("motor.+", "motor.-", 12.8, False),
        "light": ("light.L", "light.N", 230, True), "heater": ("heater.L", "heater.N", 230, False),
    }
    shares = {name: one.share for name, one in found.all.items()}
    assert shares == {"lamp": 0.03, "radio": 0.1, "box": 0.03, "up": 0.1, "inv": 0.1, "combi": 0.1, "motor": 0.1,
                      "dcc": 0.1, "light": 0.06, "heater": 0.08}
    assert list(found.all) == [name for name in found.system.nodes if name in found.all]


def test_the_sources_of_a_state():
    """A stack from its top to its foot, each battery of it too; converters whose output no battery holds."""
    nodes = """
low: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah
high: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah
down: converter, voltage: 12 V, output: 10 A, input voltage: 24 V
dcc: dc charger, voltage: 24 V, output: 10 A, input voltage: 12 V
engine: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah
alt: alternator, output: 90 A, self limiting: yes
fan: load, voltage: 12 V, power: 20 W
"""
    lines = """
stack: series: low -> high, wire: 50 mm² 0.3 m
down: feed: high/fuse 20 A -> down.in, return: low -> down.in, wire: 6 mm² 1 m
fan: feed: down/fuse 5 A -> fan, wire: 2.5 mm² 1 m
alt: feed: alt -> engine, return: alt -> engine, wire: 16 mm² 1 m
dcc: feed: engine/fuse 50 A -> dcc.in, wire: 10 mm² 1 m
give: feed: dcc -> fuse 20 A/high, return: dcc -> low, wire: 6 mm² 1 m
"""
    found = drops(nodes, lines)
    running = next(one for one in found.study.nominal if "engine" in one.state.name)
    assert set(found.sources(running)) == {
        Poles("low.+", "low.-"), Poles("high.+", "low.-"), Poles("engine.+", "engine.-"), Poles("down.+", "down.-")}
    assert found.sources(running)[-1] == Poles("down.+", "down.-")  # the batteries first
    assert {wire.id for wire, _ in found.all["fan"].lost} == {"fan:f0", "fan:r0"}
    assert "stack:s0" not in {wire.id for wire, _ in found.all["down"].lost}


STUCK = BANK + """
winch: load, voltage: 12 V, HEAVY
horn: load, voltage: 12 V, current: 2 A, count: 3, hours: 0.1
lamp: load, voltage: 12 V, current: 1 A, hours: 4
inv: inverter, power: 1 kW, neutral: bonded
"""
THIN = """
winch: feed: bank/fuse 100 A -> winch, wire: 2.5 mm² 60 m
horn: feed: bank/fuse 10 A -> horn, wire: 2.5 mm² 1 m
lamp: feed: bank/fuse 5 A -> lamp, wire: 2.5 mm² 3 m
inv: feed: bank/fuse 100 A -> inv, wire: 35 mm² 1 m
"""


@pytest.mark.parametrize("heavy", ["power: 600 W, hours: 0.05", "power: 300 W, count: 2, hours: 0.05"])
def test_a_momentary_load_that_cannot_be_carried_loses_its_own_current_alone(heavy):
    """600 W at 12 V are 50 A; the horns of 2 A each, that are for moments too, their 6 A. The rest goes on as it is."""
    found = drops(STUCK.replace("HEAVY", heavy), THIN).all
    assert found["winch"].volts == pytest.approx(lost(50, 120)) == pytest.approx(sum(found["winch"].lines.values()))
    assert found["horn"].volts == pytest.approx(lost(6, 2)) and found["lamp"].volts == pytest.approx(lost(1, 6))
    assert (found["winch"].base, found["winch"].length) == (12, 120)


def test_where_nothing_can_flow_each_load_loses_its_own_current_alone():
    found = drops(STUCK.replace("HEAVY", "power: 600 W"), THIN).all
    assert found["winch"].volts == pytest.approx(lost(50, 120)) and found["lamp"].volts == pytest.approx(lost(1, 6))
    assert found["horn"].volts == pytest.approx(lost(6, 2)) and found["inv"].volts == 0  # no load says its current


RAISED = BANK + "lamp: load, voltage: 12 V, current: 5 A\nfan: load, voltage: 12 V, current: 1 A"
LONG = "lamp: feed: bank/fuse 10 A -> lamp, wire: 2.5 mm² 25 m\nfan: feed: bank/fuse 10 A -> fan, wire: 2.5 mm² 1 m\n"


def test_a_current_that_a_drop_explains():
    """1.64 V of 12 V are lost, more than the 10 % allowed; empty, a cell has 2.8 V and not 3.2 (common practice)."""
    found = drops(RAISED, LONG)
    usual = 10 * (1 - lost(5, 50) / 12) * 3.2 / 2.8
    assert found.explain(("fan", "lamp"), 10.0, usual * 1.001) and not found.explain(("lamp",), 10.0, usual * 0.999)
    assert not found.explain(("fan",), 10.0, 1000.0) and not found.explain((), 10.0, 1000.0)


def test_of_two_drops_on_one_line_the_larger_share_explains():
    nodes = RAISED + "\ntee: bar, rating: 30 A"
    lines = """
tee: feed: bank/fuse 10 A -> tee, return: none, wire: 2.5 mm² 40 m
lamp: feed: tee -> lamp, return: lamp -> bank, wire: 2.5 mm² 5 m
fan: feed: tee -> fan, return: fan -> bank, wire: 2.5 mm² 5 m
"""
    found = drops(nodes, lines)
    share = (lost(6, 40) + lost(5, 10)) / 12
    usual = 10 * (1 - share) * 3.2 / 2.8
    for order in (("tee", "fan"), ("fan", "tee")):
        assert found.explain(order, 10.0, usual * 1.001) and not found.explain(order, 10.0, usual * 0.999)


def test_exactly_what_is_allowed_explains_nothing():
    """10 % of 12 V: 1.2 V."""
    metres = 1.2 / lost(5, 2)
    for length, raised in ((metres * 0.999, False), (metres * 1.001, True)):
        found = drops(RAISED, LONG.replace("25 m", f"{length!r} m"))
        assert found.explain(("lamp",), 10.0, 1000.0) is raised


def test_a_momentary_load_that_can_be_carried_loses_what_flows():
    """60 W find less than 12 V and so take more than 5 A."""
    nodes = BANK + "horn: load, voltage: 12 V, power: 60 W, hours: 0.1"
    found = drops(nodes, "horn: feed: bank/fuse 10 A -> horn, wire: 2.5 mm² 30 m").all["horn"]
    assert lost(5.2, 60) < found.volts < lost(7, 60)


def test_what_goes_on_beside_a_stuck_momentary_load_loses_what_flows():
    """12 W at nearly 12.8 V, not at 12."""
    nodes = STUCK.replace("HEAVY", "power: 600 W, hours: 0.05").replace("current: 1 A, hours: 4", "power: 12 W, hours: 4")
    assert drops(nodes, THIN).all["lamp"].volts == pytest.approx(lost(12 / 12.8, 6), rel=0.01)


def test_the_voltage_of_an_empty_bank_is_that_of_the_bank_that_falls_most():
    """2.0 V a cell down to 1.93 for agm, 3.2 down to 2.8 for lifepo4 (common practice)."""
    nodes = RAISED + "\nother: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah"
    usual = 10 * (1 - lost(5, 50) / 12) * 3.2 / 2.8
    found = drops(nodes, LONG)
    assert found.explain(("lamp",), 10.0, usual * 1.001) and not found.explain(("lamp",), 10.0, usual * 0.999)
    one = drops(RAISED, LONG).all["lamp"]
    assert drops(RAISED, LONG).explain(("lamp",), 10.0, 10.0 * (1 - one.volts / one.base) * (12.8 / 11.2))


def test_without_a_bank_only_the_drop_explains():
    nodes = "quay: shore, rating: 16 A\nkettle: ac load, power: 2 kW"
    found = drops(nodes, "kettle: ac: quay/breaker 2-pole 16 A -> kettle, wire: 1.5 mm² 80 m")
    share = found.all["kettle"].volts / 230
    assert share > 0.08 and found.explain(("kettle",), 10.0, 10.01 * (1 - share))
    assert not found.explain(("kettle",), 10.0, 9.99 * (1 - share))


def test_a_state_of_a_little_more_current_counts_and_of_equal_ones_the_first():
    head = "states: {some: {pump: off, idle: off}, more: {fan: on, idle: off}, again: {fan: on, idle: off}}"
    nodes = BANK + ("tee: bar, rating: 30 A\nfan: load, voltage: 12 V, current: 5 A\npump: load, voltage: 12 V, current: 1 A\n"
                    "idle: load, voltage: 12 V, current: 1 A")
    lines = """
tee: feed: bank/fuse 20 A -> tee, return: none, wire: 2.5 mm² 10 m
fan: feed: tee -> fan, return: fan -> bank, wire: 2.5 mm² 1 m
pump: feed: tee -> pump, return: pump -> bank, wire: 2.5 mm² 1 m
idle: feed: bank/fuse 5 A -> idle, wire: 2.5 mm² 1 m
"""
    found = drops(nodes, lines, head).all
    assert (found["fan"].when, found["fan"].volts) == ("more", pytest.approx(lost(6, 10) + lost(5, 2)))
    assert (found["idle"].when, found["idle"].volts) == ("some", 0)


def test_no_drop_without_a_way_there_and_back_of_one_source():
    nodes = BANK + "".join(f"fan{n}: load, voltage: 12 V, current: 1 A\n" for n in range(4)) + (
        "other: bank, chemistry: agm, voltage: 12 V, capacity: 80 Ah")
    lines = """
fan0: feed: bank/fuse 5 A -> fan0, wire: 2.5 mm² 1 m
fan1: feed: bank/fuse 5 A -> switch 5 A open -> fan1, return: fan1 -> bank, wire: [2.5 mm² 1 m, 1 m]
fan2: feed: bank/fuse 5 A -> fan2, return: none, wire: 2.5 mm² 1 m
fan3: feed: bank/fuse 5 A -> fan3, return: fan3 -> other, wire: 2.5 mm² 1 m
"""
    assert list(drops(nodes, lines).all) == ["fan0"]


def test_a_panel_bolted_on_the_bank_loses_nothing_of_what_dc_may_lose():
    found = drops(BANK + "box: panel, rating: 20 A", "box: feed: bank/fuse 20 A/box, return: bank/box").all["box"]
    assert (found.volts, found.length, found.lost, found.share, found.ac) == (0, 0, (), 0.03, False)


def test_a_line_of_two_has_its_neutral_for_the_way_back():
    nodes = "set: generator, power: 6 kW, neutral: bonded, phases: 2+N\nboard: ac panel, rating: 30 A, phases: 2+N\nkettle: ac load, power: 1 kW"
    lines = """
board: ac: set/breaker 2-pole 30 A -> board, wire: 6 mm² 10 m
kettle: ac: board.L1/breaker 15 A -> kettle, wire: 2.5 mm² 10 m
"""
    found = drops(nodes, lines).all["kettle"]
    assert [wire.id for wire, _ in found.lost] == ["board:a0.L1", "kettle:a0.L1", "board:a0.N", "kettle:a0.N"]
    assert all(volts > 0 for _, volts in found.lost) and found.length == 40


def test_batteries_in_a_ring_are_gone_round_once():
    """A fault that other checks name; asked all the same, an answer must come."""
    nodes = "".join(f"b{n}: battery, chemistry: agm, voltage: 12 V, capacity: 80 Ah\n" for n in (1, 2, 3))
    lines = """
up: feed: b1.+ -> b2.-, return: none, wire: 16 mm² 1 m
down: feed: b2.+ -> b1.-, return: none, wire: 16 mm² 1 m
on: feed: b1.+ -> b3.-, return: none, wire: 16 mm² 1 m
"""
    start = Survey(system(netlist(nodes, lines))).start
    found = Drops(start, study(start.system), Voltages(start))
    assert found.sources(found.study.nominal[0]) == (Poles("b1.+", "b2.-"), Poles("b2.+", "b1.-"), Poles("b3.+", "b2.-"))


@pytest.mark.parametrize("line", ["L1", "L2"])
def test_either_line_of_two_is_judged(line):
    nodes = "set: generator, power: 6 kW, neutral: bonded, phases: 2+N\nboard: ac panel, rating: 30 A, phases: 2+N\nkettle: ac load, power: 1 kW"
    lines = f"""
board: ac: set/breaker 2-pole 30 A -> board, wire: 6 mm² 10 m
kettle: ac: board.{line}/breaker 15 A -> kettle, wire: 2.5 mm² 10 m
"""
    found = drops(nodes, lines).all["kettle"]
    assert {wire.core for wire, _ in found.lost} == {line, "N"} and found.length == 40
    assert all(volts > 0 for _, volts in found.lost)
    assert found.volts == pytest.approx(0.0225 * 1000 / 230 * (20 / 6 + 20 / 2.5), rel=0.1)  # IEC 60364-5-52 Annex G


@pytest.mark.parametrize(("phases", "stated", "poles"), [
    ("2+N", "neutral: bonded", 3), ("2", "neutral: floating, voltage: 240 V", 2)])
def test_what_stands_between_two_lines_loses_on_both(phases, stated, poles):
    """12.9 I L / CM there and back (NEC Chapter 9 Table 8, K from memory), 14 AWG 4110, 6 AWG 26240 circular mil."""
    nodes = (f"set: generator, power: 9 kW, {stated}, phases: {phases}\nboard: ac panel, rating: 30 A, phases: {phases}\n"
             "boiler: ac load, power: 600 W, voltage: 240 V, phases: 2")
    lines = f"""
board: ac: set/breaker {poles}-pole 30 A -> board, wire: 6 AWG 10 m
boiler: ac: board/breaker 2-pole 15 A -> boiler, wire: 14 AWG 20 m
"""
    found = drops(nodes, lines, practice="nec").all["boiler"]
    assert [wire.id for wire, _ in found.lost][:2] == ["board:a0.L1", "boiler:a0.L1"]
    assert {wire.id: volts for wire, volts in found.lost} == pytest.approx({
        f"{line}:a0.{core}": 12.9 * 600 / 240 * metres / 0.3048 / area
        for core in ("L1", "L2") for line, metres, area in (("board", 10, 26240), ("boiler", 20, 4110))}, rel=0.02)
    assert (found.base, found.share, found.length) == (240, 0.05, 60)


def test_a_charger_that_rests_while_nothing_charges_is_judged_while_it_runs_whatever_else_hangs_on_its_line():
    nodes = """
start: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah, short circuit: 2 kA
alt: alternator, output: 90 A
tee: bar, rating: 100 A
fan: load, voltage: 12 V, current: 0.1 A
dcc: dc charger, voltage: 12 V, output: 30 A
house: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah
"""
    lines = """
alt: feed: alt -> start, return: alt -> start, wire: 25 mm² 1 m
tee: feed: start/fuse 60 A -> tee, return: none, wire: 10 mm² 12 m
fan: feed: tee/fuse 3 A -> fan, return: fan -> start, wire: 2.5 mm² 1 m
dcc: feed: tee/fuse 50 A -> dcc.in, return: dcc.in -> start, wire: 6 mm² 5 m
give: feed: dcc -> fuse 40 A/house, wire: 10 mm² 1 m
"""
    found = drops(nodes, lines).all
    assert found["dcc"].when == "engine running" and found["dcc"].over > 0
    assert found["fan"].when == "parked, nothing charges"


def test_what_a_load_loses_is_asked_where_it_runs_and_where_nothing_charges_if_anything_is_lost_there():
    """The pump is on under way only: parked, what its line loses is the lamp's. A panel whose loads are all off loses
    nothing parked, which says nothing of it."""
    head = "states: {parked: {pump: off, spot: off}, under way: {alt: on, lamp: off}}"
    nodes = BANK + """
alt: alternator, output: 60 A, self limiting: yes
tee: bar, rating: 60 A
lamp: load, voltage: 12 V, current: 2 A
pump: load, voltage: 12 V, current: 5 A
box: panel, rating: 20 A
spot: load, voltage: 12 V, current: 4 A
"""
    lines = """
alt: feed: alt -> bank, return: alt -> bank, wire: 16 mm² 1 m
tee: feed: bank/fuse 40 A -> tee, return: none, wire: 2.5 mm² 10 m
lamp: feed: tee -> lamp, return: lamp -> bank, wire: 2.5 mm² 1 m
pump: feed: tee -> pump, return: pump -> bank, wire: 2.5 mm² 1 m
box: feed: bank/fuse 20 A -> box, wire: 2.5 mm² 3 m
spot: feed: box/fuse 5 A -> spot, wire: 2.5 mm² 1 m
"""
    found = drops(nodes, lines, head).all
    assert {name: (one.when, one.volts) for name, one in found.items()} == {
        "lamp": ("parked", pytest.approx(lost(2, 12))), "pump": ("under way", pytest.approx(lost(5, 12))),
        "box": ("under way", pytest.approx(lost(4, 6))), "spot": ("under way", pytest.approx(lost(4, 8)))}


def test_a_drop_of_exactly_what_is_allowed_explains_nothing_either():
    found = drops(RAISED, LONG)
    wire = found.system.conductors[0]
    for volts, raised in ((2.0, False), (2.001, True)):
        found = drops(RAISED, LONG)
        found.all = {"lamp": Drop("lamp", volts, 8.0, 0.25, 10.0, ((wire, volts),), "")}
        assert found.explain((wire.circuit,), 10.0, 1000.0) is raised


def test_where_nothing_says_the_voltage_no_drop_is_judged():
    found = drops(BANK + "lamp: load, voltage: 12 V, current: 5 A", LAMP.replace("WIRE", "2.5 mm² 10 m"))
    found.consumers = (replace(found.consumers[0], base=0.0),)
    assert found.all == {}
