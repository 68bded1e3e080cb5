"""What is said of strings that are not fused, and where it begins."""

from __future__ import annotations

import pytest

from diagrammer.circuit.protection_strings import find
from diagrammer.circuit.protection_web import Loom
from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from tests.rules.asked import found, van

RULE = "unfused-strings"
LINES = ("{feed: roof -> switch 2-pole 32 A -> sun.pv, wire: [10 AWG 5 m, 1 m]}",
         "{feed: sun -> fuse 30 A/feed-bar, wire: 8 AWG 1 m}")


def array(parallel: int, more: str = "") -> str:
    nodes = (f"  roof: {{kind: pv, power: 100 W, voc: 22 V, isc: 6 A, parallel: {parallel}{more}}}\n"
             "  sun: {kind: solar charger, type: mppt, max pv voltage: 60 V, output: 20 A}")
    return van(*LINES, nodes=nodes)


@pytest.mark.parametrize(("parallel", "more", "count"), [
    (1, "", 0), (2, "", 0), (3, "", 1), (3, ", string fuse: 10 A", 0),
    (3, ", max series fuse: 15 A", 0),  # the other two give 1.25 x 2 x 6 A = 15 A (NEC 690.8(A)(1), 690.9(A))
    (3, ", max series fuse: 14.9 A", 1), (4, ", max series fuse: 15 A", 1),
])
def test_how_many_strings(parallel, more, count):
    assert len(found(RULE, array(parallel, more))) == count


@pytest.mark.parametrize(("more", "said", "fix"), [
    ("", "its modules state no largest series fuse, so what one other string gives, 7.5 A, is the most",
     "Put a gPV fuse that the modules' maker allows in each string."),
    (", max series fuse: 10 A", "10 A is the largest series fuse its modules may have",
     "Put a gPV fuse of at most 10 A in each string."),
])
def test_messages(more, said, fix):
    (one,) = found(RULE, array(3, more))
    assert one.message == (f"3 strings in parallel without a fuse each: the others can drive 15 A into one; {said}")
    assert one.fix == fix and one.nodes == ("roof",)


PV = "power: 100 W, voc: 22 V, isc: 6 A"
SUN = "  sun: {kind: solar charger, type: mppt, max pv voltage: 60 V, output: 20 A}"
OUT = "{feed: sun -> fuse 30 A/feed-bar, wire: 8 AWG 1 m}"


def roofs(*lines: str, fields: tuple[str, ...] = ("", "", ""), more: str = ""):
    nodes = [f"  roof-{n}: {{kind: pv, {PV}{field}}}" for n, field in enumerate(fields)]
    text = van(*(f"{{{line}, wire: 10 AWG 3 m}}" for line in lines), OUT,
               nodes="\n".join([*nodes, SUN, *filter(None, [more])]))
    return found(RULE, text)


COMB = "  comb: {kind: bar, rating: 60 A, pair: comb-back}\n  comb-back: {kind: bar, rating: 60 A}"


def at_bar(*devices: str) -> tuple[str, ...]:
    return (*(f"feed: roof-{n}{device} -> comb" for n, device in enumerate(devices)), "feed: comb -> sun.pv")


def test_strings_that_meet_on_a_bar_are_named_with_it():
    (one,) = roofs(*at_bar("", "", ""), more=COMB)
    assert one.nodes == ("comb", "roof-0", "roof-1", "roof-2") and one.message.startswith("3 strings")


def test_strings_that_meet_at_the_controller_are_named_with_it():
    (one,) = roofs(*(f"feed: roof-{n} -> sun.pv" for n in range(3)))
    assert one.nodes == ("sun", "roof-0", "roof-1", "roof-2")


def test_strings_in_a_chain_from_module_to_module():
    (one,) = roofs("feed: roof-0 -> roof-1", "feed: roof-1 -> roof-2", "feed: roof-2 -> sun.pv")
    assert sorted(one.nodes) == ["roof-0", "roof-1", "roof-2"]


def test_strings_that_are_not_led_on_yet():
    (one,) = found(RULE, van("{feed: roof-0 -> roof-1, wire: 10 AWG 3 m}", "{feed: roof-1 -> roof-2, wire: 10 AWG 3 m}",
                             nodes="\n".join(f"  roof-{n}: {{kind: pv, {PV}}}" for n in range(3))))
    assert len(one.nodes) == 3


def test_two_nodes_of_two_strings_each_are_one_finding():
    (one,) = roofs(*at_bar("", ""), fields=(", parallel: 2",) * 2, more=COMB)
    assert one.nodes == ("comb", "roof-0", "roof-1") and one.message.startswith("4 strings")


