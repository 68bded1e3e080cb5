"""Which terminal a path lands on: by role, by port, by what is written out."""

from __future__ import annotations

import pytest

from tests.netlist.reading import conductor, edges, insides, said, system


@pytest.mark.parametrize(("circuit", "made"), [
    ("feed: bank -> lamp, return: none", ["bank.+ -> lamp.+"]),
    ("return: bank -> lamp", ["bank.- -> lamp.-"]),
    ("series: b1 -> b2 -> b3", ["b1.+ -> b2.-", "b2.+ -> b3.-"]),
    ("bond: combi -> earth-bar", ["combi.earth -> earth-bar"]),
    ("bond: earth-bar -> chassis", ["earth-bar -> chassis"]),
    ("bond: bank.- -> chassis", ["bank.- -> chassis"]),
    ("feed: bank -> feed-bar -> lamp, return: none", ["bank.+ -> feed-bar", "feed-bar -> lamp.+"]),
    ("feed: bank.+ -> lamp.-, return: none", ["bank.+ -> lamp.-"]),
    ("feed: b1.- -> b2.+, return: none", ["b1.- -> b2.+"]),
    ("feed: lone-bar -> K1.coil", ["lone-bar -> K1.coil.+"]),
    ("return: return-bar -> K1.coil", ["return-bar -> K1.coil.-"]),
    ("feed: lone-bar -> K1.coil.-", ["lone-bar -> K1.coil.-"]),
    ("feed: bank -> sun.pv, return: none", ["bank.+ -> sun.pv.+"]),
    ("feed: bank -> meter.sense", ["bank.+ -> meter.sense"]),
    ("feed: bank -> alternator.field", ["bank.+ -> alternator.field"]),
    ("return: return-bar -> isolator.ground", ["return-bar -> isolator.ground"]),
    ("feed: bank -> isolator.1", ["bank.+ -> isolator.1"]),
    ("feed: isolator.2 -> lone-bar", ["isolator.2 -> lone-bar"]),
    ("return: meter.system -> return-bar", ["meter.system -> return-bar"]),
    ("feed: lone-bar -> guard.supply, return: none", ["lone-bar -> guard.supply.+"]),
    ("feed: guard.charge -> lone-bar", ["guard.charge -> lone-bar"]),
    ("feed: guard.allow-charge -> K1.coil", ["guard.allow-charge -> K1.coil.+"]),
    ("feed: mains-charger.2 -> b1, return: none", ["mains-charger.2 -> b1.+"]),
    ("feed: selector -> lone-bar", ["selector.common -> lone-bar"]),
    ("feed: bank -> selector.1", ["bank.+ -> selector.1"]),
    ("feed: strip.1 -> lamp, return: none", ["strip.1 -> lamp.+"]),
    ("return: return-bar -> strip.2 -> lamp", ["return-bar -> strip.2", "strip.2 -> lamp.-"]),
    ("ac: pedestal -> ac-panel",
     ["pedestal.L -> ac-panel.L", "pedestal.N -> ac-panel.N", "pedestal.earth -> ac-panel.earth"]),
    ("ac: combi -> ac-panel",
     ["combi.out.L -> ac-panel.L", "combi.out.N -> ac-panel.N", "combi.earth -> ac-panel.earth"]),
    ("ac: pedestal -> combi.in",
     ["pedestal.L -> combi.in.L", "pedestal.N -> combi.in.N", "pedestal.earth -> combi.earth"]),
    ("bond: ac-panel.N -> earth-bar", ["ac-panel.N -> earth-bar"]),
    ("bond: ac-panel.earth -> rod", ["ac-panel.earth -> rod"]),
    ("bond: combi -> pedestal -> earth-bar", ["combi.earth -> pedestal.earth", "pedestal.earth -> earth-bar"]),
    ("bond: lamp -> earth-bar", ["lamp.earth -> earth-bar"]),
    ("feed: feed-bar@3 -> lamp, return: none", ["feed-bar -> lamp.+"]),
])
def test_where_a_path_lands(circuit, made):
    assert edges(system(circuit)) == made


def test_studs_are_kept():
    one = system("feed: feed-bar@3 -> panel@12").conductors[0]
    assert one.studs == ("3", "12")


