"""Banks of several batteries and what charges them."""

from __future__ import annotations

import pytest

from diagrammer.circuit.charging import charging
from diagrammer.circuit.demand import demand
from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system

NODES = """
site: {coldest: 0 °C, hottest: 30 °C}
nodes:
  a: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  b: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 60 Ah, OWN}
  c: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}
"""
STACK = NODES + """
circuits:
  - {series: a/fuse 100 A -> b, wire: 2 AWG 0.3 m}
  - {feed: b -> c, return: none, wire: 2 AWG 0.3 m}
  - {return: c -> b.-, wire: 2 AWG 0.3 m}
"""
BESIDE = NODES + """
circuits:
  - {feed: a -> b, return: a -> b, wire: 2 AWG 0.3 m}
  - {feed: b -> c, return: b -> c, wire: 2 AWG 0.3 m}
"""


def bank(text: str, own: str = "resistance: 5 mΩ"):
    text = text.replace(", OWN", "" if not own else f", {own}")
    (store,) = stores(Survey(system(text)).start).all
    return store


def test_in_series_the_smallest_level_says_the_capacity():
    store = bank(STACK, "")
    assert set(store.names) == {"a", "b", "c"} and store.nominal == 24 and store.capacity == 100  # 60 + 50 above 100
    assert store.tops == ("b.+", "c.+") and store.feet == ("a.-",)


def test_side_by_side_capacities_add_up():
    store = bank(BESIDE, "")
    assert store.nominal == 12 and store.capacity == 210 and not store.starter and not store.lithium


def test_a_limit_is_shared_by_capacity():
    amps, stated = bank(BESIDE, "max charge: 12 A").limit("max charge", lambda chemistry, capacity: capacity / 2)
    assert amps == pytest.approx(12 + 50 + 25) and not stated


def test_a_limit_of_levels_is_that_of_the_weaker_one():
    amps, _ = bank(STACK, "max charge: 12 A").limit("max charge", lambda chemistry, capacity: capacity / 2)
    assert amps == pytest.approx(12 + 25)


BUS = """
site: {coldest: 0 °C, hottest: 30 °C}
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}
  bar: {kind: bar, rating: 200 A, pair: back}
  back: {kind: bar, rating: 200 A}
  EXTRA
circuits:
  - {feed: bank/fuse 200 A -> bar, return: bank -> back, wire: 2/0 AWG 1 m}
  - LINE
"""


def charges(extra: str, line: str):
    view = Survey(system(BUS.replace("EXTRA", extra).replace("LINE", line))).start
    (store,) = stores(view).all
    return store, charging(view).of(store)


@pytest.mark.parametrize(("fields", "amps"), [
    ("output: 90 A, self limiting: yes", 90), ("output: 90 A, continuous: 60 A", 60), ("output: 90 A", 90),
])
def test_an_alternator_counts_with_what_it_gives_for_long(fields, amps):
    store, (one,) = charges(f"machine: {{kind: alternator, voltage: 14 V, {fields}}}",
                            "{feed: machine/fuse 100 A -> bar, return: machine -> back, wire: 2 AWG 1 m}")
    assert one.node.name == "machine" and one.into(12) <= amps and one.set_point(store) == 14


def sun(type_: str, more: str = ""):
    extra = (f"sun: {{kind: solar charger, type: {type_}, max pv voltage: 100 V, output: 30 A}}\n"
             f"  roof: {{kind: pv, power: 100 W, voc: 22 V, vmp: 18 V, isc: 6 A, imp: 5.6 A{more}}}")
    line = ("{feed: sun/fuse 40 A -> bar, wire: 8 AWG 1 m}\n"
            "  - {feed: roof -> sun.pv, wire: 10 AWG 3 m}")
    return charges(extra, line)


def test_the_sun_gives_by_power_or_by_current():
    """IEC 62548 and NEC 690.8(A)(1): 1.25 times the short-circuit current in bright sun."""
    assert sun("mppt")[1][0].into(12.0) == pytest.approx(100 / 12)
    assert sun("pwm")[1][0].into(12.0) == pytest.approx(1.25 * 6)
    assert sun("mppt", ", parallel: 5")[1][0].into(12.0) == sun("pwm", ", parallel: 5")[1][0].into(12.0) == 30


@pytest.mark.parametrize(("fields", "watts", "amps"), [
    ("voltage: 12 V, power: 60 W", 60, 60 / 13), ("voltage: 12 V, current: 5 A", 60, 5),
    ("voltage: 12 V, current: 5 A, count: 3", 180, 15), ("voltage: 12 V, power: 60 W, count: 2", 120, 120 / 13),
    ("voltage: 10 .. 30 V, current: 5 A", 50, 5),
])
def test_what_a_load_asks(fields, watts, amps):
    view = Survey(system(BUS.replace("EXTRA", f"lamp: {{kind: load, {fields}}}").replace(
        "LINE", "{feed: bar/fuse 30 A -> lamp, wire: 10 AWG 1 m}"))).start
    (part,) = demand(view).behind(("bank.+",))
    assert part.watts == pytest.approx(watts) and part.amps(13) == pytest.approx(amps)


