"""Short-circuit currents of systems, against the loop's resistances summed by hand."""

from __future__ import annotations

import pytest

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.faults import COLD, Faults
from diagrammer.circuit.flow import HOT
from diagrammer.electrics.conductor import resistance
from diagrammer.netlist.read import read
from diagrammer.quantity import awg

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
    assert faults.largest("bank.+") == pytest.approx(full / (charged + main), rel=1e-9)  # to the return bar, its pair
    assert faults.largest("feed-bar") == pytest.approx(full / (charged + 2 * main), rel=1e-9)
    hot = inner + 2 * resistance(awg(-1), 1, HOT) + 2 * resistance(awg(14), 5, HOT)
    assert faults.smallest("lamp.+") == pytest.approx(low / hot, rel=1e-9)


def test_a_second_battery_raises_it(system):
    more = TEXT.replace("  feed-bar:", "  two: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 8 kA, pair: return-bar}\n  feed-bar:", 1)
    more += "  - {name: second, feed: two/fuse 200 A -> feed-bar, return: two -> return-bar, wire: 2/0 AWG 1 m}\n"
    found, problems = read(more)
    assert not problems
    assert Faults(found).largest("feed-bar") == pytest.approx(2 * Faults(system).largest("feed-bar"), rel=1e-6)


CHARGED = TEXT.replace("  lamp:", "  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 30 A}\n"
                                  "  pedestal: {kind: shore, rating: 30 A}\n"
                                  "  genset: {kind: generator, power: 2 kW, neutral: floating}\n  lamp:", 1) + (
    "  - {name: sun, feed: sun/fuse 40 A -> feed-bar, wire: 8 AWG 1 m}\n")


def test_what_limits_itself_adds_what_it_gives_and_mains_add_nothing(system):
    found, problems = read(CHARGED)
    assert not problems
    faults, bare = Faults(found), Faults(system)
    assert faults.largest("feed-bar") == pytest.approx(bare.largest("feed-bar") + 30, rel=1e-9)
    assert faults.of_batteries("feed-bar") == pytest.approx(bare.largest("feed-bar"), rel=1e-9)
    assert faults.smallest("lamp.+") == pytest.approx(bare.smallest("lamp.+"), rel=1e-6)


def test_where_no_battery_reaches_nothing_is_said():
    found, problems = read(TEXT.replace("bank/fuse 200 A -> feed-bar", "bank/fuse 200 A -> other").replace(
        "  lamp:", "  other: {kind: bar, rating: 200 A, pair: return-bar}\n  lamp:", 1))
    assert not problems
    faults = Faults(found)
    assert (faults.largest("feed-bar"), faults.of_batteries("lamp.+"), faults.smallest("lamp.+")) == (None, None, None)
    assert faults.largest("other") > 0 and faults.largest("no such") is None


def test_a_current_that_is_not_stated_is_named_as_estimated(system):
    assert Faults(system).estimated == ()
    found, problems = read(TEXT.replace(", short circuit: 8 kA", ""))
    assert not problems and Faults(found).estimated == ("bank",)
