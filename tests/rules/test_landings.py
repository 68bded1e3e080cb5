"""Parallel conductors, studs and terminals."""

from __future__ import annotations

import pytest

from diagrammer.electrics.terminal import fits_barrel, fits_stud, read
from diagrammer.quantity import awg, mm2
from tests.rules.asked import found, van

LAMP = "  lamp: {kind: load, voltage: 12 V, power: 2 W}"


@pytest.mark.parametrize(("second", "count"), [
    ("1/0 AWG 1 m", 0), ("1/0 AWG 1.05 m", 0), ("1/0 AWG 1.06 m", 1), ("2/0 AWG 1 m", 1), ("2 parallel 1/0 AWG 1 m", 1),
])
def test_parallels(second, count):
    text = van("{name: a, feed: two/fuse class-t 150 A -> feed-bar, return: none, wire: 1/0 AWG 1 m}",
               f"{{name: b, feed: two/fuse class-t 150 A -> feed-bar, return: none, wire: {second}}}",
               nodes="  two: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah}")
    assert len(found("unequal-parallels", text)) == count


def test_what_can_be_open_is_no_parallel():
    text = van("{feed: feed-bar/fuse 10 A -> lamp, wire: 14 AWG 2 m}",
        "{feed: feed-bar/fuse 10 A -> switch -> lamp, wire: [14 AWG 1 m, 5 m]}", nodes=LAMP)
    assert found("unequal-parallels", text) == ()


@pytest.mark.parametrize(("count", "findings"), [(4, 0), (5, 1)])
def test_terminals_on_a_stud(count, findings):
    nodes = "\n".join(f"  lamp-{n}: {{kind: load, voltage: 12 V, power: 2 W}}" for n in range(count))
    lines = [f"{{feed: feed-bar@3/fuse 3 A -> lamp-{n}, wire: 16 AWG 1 m}}" for n in range(count)]
    assert len(found("crowded-stud", van(*lines, nodes=nodes))) == findings
    spread = [line.replace("@3", f"@{n}") for n, line in enumerate(lines)]
    assert found("crowded-stud", van(*spread, nodes=nodes)) == ()


@pytest.mark.parametrize(("wire", "findings"), [("2 parallel 2 AWG 1 m", 0), ("3 parallel 2 AWG 1 m", 1)])
def test_on_a_post_parallel_conductors_have_a_terminal_each(wire, findings):
    """With the two of another line: four, five."""
    text = van(f"{{name: a, feed: feed-bar/fuse 150 A -> post, return: none, wire: {wire}}}",
               "{name: b, feed: post -> lamp, return: none, wire: 2 parallel 2 AWG 1 m}",
               nodes=f"  post: {{kind: starter, current: 90 A, voltage: 12 V}}\n{LAMP}")
    assert len(found("crowded-stud", text)) == findings


@pytest.mark.parametrize(("feed", "back", "findings"), [
    ("feed-bar/fuse 10 A -> lamp", "meter.system", 1),
    ("feed-bar/fuse 10 A -> lamp", "bank", 0),  # it has to land beyond the shunt, which is told
    ("bank -> lamp", "return-bar", 0),  # a fuse has to go on the post, which is told: one terminal then
])
def test_terminals_that_have_to_go_elsewhere_do_not_crowd(feed, back, findings):
    battery = "{kind: battery, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA}"
    text = van(f"{{feed: {feed}, return: {back} -> lamp, wire: 5 parallel 2 AWG 1 m}}", nodes=LAMP, bank=battery)
    assert len([one for one in found("crowded-stud", text) if not one.nodes[0].startswith("F")]) == findings


@pytest.mark.parametrize("practice", ["abyc", "nec", "iso"])
@pytest.mark.parametrize(("lugs", "findings"), [(3, 0), (4, 1)])
def test_what_is_bolted_on_counts_with_the_lugs(practice, lugs, findings):
    """ABYC E-11: four on one stud; a fuse bolted to the post is one of them."""
    battery = "{kind: battery, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA}"
    text = van("{name: two, feed: bank -> twin, return: bank -> twin, wire: %d parallel 2 AWG 0.3 m}" % lugs,
               nodes="  twin: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA}",
               bank=battery, practice=practice)
    assert len([one for one in found("crowded-stud", text) if "`bank.+`" in one.message]) == findings


@pytest.mark.parametrize(("count", "findings"), [(4, 0), (5, 1)])
def test_each_end_has_its_own_stud(count, findings):
    """Returns that leave from one stud of the bar and reach loads without any."""
    nodes = "\n".join(f"  lamp-{n}: {{kind: load, voltage: 12 V, power: 2 W}}" for n in range(count))
    lines = [f"{{feed: feed-bar@{n}/fuse 3 A -> lamp-{n}, return: return-bar@9 -> lamp-{n}, wire: 16 AWG 1 m}}"
             for n in range(count)]
    said = [one.message for one in found("crowded-stud", van(*lines, nodes=nodes))]
    assert said == ["5 terminals sit on stud 9 of `return-bar`; 4 is the most"] * findings


