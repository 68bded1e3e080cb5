"""Three modules of 199.9 W at 96 % into 14.2 V: 40.5 A."""

from __future__ import annotations

import pytest

from diagrammer.circuit.givers import pv_array
from diagrammer.electrics import solar
from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.solar import pv_clipped
from tests.rules.variants import bad, severities

RULE = "pv-clipped"


@pytest.mark.parametrize("output, expected", [("39 A", ["notice"]), ("39.8 A", []), ("41 A", [])])
def test_two_percent_are_not_worth_a_word(output, expected):
    assert 3 * 20.4 * 9.8 * 0.96 / 14.2 == pytest.approx(40.547, abs=1e-3)
    assert severities(bad(RULE, ("output: 30 A", f"output: {output}"))) == expected


def test_a_switching_controller_passes_the_modules_own_current():
    assert bad(RULE, ("type: mppt", "type: pwm"), ("series: 3", "series: 1")) == ()


@pytest.mark.parametrize("output, expected", [("39.75 A", ["notice"]), ("39.76 A", [])])
def test_the_limit_is_two_percent(output, expected):
    assert 3 * 20.4 * 9.8 * 0.96 / 14.2 / 1.02 == pytest.approx(39.752, abs=1e-3)
    assert severities(bad(RULE, ("output: 30 A", f"output: {output}"))) == expected


@pytest.mark.parametrize("output, expected", [("9.5 A", ["notice"]), ("10.2 A", [])])
def test_a_switching_controller_is_clipped_too(output, expected):
    """Held at 14.2 V, below its vmp of 20.4 V, a module gives between imp, 9.8 A, and isc, 10.2 A."""
    pairs = ("type: mppt", "type: pwm"), ("series: 3", "series: 1"), ("output: 30 A", f"output: {output}")
    assert severities(bad(RULE, *pairs)) == expected


def test_only_a_solar_charger_is_judged():
    assert bad(RULE, ("type: mppt, output", "voltage: 12 V, output"), ("solar charger", "dc charger")) == ()


def test_what_charges_no_bank_clips_nothing():
    assert bad(RULE, ("  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}\n", "")) == ()


@pytest.mark.parametrize("share, expected", [(1, []), (0.999999, ["notice"])])
def test_what_is_met_is_not_passed(monkeypatch, share, expected):
    monkeypatch.setattr(pv_clipped, "MARGIN", 1.0)
    (node,) = (one for one in read(RULES[RULE].bad)[0].nodes.values() if one.kind.name == "pv")
    amps = pv_array(node).power * solar.EFFICIENCY / 14.2
    assert severities(bad(RULE, ("output: 30 A", f"output: {amps * share!r} A"))) == expected
