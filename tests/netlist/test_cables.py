"""Alternating current: which cores a cable has, and which of them a device opens."""

from __future__ import annotations

import pytest

from tests.netlist.reading import conductor, edges, insides, said, system

NODES = """
pedestal-2: {kind: shore, rating: 30 A, phases: 2}
pedestal-2n: {kind: shore, rating: 30 A, phases: 2+N}
pedestal-3: {kind: shore, rating: 30 A, phases: 3}
pedestal-3n: {kind: shore, rating: 30 A, phases: 3+N}
panel-2: {kind: ac panel, rating: 30 A, phases: 2}
panel-2n: {kind: ac panel, rating: 30 A, phases: 2+N}
panel-3: {kind: ac panel, rating: 30 A, phases: 3}
panel-3n: {kind: ac panel, rating: 30 A, phases: 3+N}
drill: {kind: ac load, power: 500 W, earth: no}
box: {kind: joint, phases: 1}
box-2n: {kind: joint, phases: 2+N}
transformer: {kind: transformer, power: 3 kW}
led-through: {kind: transformer, power: 3 kW, earth: through}
transfer: {kind: transfer, rating: 30 A}
oven: {kind: ac load, power: 3 kW, phases: 2}
K2: {kind: contactor, rating: 30 A, coil: 12 V}
"""


def cores(circuit: str) -> list[str]:
    return [one.core for one in system(circuit, NODES).conductors]


@pytest.mark.parametrize(("phases", "expected"), [
    ("", ["L", "N", "earth"]), ("-2", ["L1", "L2", "earth"]), ("-2n", ["L1", "L2", "N", "earth"]),
    ("-3", ["L1", "L2", "L3", "earth"]), ("-3n", ["L1", "L2", "L3", "N", "earth"]),
])
def test_cores_by_phases(phases, expected):
    panel = f"panel{phases}" if phases else "ac-panel"
    assert cores(f"ac: pedestal{phases} -> {panel}") == expected


@pytest.mark.parametrize(("circuit", "expected"), [
    ("ac: pedestal-2n -> panel-2", ["L1", "L2", "earth"]),
    ("ac: pedestal -> drill", ["L", "N"]),
    ("ac: pedestal -> outlet, wire: {cores: L N}", ["L", "N"]),
    ("ac: pedestal-3n -> panel-3n, wire: {cores: L1 L2 N}", ["L1", "L2", "N"]),
    ("ac: panel-3n.L3/breaker 16 A -> outlet", ["L3", "N", "earth"]),
    ("ac: ac-panel -> panel-3n.L2", ["L2", "N", "earth"]),
    ("ac: panel-2n.L1+L2/breaker 2-pole 20 A -> oven", ["L1", "L2", "earth"]),
    ("ac: panel-3n.L2+L3 -> panel-2n", ["L2", "L3", "N", "earth"]),
    ("ac: pedestal -> box -> outlet", ["L", "N", "earth"] * 2),
])
def test_cores_that_both_ends_have(circuit, expected):
    assert cores(circuit) == expected


def test_lines_are_joined_in_order():
    assert edges(system("ac: panel-3n.L2+L3 -> panel-2n", NODES), "ac") == [
        "panel-3n.L2 -> panel-2n.L1", "panel-3n.L3 -> panel-2n.L2", "panel-3n.N -> panel-2n.N",
    ]


