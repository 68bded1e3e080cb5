"""The sizes that advice may name are sizes that are made."""

from __future__ import annotations

from diagrammer.quantity import awg
from diagrammer.rules.protection._words import GAUGES, METRIC
from diagrammer.tables.load import load


def test_gauges_are_those_of_the_table_of_conductors():
    """33 CFR 183.425 Table 5 from 16 AWG on."""
    rows = {row["awg"] for row in load("ampacity_cfr")} - {"18"}
    assert {awg(one).label.removesuffix(" AWG") for one in GAUGES} == rows and list(GAUGES) == sorted(GAUGES, reverse=True)


def test_metric_sizes_are_those_of_iec_60228():
    rows = sorted({float(row["mm2"]) for row in load("resistance_iec60228")})
    assert list(METRIC) == [one for one in rows if METRIC[0] <= one <= METRIC[-1]]
