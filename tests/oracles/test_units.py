"""Conductor sizes and every unit that may be written, against GNU units (wiregauge by ASTM B258)."""

from __future__ import annotations

import shutil
import subprocess

import pytest

from diagrammer.electrics.conductor import KCMIL, RHO_20, area
from diagrammer.quantity import DIMENSIONS, awg, measure

pytestmark = pytest.mark.skipif(shutil.which("units") is None, reason="GNU units is not installed")

NAMES = {  # as GNU units writes them; else as we do
    "Ah": "A hour", "mAh": "mA hour", "kAh": "kA hour", "Wh": "W hour", "kWh": "kW hour", "kVA": "kV A", "VA": "V A",
    "Ω": "ohm", "mΩ": "milliohm", "mohm": "milliohm", "kΩ": "kiloohm", "kohm": "kiloohm", "µΩ": "microohm",
    "h": "hour", "d": "day", "days": "day", "min/h": "min/hour", "h/day": "hour/day", "share of the hour": "1",
    "%": "percent", "in": "inch", "degC": "K", "°C": "K", "degF": "degF", "°F": "degF",
}


def ask(pairs: list[tuple[str, str]]) -> list[float]:
    """What one of each (have, want) is."""
    lines = "".join(f"{have}\n{want}\n" for have, want in pairs)
    told = subprocess.run(["units", "--quiet", "--one-line", "--compact", "--output-format", "%.13g"], input=lines,
                          capture_output=True, text=True, check=True).stdout
    return [float(line) for line in told.split()]


def test_awg():
    """Every gauge from 40 to 4/0, to twelve digits. A trap of the program: `pi/4 d^2` is read as pi over 4 d²."""
    gauges = range(-3, 41)
    told = ask([(f"pi wiregauge({gauge})^2 / 4", "mm^2") for gauge in gauges])
    assert [area(awg(gauge)) for gauge in gauges] == pytest.approx(told, rel=1e-12)


def test_circular_mils_and_copper():
    (kcmil, conductivity) = ask([("1000 circularmil", "mm^2"), ("copperconductivity", "1/(ohm mm^2/m)")])
    assert KCMIL == pytest.approx(kcmil, rel=1e-12) and 1 / RHO_20 == pytest.approx(conductivity, rel=1e-12)


LISTED = [(dimension, unit) for dimension, (_, units) in DIMENSIONS.items() for unit in units if "drift" not in dimension]


def test_every_unit():
    told = ask([(NAMES.get(unit, unit), NAMES.get(DIMENSIONS[dimension][0], DIMENSIONS[dimension][0]))
                for dimension, unit in LISTED])
    assert [DIMENSIONS[dimension][1][unit] for dimension, unit in LISTED] == pytest.approx(told, rel=1e-12)


def test_temperatures_with_their_zero():
    told = ask([(f"tempF({degrees})", "tempC") for degrees in (-40, 14, 32, 104, 221)])
    ours = [measure(f"{degrees} °F", "temperature").value for degrees in (-40, 14, 32, 104, 221)]
    assert ours == pytest.approx(told, abs=1e-9)