def test_a_device_bolted_to_a_port_of_ac():
    nodes = "  quay: {kind: shore, rating: 16 A}\n  kettle: {kind: ac load, power: 500 W}"
    assert found("crowded-stud", van("{ac: quay/breaker 2-pole 6 A -> kettle, wire: 14 AWG 1 m}", nodes=nodes)) == ()


@pytest.mark.parametrize(("rating", "findings"), [("", 2), ("600 A", 2), ("601 A", 0)])
def test_what_is_rated_above_the_largest_stud_has_several(rating, findings):
    """M12 and 1/2 in studs usually take 600 A (common practice)."""
    text = van(f"{{feed: feed-bar/fuse 80 A -> switch {rating} -> lamp, return: none, wire: 5 parallel 2 AWG 1 m}}",
               nodes=LAMP)
    assert len([one for one in found("crowded-stud", text) if one.nodes == ("Q2",)]) == findings


def test_a_sense_lead_has_a_terminal_of_another_sort():
    leads = ["{feed: bank/fuse 1 A -> meter.sense, wire: 18 AWG 1 m}"] * 6
    assert found("crowded-stud", van(*leads)) == ()


@pytest.mark.parametrize(("hole", "on", "fits"), [
    ("M8", "M8", True), ("M8", "5/16 in", True), ("5/16 in", "M8", True), ("M10", "3/8 in", True),
    ("3/8 in", "M10", False),
    ("M6", "M8", False), ("M10", "M8", False), ("M6", "1/4 in", False), ("1/4 in", "M6", True),
    ("M5", "#10", True), ("M8", "no stud", None),
])
def test_holes(hole, on, fits):
    assert fits_stud(hole, on) is fits


@pytest.mark.parametrize(("barrel", "conductor", "fits"), [
    (mm2(70), mm2(70), True), (mm2(70), awg(-1), True), (mm2(35), awg(2), True), (mm2(50), awg(0), False),
    (mm2(25), awg(4), False),
    (mm2(50), mm2(70), False), (awg(4), awg(4), True), (awg(4), awg(6), False),
])
def test_barrels(barrel, conductor, fits):
    assert fits_barrel(barrel, conductor) is fits


@pytest.mark.parametrize(("text", "studs", "barrels"), [
    ("M8", ("M8",), ()), ("70-8", ("M8",), (mm2(70),)), ("70 mm² M8", ("M8",), (mm2(70),)),
    ("2/0 AWG 3/8 in", ("3/8 in",), (awg(-1),)),
    ("M8, M10 tinned", ("M8", "M10"), ()), ("crimped", (), ()), ("#10", ("#10",), ()), ("5/16in", ("5/16 in",), ()),
])
def test_texts(text, studs, barrels):
    terminal = read(text)
    assert (terminal.studs, terminal.barrels) == (studs, barrels)


@pytest.mark.parametrize(("terminals", "stud", "count"), [
    ("16-8", "M8", 0), ("16-10", "M8", 1), ("25-8", "M8", 1), ("25-10", "M8", 2), ("M8", "", 0), ("M6 M8", "M8", 0),
    ("M10", "3/8 in", 0), ("3/8 in", "M10", 1), ("16-8 25-8", "M8", 0), ("25-8 35-8", "M8", 1),
    ("15.21 mm² M8", "M8", 0), ("15.19 mm² M8", "M8", 1), ("16.79 mm² M8", "M8", 0), ("16.81 mm² M8", "M8", 1),
])
def test_on_a_bar(terminals, stud, count):
    text = van(f"{{feed: feed-bar/fuse 20 A -> lamp, wire: [14 AWG 1 m]}}",
               f"{{feed: feed-bar -> aft, return: none, wire: {{size: 16 mm², length: 1 m, terminals: {terminals}}}}}",
               nodes=LAMP + f"\n  aft: {{kind: bar, rating: 100 A{f', stud: {stud}' if stud else ''}}}", practice="iso")
    assert len(found("wrong-terminal", text)) == count


def test_of_a_conductor_without_a_size_and_of_a_return_that_follows_no_terminal_is_judged():
    nodes = LAMP + "\n  aft: {kind: bar, rating: 100 A, stud: M8, pair: aft-return}\n" \
        "  aft-return: {kind: bar, rating: 100 A, stud: M6}"
    text = van("{feed: feed-bar/fuse 20 A -> aft, wire: {length: 1 m, terminals: 16-8}}", nodes=nodes)
    assert found("wrong-terminal", text) == ()
    written = text.replace("-> aft, wire", "-> aft, return: return-bar -> aft-return, wire")
    assert [one.nodes for one in found("wrong-terminal", written)] == [("return-bar", "aft-return")]


def test_what_has_no_size_is_a_conductor():
    text = van("{feed: feed-bar/fuse 20 A -> aft, return: none, wire: {length: 1 m, terminals: M6}}",
               nodes="  aft: {kind: bar, rating: 100 A, stud: M8}")
    (one,) = found("wrong-terminal", text)
    assert one.message == "the conductor from `F2` to `aft` has terminals for M6, the studs of `aft` are M8"
