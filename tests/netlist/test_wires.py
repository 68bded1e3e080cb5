"""Wires: runs, lists, sizes that carry on, what the whole file says."""

from __future__ import annotations

import pytest

from tests.netlist.reading import conductor, said, system

LINE = "feed: lone-bar -> switch -> lamp, return: none"


def wires(circuit: str, head: str = ""):
    return system(circuit, head=head).conductors


def test_one_length_is_the_whole_run():
    found = system(f"{LINE}, wire: 10 AWG 6 m")
    assert [(one.length, one.run) for one in found.conductors] == [(None, "lone-bar to lamp:f")] * 2
    assert found.runs["lone-bar to lamp:f"].length == 6.0
    assert found.runs["lone-bar to lamp:f"].members == ("lone-bar to lamp:f0", "lone-bar to lamp:f1")


def test_one_length_on_one_conductor_is_its_own():
    one, = wires("feed: lone-bar/fuse -> lamp, return: none, wire: 10 AWG 6 m")
    assert (one.length, one.run, one.wire.size.label) == (6.0, "", "10 AWG")


def test_a_list_has_one_entry_a_conductor_and_its_size_carries_on():
    assert [(one.wire.size.label, one.length)
            for one in wires(f"{LINE}, wire: [2/0 AWG 0.3 m, 0.2 m]")] == [("2/0 AWG", 0.3), ("2/0 AWG", 0.2)]
    sizes = [one.wire.size for one in wires(f"{LINE}, wire: [0.3 m, 2/0 AWG 0.2 m]")]
    assert sizes[0] is None and sizes[1].label == "2/0 AWG"


def test_parallel_carries_on_with_the_size():
    assert [one.wire.parallel for one in wires(f"{LINE}, wire: [2 parallel 4/0 AWG 1 m, 1 m]")] == [2, 2]
    assert [one.wire.parallel for one in wires(f"{LINE}, wire: [2 parallel 4/0 AWG 1 m, 1 parallel 1 m]")] == [2, 1]


@pytest.mark.parametrize(("text", "size", "length"), [
    ("10 AWG 2 m", "10 AWG", 2.0), ("2/0 1 m", "2/0 AWG", 1.0), ("2/0 AWG", "2/0 AWG", None),
    ("70 mm² 1.2 m", "70 mm²", 1.2),
    ("70 mm2 1.2 m", "70 mm²", 1.2), ("6mm2 3m", "6 mm²", 3.0), ("250 kcmil 6 in", "250 kcmil", 0.1524),
    ("12AWG 4 ft 6 in", "12 AWG", 1.3716),
    ("4 m", None, 4.0), ("16 AWG", "16 AWG", None), ("2.5 mm² 80 cm", "2.5 mm²", 0.8),
    ("10 AWG 1/2 ft", "10 AWG", 0.1524),
    ("10  AWG\t2 m".replace("\t", " "), "10 AWG", 2.0), ("10\u00a0AWG 2\u202fm", "10 AWG", 2.0),
])
def test_runs(text, size, length):
    one, = wires(f"feed: lone-bar -> lamp, return: none, wire: {text}")
    assert (one.wire.size.label if one.wire.size else None) == size
    assert one.length == (None if length is None else pytest.approx(length))


