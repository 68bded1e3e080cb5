"""Ratings made, device families, distances, rules on ratings, breaking capacities."""

from diagrammer.electrics.device import breaking, usual
from diagrammer.electrics.fault import least_breaking, least_breaking_ac
from diagrammer.electrics.protection import ratings
from diagrammer.tables.load import load

import pytest


def made(body, form):
    row = next(r for r in load("ratings") if (r["body"], r["form"]) == (body, form))
    return row["ratings"]


@pytest.mark.parametrize("body, form, expected", [
    # NEC 240.6(A), read on four pages, with the fuse ratings 1, 3, 6, 10
    ("standard", "", """1 3 6 10 15 20 25 30 35 40 45 50 60 70 80 90 100 110 125 150 175 200 225 250 300 350 400 450 500
        600 700 800 1000 1200 1600 2000 2500 3000 4000 5000 6000"""),
    ("blade", "mini", "2 3 4 5 7.5 10 15 20 25 30"),  # ISO 8820-3 type F, read second-hand
    ("blade", "regular", "1 2 3 4 5 7.5 10 15 20 25 30 35 40"),  # type C; 35 from memory
    ("blade", "maxi", "20 30 40 50 60 70 80 100"),  # type E
    ("strip", "SF30", "30 40 50 60 70 80 100 125 150 175 200"),  # ISO 8820-5, from memory
    ("strip", "SF51", "60 80 100 125 150 175 200 225 250 300 350 400 450 500"),  # the same
    ("anl", "", """35 40 50 60 80 100 130 150 175 200 225 250 275 300 325 350 400 450 500 600 675
        750"""),  # from memory
    ("cube", "", "30 40 50 60 75 80 90 100 125 150 175 200 225 250 300"),  # from memory
    ("class-t", "", """1 2 3 4 5 6 10 15 20 25 30 35 40 45 50 60 70 80 90 100 110 125 150 175 200 225 250 300 350 400
        450 500 600 700 800 1000 1200"""),  # UL 248-15: the range read, the steps from memory
    ("gpv", "10x38", "1 2 3 4 5 6 8 10 12 15 16 20 25 30 32"),  # IEC 60269-6: likewise
    ("nh", "gG", """2 4 6 10 16 20 25 32 35 40 50 63 80 100 125 160 200 224 250 315 355 400 500 630 800 1000
        1250"""),  # IEC 60269-2, from memory
    ("cartridge", "5x20", """0.032 0.040 0.050 0.063 0.080 0.100 0.125 0.160 0.200 0.250 0.315 0.400 0.500 0.630 0.800 1
        1.25 1.6 2 2.5 3.15 4 5 6.3 8 10"""),  # IEC 60127, from memory
    ("breaker", "miniature", "6 8 10 13 16 20 25 32 40 50 63 80 100 125"),  # IEC 60898-1 5.3.2, from memory
])
def test_ratings(body, form, expected):
    assert made(body, form).split() == expected.split()


def test_ratings_rise():
    for row in load("ratings"):
        steps = [float(r) for r in row["ratings"].split()]
        assert steps == sorted(set(steps))


@pytest.mark.parametrize("body, form, volts, amps, provenance", [
    ("blade", "regular", 32, 1000, "read"),  # ISO 8820-3
    ("blade", "58 V", 58, 1000, "read"),
    ("strip", "SF30 and SF51", 32, 2000, "read"),  # ISO 8820-5
    ("strip", "single bolt, 58 V", 58, 2000, "read"),  # ISO 8820-6
    ("strip", "70 V", 70, 2500, "read"),  # ISO 20934
    ("anl", "", 32, 6000, "memory"),
    ("class-t", "", 125, 20000, "quoted"),  # UL 248-15, dc
    ("gpv", "10x38", 1000, 30000, "read"),  # IEC 60269-6
])
def test_families(body, form, volts, amps, provenance):
    rows = [r for r in load("device_families") if (r["body"], r["form"], r["current"]) == (body, form, "dc")]
    assert [(float(r["volts"]), float(r["breaking"]), r["provenance"]) for r in rows] == [(volts, amps, provenance)]