def test_a_return_written_to_a_panel_with_a_pair_lands_on_the_pair():
    assert edges(system("return: paired-panel -> lamp")) == ["return-bar -> lamp.-"]


def test_a_point_in_the_middle_is_met_and_left_at_one_terminal():
    assert edges(system("feed: bank/fuse -> lamp-1 -> lamp-2, return: none")) == [
        "F1.2 -> lamp-1.+", "lamp-1.+ -> lamp-2.+", "bank.+ / F1.1",
    ]


def test_through_kinds_are_entered_at_the_first_contact_and_left_at_the_second():
    assert edges(system("feed: lone-bar -> isolator -> bank")) == ["lone-bar -> isolator.1", "isolator.2 -> bank.+"]


def test_a_terminal_named_in_the_middle_is_the_one_entered():
    assert edges(system("feed: lone-bar -> isolator.2 -> bank")) == ["lone-bar -> isolator.2", "isolator.1 -> bank.+"]


@pytest.mark.parametrize(("circuit", "made"), [
    ("return: bank -> meter -> return-bar", ["bank.- -> meter.battery", "meter.system -> return-bar"]),
    ("return: return-bar -> meter -> bank", ["return-bar -> meter.system", "meter.battery -> bank.-"]),
    ("return: bank -> meter.system -> return-bar", ["bank.- -> meter.system", "meter.battery -> return-bar"]),
    ("return: return-bar -> meter.battery -> bank", ["return-bar -> meter.battery", "meter.system -> bank.-"]),
    ("return: lone-bar -> meter -> return-bar", ["lone-bar -> meter.battery", "meter.system -> return-bar"]),
    ("return: b1 -> meter -> b2", ["b1.- -> meter.battery", "meter.system -> b2.-"]),
    ("feed: bank -> guard -> lone-bar", ["bank.+ -> guard.battery", "guard.load -> lone-bar"]),
    ("feed: lone-bar -> guard -> bank", ["lone-bar -> guard.load", "guard.battery -> bank.+"]),
    ("return: return-bar -> guard -> bank", ["return-bar -> guard.load", "guard.battery -> bank.-"]),
])
def test_shunt_and_bms_face_the_battery(circuit, made):
    assert edges(system(circuit)) == made


def test_bms_charge_stands_at_an_end_only():
    assert "guard.charge" in said("feed: lone-bar -> guard.charge -> bank")


@pytest.mark.parametrize("node", ["isolator", "meter", "K1", "guard"])
def test_a_through_kind_at_an_end_must_name_its_terminal(node):
    message = said(f"feed: bank -> {node}")
    assert f"`{node}` " in message and "must name the terminal" in message


@pytest.mark.parametrize("node", ["sun", "combi", "alternator", "selector"])
def test_no_path_goes_through_an_end_kind(node):
    assert f"can't go through `{node}`" in said(f"feed: bank -> {node} -> lamp, return: none")


def test_a_contact_is_passed_once_in_the_whole_file():
    assert "`isolator.1` is passed a second time" in said("feed: lone-bar -> isolator -> b1\n"
                                                          "feed: lone-bar -> isolator -> b2")


def test_a_contact_where_paths_begin_may_hold_many():
    found = system("feed: bank -> isolator -> lone-bar\nfeed: isolator.1 -> lamp, return: none")
    assert "isolator.1 -> lamp.+" in edges(found)


def test_two_contacts_of_one_key():
    found = system("feed: lone-bar -> key -> lamp-1, return: none\nfeed: lone-bar -> key.3 -> lamp-2, return: none")
    assert edges(found) == [
        "lone-bar -> key.1", "key.2 -> lamp-1.+", "lone-bar -> key.3", "key.4 -> lamp-2.+",
    ]
    assert insides(found, "key") == ["key.1 contact key.2 feed", "key.3 contact key.4 feed"]


def test_the_second_pole_stands_in_the_written_return():
    found = system("feed: bank -> switch 2-pole Q-main -> feed-bar, return: bank -> Q-main -> return-bar")
    assert edges(found) == ["bank.+ -> Q-main.1", "Q-main.2 -> feed-bar", "bank.- -> Q-main.3",
                            "Q-main.4 -> return-bar"]
    assert insides(found, "Q-main") == ["Q-main.1 contact Q-main.2 feed", "Q-main.3 contact Q-main.4 return"]


