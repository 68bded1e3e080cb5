"""At, just under and just over the lowest charging temperature."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad

RULE = "cold-charging"
SITE = "coldest: -10 °C"


@pytest.mark.parametrize("coldest, stated, expected", [
    ("0 °C", "", 0), ("-0.1 °C", "", 1), ("32 °F", "", 0), ("31 °F", "", 1),
    ("-20 °C", "charge above: -20 °C", 0), ("-20.5 °C", "charge above: -20 °C", 1), ("4 °C", "charge above: 5 °C", 1),
    ("-10 °C", "cold cutoff: yes", 0), ("-10 °C", "cold cutoff: no", 1),
])
def test_the_limit(coldest, stated, expected):
    capacity = "capacity: 100 Ah" + (f", {stated}" if stated else "")
    assert len(bad(RULE, (SITE, f"coldest: {coldest}"), ("capacity: 100 Ah", capacity))) == expected


def test_nothing_is_said_where_the_cold_is_not():
    assert bad(RULE, (f"site: {{{SITE}}}\n", "")) == ()


def test_lead_may_be_charged_in_the_cold():
    assert bad(RULE, ("lifepo4", "agm"), ("12.8 V", "12 V")) == ()


def test_what_nothing_charges_is_not_charged_in_the_cold():
    assert bad(RULE, ("  - {feed: sun -> fuse 15 A/panel, wire: 12 AWG 1 m}\n", "")) == ()


def test_a_protection_circuit_watches():
    line = ("  watch: {kind: bms, rating: 100 A}\n"
            "circuits:\n"
            "  - {return: bank -> watch -> panel, wire: [6 AWG 0.3 m, 0.3 m]}")
    own = "-> panel, wire: 6 AWG 1 m}", "-> panel, return: none, wire: 6 AWG 1 m}"
    assert bad(RULE, ("circuits:", line), own) == ()


def test_one_battery_stands_for_its_bank():
    twin = "  twin: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah}\ncircuits:\n"
    line = "  - {feed: twin/fuse 50 A -> panel, return: twin -> panel, wire: 6 AWG 1 m}"
    assert [one.nodes for one in bad(RULE, ("circuits:", twin + line))] == [("bank",)]


def test_a_protection_circuit_watches_its_own_bank_only():
    other = ("  other: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah}\n"
             "  watch: {kind: bms, rating: 100 A}\n  lamp: {kind: load, voltage: 12 V, power: 5 W}\ncircuits:\n"
             "  - {return: other -> watch -> lamp, wire: [6 AWG 0.3 m, 0.3 m]}\n"
             "  - {feed: other/fuse 5 A -> lamp, return: none, wire: 14 AWG 1 m}")
    assert [one.nodes for one in bad(RULE, ("circuits:", other))] == [("bank",)]


@pytest.mark.parametrize("coldest, expected", [("-20 °C", 0), ("-20.1 °C", 0), ("-40 °C", 0)])
def test_lead_is_not_judged_however_cold(coldest, expected):
    """It may freeze, which is another matter."""
    assert len(bad(RULE, (SITE, f"coldest: {coldest}"), ("lifepo4", "agm"), ("12.8 V", "12 V"))) == expected


@pytest.mark.parametrize("chemistry, voltage", [("lifepo4", "12.8 V"), ("lithium", "14.4 V")])
@pytest.mark.parametrize("coldest, expected", [("0.1 °C", 0), ("0 °C", 0), ("-0.1 °C", 1)])
def test_lithium_of_either_sort(chemistry, voltage, coldest, expected):
    assert len(bad(RULE, (SITE, f"coldest: {coldest}"), ("lifepo4", chemistry), ("12.8 V", voltage))) == expected
