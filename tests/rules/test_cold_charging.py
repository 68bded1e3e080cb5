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
