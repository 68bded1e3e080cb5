"""What meters read in a state: currents balance at every bar, voltages are those where a path ends."""

from __future__ import annotations

import pytest

from diagrammer.circuit.flow import Operation
from diagrammer.circuit.readings import readings
from diagrammer.circuit.study import study
from diagrammer.netlist.read import read
from tests.layout.common_systems import NAMES, sample

LAMP = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  lamp: {kind: load, voltage: 12 V, current: 10 A}
circuits:
  - {name: lamp, feed: bank -> fuse 15 A -> lamp, wire: 6 mm² 5 m}
"""
SUN = """
nodes:
  bank: {{kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}}
  roof: {{kind: pv, power: 120 W, voc: 22 V, vmp: 18 V, isc: 7 A, imp: 6.6 A}}
  sun: {{kind: solar charger, type: {sort}, max pv voltage: 75 V, output: {output} A}}
circuits:
  - {{name: array, feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 6 mm² 5 m}}
  - {{name: charge, feed: sun -> fuse 20 A/bank, wire: 6 mm² 1 m}}
"""
MILL = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah}
  mill: {kind: wind, power: 400 W, phases: 3}
  box: {kind: wind charger, output: 20 A, phases: 3}
circuits:
  - {name: mill, ac: mill -> box.in, wire: 6 mm² 5 m}
  - {name: charge, feed: box -> fuse 30 A/bank, wire: 6 mm² 1 m}
"""


def of(text: str, state: str = ""):
    system, problems = read(text)
    assert not problems, problems
    return {one.state.name: readings(one) for one in study(system).nominal if one.flow}, system


def test_the_current_is_said_once_and_the_voltage_at_the_end():
    (found,), _ = (list(of(LAMP)[0].values()), None)
    assert found["lamp:f0"].amps == pytest.approx((10.0,)) and found["lamp:f0"].volts is None
    assert found["lamp:f1"].amps == ()
    # 2 x 5 m of 6 mm², class 5: 3.30 Ω/km at 20 °C (IEC 60228 Table 3), 1 + 0.00393 x 50 at 70 °C
    lost = 10.0 * 10.0 * 3.30e-3 * (1 + 0.00393 * 50)
    one = next(iter(study(of(LAMP)[1]).nominal))
    bank = one.volts("bank.+", "bank.-")
    assert found["lamp:f1"].volts == pytest.approx(bank - lost, abs=1e-3)


def test_a_return_flows_back():
    found = of(LAMP)[0]["parked, nothing charges"]
    assert found["lamp:r0"].amps == pytest.approx((-10.0,)) or found["lamp:r0"].amps == pytest.approx((10.0,))
    assert found["lamp:r0"].volts is None


@pytest.mark.parametrize("sort, output", [("mppt", 15), ("mppt", 5), ("pwm", 15)])
def test_an_array_gives_what_its_charger_takes(sort, output):
    """The power of both sides, less the 4 % that a tracking controller keeps (common practice)."""
    states, system = of(SUN.format(sort=sort, output=output))
    found = states["full sun"]
    given, taken = found["charge:f0"], found["array:f0"]
    volts = next(one for one in study(system).nominal if one.state.name == "full sun").volts("sun.+", "sun.-")
    if sort == "pwm":
        assert taken.amps == pytest.approx(given.amps, rel=1e-6)
    else:
        assert taken.amps[0] * found["array:f1"].volts == pytest.approx(given.amps[0] * volts / 0.96, rel=1e-3)
    assert found["array:f1"].volts > volts - 0.1
    if (sort, output) == ("mppt", 5):
        assert given.amps[0] == pytest.approx(5, rel=1e-6) and taken.amps[0] < 6.6


def test_an_array_in_the_dark_gives_nothing():
    found = of(SUN.format(sort="mppt", output=15))[0]["parked, nothing charges"]
    assert found["array:f0"].amps == (0.0,) and found["array:f1"].volts == 0.0


def test_nothing_is_said_where_no_model_is():
    states, _ = of(MILL)
    assert "mill:a0" not in states["full wind"]
    assert states["parked, nothing charges"]["mill:a0"].amps == (0.0, 0.0, 0.0)
    assert states["full wind"]["charge:f0"].amps[0] > 10


