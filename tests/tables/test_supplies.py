"""Batteries, solar, voltage drop, ac supplies: every cell that others wrote down."""

import pytest

from diagrammer.tables.load import load

BATTERIES = {  # handbook values, common practice; which were read stands in the table
    "lifepo4": """nominal 3.2 least 2.5 cutoff 2.8 absorption 3.55 float 3.375 most 3.65 charge_most 1 discharge 1
        depth .8""",
    "flooded": """nominal 2 least 1.75 cutoff 1.9 absorption 2.42 float 2.22 most 2.67 equalise 2.6 charge_most .2
        discharge .2 depth .5 peukert 1.25 peukert_least 1.2 peukert_most 1.6 drift -.003""",
    "agm": """nominal 2 least 1.75 cutoff 1.93 absorption 2.41 float 2.265 most 2.45 charge_most .35 discharge .3
        depth .5 peukert 1.11 peukert_least 1.05 peukert_most 1.15 drift -.003""",
    "gel": """nominal 2 least 1.75 cutoff 1.93 absorption 2.36 float 2.28 most 2.4 charge_most .2 discharge .2 depth .5
        peukert 1.15 peukert_least 1.1 peukert_most 1.25 drift -.003""",
}


@pytest.mark.parametrize("chemistry", BATTERIES)
def test_batteries(chemistry):
    row = next(r for r in load("batteries") if r["chemistry"] == chemistry)
    words = BATTERIES[chemistry].split()
    for name, value in zip(words[::2], words[1::2]):
        assert float(row[name.replace("_", " ")]) == float(value), name


def test_what_else_a_chemistry_asks():
    """Common practice, from memory: charge rate, charge taken over charge missing (lead: ampere-hour law), efficiency,
    short-circuit current over capacity, lowest temperatures for charge and discharge."""
    columns = ("charge", "accepts", "efficiency", "short circuit", "charge above", "discharge above")
    found = {r["chemistry"]: tuple(float(r[c]) for c in columns) for r in load("batteries")}
    assert found == {
        "lifepo4": (0.5, 10, 0.98, 45, 0, -20), "flooded": (0.13, 1, 0.85, 10, -20, -20),
        "agm": (0.35, 1.3, 0.92, 10, -20, -20),
        "gel": (0.2, 1, 0.9, 10, -20, -20), "lithium": (0.5, 10, 0.98, 45, 0, -20),
    }
    assert {r["chemistry"]: (r["cells 12"], r["short circuit most"]) for r in load("batteries")} == {
        "lifepo4": ("4", ""), "flooded": ("6", "20"), "agm": ("6", "20"), "gel": ("6", "20"), "lithium": ("", ""),
    }


def test_lithium_of_any_other_kind():
    """Nickel-manganese-cobalt cells, common practice, from memory."""
    row = next(r for r in load("batteries") if r["chemistry"] == "lithium")
    columns = ("nominal", "least", "cutoff", "absorption", "float", "most", "charge most", "discharge", "depth",
               "peukert")
    assert [float(row[c]) for c in columns] == [3.6, 2.8, 3.0, 4.15, 4.0, 4.2, 1, 1, 0.8, 1.05]


def test_lithium_in_the_cold():
    """Common practice, from memory."""
    found = {float(r["temperature"]): float(r["lithium"]) for r in load("battery_cold") if r["lithium"]}
    assert found == {-20: 0.55, -10: 0.75, 0: 0.88, 25: 1}


def test_lead_far_below_freezing():
    """Common practice: half the capacity at 0 °F, a third at -30 °C."""
    found = {float(r["temperature"]): float(r["lead"]) for r in load("battery_cold") if r["lead"]}
    assert found[-17.8] == 2 and found[-30] == 3 and len(found) == 22


def test_battery_voltages_are_in_order():
    for row in load("batteries"):
        order = [float(row[n]) for n in ("least", "cutoff", "nominal", "float", "absorption", "most")]
        assert order == sorted(order)


