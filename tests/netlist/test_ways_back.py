"""The table "Ways back": which returns are made, and where the reader asks."""

from __future__ import annotations

import pytest

from tests.netlist.reading import conductor, derived, edges, said, system

SERIES = "series: b1 -> b2"


@pytest.mark.parametrize(("circuits", "made"), [
    ("feed: feed-bar/fuse -> lamp", ["return-bar -> lamp.-"]),
    ("feed: sun -> fuse/feed-bar", ["sun.- -> return-bar"]),
    ("feed: feed-bar/fuse -> K1.coil", ["return-bar -> K1.coil.-"]),
    ("feed: roof -> switch 2-pole -> sun.pv", ["roof.- -> Q1.3", "Q1.4 -> sun.pv.-"]),
    ("feed: roof -> plug -> sun.pv", ["roof.- -> X1.3", "X1.4 -> sun.pv.-"]),
    ("feed: roof -> plug 1-pole -> sun.pv", ["roof.- -> sun.pv.-"]),
    ("feed: roof -> switch 2-pole -> plug -> sun.pv", ["roof.- -> Q1.3", "Q1.4 -> X1.3", "X1.4 -> sun.pv.-"]),
    ("feed: roof -> breaker 32 A -> switch -> sun.pv", ["roof.- -> sun.pv.-"]),
    ("feed: panel/fuse -> lamp-1 -> lamp-2", ["panel.- -> lamp-1.-", "lamp-1.- -> lamp-2.-"]),
    ("feed: feed-bar/fuse -> panel", ["return-bar -> panel.-"]),
    ("feed: feed-bar/fuse -> paired-panel", []),
    ("feed: feed-bar -> splice -> lamp", ["return-bar -> lamp.-"]),
    ("feed: paired-bank/fuse -> pump", ["return-bar -> pump.-"]),
    ("feed: bank/fuse -> pump", ["bank.- -> pump.-"]),
    ("feed: feed-bar/fuse -> pump\nfeed: paired-panel/fuse -> pump", ["return-bar -> pump.-"]),
    ("feed: bank/fuse 1 A -> meter.sense", []),
    ("feed: bank -> isolator.1", []),
    ("feed: guard.allow-charge -> K1.coil", []),
    ("feed: lone-bar -> lamp", []),
    ("feed: strip.1 -> lamp", []),
    ("feed: bank.+ -> lamp.-", []),
    ("feed: b1 -> b2", ["b1.- -> b2.-"]),
    ("feed: b1 -> b2, return: none", []),
    (f"{SERIES}\nfeed: b2 -> fuse/lone-bar", []),
    ("feed: metal-panel/fuse -> lamp", ["chassis -> lamp.-"]),
    ("feed: alternator -> b1, return: alternator/engine-block", []),
    ("feed: alternator -> b1", ["alternator.- -> b1.-"]),
    ("feed: paired-panel/fuse -> lamp, return: lamp -> chassis", []),
    ("feed: mains-charger -> feed-bar\nfeed: mains-charger.2 -> paired-bank", ["mains-charger.- -> return-bar"]),
])
def test_what_is_made(circuits, made):
    assert derived(system(circuits)) == made


def test_a_contact_stands_between_two_ways_back():
    found = system("feed: bank -> isolator -> b1")
    assert derived(found) == ["bank.- -> b1.-"]


def test_the_written_return_of_a_chassis_grounded_alternator_is_bolted():
    assert edges(system("feed: alternator -> b1, return: alternator/engine-block"),
                 "return") == ["alternator.- / engine-block"]


@pytest.mark.parametrize("circuits", [
    "feed: feed-bar/fuse -> pump\nfeed: panel/fuse -> pump",
    "feed: mains-charger -> feed-bar\nfeed: mains-charger.2 -> b1",
    f"{SERIES}\nfeed: b2 -> fuse/feed-bar",
    "feed: b1.+ -> b2.-, return: none\nfeed: b2 -> fuse/feed-bar",
    "feed: b2.- -> fuse -> b1.+, return: none\nfeed: b2/fuse -> lamp",
    f"{SERIES}\nfeed: b2/fuse -> lamp",
    "feed: lamp-1 -> lamp-2\nfeed: panel/fuse -> lamp-1\nfeed: panel/fuse -> lamp-2",
    "feed: sun -> feed-bar, return: sun -> bank\nfeed: sun -> feed-bar",
])
def test_where_two_places_are_possible_the_reader_asks(circuits):
    assert "Write the path that it takes, `return: ...`, or `return: none`." in said(circuits)
    first, *others = circuits.splitlines()
    assert "or `return: none`." in said("\n".join([*reversed(others), first]))


def test_the_bottom_of_a_stack_is_no_middle():
    found = system(f"{SERIES}\nfeed: b2 -> fuse/feed-bar, return: b1 -> meter -> return-bar")
    assert edges(found, "return") == ["b1.- -> meter.battery", "meter.system -> return-bar"]


def test_a_written_return_counts_wherever_it_stands():
    for circuits in ("feed: feed-bar/fuse -> pump\nreturn: return-bar -> pump",
                     "return: return-bar -> pump\nfeed: feed-bar/fuse -> pump"):
        assert edges(system(circuits), "return") == ["return-bar -> pump.-"]


def test_a_written_return_through_a_fuse_counts_as_one_to_its_end():
    assert derived(system("return: return-bar -> fuse 5 A -> lamp\nfeed: feed-bar/fuse -> lamp")) == []