@pytest.mark.parametrize("name", NAMES)
def test_what_comes_to_a_bar_leaves_it(name):
    """Kirchhoff's current law at every bar's terminal, over all cables, bolted joints and what passes inside."""
    system = sample(name)
    for state in study(system).states:
        one = Operation(system, state)
        found = readings(one)
        amps = {}
        for leg in (leg for circuit in system.circuits for leg in circuit.legs):
            last = None
            for cable in leg.links:
                last = found[cable].amps if cable in found and found[cable].amps else last
                amps[cable] = last
        for node in (node for node in system.nodes.values() if node.kind.name == "bar"):
            ends = [(c, -1 if c.a == node.name else 1) for c in system.conductors
                    if c.side == "feed" and node.name in (c.a, c.b) and c.core == ""]
            joints = [n for n, j in enumerate(system.joints) if node.name in (j.a, j.b)]
            if len(ends) < 2:
                continue
            total = sum(sign * amps[c.cable][0] for c, sign in ends if amps.get(c.cable))
            for n in joints:
                flow = one.flow.amps.get(f"joint {n}", 0.0)
                total += flow if system.joints[n].b == node.name else -flow
            assert total == pytest.approx(0.0, abs=0.05), (state.name, node.name)

MAINS = """
practice: iso
nodes:
  set: {kind: generator, power: 6 kW, neutral: bonded, phases: WIRING}
  board: {kind: ac panel, rating: 50 A, phases: WIRING}
  box: {kind: transformer, power: 3 kW, phases: WIRING, neutral: floating}
  heater: {kind: ac load, power: 1 kW, phases: WIRING}
circuits:
  - {name: gen, ac: set -> board, wire: 10 mm² 5 m}
  - {name: through, ac: board -> breaker LINES-pole 20 A -> box.in, wire: [2.5 mm² 1 m, 5 m]}
  - {name: heater, ac: board -> breaker LINES-pole 16 A -> heater, wire: [2.5 mm² 1 m, 9 m]}
"""


@pytest.mark.parametrize(("wiring", "lines", "volts", "amps"), [
    ("1", 1, 230, 1000 / 230), ("2", 2, 230, 1000 / 230), ("2+N", 2, 230, 500 / 230), ("3+N", 3, 230, 1000 / 3 / 230)])
def test_on_mains_each_line_and_the_voltage_to_neutral_else_between_lines(wiring, lines, volts, amps):
    """The neutral's own current is not told. 1 kW at 230 V, less what the cables lose."""
    found = of(MAINS.replace("WIRING", wiring).replace("LINES", str(lines)))[0]["on the generator"]
    assert [abs(one) for one in found["heater:a0"].amps] == [pytest.approx(amps, rel=0.03)] * lines
    assert found["heater:a0"].volts is None and found["heater:a1"].amps == ()
    assert found["heater:a1"].volts == pytest.approx(volts, rel=0.02) and found["heater:a1"].volts < found["gen:a0"].volts
    assert found["through:a1"].volts == pytest.approx(found["gen:a0"].volts, rel=0.02)  # at its input, not its output


def test_where_no_source_runs_everything_reads_nought():
    states, _ = of(MAINS.replace("WIRING", "1").replace("LINES", "1"))
    assert states["parked, nothing charges"]["heater:a0"].amps == (0.0,)
    assert states["parked, nothing charges"]["heater:a1"].volts == 0.0


def test_neither_way_of_a_dc_mill_at_work_is_told_and_its_charger_is():
    text = MILL.replace(", phases: 3", "").replace("ac: mill -> box.in", "feed: mill -> box.in")
    states, _ = of(text)
    assert not {"mill:f0", "mill:r0"} & set(states["full wind"]) and states["parked, nothing charges"]["mill:f0"].amps == (0.0,)
    assert states["full wind"]["charge:f0"].amps[0] > 10 and states["full wind"]["charge:r0"].amps[0] != 0.0


def test_of_unlike_arrays_side_by_side_the_higher_voltage_counts_and_currents_are_in_proportion():
    text = SUN.format(sort="mppt", output=30).replace("  sun:", "  wall: {kind: pv, power: 60 W, voc: 21 V, vmp: 16 V, isc: 3.9 A, imp: 3.3 A}\n  sun:")
    text += "  - {name: more, feed: wall -> sun.pv, wire: 6 mm² 1 m}\n"
    states, system = of(text)
    found = states["full sun"]
    volts = next(one for one in study(system).nominal if one.state.name == "full sun").volts("sun.+", "sun.-")
    taken = found["array:f0"].amps[0] + found["more:f0"].amps[0]
    assert found["array:f0"].amps[0] == pytest.approx(2 * found["more:f0"].amps[0], rel=1e-6)  # 6.6 A to 3.3 A
    assert found["array:f1"].volts == pytest.approx(18, rel=1e-3)
    assert taken * 18 == pytest.approx(found["charge:f0"].amps[0] * volts / 0.96, rel=1e-3)


