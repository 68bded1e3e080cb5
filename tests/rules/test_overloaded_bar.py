"""Bars, switches and panels against what passes them and what stands ahead."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from diagrammer.rules.whole import overloaded_bar
from tests.rules.asked import found, van

RULE = "overloaded-bar"


@pytest.mark.parametrize(("item", "node", "count"), [
    ("switch 19.9 A", "Q2", 1), ("switch 20 A", "", 0), ("plug 19 A", "X1", 1), ("plug 20 A", "", 0),
])
def test_what_is_passed(item, node, count):
    text = van(f"{{feed: feed-bar/fuse 30 A -> {item} -> lamp, wire: [10 AWG 1 m, 1 m]}}",
        nodes="  lamp: {kind: load, voltage: 12 V, current: 20 A}")
    found_ = found(RULE, text)
    assert [one.nodes[0] for one in found_] == [node] * count and all(one.severity == "danger" for one in found_)


@pytest.mark.parametrize(("rating", "count"), [("23.9 A", 1), ("24 A", 0)])
def test_a_joint_bears_the_sum(rating, count):
    nodes = f"  tee: {{kind: joint, rating: {rating}, pair: return-bar}}\n" + "\n".join(
        f"  lamp-{n}: {{kind: load, voltage: 12 V, current: 12 A}}" for n in (1, 2))
    text = van("{feed: feed-bar/fuse 30 A -> tee, wire: 10 AWG 1 m}",
        *(f"{{feed: tee -> lamp-{n}, wire: 10 AWG 1 m}}" for n in (1, 2)), nodes=nodes)
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize(("amps", "severities"), [("60 A", []), ("70 A", ["warning"])])
def test_a_panel_behind_a_larger_device(amps, severities):
    nodes = "  box: {kind: panel, rating: 60 A, pair: return-bar}\n" + "\n".join(
        f"  lamp-{n}: {{kind: load, voltage: 12 V, current: 2 A}}" for n in (1, 2))
    lines = [f"{{feed: box/fuse 40 A -> lamp-{n}, wire: 8 AWG 1 m}}" for n in (1, 2)]
    text = van(f"{{feed: feed-bar/fuse {amps} -> box, wire: 4 AWG 1 m}}", *lines, nodes=nodes)
    assert [one.severity for one in found(RULE, text)] == severities
    small = [line.replace("40 A", "20 A") for line in lines]  # the branches together let 40 A out
    assert found(RULE, van(f"{{feed: feed-bar/fuse {amps} -> box, wire: 4 AWG 1 m}}", *small, nodes=nodes)) == ()


@pytest.mark.parametrize(("switch", "wire", "count"),
    [("200 A", "4/0 AWG", 0), ("199 A", "4/0 AWG", 1), ("179 A", "3 AWG", 1), ("180 A", "3 AWG", 0)])
def test_a_battery_switch_bears_the_main_device_or_its_cable(switch, wire, count):
    """ABYC E-11 11.6.1.2.3; 3 AWG may carry 180 A."""
    text = van("{feed: feed-bar/fuse 200 A -> lamp, wire: 4/0 AWG 1 m}",
        nodes="  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = text.replace("switch battery 300 A", f"switch battery {switch}").replace("[2/0 AWG 0.5 m", f"[{wire} 0.5 m")
    assert len(found(RULE, text)) == count


def test_a_starter_battery_that_can_be_joined_is_not_the_device_ahead():
    nodes = ("  engine: {kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah, "
             "pair: return-bar}\n"
             "  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = van("{feed: engine/fuse 400 A -> switch open 400 A -> fuse 400 A/feed-bar, wire: [4/0 AWG 1 m, 1 m]}",
               "{return: engine -> return-bar, wire: 4/0 AWG 1 m}",
               "{feed: feed-bar/fuse 350 A -> lamp, wire: 4/0 AWG 1 m}", nodes=nodes)
    assert found(RULE, text) == ()


def test_an_alternator_that_nothing_limits_is_not_the_device_ahead():
    """Beyond the starter battery's fuse it counts no more than that battery does; what it gives is a current."""
    nodes = ("  engine: {kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah, "
             "pair: return-bar}\n"
             "  alternator: {kind: alternator, voltage: 14 V, output: 90 A, self limiting: no}\n"
             "  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = van("{feed: engine/fuse 400 A -> switch open 400 A -> fuse 400 A/feed-bar, wire: [4/0 AWG 1 m, 1 m]}",
               "{return: engine -> return-bar, wire: 4/0 AWG 1 m}",
               "{feed: alternator/fuse 100 A -> fuse 100 A/engine, return: alternator -> return-bar, wire: 2 AWG 1 m}",
               "{feed: feed-bar/fuse 350 A -> lamp, wire: 4/0 AWG 1 m}", nodes=nodes)
    assert found(RULE, text.replace("[2/0 AWG 0.5 m", "[4/0 AWG 0.5 m")) == ()