@pytest.mark.parametrize(("circuit", "message"), [
    ("ac: pedestal-2n -> outlet", "L1 and L2 of `pedestal-2n` can't be joined to L of `outlet`"),
    ("ac: pedestal -> panel-3n", "can't be joined"),
    ("ac: ac-panel.L2 -> outlet", "there is no `L2`"),
    ("ac: panel-2n.L1+L1 -> oven", "names a line twice"),
    ("ac: pedestal -> outlet, wire: {cores: L1 N}", "cores: L1 is not at both ends"),
    ("ac: pedestal -> outlet, wire: {cores: L ground}", "`ground` is no core"),
    ("ac: pedestal -> breaker 3-pole 16 A -> outlet", "3 poles in a cable of 1 line"),
    ("ac: pedestal-3n -> rcd 1-pole 16 A 30 mA -> panel-3n",
     "1 pole in a cable of 3 lines It opens 3, or 4 with the neutral."),
    ("ac: pedestal -> galvanic-isolator -> outlet, wire: {cores: L N}", "no earth of this cable goes through"),
    ("ac: ac-panel.N -> outlet", "can't land on that terminal"),
    ("ac: ac-panel.earth -> outlet", "can't land on that terminal"),
    ("ac: pedestal -> combi.in -> outlet", "can't go through `combi`"),
    ("ac: pedestal -> combi.sense", "can't land on that terminal"),
    ("ac: pedestal -> diode -> outlet", "can't go through"),
    ("ac: pedestal -> splice -> outlet",
     "no terminal for alternating current An ac junction box is a joint with `phases`."),
    ("ac: pedestal -> breaker Q1 16 A -> outlet\nac: pedestal -> Q1 -> outlet-2", "passed a second time"),
    ("ac: pedestal -> K2 -> outlet\nfeed: lone-bar -> K2 -> lamp, return: none", "stands in an ac circuit, too"),
    ("ac: pedestal -> K2 -> outlet\nfeed: lone-bar -> K2.1", "stands in an ac circuit, too"),
    ("ac: pedestal -> transfer.3", "`3`"),
])
def test_what_a_cable_cannot_do(circuit, message):
    assert message in said(circuit, NODES)


@pytest.mark.parametrize(("device", "cable", "opened"), [
    ("breaker 16 A", "ac: pedestal -> {} -> outlet", ["L"]),
    ("breaker 2-pole 16 A", "ac: pedestal -> {} -> outlet", ["L", "N"]),
    ("fuse 16 A", "ac: pedestal -> {} -> outlet", ["L"]),
    ("switch 16 A", "ac: pedestal -> {} -> outlet", ["L"]),
    ("rcd 16 A 30 mA", "ac: pedestal -> {} -> outlet", ["L", "N"]),
    ("rcbo 16 A", "ac: pedestal -> {} -> outlet", ["L", "N"]),
    ("rcbo 1-pole 16 A", "ac: pedestal -> {} -> outlet", ["L", "N"]),
    ("rcd 2-pole 16 A", "ac: pedestal -> {} -> outlet", ["L", "N"]),
    ("plug", "ac: pedestal -> {} -> outlet", ["L", "N", "earth"]),
    ("galvanic-isolator", "ac: pedestal -> {} -> outlet", ["earth"]),
    ("K2", "ac: pedestal -> {} -> outlet", ["L"]),
    ("breaker 2-pole 16 A", "ac: pedestal-2n -> {} -> panel-2n", ["L1", "L2"]),
    ("breaker 3-pole 16 A", "ac: pedestal-2n -> {} -> panel-2n", ["L1", "L2", "N"]),
    ("breaker 16 A", "ac: pedestal-3n -> {} -> panel-3n", ["L1", "L2", "L3"]),
    ("rcd 4-pole 16 A", "ac: pedestal-3n -> {} -> panel-3n", ["L1", "L2", "L3", "N"]),
    ("rcd 16 A", "ac: pedestal-3n -> {} -> panel-3n", ["L1", "L2", "L3", "N"]),
    ("breaker 16 A", "ac: panel-3n.L2/{} -> outlet", ["L2"]),
    ("plug inlet", "ac: pedestal-3 -> {} -> panel-3", ["L1", "L2", "L3", "earth"]),
])
def test_cores_that_a_device_opens(device, cable, opened):
    found = system(cable.format(device), NODES)
    name = device if device == "K2" else next(name for name, node in found.nodes.items() if not node.declared)
    assert [one.core for one in found.insides if one.node == name] == opened
    assert {one for one in found.terminals if one.startswith(f"{name}.") and "coil" not in one} == {
        f"{name}.{core}.{n}" for core in opened for n in (1, 2)
    }


def test_cores_that_a_device_passes_whole_are_one_conductor():
    found = system("ac: pedestal -> breaker 16 A -> outlet, wire: [2.5 mm² 1 m, 3 m]")
    assert edges(found) == [
        "pedestal.L -> Q1.L.1", "Q1.L.2 -> outlet.L", "pedestal.N -> outlet.N", "pedestal.earth -> outlet.earth",
    ]
    assert [one.length for one in found.conductors] == [1.0, 3.0, 4.0, 4.0]
    assert [one.id for one in found.conductors] == [f"pedestal to outlet:{end}"
                                                    for end in ("a0.L", "a1.L", "a0.N", "a0.earth")]


