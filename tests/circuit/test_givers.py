"""What gives power in a state: batteries, ac supplies, alternators, and what the sky feeds."""

from __future__ import annotations

import pytest

from diagrammer.circuit.flow import Operation
from diagrammer.circuit.givers import arrays_of, pv_array
from diagrammer.circuit.states import State
from diagrammer.electrics import solar
from tests.circuit.cases import netlist, system

BANK = "house: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah"


def operation(nodes: str, lines: str, *running: str, charge: str = "nominal") -> Operation:
    return Operation(system(netlist(f"{BANK}\n{nodes}", lines)), State("now", frozenset(running)), charge)


def chargers(nodes: str, lines: str, *running: str) -> dict[str, tuple[float, float]]:
    """{name: (volts, amps)} of what the network is charged by."""
    found = operation(nodes, lines, *running).network.chargers
    assert all((one.plus, one.minus, one.ohms) == (f"{one.name}.+", f"{one.name}.-", 0.005) for one in found)
    return {one.name: (one.volts, one.amps) for one in found}


def test_a_battery_gives_its_short_circuit_current_when_full():
    """IEC 60896-21 (from memory): it is measured on a full battery."""
    lamp = "lamp: load, voltage: 12 V, power: 10 W\ntwo: battery, chemistry: agm, voltage: 12 V, capacity: 80 Ah, short circuit: 1 kA"
    line = "lamp: feed: house/fuse 5 A -> lamp, wire: 14 AWG 1 m"
    full, low = (operation(lamp, line, charge=charge).network.sources for charge in ("full", "low"))
    assert [one.name for one in full] == ["house", "two"]
    assert full[1].volts / full[1].ohms == pytest.approx(1000) and low[1].volts < 12.0 / 1.03
    assert low[1].volts / low[1].ohms == pytest.approx(1000 * low[1].volts / 12)  # its resistance is that of its nominal voltage
    assert full[0].volts / full[0].ohms == pytest.approx(45 * 100)  # 45 times the capacity: common practice


def test_a_public_supply_gives_while_it_is_connected():
    nodes, line = "quay: shore, rating: 16 A, phases: 2+N\ngen: generator, power: 2 kW, neutral: floating", "tie: bond: quay -> gen, wire: 8 AWG 1 m"
    assert [one.name for one in operation(nodes, line, "gen").network.sources] == ["house", "gen L"]
    both = [one for one in operation(nodes, line, "quay").network.sources if one.name != "house"]
    assert [(one.name, one.plus, one.minus, one.volts, one.ohms) for one in both] == [
        ("quay L1", "quay.L1", "quay.N", 120.0, 0.2), ("quay L2", "quay.N", "quay.L2", 120.0, 0.2)]


@pytest.mark.parametrize(("fields", "volts", "amps"), [
    ("", 14.2, 90), (", voltage: 14 V", 14.0, 90), (", continuous: 60 A", 14.2, 60), (", voltage: 14 V, continuous: 60 A", 14.0, 60),
])
def test_an_alternator_holds_its_voltage_or_that_of_its_battery(fields, volts, amps):
    nodes, line = f"alt: alternator, output: 90 A{fields}", "alt: feed: alt -> fuse 100 A/house, wire: 4 AWG 1 m"
    assert chargers(nodes, line, "alt") == {"alt": (pytest.approx(volts), amps)} and chargers(nodes, line) == {}
    lone = chargers(f"{nodes}\nstud: bar, rating: 100 A", line.replace("/house", "/stud").replace(", wire", ", return: none, wire"), "alt")
    assert lone == ({"alt": (14.0, amps)} if "voltage" in fields else {})


SUN = "sun: solar charger, type: {}, max pv voltage: 100 V, output: {} A"
ROOF = "roof: pv, power: 100 W, voc: 22 V, vmp: 18 V, isc: 6 A, imp: 5.5 A{}"
LINES = "roof: feed: roof -> sun.pv, wire: 10 AWG 3 m\nsun: feed: sun -> fuse 40 A/house, wire: 8 AWG 1 m"