@pytest.mark.parametrize(("length", "rating", "count"), [("1 m", "16 A", 1), ("12 m", "21 A", 0), ("1 m", "21 A", 0)])
def test_a_current_that_only_a_drop_makes_is_its_symptom(length, rating, count):
    """180 W at 12 V are 15 A; the bank low and 20 % lost on the way make more of it than the switch bears."""
    text = van(f"{{feed: feed-bar/fuse 40 A -> switch {rating} -> pump, wire: [12 AWG {length}, 1 m]}}",
               nodes="  pump: {kind: load, voltage: 12 V, power: 180 W, hours: 4}")
    assert len(found(RULE, text)) == count


def test_wind_on_a_bar_without_its_battery_drives_nothing_through_the_loads():
    nodes = ("  mill: {kind: wind, power: 240 W, voltage: 12 V, output: 20 A}\n"
             "  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = van("{feed: mill -> fuse 30 A/feed-bar, wire: 8 AWG 2 m}",
               "{feed: feed-bar/fuse 3 A -> switch 5 A -> lamp, wire: [16 AWG 1 m, 1 m]}", nodes=nodes)
    swapped = text.replace("bank/fuse class-t", "bank.-/fuse class-t").replace("return: bank ->", "return: bank.+ ->")
    assert found(RULE, text) == found(RULE, swapped) == ()


PUMP = "  pump: {kind: load, voltage: 12 V, power: 180 W, hours: 4}"
HEATER = "  heater: {kind: load, voltage: 12 V, current: 100 A}"


def behind(way: str, length: str, nodes: str = "") -> str:
    """A pump of 15 A behind a node, at the end of a long line, and beside it a heater."""
    on = way.replace("1", "2")
    return van(f"{{feed: feed-bar/fuse 40 A -> {way}, return: none, wire: 12 AWG {length}}}",
               f"{{feed: {on} -> pump, return: return-bar -> pump, wire: 12 AWG 1 m}}",
               "{feed: feed-bar/fuse 150 A -> heater, wire: 2 AWG 1 m}", nodes=f"{PUMP}\n{HEATER}\n{nodes}")


@pytest.mark.parametrize(("node", "way"), [
    ("kind: joint, pair: return-bar", "part"), ("kind: panel, pair: return-bar", "part"), ("kind: switch", "part.1"),
])
@pytest.mark.parametrize(("length", "rating", "count"), [
    ("1 m", "16 A", 1), ("12 m", "14 A", 1), ("12 m", "16.3 A", 1), ("12 m", "16.7 A", 0), ("12 m", "21 A", 0)])
def test_what_it_carries_without_the_drop_decides(node, way, length, rating, count):
    """15 A by its power; with a fifth of the voltage lost more. Currents elsewhere have no part in it."""
    text = behind(way, length, f"  part: {{{node}, rating: {rating}}}")
    assert [one.nodes[0] for one in found(RULE, text) if one.severity == "danger"] == ["part"] * count


