"""Short-circuit currents of systems, against the loop's resistances summed by hand."""

from __future__ import annotations

import pytest

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.faults import Faults
from diagrammer.circuit.flow import HOT
from diagrammer.electrics.conductor import resistance
from diagrammer.netlist.read import read
from diagrammer.quantity import awg

COLD = 20.0  # [°C] at which IEC 60228 states resistances: a conductor that carries nothing
TEXT = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 8 kA, pair: return-bar}
  feed-bar: {kind: bar, rating: 200 A, pair: return-bar}
  return-bar: {kind: bar, rating: 200 A}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {name: main, feed: bank/fuse 200 A -> feed-bar, return: bank -> return-bar, wire: 2/0 AWG 1 m}
  - {name: lamp, feed: feed-bar/fuse 10 A -> lamp, wire: 14 AWG 5 m}
"""


@pytest.fixture
def system():
    found, problems = read(TEXT)
    assert not problems
    return found


def test_at_the_post_and_at_the_bar(system):
    faults, one = Faults(system), batteries(system)["bank"]
    full, low = one.window.absorption, one.window.cutoff
    inner = one.window.nominal / 8000
    main, charged = resistance(awg(-1), 1, COLD), full / 8000  # the stated current is that of a full battery
    assert faults.of_batteries("bank.+") == pytest.approx(full / (charged + main), rel=1e-9)  # to the return bar, its pair
    assert faults.of_batteries("feed-bar") == pytest.approx(full / (charged + 2 * main), rel=1e-9)
    hot = inner + 2 * resistance(awg(-1), 1, HOT) + 2 * resistance(awg(14), 5, HOT)
    assert faults.smallest("lamp.+") == pytest.approx(low / hot, rel=1e-9)


def test_a_second_battery_raises_it(system):
    more = TEXT.replace("  feed-bar:", "  two: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 8 kA, pair: return-bar}\n  feed-bar:", 1)
    more += "  - {name: second, feed: two/fuse 200 A -> feed-bar, return: two -> return-bar, wire: 2/0 AWG 1 m}\n"
    found, problems = read(more)
    assert not problems
    assert Faults(found).of_batteries("feed-bar") == pytest.approx(2 * Faults(system).of_batteries("feed-bar"), rel=1e-6)


CHARGED = TEXT.replace("  lamp:", "  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 30 A}\n"
                                  "  pedestal: {kind: shore, rating: 30 A}\n"
                                  "  genset: {kind: generator, power: 2 kW, neutral: floating}\n  lamp:", 1) + (
    "  - {name: sun, feed: sun/fuse 40 A -> feed-bar, wire: 8 AWG 1 m}\n")


def test_what_limits_itself_adds_what_it_gives_and_mains_add_nothing(system):
    found, problems = read(CHARGED)
    assert not problems
    faults, bare = Faults(found), Faults(system)
    assert bare.largest("feed-bar") == bare.of_batteries("feed-bar")
    assert faults.largest("feed-bar") == pytest.approx(bare.largest("feed-bar") + 30, rel=1e-9)
    assert faults.of_batteries("feed-bar") == pytest.approx(bare.largest("feed-bar"), rel=1e-9)
    assert faults.smallest("lamp.+") == pytest.approx(bare.smallest("lamp.+"), rel=1e-6)


@pytest.mark.parametrize(("node", "amps"), [
    ("alternator, output: 90 A", 90), ("alternator, output: 90 A, self limiting: no", 0),  # that gives what a fault asks
    ("pv, power: 100 W, voc: 22 V, isc: 6 A", 0),  # behind its charger, which limits it
    ("converter, voltage: 12 V, output: 20 A", 0),  # passes on what batteries give
    ("pv inverter, power: 1 kW, max pv voltage: 100 V", 0), ("wind charger, output: 15 A", 15),
])
def test_what_each_kind_adds(system, node, amps):
    found, problems = read(TEXT.replace("  lamp:", f"  more: {{kind: {node}}}\n  lamp:", 1))
    assert not problems
    assert Faults(found).largest("feed-bar") == pytest.approx(Faults(system).largest("feed-bar") + amps, rel=1e-9)


def test_where_no_battery_reaches_nothing_is_said():
    found, problems = read(TEXT.replace("bank/fuse 200 A -> feed-bar", "bank/fuse 200 A -> other").replace(
        "  lamp:", "  other: {kind: bar, rating: 200 A, pair: return-bar}\n  lamp:", 1))
    assert not problems
    faults = Faults(found)
    assert (faults.largest("feed-bar"), faults.of_batteries("lamp.+"), faults.smallest("lamp.+")) == (None, None, None)
    assert faults.of_batteries("other") > 0 and faults.largest("no such") is None


def test_a_current_that_is_not_stated_is_named_as_estimated(system):
    assert Faults(system).estimated == ()
    found, problems = read(TEXT.replace(", short circuit: 8 kA", ""))
    assert not problems and Faults(found).estimated == ("bank",)


LINE = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 8 kA}
  feed-bar: {kind: bar, rating: 200 A, pair: return-bar}
  return-bar: {kind: bar, rating: 200 A}
  tap: {kind: selector, rating: 10 A}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  horn: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - name: main
    feed: bank -> fuse 200 A F-main -> feed-bar
    return: bank -> return-bar
    wire: {feed: [2/0 AWG 1 m, 2 m], return: 2/0 AWG 4 m}
  - {name: tap, feed: feed-bar/fuse 10 A F-tap -> tap.1, return: none, wire: 14 AWG 3 m}
  - {name: lamp, feed: tap.common -> lamp, return: lamp -> return-bar, wire: 14 AWG 5 m}
  - {name: horn, feed: tap.common -> fuse 5 A F-horn -> horn, return: horn -> return-bar, wire: {feed: [14 AWG 6 m, 7 m], return: 14 AWG 7 m}}
"""