@pytest.mark.parametrize(("text", "message"), [
    ("2 x 70 mm² 1 m", "cores or conductors?"), ("12 gauge 3 m", "is no size and length"),
    ("6 3 m", "is no size and length"),
    ("12 awg 3 m", "is no size and length"), ("10 AWG 3 furlongs", "`furlongs` is no unit"),
    ("10 AWG 3", "`3` has no unit"),
    ("10 AWG 3 kg", "`kg` is no unit"), ("10 AWG 3 A", "`3 A` is a current; a length is wanted"),
    ("0 parallel 10 AWG 3 m", "from 1 to 20"),
    ("10 AWG -3 m", "is no size and length"), ("41 AWG 1 m", "whole numbers from 40"), ("0 mm² 1 m", "has some area"),
    ("thick", "is no size and length"), ("{length: -3 m}", "is no length"),
    ("[10 AWG 1 m, 2 m]", "2 entries for 1 conductor (`->`)"),
    ("[[10 AWG 1 m]]", "an entry of a wire list is one text"),
    ("10 AWG, 2 m", "`2 m` stands alone"), ("{size: 10 AWG, gauge: 2}", "`gauge` is no entry of a wire"),
    ("{size: 10}", "is no conductor size"),
    ("{length: 2 m, hops: [2 m]}", "`length` beside `hops`"), ("{hops: 2 m}", "`hops` is a list"),
    ("{length: [1 m]}", "`length` is one length"),
    ("{parallel: 0, length: 1 m}", "whole number from 1"), ("{insulation: hot}", "does not begin with a number"),
    ("{insulation: 900 °C}", "out of range"), ("{terminations: 75 A}", "terminations: `75 A` is a current"),
    ("{terminations: 59 °C}", "terminations: `59 °C` is out of range: terminals bear 60 °C at least"),
    ("{material: gold}", "is not one of copper"), ("{in: attic}", "is not one of"),
    ("{cores: L N}", "are of an ac cable"), ("{earth: 6 mm²}", "are of an ac cable"),
    ("{feed: {feed: 1 m}}", "`feed` is no entry of a wire"), ("{size: [a]}", "is no conductor size"),
    ("{terminals: [a]}", "one value is wanted"),
])
def test_what_a_wire_cannot_be(text, message):
    assert message in said(f"feed: lone-bar -> lamp, wire: {text}")


def test_a_wire_of_feed_and_return_needs_a_feed():
    assert "in a circuit without a feed" in said("ac: pedestal -> ac-panel, wire: {feed: 1 m, return: 2 m}")


def test_everything_a_mapping_says():
    one, = wires("feed: lone-bar -> lamp, return: none, wire: {size: 4 AWG, length: 2 m, parallel: 2, insulation: "
                 "105 °C, "
                 "material: tinned, in: [conduit, engine-space], bundle: 4, ambient: 122 °F, terminals: crimped M8}")
    wire = one.wire
    assert (wire.size.label, one.length, wire.parallel, wire.insulation, wire.material) == ("4 AWG", 2.0, 2, 105.0,
                                                                                            "tinned")
    assert (wire.inside, wire.bundle, wire.ambient, wire.terminals, wire.sheathed) == (("conduit", "engine-space"), 4,
                                                                                       pytest.approx(50), "crimped M8",
                                                                                       True)
    assert wires("feed: lone-bar -> lamp, return: none, wire: {in: air bilge}")[0].wire.inside == ("air", "bilge")


def test_hops_in_a_mapping():
    assert [one.length for one in wires(f"{LINE}, wire: {{size: 4 AWG, hops: [1 m, 2 m]}}")] == [1.0, 2.0]


def test_the_whole_files_wire_holds_where_a_circuit_says_nothing_else():
    head = "wire: {insulation: 105 °C, material: tinned, size: 10 AWG, terminations: 75 °C}"
    assert [one.wire.terminations for one in wires("feed: feed-bar -> lamp, wire: 4 m", head)] == [75.0, 75.0]
    assert [one.wire.insulation for one in wires("feed: feed-bar -> lamp, wire: 4 m", head)] == [105.0, 105.0]
    assert [one.wire.size.label for one in wires("feed: feed-bar -> lamp, wire: 4 AWG 4 m", head)] == ["4 AWG", "4 AWG"]
    assert wires("feed: feed-bar -> lamp, wire: {insulation: 60 °C}", head)[0].wire.insulation == 60.0


def test_what_the_whole_files_wire_cannot_say():
    assert "`length` is no entry of the file's wire" in said("feed: lone-bar -> lamp", head="wire: {length: 2 m}")
    assert "has entries" in said("feed: lone-bar -> lamp", head="wire: 10 AWG")


def test_no_wire_says_nothing():
    one, = wires("feed: lone-bar -> lamp, return: none")
    assert one.wire.size is None and one.length is None and one.size_place is None


def test_a_wire_list_on_a_path_without_conductors():
    assert "1 entry for no conductors" in said("return: alternator/engine-block, wire: [2 m]")
    assert not said("feed: alternator -> bank, return: alternator/engine-block, wire: 4 AWG 2 m")


def test_the_place_of_a_size():
    found = system("feed: lone-bar -> switch -> lamp, return: none, wire: [10 AWG 1 m, 12 AWG 2 m]")
    first, second = found.conductors
    assert first.size_place.line == second.size_place.line and first.size_place.column < second.size_place.column
    assert conductor(found, "lone-bar", "Q1.1").size_place == first.size_place