def test_what_has_no_rating_bears_what_it_must():
    nodes = ("  tee: {kind: joint, pair: return-bar}\n  lamp: {kind: load, voltage: 12 V, current: 12 A}")
    assert found(RULE, van("{feed: feed-bar/fuse 30 A -> tee, wire: 10 AWG 1 m}",
                           "{feed: tee -> lamp, wire: 10 AWG 1 m}", nodes=nodes)) == ()


@pytest.mark.parametrize(("direct", "count"), [(False, 0), (True, 1)])
def test_a_load_without_a_device_may_draw_all_that_comes(direct, count):
    """The two branches let 40 A out of a panel of 60 A; what stands on it with no device is not limited by any."""
    nodes = "  box: {kind: panel, rating: 60 A, pair: return-bar}\n" + "\n".join(
        f"  lamp-{n}: {{kind: load, voltage: 12 V, current: 2 A}}" for n in (1, 2, 3))
    lines = ["{feed: feed-bar/fuse 70 A -> box, wire: 4 AWG 1 m}",
             *(f"{{feed: box/fuse 20 A -> lamp-{n}, wire: 8 AWG 1 m}}" for n in (1, 2))]
    extra = f"{{feed: box{'' if direct else '/fuse 10 A'} -> lamp-3, wire: 4 AWG 1 m}}"
    assert len(found(RULE, van(*lines, extra, nodes=nodes))) == count


def test_a_line_whose_device_is_too_large_is_told_of_first():
    """70 A on 10 AWG: whatever replaces it, the panel is judged anew."""
    nodes = "  box: {kind: panel, rating: 60 A, pair: return-bar}\n  lamp: {kind: load, voltage: 12 V, current: 2 A}"
    lines = ["{feed: feed-bar/fuse 70 A -> box, wire: 10 AWG 1 m}", "{feed: box -> lamp, wire: 4 AWG 1 m}"]
    assert found(RULE, van(*lines, nodes=nodes)) == ()
    assert len(found(RULE, van(lines[0].replace("10 AWG", "4 AWG"), lines[1], nodes=nodes))) == 1


@pytest.mark.parametrize(("rating", "count"), [("199 A", 1), ("200 A", 0)])
def test_a_selector_is_a_battery_switch(rating, count):
    nodes = f"  pick: {{kind: selector, rating: {rating}}}\n  lamp: {{kind: load, voltage: 12 V, current: 2 A}}"
    text = van("{feed: feed-bar/fuse 200 A -> lamp, wire: 4/0 AWG 1 m}", nodes=nodes)
    text = text.replace("-> switch battery 300 A -> feed-bar", "-> pick.1").replace("[2/0 AWG 0.5 m, 0.5 m]", (
        "{feed: 4/0 AWG 0.5 m, return: [4/0 AWG 0.5 m, 0.5 m]}\n"
        "  - {feed: pick -> feed-bar, return: none, wire: 4/0 AWG 1 m}"))
    assert [one.nodes[0] for one in found(RULE, text)] == ["pick"] * count


def test_the_larger_of_two_cables_on_a_battery_switch_decides():
    """3 AWG may carry 180 A, 4/0 AWG more than the 200 A of the main fuse."""
    text = van("{feed: feed-bar/fuse 200 A -> lamp, wire: 4/0 AWG 1 m}",
               nodes="  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = text.replace("switch battery 300 A", "switch battery 190 A").replace(
        "wire:   [2/0 AWG 0.5 m, 0.5 m]", "wire: {feed: [4/0 AWG 0.5 m, 3 AWG 0.5 m], return: 4/0 AWG 1 m}")
    assert len(found(RULE, text)) == 1
    assert found(RULE, text.replace("[4/0 AWG 0.5 m, 3", "[3 AWG 0.5 m, 3")) == ()