def test_of_all_strings_the_one_whose_modules_bear_least_tells():
    """The others give 15 A into each."""
    fields = (", max series fuse: 10 A", ", max series fuse: 5 A", "")
    (one,) = roofs(*at_bar("", "", ""), fields=fields, more=COMB)
    assert "5 A is the largest series fuse" in one.message


@pytest.mark.parametrize(("lines", "more", "first"), [
    (("feed: roof-0 -> comb", "feed: roof-1 -> comb", "feed: roof-2 -> comb", "feed: comb/switch 60 A -> sun.pv"),
     COMB, "comb"),
    (("feed: roof-1 -> roof-0", "feed: roof-2 -> roof-0", "feed: roof-0/S1 -> sun.pv"),
     "  S1: {kind: switch, rating: 60 A}", "S1"),
])
def test_a_bar_is_named_before_a_switch_and_a_switch_before_a_module(lines, more, first):
    (one,) = roofs(*lines, more=more)
    assert one.nodes[0] == first


AFT = "\n  aft: {kind: bar, rating: 60 A, pair: aft-back}\n  aft-back: {kind: bar, rating: 60 A}"


@pytest.mark.parametrize(("door", "stated", "count"), [
    ("aft/fuse gpv 8 A", "15.5 A", 0),  # 7.5 A of the string beside it and 8 A through the fuse
    ("aft/fuse gpv 8 A", "15.4 A", 1),
    ("aft/fuse gpv 20 A", "22.5 A", 0),  # more than 2 x 7.5 A do not come
    ("aft/fuse gpv 20 A", "22.4 A", 1),
    ("aft/fuse gpv", "22.5 A", 0), ("aft/fuse gpv", "22.4 A", 1),  # not known, so all that may come
])
@pytest.mark.parametrize("fuse", ["", "/fuse gpv 15 A"])
def test_what_comes_through_a_device_and_from_beside(door, stated, count, fuse):
    """The breaker to the charger lets nothing in; 1.25 x 6 A is what one string gives."""
    lines = ("feed: roof-0 -> comb", f"feed: roof-1{fuse} -> aft", f"feed: {door} -> comb", "feed: comb/breaker 60 A -> sun.pv")
    fields = (f", parallel: 2, max series fuse: {stated}", ", parallel: 2, string fuse: 10 A")
    assert len(roofs(*lines, fields=fields, more=COMB + AFT)) == count


@pytest.mark.parametrize(("parallel", "more", "facts", "dark"), [
    (1, "", 0, {"roof"}), (2, "", 0, {"roof"}),
    (2, ", max series fuse: 5 A", 0, {"roof"}),  # NEC 690.9(A): two strings need none
    (3, "", 1, {"roof"}), (3, ", string fuse: 10 A", 0, set()), (3, ", max series fuse: 15 A", 0, set()),
])
def test_strings_that_are_told_or_need_no_fuse_are_looked_at_no_further(parallel, more, facts, dark):
    system, _ = read(array(parallel, more), "case.yaml")
    view = Survey(system).after_sources
    assert tuple(map(len, find(view, Loom(view)))) == (facts, len(dark)) and find(view, Loom(view))[1] == dark


@pytest.mark.parametrize(("devices", "bare"), [
    (("/fuse gpv 10 A", "/fuse gpv 10 A", "/fuse gpv 10 A"), []),
    (("", "/fuse gpv 10 A", "/fuse gpv 10 A"), ["roof-0"]),
    (("/fuse gpv 10 A", "/fuse gpv 10 A", ""), ["roof-2"]),
    (("", "", "/fuse gpv 10 A"), ["roof-0", "roof-1"]),
])
def test_the_string_without_a_fuse_among_those_with_one(devices, bare):
    """It alone is named: what its modules bear is what one other string gives, the other two give twice that."""
    assert [one.nodes[0] for one in roofs(*at_bar(*devices), more=COMB)] == bare


def test_of_two_strings_neither_needs_one():
    assert roofs(*at_bar("", "/fuse gpv 7 A"), fields=("", ""), more=COMB) == ()


@pytest.mark.parametrize(("stated", "count"), [("15 A", 0), ("14.9 A", 1)])
def test_devices_between_limit_what_the_others_drive(stated, count):
    """Two strings behind a 20 A fuse give no more than their own 1.25 x 2 x 6 A = 15 A."""
    lines = at_bar("", "/fuse gpv 20 A", "/fuse gpv 20 A")
    fields = (f", max series fuse: {stated}", "", "")
    assert len([one for one in roofs(*lines, fields=fields, more=COMB) if one.nodes[0] == "roof-0"]) == count