def test_ranges_of_the_families():
    """By the scopes: ISO 8820-3 to 100 A, -5 and ISO 20934 30 to 500 A, -6 to 300 A, UL 248-15 1 to 1200 A, IEC 60269-6
    10x38 to 32 A, IEC 60127 to 10 A; the others from memory."""
    found = {}
    for row in load("device_families"):
        found.setdefault((row["body"], row["form"]), set()).add((float(row["least"]), float(row["most"])))
    assert found == {
        ("blade", "regular"): {(1, 100)}, ("blade", "58 V"): {(1, 100)}, ("blade", "sub-miniature"): {(1, 30)},
        ("inline", "blade in a holder"): {(1, 40)}, ("strip", "SF30 and SF51"): {(30, 500)},
        ("strip", "single bolt, 58 V"): {(30, 300)}, ("strip", "70 V"): {(30, 500)}, ("anl", ""): {(35, 750)},
        ("cube", ""): {(30, 300)}, ("class-t", ""): {(1, 1200)}, ("gpv", "10x38"): {(1, 32)}, ("nh", "gG"): {(2, 1250)},
        ("cartridge", "L, low breaking"): {(0.032, 10)}, ("cartridge", "E, enhanced"): {(0.032, 10)},
        ("cartridge", "H, high breaking"): {(0.032, 10)}, ("cartridge", "10x38 supplementary"): {(0.1, 60)},
        ("breaker", "thermal"): {(25, 300), (25, 200), (25, 150)}, ("breaker", "hydraulic"): {(5, 100)},
        ("breaker", "miniature"): {(1, 125), (6, 125)},
    }


@pytest.mark.parametrize("body, rating, form, ac, volts, amps", [  # ac by the scopes, the dc of breakers from memory
    ("nh", 100, "", False, 250, 25000), ("nh", 100, "", True, 400, 120000), ("class-t", 200, "", True, 300, 200000),
    ("blade", 10, "sub-miniature", False, 32, 1000), ("inline", 15, "", False, 32, 1000),
    ("cartridge", 10, "10x38 supplementary", True, 125, 10000), ("breaker", 40, "hydraulic", False, 65, 5000),
    ("breaker", 16, "curve-b", False, 220, 6000), ("breaker", 16, "curve-b", True, 400, 6000),
    ("breaker", 100, "thermal", False, 14, 5000), ("breaker", 300, "thermal", False, 14, 5000),
])
def test_usual(body, rating, form, ac, volts, amps):
    assert (usual(body, rating, form, ac=ac)[0].volts, usual(body, rating, form, ac=ac)[0].breaking) == (volts, amps)


def test_thermal_breakers_break_less_at_a_higher_voltage():
    assert [r.breaking for r in usual("breaker", 100, "thermal")] == [5000, 3000, 1500]


def test_breaking_capacity_belongs_to_a_voltage():
    """The battery-terminal cube: 10 kA at 14 V, 5 kA at 32 V, 2 kA at 58 V (the first quoted, the rest from memory)."""
    assert [(r.volts, r.breaking) for r in usual("cube", 200)] == [(14, 10000), (32, 5000), (58, 2000)]
    assert breaking("cube", 200, 14).breaking == 10000
    assert breaking("cube", 200, 29.2).breaking == 5000
    assert breaking("cube", 200, 56.8).breaking == 2000


def test_a_58_volt_fuse_is_not_for_16_lithium_cells():
    """16 x 3.65 V = 58.4 V while charging; 8 x 3.65 V = 29.2 V is within 32 V."""
    assert breaking("cube", 200, 58.4) is None
    assert breaking("blade", 20, 58.4, "58 V") is None
    assert breaking("blade", 20, 29.2).volts == 32
    assert breaking("strip", 200, 58.4, "70 V").breaking == 2500


def test_thermal_breakers_lose_voltage_with_their_rating():
    """48 V to 150 A, 30 V to 200 A, 14 V to 300 A (read); what they break is from memory."""
    assert [max(r.volts for r in usual("breaker", amps, "thermal")) for amps in (150, 200, 300)] == [48, 30, 14]


def test_breakers_of_the_trade():
    """UL 1077 panel breakers 65 V; IEC 60898-2 curves 220 V dc; without a type the smallest is a panel breaker."""
    assert usual("breaker", 10)[0].volts == usual("breaker", 10, "hydraulic")[0].volts == 65
    assert usual("breaker", 16, "curve-b")[0].volts == 220
    assert usual("breaker", 16, "curve-c", ac=True)[0].breaking == usual("breaker", 16, ac=True)[0].breaking == 6000


