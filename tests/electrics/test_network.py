"""Properties of the network solver that need no other program."""

import dataclasses
import math
import time

import pytest
from hypothesis import given, settings, strategies as st

from diagrammer.electrics.flow import imbalance, solve
from diagrammer.electrics.network import Branch, Charger, Collapse, Converter, Flow, Load, Network, Source
from tests.oracles.networks import network

BANK = Source("bank", "b+", "b-", 25.6, 0.004)


def house(circuits):
    """Everything hangs on two bars; the bank gives about 20 kW whatever the number of circuits."""
    branches = [Branch("main", "b+", "bar", 0.8e-3), Branch("back", "b-", "rbar", 0.5e-3)]
    loads = []
    for n in range(circuits):
        branches += [Branch(f"f{n}", "bar", f"l{n}+", 0.05 + n % 7 * 0.01), Branch(f"r{n}", f"l{n}-", "rbar", 0.05)]
        sort, value = (("power", 20000 / circuits), ("current", 300 / circuits), ("resistance", circuits / 5))[n % 3]
        loads.append(Load(f"l{n}", f"l{n}+", f"l{n}-", sort, value))
    return Network(tuple(branches), (Source("bank", "b+", "b-", 51.2, 2e-3),), tuple(loads))


def feed(*loads, **others):
    return Network((Branch("main", "b+", "bar", 0.002), Branch("back", "rbar", "b-", 0.002)), (BANK,), loads, **others)


def across(flow, plus, minus):
    return flow.volts[plus] - flow.volts[minus]


def test_ten_thousand_circuits_take_seconds_and_growth_is_near_linear():
    times = []
    for circuits in (1000, 10000):
        net, begun = house(circuits), time.process_time()
        flow = solve(net)
        times.append(time.process_time() - begun)
        assert isinstance(flow, Flow) and abs(imbalance(net, flow)) < 1e-9
    assert times[1] < 5
    assert times[1] < 30 * times[0]  # quadratic growth would be 100


@settings(max_examples=60, deadline=None)
@given(st.integers(5000, 9999))
def test_energy_and_kirchhoff(seed):
    net = network(seed)
    flow = solve(net)
    if isinstance(flow, Collapse):
        return
    into = {}
    for part in net.branches:
        into[part.a] = into.get(part.a, 0) - flow.amps[part.name]
        into[part.b] = into.get(part.b, 0) + flow.amps[part.name]
        assert flow.volts[part.a] - flow.volts[part.b] == pytest.approx(flow.amps[part.name] * part.ohms, abs=1e-9)
    for part in (*net.sources, *net.chargers, *net.converters):
        into[part.plus] = into.get(part.plus, 0) + flow.amps[part.name]
        into[part.minus] = into.get(part.minus, 0) - flow.amps[part.name]
    for part in net.loads:
        into[part.plus] = into.get(part.plus, 0) - flow.amps[part.name]
        into[part.minus] = into.get(part.minus, 0) + flow.amps[part.name]
    for part in net.converters:
        into[part.from_plus] = into.get(part.from_plus, 0) - flow.drawn[part.name]
        into[part.from_minus] = into.get(part.from_minus, 0) + flow.drawn[part.name]
    assert all(abs(amps) < 1e-6 for amps in into.values())
    assert abs(imbalance(net, flow)) < 1e-9


@settings(max_examples=40, deadline=None)
@given(st.integers(5000, 9999))
def test_the_direction_in_which_a_wire_is_written_changes_nothing(seed):
    net = network(seed)
    turned = tuple(Branch(b.name, b.b, b.a, b.ohms) for b in reversed(net.branches))
    first, second = solve(net), solve(dataclasses.replace(net, branches=turned))
    if isinstance(first, Flow):
        for name, volts in first.volts.items():
            assert second.volts[name] == pytest.approx(volts, rel=1e-8, abs=1e-8)


@settings(max_examples=40, deadline=None)
@given(st.integers(5000, 9999), st.floats(0.5, 4))
def test_scaling_volts_and_ohms_scales_power_by_the_square(seed, k):
    """Per unit nothing changes when E and every V are times k, P times k², R as it was, constant currents times k."""
    net = network(seed)
    if net.converters:
        return
    scaled = Network(
        net.branches, tuple(dataclasses.replace(s, volts=s.volts * k) for s in net.sources),
        tuple(dataclasses.replace(x, value=x.value * {"power": k * k, "current": k, "resistance": 1}[x.sort])
              for x in net.loads),
        tuple(dataclasses.replace(c, volts=c.volts * k, amps=c.amps * k) for c in net.chargers),
    )
    first, second = solve(net), solve(scaled)
    for name, volts in first.volts.items():
        assert second.volts[name] == pytest.approx(volts * k, rel=1e-7, abs=1e-7)