@pytest.mark.parametrize(("metres", "count"), [(1, 1), (120, 1)])
@pytest.mark.parametrize("line", ["L1", "L2"])
def test_of_several_lines_the_one_that_carries_most_counts(metres, count, line):
    """2 kW at 120 V are 16.7 A on one of two lines, whatever is lost on the way."""
    text = f"""
nodes:
  set: {{kind: generator, power: 9 kW, neutral: bonded, phases: 2+N}}
  board: {{kind: ac panel, rating: 12 A, phases: 2+N}}
  heater: {{kind: ac load, power: 2 kW}}
circuits:
  - {{ac: set/breaker 2-pole 30 A -> board, wire: 10 AWG {metres} m}}
  - {{ac: board.{line}/breaker 25 A -> heater, wire: 10 AWG 1 m}}
"""
    assert [one.message.split(" (")[0][:20] for one in found(RULE, text)] == ["ac panel `board` car"] * count


def test_a_device_of_no_known_rating_is_not_held_against_what_follows():
    nodes = "  box: {kind: panel, rating: 60 A, pair: return-bar}\n  lamp: {kind: load, voltage: 12 V, current: 2 A}"
    lines = ["{feed: feed-bar/fuse AMPS -> box, wire: 4 AWG 1 m}", "{feed: box -> lamp, wire: 4 AWG 1 m}"]
    for amps, count in (("", 0), ("70 A", 1)):
        text = van(lines[0].replace(" AMPS", f" {amps}" if amps else ""), lines[1], nodes=nodes)
        assert len(found(RULE, text)) == count


def test_the_return_s_cable_is_none_of_a_battery_switch():
    """3 AWG of the feed may carry 180 A; the return is thicker."""
    text = van("{feed: feed-bar/fuse 200 A -> lamp, wire: 4/0 AWG 1 m}",
               nodes="  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = text.replace("switch battery 300 A", "switch battery 2-pole 190 A")
    text = text.replace("return: bank -> meter", "return: bank -> Q1 -> meter")
    text = text.replace("wire:   [2/0 AWG 0.5 m, 0.5 m]", "wire: {feed: [3 AWG 0.5 m, 0.5 m], return: 4/0 AWG 1 m}")
    assert found(RULE, text) == ()
    assert len(found(RULE, text.replace("3 AWG 0.5 m", "4/0 AWG 0.5 m"))) == 1


@pytest.mark.parametrize(("share", "count"), [(1, 0), (0.999999, 1)])
def test_what_is_met_is_not_passed(monkeypatch, share, count):
    monkeypatch.setattr(overloaded_bar, "ROUNDING", 0.0)
    nodes = "  tee: {kind: joint, rating: AMPS, pair: return-bar}\n  lamp: {kind: load, voltage: 12 V, current: 12 A}"
    text = van("{feed: feed-bar/fuse 30 A -> tee, wire: 10 AWG 1 m}",
               "{feed: tee -> lamp, wire: 10 AWG 1 m}", nodes=nodes)
    carried = Survey(read(text.replace("AMPS", "20 A"))[0]).loading.into("tee").amps
    assert len(found(RULE, text.replace("AMPS", f"{carried * share!r} A"))) == count
    nodes = "  box: {kind: panel, rating: 60 A, pair: return-bar}\n  lamp: {kind: load, voltage: 12 V, current: 2 A}"
    assert found(RULE, van("{feed: feed-bar/fuse 60 A -> box, wire: 4 AWG 1 m}",
                           "{feed: box -> lamp, wire: 4 AWG 1 m}", nodes=nodes)) == ()


@pytest.mark.parametrize(("amps", "count"), [(29.9, 0), (30, 0), (30.1, 1)])
def test_what_a_dump_controller_turns_into_heat(amps, count):
    """Common practice: its contact bears what the dump load takes."""
    text = van("{feed: feed-bar/fuse 40 A -> brake, wire: 4 AWG 1 m}", "{feed: brake.dump -> heat, wire: 4 AWG 1 m}",
               nodes="  brake: {kind: dump controller, rating: 30 A}\n"
                     f"  heat: {{kind: load, voltage: 12 V, current: {amps} A}}")
    assert [one.nodes for one in found("overloaded-bar", text) if "brake" in one.nodes] == [("brake",)] * count