def test_cartridge_fuses_break_ten_times_their_rating_at_least():
    """IEC 60127-2 low breaking capacity: the larger of 35 A and 10 In; enhanced 150 A, high 1500 A."""
    assert usual("cartridge", 2, ac=True)[0].breaking == 35
    assert usual("cartridge", 6.3, ac=True)[0].breaking == pytest.approx(63)
    assert usual("cartridge", 6.3, "E, enhanced", ac=True)[0].breaking == 150
    assert usual("cartridge", 6.3, "H, high breaking", ac=True)[0].breaking == 1500
    assert usual("cartridge", 6.3) == ()


def test_ratings_that_a_body_is_made_for_lie_within_its_family():
    for body in ("strip", "anl", "cube", "class-t", "gpv"):
        for amps in ratings(body):
            assert usual(body, amps), (body, amps)


@pytest.mark.parametrize("volts, cranking, main, branch", [
    (12, 650, 1500, 750), (12, 651, 3000, 1500), (24, 1100, 3000, 1500), (12, 1101, 5000, 2500),  # Table V-A, read
    (32, 1250, 3000, 1500), (32, 1251, 5000, 2500),  # from memory
])
def test_interrupting_capacity(volts, cranking, main, branch):
    """ABYC E-11 Table V-A."""
    assert least_breaking(volts, cranking, main=True) == main
    assert least_breaking(volts, cranking, main=False) == branch


def test_the_table_ends_at_32_volts():
    with pytest.raises(ValueError):
        least_breaking(48, 500, main=True)


@pytest.mark.parametrize("volts, lines, amps, main, branch", [
    (120, 1, 30, 3000, 3000), (120, 1, 50, 3000, 3000), (120, 2, 50, 5000, 3000), (240, 1, 50, 5000, 3000),  # read
    (120, 2, 100, 5000, 3000), (120, 3, 30, 5000, 3000), (240, 1, 100, 5000, 3000), (230, 1, 51, 5000, 3000),  # memory
    (120, 1, 51, None, None), (120, 2, 101, None, None), (230, 3, 50, None, None), (150, 1, 30, None, None),
])
def test_interrupting_capacity_on_shore_power(volts, lines, amps, main, branch):
    """ABYC E-11 Table V-B; the two prints that were read agree."""
    assert least_breaking_ac(volts, lines, amps, main=True) == main
    assert least_breaking_ac(volts, lines, amps, main=False) == branch


def test_what_ac_sources_usually_drive():
    """x"d 10 % of a generator and 4 % of a transformer; supplies and inverters common practice; IEC 60909-0 c min 0.95."""
    found = {(r["source"], r["practice"]): (r["value"], r["unit"]) for r in load("ac_faults")}
    assert found == {
        ("shore", "nec"): ("10000", "A"), ("shore", "iso"): ("6000", "A"), ("generator", "any"): ("10", "x rated"),
        ("surge", "any"): ("1", "x surge"), ("inverter", "any"): ("2", "x rated"),
        ("transformer", "any"): ("25", "x rated"), ("volts", "any"): ("0.95", "x volts"),
    }


def test_distances():
    """33 CFR 183.455(b), 183.460(a), ABYC E-11 11.10.1.1.1: 7, 40 and 72 in; ISO 10133 8.1: 200 mm and 1.8 m."""
    found = {r["practice"]: (r["bare"], r["sheathed"], r["battery"]) for r in load("distances")}
    assert found == {"abyc": ("0.178", "1.016", "1.829"), "cfr": ("0.178", "1.016", "1.829"),
                     "iso": ("0.2", "1.8", "1.8"), "nec": ("0.45", "0.45", "0.45")}


def test_rules_on_ratings():
    """33 CFR 183.455(c)(1), (2); ABYC E-11 11.10; NEC 240.4(B); IEC 60364-4-43 433.1."""
    columns = ("practice", "volts", "of one", "next", "upto", "of several")
    found = [tuple(r[c] for c in columns) for r in load("device_rules")]
    assert found == [("cfr", "0", "1.5", "no", "", "1.5"), ("cfr", "50", "1.5", "yes", "", "1.5"),
                     ("abyc", "0", "1.5", "yes", "", "1.5"), ("nec", "0", "", "yes", "800", "1"),
                     ("iso", "0", "1", "no", "", "1")]