def test_a_core_that_passes_whole_counts_as_its_thinnest():
    found = system("ac: pedestal -> breaker 16 A -> outlet, wire: [4 mm² 1 m, 2.5 mm² 3 m]")
    assert [one.wire.size.label for one in found.conductors] == ["4 mm²", "2.5 mm²", "2.5 mm²", "2.5 mm²"]


def test_one_length_is_the_run_of_each_core():
    found = system("ac: pedestal -> breaker 16 A -> outlet, wire: 2.5 mm² 4 m")
    assert {run.id: (run.length, len(run.members))
            for run in found.runs.values()} == {"pedestal to outlet:a.L": (4.0, 2)}
    assert conductor(found, "pedestal.N", "outlet.N").length == 4.0


def test_a_device_bolted_on_has_joints_of_its_cores():
    found = system("ac: ac-panel/breaker 20 A -> rcd 20 A 5 mA/outlet, wire: 12 AWG 4 m")
    assert edges(found) == [
        "Q1.L.2 -> F1.L.1", "ac-panel.N -> F1.N.1", "ac-panel.earth -> outlet.earth",
        "ac-panel.L / Q1.L.1", "F1.L.2 / outlet.L", "F1.N.2 / outlet.N",
    ]
    assert insides(found, "F1") == ["F1.L.1 contact F1.L.2 ac", "F1.N.1 contact F1.N.2 ac"]


def test_an_earth_of_its_own_size():
    found = system("ac: pedestal -> outlet, wire: {size: 10 AWG, length: 2 m, earth: 12 AWG}")
    assert [one.wire.size.label for one in found.conductors] == ["10 AWG", "10 AWG", "12 AWG"]


def test_the_earth_of_an_isolating_transformer_stops_at_its_input():
    assert edges(system("ac: pedestal -> transformer.in", NODES), "earth") == ["pedestal.earth -> transformer.in.earth"]
    assert edges(system("ac: transformer -> outlet", NODES), "earth") == ["transformer.earth -> outlet.earth"]
    assert edges(system("bond: transformer.in.earth -> earth-bar", NODES),
                 "earth") == ["transformer.in.earth -> earth-bar"]


def test_an_earth_that_is_led_through_is_shared():
    assert edges(system("ac: pedestal -> led-through.in", NODES), "earth") == ["pedestal.earth -> led-through.earth"]


def test_all_ac_ports_share_the_nodes_earth():
    found = system("ac: pedestal -> combi.in\nac: combi -> ac-panel")
    assert edges(found, "earth") == ["pedestal.earth -> combi.earth", "combi.earth -> ac-panel.earth"]


def test_a_transfer_switch():
    found = system("ac: pedestal -> transfer.1\nac: combi -> transfer.2\nac: transfer -> ac-panel", NODES)
    assert edges(found, "ac") == [
        "pedestal.L -> transfer.1.L", "pedestal.N -> transfer.1.N", "combi.out.L -> transfer.2.L",
        "combi.out.N -> transfer.2.N",
        "transfer.common.L -> ac-panel.L", "transfer.common.N -> ac-panel.N",
    ]
    closed = {(one.a, one.b): one.positions for one in found.insides if one.node == "transfer"}
    assert closed["transfer.common.L", "transfer.1.L"] == ("1",) and closed["transfer.common.N",
                                                                            "transfer.2.N"] == ("2",)


def test_the_coil_of_a_contactor_in_a_cable():
    found = system("ac: pedestal -> K2 -> outlet\nfeed: feed-bar -> K2.coil", NODES)
    assert "feed-bar -> K2.coil.+" in edges(found) and "return-bar -> K2.coil.-" in edges(found)
    assert "K2.coil.+" in found.terminals and "K2.1" not in found.terminals


def test_neutral_and_earth_inside():
    found = system("ac: pedestal -> combi.in\nac: combi -> ac-panel")
    assert insides(found, "pedestal") == ["pedestal.N bond pedestal.earth ac"]
    relay = [one for one in found.insides if one.node == "combi" and one.form == "bond"]
    assert [one.positions for one in relay] == [("inverting",)]
    assert insides(found, "ac-panel") == []


def test_a_chain_of_outlets():
    found = system("ac: ac-panel/breaker 15 A -> outlet -> outlet-2, wire: {hops: [16 AWG 8 ft, 5 ft], cores: L N}")
    assert edges(found) == ["Q1.L.2 -> outlet.L", "ac-panel.N -> outlet.N", "outlet.L -> outlet-2.L",
                            "outlet.N -> outlet-2.N", "ac-panel.L / Q1.L.1"]