def test_gaps_with_one_minus_of_their_own_go_first():
    circuits = ["feed: lone-bar -> lamp-1 -> lamp-2", "feed: panel/fuse -> lamp-2"]
    for order in (circuits, circuits[::-1]):
        assert sorted(derived(system("\n".join(order)))) == ["lamp-1.- -> lamp-2.-", "panel.- -> lamp-2.-"]


@pytest.mark.parametrize(("circuit", "a", "b", "length"), [
    ("feed: feed-bar/fuse -> lamp, wire: 12 AWG 4 m", "return-bar", "lamp.-", 4.0),
    ("feed: feed-bar/fuse -> switch -> lamp, wire: [12 AWG 4 m, 1 m]", "return-bar", "lamp.-", 5.0),
    ("feed: panel/fuse -> lamp-1 -> lamp-2, wire: [12 AWG 4 m, 1.5 m]", "lamp-1.-", "lamp-2.-", 1.5),
    ("feed: metal-panel/fuse -> lamp, wire: 12 AWG 4 m", "chassis", "lamp.-", 0.3),
    ("feed: paired-panel/fuse -> lamp, return: lamp -> chassis, wire: 12 AWG 4 m", "lamp.-", "chassis", 0.3),
    ("feed: metal-panel/fuse -> lamp, wire: {feed: 12 AWG 4 m, return: 2 m}", "chassis", "lamp.-", 2.0),
    ("feed: feed-bar/fuse -> lamp, wire: {feed: 12 AWG 4 m, return: 6 m}", "return-bar", "lamp.-", 6.0),
    ("feed: feed-bar -> lamp, return: lamp -> return-bar, wire: [12 AWG 4 m]", "return-bar", "lamp.-", 4.0),
])
def test_length_of_a_return(circuit, a, b, length):
    one = conductor(system(circuit), a, b)
    assert one.length == pytest.approx(length) and one.run == ""


@pytest.mark.parametrize(("circuit", "members", "length"), [
    ("feed: panel/fuse -> lamp-1 -> lamp-2, wire: 12 AWG 5 m", 2, 5.0),
    ("feed: roof -> switch 2-pole -> sun.pv, wire: 10 AWG 6 m", 2, 6.0),
    ("feed: roof -> switch 2-pole -> sun.pv, wire: [10 AWG 6 m, 2 m]", 2, 8.0),
    ("feed: bank -> lone-bar, return: bank -> meter -> return-bar, wire: [2/0 AWG 0.3 m]", 2, 0.3),
])
def test_returns_that_share_one_length_are_a_run(circuit, members, length):
    runs = [run for run in system(circuit).runs.values() if ":r" in run.id]
    assert [(len(run.members), run.length) for run in runs] == [(members, pytest.approx(length))]


def test_size_of_a_return_is_the_feeds():
    found = system("feed: feed-bar/fuse -> lamp, wire: {size: 2/0 AWG, parallel: 2, insulation: 105 °C, length: 1 m}",
                   head="wire: {size: 12 AWG, insulation: 60 °C}")
    back = conductor(found, "return-bar", "lamp.-").wire
    assert (back.size.label, back.parallel, back.insulation) == ("2/0 AWG", 2, 105.0)


def test_size_of_a_return_beside_a_size_of_the_whole_file():
    found = system("feed: feed-bar/fuse -> lamp, wire: 4 AWG 1 m", head="wire: {size: 12 AWG}")
    assert conductor(found, "return-bar", "lamp.-").wire.size.label == "4 AWG"


def test_what_a_return_leaves_out_is_the_feeds():
    found = system("feed: feed-bar/fuse -> lamp, wire: {feed: {size: 12 AWG, material: tinned, length: 4 m}, return: "
                   "{insulation: 90 °C}}")
    one = conductor(found, "return-bar", "lamp.-")
    assert (one.wire.size.label, one.wire.material, one.wire.insulation, one.length) == ("12 AWG", "tinned", 90.0, 4.0)


def test_a_thinner_return_is_said():
    found = system("feed: feed-bar/fuse -> lamp, wire: {feed: 12 AWG 8 ft, return: 18 AWG 8 ft}")
    assert conductor(found, "return-bar", "lamp.-").wire.size.label == "18 AWG"


def test_a_list_for_the_return_has_an_entry_for_each_conductor():
    found = system("feed: roof -> switch 2-pole -> sun.pv, wire: {feed: 10 AWG 6 m, return: [10 AWG 4 m, 2 m]}")
    assert conductor(found, "roof.-", "Q1.3").length == 4.0 and conductor(found, "Q1.4", "sun.pv.-").length == 2.0
    assert "1 entry for 2 conductors" in said("feed: roof -> switch 2-pole -> sun.pv, wire: {feed: 10 AWG 6 m, "
                                              "return: [10 AWG 4 m]}")


def test_feeds_of_unlike_size_ask_for_the_return():
    feed = "feed: feed-bar/fuse -> switch -> lamp"
    assert "the return's is not clear" in said(f"{feed}, wire: [10 AWG 1 m, 12 AWG 3 m]")
    assert not said(f"{feed}, return: none, wire: [10 AWG 1 m, 12 AWG 3 m]")
    found = system(f"{feed}, wire: {{feed: [10 AWG 1 m, 12 AWG 3 m], return: 10 AWG 4 m}}")
    assert conductor(found, "return-bar", "lamp.-").length == 4.0


def test_the_contacts_of_a_pair_of_poles_are_used_once():
    found = system("feed: roof -> switch 2-pole Q-pv -> sun.pv, return: roof -> Q-pv -> sun.pv")
    assert edges(found, "return") == ["roof.- -> Q-pv.3", "Q-pv.4 -> sun.pv.-"]