def ohms(amps: float, volts: float, thick: float, thin: float, hot: float) -> float:
    """[Ω] of a source of so many amps, and metres of 2/0 and 14 AWG."""
    return volts / amps + resistance(awg(-1), thick, hot) + resistance(awg(14), thin, hot)


@pytest.mark.parametrize(("terminal", "thick", "thin"), [
    ("bank.+", 0, 0),  # to its own -
    ("F-main.1", 1, 0), ("F-main.2", 1, 0),  # a fuse has no way back: that of the bank, upstream
    ("feed-bar", 7, 0),  # to the bar of its own returns
    ("F-tap.2", 7, 0), ("tap.1", 7, 3),  # on the bar; at the end of its line, upstream
    ("tap.common", 7, 8),  # nothing upstream on its line: the lamp downstream, and its return
    ("F-horn.1", 7, 16), ("horn.+", 7, 23),
])
def test_the_largest_is_to_the_way_back_upstream(terminal, thick, thin):
    found, problems = read(LINE)
    assert not problems
    full = batteries(found)["bank"].window.absorption
    assert Faults(found).of_batteries(terminal) == pytest.approx(full / ohms(8000, full, thick, thin, COLD), rel=1e-9)


@pytest.mark.parametrize(("terminal", "thick", "thin"), [
    ("bank.+", 0, 0), ("F-main.1", 5, 0), ("F-main.2", 5, 0), ("feed-bar", 7, 0), ("tap.1", 7, 3),
    ("tap.common", 7, 8), ("F-horn.1", 7, 16), ("F-horn.2", 7, 16),
])
def test_the_smallest_is_to_the_way_back_downstream(terminal, thick, thin):
    found, _ = read(LINE)
    window = batteries(found)["bank"].window
    loop = window.nominal / 8000 - window.cutoff / 8000 + ohms(8000, window.cutoff, thick, thin, HOT)
    assert Faults(found).smallest(terminal) == pytest.approx(window.cutoff / loop, rel=1e-9)


BANKS = """
nodes:
  one: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2 kA}
  two: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2 kA}
  pick: {kind: selector, rating: 200 A}
  spare: {kind: selector, rating: 200 A, positions: {off: none, 1: a+b+c+d+e, 2: a+b}}
  back: {kind: bar, rating: 200 A}
circuits:
  - {feed: one -> pick.1, return: one -> back}
  - {feed: two -> pick.2, return: two -> back}
"""


def test_a_selector_stands_where_it_joins_most_or_where_it_rests():
    """Both batteries at once; at least the first alone. The other selector's positions are no concern of this one."""
    found, problems = read(BANKS)
    assert not problems
    full, low = batteries(found)["one"].window.absorption, batteries(found)["one"].window.cutoff
    faults = Faults(found)
    assert faults.of_batteries("one.+") == faults.of_batteries("pick.1") == pytest.approx(4000)
    assert full > 12 and faults.smallest("one.+") == pytest.approx(2000 * low / 12)


def test_a_fuse_between_two_batteries_in_series_has_the_first_ones_way_back():
    text = """
nodes:
  b1: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2 kA}
  b2: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2 kA}
circuits:
  - {series: b1 -> fuse 100 A F-link -> b2, wire: [2 AWG 1 m, 1 m]}
"""
    found, problems = read(text)
    assert not problems
    full = batteries(found)["b1"].window.absorption
    assert Faults(found).of_batteries("F-link.1") == pytest.approx(full / (full / 2000 + resistance(awg(2), 1, COLD)))