def test_dc_has_two_poles_at_most():
    assert "3 poles" in said("feed: bank -> switch 3-pole -> feed-bar, return: none")


def test_a_feed_cannot_land_on_ac_nor_a_cable_on_dc():
    assert "can't land on the ac side" in said("feed: bank -> combi.in, return: none")
    assert "can't land on the ac side" in said("feed: bank -> combi.out.L, return: none")
    assert "no terminal for direct current" in said("feed: bank -> ac-panel, return: none")
    assert "no terminal for alternating current" in said("ac: pedestal -> bank")
    assert "ac cable can't land" in said("ac: combi.+ -> ac-panel")


def test_a_bond_to_something_without_earth_asks_for_the_terminal():
    assert "`bank.-`" in said("bond: bank -> chassis")


def test_multi_way_positions():
    nodes = ("way: {kind: selector, rating: 100 A, positions: "
             "{off: none, on: house+house-out start+start-out, combine: house+house-out+start+start-out}}")
    found = system("feed: bank -> way.house\nfeed: way.house-out -> lone-bar\nfeed: b1 -> way.start\n"
                   "feed: way.start-out -> return-bar", nodes)
    assert edges(found) == ["bank.+ -> way.house", "way.house-out -> lone-bar", "b1.+ -> way.start",
                            "way.start-out -> return-bar"]
    closed = {(one.a, one.b): one.positions for one in found.insides if one.node == "way"}
    assert closed["way.house", "way.house-out"] == ("on", "combine")
    assert closed["way.start", "way.start-out"] == ("on",)
    in_combine = {frozenset(pair) for pair, positions in closed.items() if "combine" in positions}
    assert {name for pair in in_combine for name in pair} == {"way.house", "way.house-out", "way.start",
                                                              "way.start-out"}


def test_a_selector_without_positions_has_four():
    found = system("feed: b1 -> selector.1\nfeed: b2 -> selector.2\nfeed: selector -> lone-bar")
    assert {(one.a, one.b): one.positions for one in found.insides} == {
        ("selector.common", "selector.1"): ("1", "both"), ("selector.common", "selector.2"): ("2", "both"),
    }


def test_the_main_port_of_a_selector_without_common_must_be_named():
    nodes = "way: {kind: selector, rating: 100 A, positions: {on: a+b}}"
    assert "name" in said("feed: way -> lone-bar", nodes).lower()


def test_other_has_the_ports_it_is_said_to_have():
    nodes = "box: {kind: other, ports: {battery: dc, aux: lead, mains: ac}}"
    found = system("feed: bank -> box.battery\nfeed: bank -> box.aux\nac: pedestal -> box.mains\n"
                   "bond: box -> earth-bar", nodes)
    assert edges(found, "feed") == ["bank.+ -> box.battery.+", "bank.+ -> box.aux"]
    assert edges(found, "return") == ["bank.- -> box.battery.-"]
    assert edges(found, "ac") == ["pedestal.L -> box.mains.L", "pedestal.N -> box.mains.N"]
    assert edges(found, "earth") == ["pedestal.earth -> box.earth", "box.earth -> earth-bar"]


def test_pins_are_points_apart_from_each_other():
    assert "`strip.5`" in said("feed: bank -> strip.5") or "no port" in said("feed: bank -> strip.5")


def test_terminals_of_the_system():
    found = system("feed: bank -> feed-bar\nac: pedestal -> rcd 30 A 30 mA -> outlet")
    poles = {name: one.pole for name, one in found.terminals.items()}
    assert poles["bank.+"] == "+" and poles["bank.-"] == "-" and poles["feed-bar"] == ""
    assert poles["pedestal.L"] == "L" and poles["pedestal.earth"] == "earth" and poles["F1.N.2"] == "N"
    assert conductor(found, "pedestal.L", "F1.L.1").core == "L"
    for one in (*found.conductors, *found.joints, *found.insides):
        assert one.a in found.terminals and one.b in found.terminals