def test_at_a_bar_the_voltage_is_over_the_reference_of_its_island():
    bar = LAMP.replace("circuits:", "  bar: {kind: bar, rating: 50 A}\ncircuits:").replace(
        "feed: bank -> fuse 15 A -> lamp", "feed: bank -> fuse 15 A -> bar, return: none") + (
        "  - {name: on, feed: bar -> lamp, return: lamp -> bank, wire: 6 mm² 5 m}\n")
    states, system = of(bar)
    one = next(iter(study(system).nominal))
    assert states["parked, nothing charges"]["lamp:f1"].volts == pytest.approx(one.volts("bar", "bank.-"), rel=1e-9)


def test_between_lines_both_lose():
    found = of(MAINS.replace("WIRING", "2").replace("LINES", "2"))[0]["on the generator"]
    # there and back 10 m of 2.5 mm²: 7.98 Ω/km (IEC 60228, class 5) at 70 °C
    lost = 2 * found["heater:a0"].amps[0] * 10 * 7.98e-3 * (1 + 0.00393 * 50)
    assert found["gen:a0"].volts - found["heater:a1"].volts == pytest.approx(lost, rel=0.01)


def test_no_cable_without_a_reading_is_listed():
    found = of(LAMP)[0]["parked, nothing charges"]
    assert set(found) == {"lamp:f0", "lamp:f1", "lamp:r0"}
    longer = LAMP.replace("-> fuse 15 A -> lamp", "-> fuse 15 A -> switch 20 A -> lamp")
    found = of(longer)[0]["parked, nothing charges"]
    assert set(found) == {"lamp:f0", "lamp:f2", "lamp:r0"}  # the middle one carries what the first does


@pytest.mark.parametrize("first", ["spin", "roof"])
def test_of_an_array_beside_a_turbine_on_one_charger_neither_is_told(first):
    """How they share what the charger takes, no model here says."""
    text = SUN.format(sort="mppt", output=15)
    mill = "  spin: {kind: wind, power: 100 W}\n"
    text = text.replace("  sun:", f"{mill}  sun:") if first == "roof" else text.replace("  roof:", f"{mill}  roof:")
    states, _ = of(text + "  - {name: spin, feed: spin -> sun.pv, wire: 6 mm² 1 m}\n")
    assert set(states["full sun and wind"]) == {"charge:f0", "charge:r0"}
    assert states["full sun and wind"]["charge:f0"].amps[0] > 10


def test_a_line_and_its_neutral_both_lose():
    found = of(MAINS.replace("WIRING", "1").replace("LINES", "1"))[0]["on the generator"]
    # there and back 10 m of 2.5 mm²: 7.98 Ω/km (IEC 60228, class 5) at 70 °C
    lost = 2 * found["heater:a0"].amps[0] * 10 * 7.98e-3 * (1 + 0.00393 * 50)
    assert found["gen:a0"].volts - found["heater:a1"].volts == pytest.approx(lost, rel=0.01)


@pytest.mark.parametrize("sort", ["mppt", "pwm"])
def test_an_array_that_nobody_asks_stands_at_its_open_voltage(sort):
    """The bank is above what its charger would charge it to."""
    system, problems = read(SUN.format(sort=sort, output=15))
    (sun,) = [state for state in study(system).states if state.name == "full sun"]
    found = readings(Operation(system, sun, "full"))
    assert found["charge:f0"].amps[0] == pytest.approx(0, abs=1e-6)
    assert found["array:f0"].amps[0] == pytest.approx(0, abs=1e-3)
    assert found["array:f1"].volts == pytest.approx(22, abs=0.05)


def test_a_neutral_that_goes_its_own_way_is_not_told():
    text = MAINS.replace("WIRING", "1").replace("LINES", "1").replace(
        "heater, wire: [2.5 mm² 1 m, 9 m]}", "heater, wire: {hops: [2.5 mm² 1 m, 9 m], cores: L earth}}\n"
        "  - {name: own, ac: board -> heater, wire: {size: 2.5 mm², length: 9 m, cores: N}}")
    found = of(text)[0]["on the generator"]
    assert "own:a0" not in found and found["heater:a0"].amps[0] > 4