def test_a_bank_counts_as_lithium_from_one_lithium_battery_on():
    text = BESIDE.replace("b: {kind: battery, chemistry: agm", "b: {kind: battery, chemistry: lifepo4")
    assert bank(text, "").lithium and not bank(BESIDE, "").lithium
    assert bank(BESIDE.replace("c: {kind: battery, chemistry: agm", "c: {kind: battery, chemistry: lithium"), "").lithium


STRINGS = """
nodes:
  a: {kind: battery, chemistry: agm, voltage: 6 V, capacity: 100 Ah, max charge: 30 A}
  b: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah, max charge: 20 A}
  c: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah, max charge: 15 A}
  d: {kind: battery, chemistry: agm, voltage: 24 V, capacity: 80 Ah, max charge: 8 A}
  lamp: {kind: load, voltage: 12 V, current: 7 A}
circuits:
  - {series: a -> b, wire: 2 AWG 0.3 m}
  - {series: a -> c, wire: 2 AWG 0.3 m}
  - {feed: b -> c, return: none, wire: 2 AWG 0.3 m}
  - {feed: d -> b, return: d -> a, wire: 2 AWG 0.3 m}
  - {name: lamp, feed: b/fuse 10 A -> lamp, return: lamp -> a, wire: 14 AWG 1 m}
"""


def test_unlike_strings_give_the_least_voltage_and_limit():
    """6 V and 12 V in series beside 24 V: 18 V; limits 20 + 15 and 30 A over 100 Ah, 8 A over 80 Ah."""
    store = bank(STRINGS)
    assert (store.nominal, store.capacity) == (18, 180)
    assert store.volts(lambda one: one.window.cutoff) == pytest.approx(1.93 * 9)
    amps, stated = store.limit("max charge", lambda chemistry, capacity: 1000)
    assert (amps, stated) == (pytest.approx(8 / 80 * 180), True)
    assert store.limit("max discharge", lambda chemistry, capacity: capacity)[1] is False
    uneven = bank(STRINGS.replace("c: {kind: battery, chemistry: agm, voltage: 12 V", "c: {kind: battery, chemistry: agm, voltage: 6 V"))
    assert uneven.nominal == 12  # of a level its least


def test_what_a_bank_gives_is_what_its_uppermost_batteries_give():
    one = system(STRINGS.replace("voltage: 24 V", "voltage: 18 V").replace("load, voltage: 12 V", "load, voltage: 9 .. 30 V"))
    survey = Survey(one)
    (store,) = stores(survey.start).all
    assert store.amps(survey.study.nominal[0].flow) == pytest.approx(7)


@pytest.mark.parametrize(("way", "banks"), [
    ("feed: a -> b", ["ab"]), ("feed: a -> fuse 50 A -> b", ["ab"]), ("feed: a -> switch 100 A -> b", ["ab"]),
    ("feed: a -> meter -> b", ["ab"]), ("feed: a -> breaker 50 A -> b", ["ab"]), ("feed: a/fuse 50 A/b", ["ab"]),
    ("feed: a -> switch 100 A open -> b", ["a", "b"]), ("feed: a -> resistor 0.1 Ω -> b", ["a", "b"]),
    ("feed: a -> diode 50 A -> b", ["a", "b"]), ("feed: a -> tie.1 -> b", ["a", "b"]),
    ("feed: a -> fuse 50 A -> tie.1 -> b", ["a", "b"]),
])
def test_joined_for_good_or_not(way, banks):
    text = f"""
nodes:
  a: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}}
  b: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}}
  meter: {{kind: shunt, rating: 100 A}}
  tie: {{kind: relay, rating: 100 A, coil: 12 V}}
circuits:
  - {{{way}, return: a -> b{'' if '/b' in way and '->' not in way else ', wire: 4 AWG 1 m'}}}
"""
    found = [("".join(store.names)) for store in stores(Survey(system(text)).start).all]
    assert found == banks


def test_earth_conductors_join_no_banks():
    text = """
nodes:
  a: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}
  b: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}
  rail: {kind: bar, rating: 100 A}
circuits:
  - {feed: a -> b, return: none, wire: 4 AWG 1 m}
  - {bond: a.- -> rail, wire: 4 AWG 1 m}
  - {bond: b.- -> rail, wire: 4 AWG 1 m}
"""
    assert len(stores(Survey(system(text)).start).all) == 2


def test_banks_stand_in_the_order_of_their_first_batteries_and_starters_apart():
    text = """
nodes:
  one: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}
  start: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 50 Ah}
  two: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}
circuits:
  - {feed: one -> two, return: one -> two, wire: 4 AWG 1 m}
  - {feed: one -> start, return: one -> start, wire: 4 AWG 1 m}
"""
    found = stores(Survey(system(text)).start).all
    assert [(store.names, store.starter) for store in found] == [(("one", "two"), False), (("start",), True)]
    assert set(found[0].cells) == {"one", "two"}
