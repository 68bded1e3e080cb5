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