def test_lead_in_the_cold():
    """IEEE 485 cell size correction by degrees Fahrenheit, from memory."""
    rows = {float(r["temperature"]): float(r["lead"]) for r in load("battery_cold") if r["lead"]}
    for fahrenheit, factor in ((25, 1.52), (30, 1.43), (40, 1.30), (50, 1.19), (60, 1.11), (70, 1.04), (77, 1.00)):
        assert rows[round((fahrenheit - 32) / 1.8, 1)] == factor
    assert [rows[t] for t in sorted(rows)] == sorted(rows.values(), reverse=True)


def test_nec_690_7():
    """NEC Table 690.7(A), from memory."""
    expected = """20:1.02 15:1.04 10:1.06 5:1.08 0:1.1 -5:1.12 -10:1.14 -15:1.16 -20:1.18 -25:1.2 -30:1.21 -35:1.23
        -40:1.25"""
    assert {r["downto"]: r["factor"] for r in load("pv_cold_nec")} == dict(c.split(":") for c in expected.split())


def test_pv_factors():
    """NEC 690.8(A)(1), 690.8(B), 690.9(A) read; IEC 62548 string fuses 1.5 to 2.4 Isc from memory."""
    assert {r["name"]: float(r["value"]) for r in load("pv_factors")} == {
        "irradiance": 1.25, "continuous": 1.25, "fuse least": 1.5, "fuse most": 2.4, "unfused": 2, "rise": 30,
    }


def test_drop_limits():
    """ABYC E-11 11.14.2.6 quoted; ISO 10133 4.8; NEC notes; IEC 60364-5-52 Table G.52.1, private supply."""
    found = {(r["practice"], r["current"], r["use"]): float(r["share"]) for r in load("drop_limits")}
    assert found == {
        ("abyc", "any", "critical"): .03, ("abyc", "any", "other"): .10, ("cfr", "any", "critical"): .03,
        ("cfr", "any", "other"): .10, ("iso", "dc", "critical"): .03, ("iso", "dc", "other"): .10,
        ("iso", "ac", "critical"): .06, ("iso", "ac", "other"): .08, ("nec", "any", "critical"): .03,
        ("nec", "any", "other"): .05,
    }


def test_drop_constants():
    """ABYC E-11 10.75 ohm cmil/ft; ISO 10133 0.0164; NEC practice 12.9; IEC 60364-5-52 Annex G 0.0225 ohm mm²/m."""
    found = {r["practice"]: float(r["own"]) for r in load("drop_constants")}
    assert found == {"abyc": 10.75, "iso": 0.0164, "nec": 12.9, "iec": 0.0225}
    aluminium = {r["practice"]: float(r["aluminium"]) for r in load("drop_constants")}
    ratio = 0.028264 * 58  # IEC 60889 over IEC 60028
    assert aluminium == {"abyc": round(10.75 * ratio, 2), "iso": round(0.0164 * ratio, 5), "nec": 21.2, "iec": 0.036}
    for row in load("drop_constants"):
        assert float(row["aluminium"]) / float(row["own"]) == pytest.approx(ratio, rel=0.025)
        factor = 5.0670748e-4 / 0.3048 if row["unit"] == "ohm cmil/ft" else 1  # a circular mil in mm², a foot in m
        assert float(row["si"]) == pytest.approx(float(row["own"]) * factor, rel=1e-4)


def test_ac_supplies():
    """IEC 60038 Table 1; North America and Japan as common practice."""
    found = {(r["phases"], r["phase"], r["line"], r["hertz"]) for r in load("ac_supplies")}
    assert found == {
        ("1", "230", "", "50"), ("3+N", "230", "400", "50"), ("1", "120", "", "60"), ("2+N", "120", "240", "60"),
        ("3+N", "120", "208", "60"), ("3+N", "277", "480", "60"), ("2+N", "100", "200", "50"),
        ("2+N", "100", "200", "60"), ("3+N", "230", "400", "60"),
    }