def test_two_equal_parallel_branches_are_one_of_half_the_resistance():
    def net(*wires):
        return Network((*wires, Branch("back", "x-", "b-", 0.01)), (BANK,), (Load("x", "x+", "x-", "power", 300),))

    two = solve(net(Branch("one", "b+", "x+", 0.02), Branch("two", "b+", "x+", 0.02)))
    half = solve(net(Branch("one", "b+", "x+", 0.01)))
    assert two.volts == pytest.approx(half.volts)
    assert two.amps["one"] == pytest.approx(half.amps["one"] / 2)


def test_halving_every_resistance_halves_the_drop_at_constant_current():
    load = Load("x", "bar", "rbar", "current", 20)
    full = solve(feed(load))
    half = solve(Network(
        (Branch("main", "b+", "bar", 0.001), Branch("back", "rbar", "b-", 0.001)),
        (dataclasses.replace(BANK, ohms=0.002),), (load,),
    ))
    assert 25.6 - across(full, "bar", "rbar") == pytest.approx(2 * (25.6 - across(half, "bar", "rbar")))


def test_current_rises_as_voltage_falls():
    """A load of constant power draws more from a battery that is low: 2000 W through 0.9 at 10.5 V, 211.6 A."""
    def amps(volts):
        net = Network((Branch("w", "b+", "x", 1e-9),), (Source("bank", "b+", "0", volts, 1e-9),),
                      (Load("inverter", "x", "0", "power", 2000 / 0.9),))
        return solve(net).amps["inverter"]

    assert amps(10.5) == pytest.approx(211.64, abs=0.01)
    assert amps(13.333) == pytest.approx(166.67, abs=0.01)
    assert amps(10.5) > amps(12.0) > amps(14.4)


def test_a_load_without_a_way_back_is_dead():
    flow = solve(feed(Load("x", "bar", "nowhere", "power", 100), Load("y", "bar", "rbar", "power", 50)))
    assert flow.dead == ("x",) and flow.amps["x"] == 0 and flow.amps["y"] > 0


def test_a_load_the_wrong_way_round_is_dead():
    flow = solve(feed(Load("x", "rbar", "bar", "power", 100)))
    assert flow.dead == ("x",) and flow.amps["bank"] == pytest.approx(0, abs=1e-9)


def test_a_network_without_a_source_is_dead():
    flow = solve(Network((Branch("w", "a", "b", 0.01),), loads=(Load("x", "b", "c", "power", 5),
                                                              Load("r", "b", "c", "resistance", 5))))
    assert flow.dead == ("x", "r") and set(flow.volts.values()) == {0.0}


def test_nothing_at_all():
    assert solve(Network()) == Flow()


def test_a_load_below_the_voltage_it_needs_is_named():
    fridge, lamp = (Load(name, "bar", "rbar", "power", 60, least) for name, least in (("fridge", 26.0), ("lamp", 20.0)))
    flow = solve(feed(fridge, lamp))
    assert flow.low == ("fridge",)


def test_a_charger_holds_its_voltage_until_its_current_runs_out():
    idle = solve(feed(chargers=(Charger("sun", "bar", "rbar", 28.4, 400),)))
    assert across(idle, "bar", "rbar") == pytest.approx(28.4, abs=0.4)
    limited = solve(feed(chargers=(Charger("sun", "bar", "rbar", 28.4, 35),)))
    assert limited.amps["sun"] == 35 and limited.amps["bank"] == pytest.approx(-35)
    off = solve(feed(chargers=(Charger("sun", "bar", "rbar", 24.0, 35),)))
    assert off.amps["sun"] == 0


def test_a_converter_takes_what_it_gives_over_its_efficiency():
    lamp = Load("lamp", "p", "rbar", "power", 120)
    net = feed(lamp, converters=(Converter("dc", "bar", "rbar", "p", "rbar", 12.5, 0.9, 30, 1e-3, idle=2.0),))
    flow = solve(net)
    given_power = flow.amps["dc"] * across(flow, "p", "rbar")
    assert given_power == pytest.approx(120)
    assert flow.drawn["dc"] * across(flow, "bar", "rbar") == pytest.approx(120 / 0.9 + 2.0)


def test_converters_in_a_chain():
    net = feed(
        Load("phone", "u", "u-", "power", 10),
        converters=(Converter("dc", "bar", "rbar", "p", "p-", 12.5, 0.9),
                    Converter("usb", "p", "p-", "u", "u-", 5, 0.8)),
    )
    flow = solve(net)
    assert flow.amps["bank"] * across(flow, "b+", "b-") == pytest.approx(10 / 0.8 / 0.9, rel=1e-4)


