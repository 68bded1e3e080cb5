"""Voltages within five percent are one."""

from __future__ import annotations

import pytest

from diagrammer.rules.solar import mismatched_strings
from tests.rules.variants import bad, good

RULE = "mismatched-strings"
REAR = "rear: {kind: pv, series: 2, power: 180 W, voc: 21.9 V, vmp: 18 V, isc: 10.5 A, imp: 10 A}"


@pytest.mark.parametrize("vmp, expected", [("19.3 V", 1), ("19.37 V", 1), ("19.38 V", 0), ("20.4 V", 0), ("21.4 V", 0), ("21.6 V", 1)])
def test_the_limit(vmp, expected):
    assert 0.95 * 20.4 == pytest.approx(19.38)
    rear = f"rear: {{kind: pv, series: 2, power: 180 W, voc: 23.9 V, vmp: {vmp}, isc: 10.5 A, imp: 10 A}}"
    assert len(bad(RULE, (REAR, rear))) == expected


def test_unlike_currents_may_lie_side_by_side():
    assert bad(RULE,
               (REAR,
                "rear: {kind: pv, series: 2, power: 100 W, voc: 24.6 V, vmp: 20.4 V, isc: 5.2 A, imp: 4.9 A}")) == ()


def test_open_voltages_where_those_at_full_power_are_not_stated():
    assert len(bad(RULE, ("vmp: 20.4 V, ", ""))) == 1 and good(RULE, ("vmp: 20.4 V, ", "")) == ()


def test_each_on_its_own_controller():
    pairs = (("{feed: rear -> combiner, wire: 10 AWG 4 m}",
              "{feed: rear -> switch 2-pole 20 A -> other.pv, wire: 10 AWG 4 m}"),
             ("circuits:", "  other: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}\n"
              "circuits:\n  - {feed: other -> fuse 40 A/panel, wire: 8 AWG 1 m}"))
    assert bad(RULE, *pairs) == ()


@pytest.mark.parametrize("vmp, expected", [("19.379999985 V", 0), ("19.379999978 V", 1)])
def test_a_billionth_is_rounding(vmp, expected):
    """Of 20.4 V."""
    rear = f"rear: {{kind: pv, series: 2, power: 180 W, voc: 23.9 V, vmp: {vmp}, isc: 10.5 A, imp: 10 A}}"
    assert len(bad(RULE, (REAR, rear))) == expected


def test_what_is_met_is_not_passed(monkeypatch):
    """A quarter less than 2 x 20.4 V."""
    monkeypatch.setattr(mismatched_strings, "ALIKE", 0.25 - 1e-9)
    for vmp, count in (((20.4 * 2 * (1 - (0.25 - 1e-9) - 1e-9)) / 2, 0), (15.29, 1)):
        rear = f"rear: {{kind: pv, series: 2, power: 150 W, voc: 23.9 V, vmp: {vmp!r} V, isc: 10.5 A, imp: 10 A}}"
        assert len(bad(RULE, (REAR, rear))) == count