@pytest.mark.parametrize(("sort", "output", "more", "amps"), [
    ("mppt", 20, "", 18 * 5.5 / 14.2), ("pwm", 20, "", 5.5), ("mppt", 20, ", parallel: 2", 2 * 18 * 5.5 / 14.2),
    ("mppt", 5, "", 5), ("pwm", 4, "", 4), ("mppt", 20, ", series: 2", 2 * 18 * 5.5 / 14.2),
])
def test_modules_give_their_power_or_their_current(sort, output, more, amps):
    found = chargers("\n".join((SUN.format(sort, output), ROOF.format(more))), LINES, "roof")
    assert found == {"sun": (pytest.approx(14.2), pytest.approx(amps, rel=0.1))}


def test_without_sun_or_bank_a_controller_gives_nothing():
    nodes = "\n".join((SUN.format("mppt", 20), ROOF.format(""), "stud: bar, rating: 100 A"))
    assert chargers(nodes, LINES) == {}
    assert chargers(nodes, LINES.replace("/house", "/stud").replace("40 A/stud", "40 A/stud, return: none"), "roof") == {}
    assert chargers(nodes, LINES.splitlines()[1], "roof") == {}


def test_several_arrays_add_up_to_the_output():
    nodes = "\n".join((SUN.format("mppt", 13), ROOF.format(""), ROOF.format("").replace("roof:", "deck:")))
    lines = LINES + "\ndeck: feed: deck -> sun.pv, wire: 10 AWG 3 m"
    assert chargers(nodes, lines, "roof")["sun"][1] == chargers(nodes, lines, "deck")["sun"][1] < 8
    assert chargers(nodes, lines, "roof", "deck")["sun"][1] == 13  # two of some 7 A


@pytest.mark.parametrize(("phases", "core"), [("", "feed"), (", phases: 3", "ac")])
def test_a_turbine_gives_its_power(phases, core):
    nodes = f"brake: wind charger, output: 30 A{phases}\nmill: wind, power: 284 W{phases}\nwheel: hydro, power: 142 W{phases}"
    lines = (f"mill: {core}: mill -> brake.in, wire: 10 AWG 3 m\nwheel: {core}: wheel -> brake.in, wire: 10 AWG 3 m\n"
             "brake: feed: brake -> fuse 40 A/house, wire: 8 AWG 1 m")
    assert chargers(nodes, lines, "mill") == {"brake": (pytest.approx(14.2), pytest.approx(20))}
    breeze = chargers(nodes.replace("284 W", "7.1 W"), lines, "mill")
    assert breeze == {"brake": (pytest.approx(14.2), pytest.approx(0.5))}
    assert chargers(nodes, lines, "mill", "wheel") == {"brake": (pytest.approx(14.2), pytest.approx(30))}


def test_only_what_the_sky_feeds_is_an_array():
    """An alternator on the pv port of a dc charger is none; modules that reach its input are none of its pv port."""
    nodes = "b2b: dc charger, output: 30 A, max pv voltage: 60 V\nalt: alternator, output: 60 A\n" + ROOF.format("")
    lines = ("alt: feed: alt -> fuse 80 A/b2b.pv, wire: 4 AWG 1 m\nout: feed: b2b -> fuse 40 A/house, wire: 8 AWG 1 m\n"
             "roof: feed: roof -> b2b.in, wire: 10 AWG 1 m")
    now = operation(nodes, lines, "alt", "roof")
    charger = now.system.nodes["b2b"]
    assert arrays_of(now, charger, "pv") == () and [one.name for one in arrays_of(now, charger, "in")] == ["roof"]


@pytest.mark.parametrize(("said", "voc", "vmp"), [
    ("", 0.0, 0.0), (", voc drift: -0.3 %/°C", -0.3, -0.3), (", voc drift: -0.3 %/°C, vmp drift: -0.4 %/°C", -0.3, -0.4),
])
def test_a_module_drifts_as_its_data_sheet_says(said, voc, vmp):
    nodes = "\n".join((SUN.format("mppt", 20), ROOF.format(f", series: 3, parallel: 2{said}")))
    roof = operation(nodes, LINES).system.nodes["roof"]
    assert pv_array(roof, 60.0) == solar.array(22, 18, 6, 5.5, 3, 2, cell=60.0, voc_share=voc, vmp_share=vmp)