def test_a_converter_whose_input_hangs_in_the_air_is_dead_and_so_is_its_load():
    net = feed(Load("lamp", "p", "p-", "power", 50), converters=(Converter("dc", "x", "y", "p", "p-", 12.5),))
    assert solve(net).dead == ("dc", "lamp")


def test_collapse_names_the_load_and_the_thin_wire():
    net = Network(
        (Branch("main", "b+", "bar", 0.002), Branch("thin", "bar", "far", 0.4), Branch("back", "rbar", "b-", 0.002)),
        (BANK,), (Load("near", "bar", "rbar", "power", 100), Load("heater", "far", "rbar", "power", 600)),
    )
    found = solve(net)
    assert (found.load, found.branch) == ("heater", "thin")
    assert found.share == pytest.approx(25.6**2 / 4 / 0.408 / 600, rel=0.05)


def test_collapse_of_a_bank_too_weak_for_everything():
    net = Network((Branch("w", "b+", "x", 1e-4),), (Source("bank", "b+", "0", 12.0, 0.1),),
                  (Load("winch", "x", "0", "power", 2000),))
    assert solve(net).branch == "bank"


def test_collapse_of_a_converter_at_its_limit():
    converter = Converter("dc", "bar", "rbar", "p", "p-", 12.5, 0.9, 30)
    net = feed(Load("lamp", "p", "p-", "power", 500), converters=(converter,))
    found = solve(net)
    assert (found.load, found.branch) == ("lamp", "dc")
    assert found.share == pytest.approx(30 * 12.47 / 500, rel=0.01)


def test_currents_of_joints_follow_from_kirchhoff():
    net = Network(
        (Branch("j1", "b+", "bar", 0.0), Branch("j2", "bar", "x", 0.0), Branch("w", "bar", "y", 0.01)), (
            Source("bank", "b+", "0", 12.8, 0.002),
        ), (Load("lx", "x", "0", "current", 7), Load("ly", "y", "0", "current", 3)),
    )
    flow = solve(net)
    assert (flow.amps["j1"], flow.amps["j2"], flow.amps["w"]) == pytest.approx((10, 7, 3))
    assert flow.volts["x"] == flow.volts["b+"]


def test_islands_do_not_touch():
    both = Network(
        (Branch("w1", "a+", "x", 0.01), Branch("w2", "c+", "y", 0.01)),
        (Source("a", "a+", "a-", 12, 0.01), Source("c", "c+", "c-", 24, 0.01)),
        (Load("x", "x", "a-", "current", 5), Load("y", "y", "c-", "current", 5)),
    )
    flow = solve(both)
    assert flow.volts["x"] == pytest.approx(11.9) and flow.volts["y"] == pytest.approx(23.9)


def test_series_stack_with_a_midpoint_load():
    net = Network(
        (Branch("link", "t-", "m+", 0.001),),
        (Source("top", "t+", "t-", 12.8, 0.005), Source("low", "m+", "0", 12.8, 0.005)),
        (Load("all", "t+", "0", "current", 10), Load("mid", "m+", "0", "current", 4)),
    )
    flow = solve(net)
    assert (flow.amps["top"], flow.amps["low"]) == pytest.approx((10, 14))


@pytest.mark.parametrize("share", [0.25, 1.0])
def test_of_what_a_converter_does_not_give_its_input_sees_nothing(share):
    net = Network(sources=(Source("bank", "p", "m", 12.0, 0.001),), loads=(Load("lamp", "q", "n", "current", 2.0),),
                  converters=(Converter("step", "p", "m", "q", "n", 24.0, 0.8, ohms=1e-9, idle=3.0, share=share),))
    flow = solve(net)
    assert flow.drawn["step"] * (flow.volts["p"] - flow.volts["m"]) == pytest.approx(24 * 2 * share / 0.8 + 3)
    assert flow.amps["step"] == pytest.approx(2.0)


@pytest.mark.parametrize("parts", [
    {"sources": (Source("a", "p", "m", 12, 0.0),)},
    {"branches": (Branch("a", "p", "m", -1.0),)},
    {"branches": (Branch("a", "p", "m", math.inf),)},
    {"branches": (Branch("a", "p", "m", 1.0), Branch("a", "p", "m", 1.0))},
    {"loads": (Load("a", "p", "m", "torque", 1.0),)},
    {"loads": (Load("a", "p", "m", "power", -1.0),)},
    {"loads": (Load("a", "p", "m", "resistance", 0.0),)},
    {"converters": (Converter("a", "p", "m", "q", "n", 12, 1.2),)},
    {"converters": (Converter("a", "p", "m", "q", "n", 12, share=0.0),)},
    {"converters": (Converter("a", "p", "m", "q", "n", 12, share=1.01),)},
])
def test_nonsense_is_refused(parts):
    with pytest.raises(ValueError):
        Network(**parts)
