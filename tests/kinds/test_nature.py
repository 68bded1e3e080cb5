"""What kinds pass inside, give into a fault, and claim as their voltage."""

from __future__ import annotations

from math import inf, sqrt

import pytest

from diagrammer.kinds import KINDS
from diagrammer.kinds.kind import Values


def of(practice: str = "abyc", /, **fields) -> Values:
    return Values({name.replace("_", " "): value for name, value in fields.items()}, practice)


def inside(kind: str, values: Values) -> list[tuple]:
    return [(inner.a, inner.b, inner.form, *inner.positions) for inner in KINDS[kind].inside(values)]


def gives(kind: str, values: Values) -> dict[str, float]:
    return {give.port: give.amps for give in KINDS[kind].gives(values)}


@pytest.mark.parametrize(("kind", "values", "expected"), [
    ("converter", of(), [("in.-", "-", "common")]),
    ("converter", of(common="one"), [("in.-", "-", "common")]),
    ("converter", of(common="positive"), [("in.+", "+", "common")]),
    ("converter", of(common="none"), []),
    ("dc charger", of(max_pv_voltage=50.0), [("in.-", "-", "common"), ("pv.-", "-", "common")]),
    ("solar charger", of(load_output=10.0),
     [("pv.-", "-", "common"), ("load.-", "-", "contact"), ("+", "load.+", "contact")]),
    ("solar charger", of(load_output=10.0, common="positive"),
     [("pv.+", "+", "common"), ("load.+", "+", "contact"), ("-", "load.-", "contact")]),
    ("ac charger", of(outputs=2), []),
    ("shore", of(), [("N", "earth", "bond")]),
    ("shore", of(neutral="floating"), []),
    ("generator", of(neutral="bonded", phases="2"), []),  # two lines, no neutral to bond
    ("ac panel", of(), []),
    ("ac panel", of(neutral="bonded"), [("N", "earth", "bond")]),
    ("inverter", of(neutral="bonded"), [("out.N", "earth", "bond")]),
    ("transformer", of(), [("out.N", "earth", "bond")]),
    ("isolator", of(), [("1", "2", "contact")]),
    ("isolator", of(type="diode"), [("1", "2", "diode")]),
    ("relay", of(contacts=2), [("1", "2", "contact"), ("3", "4", "contact")]),
    ("galvanic-isolator", of(), [("1", "2", "capacitor")]),
    ("selector", of(), [("common", "1", "contact", "1", "both"), ("common", "2", "contact", "2", "both")]),
    ("transfer", of(neutral="joined"),
     [("common.L", "1.L", "contact", "1"), ("common.N", "1.N", "contact"),
      ("common.L", "2.L", "contact", "2"), ("common.N", "2.N", "contact")]),
    ("inverter charger", of(),
     [("in.L", "out.L", "contact", "bypass"), ("in.N", "out.N", "contact", "bypass"),
      ("out.N", "earth", "bond", "inverting")]),
])
def test_inside(kind, values, expected):
    assert inside(kind, values) == expected


def test_a_selector_of_own_positions_joins_its_groups():
    positions = {
        "off": (), "on": (("house", "house-out"), ("start", "start-out")),
        "combine": (("house", "house-out", "start", "start-out"),),
    }
    values = of(positions=positions)
    assert inside("selector", values) == [
        ("house", "house-out", "contact", "on", "combine"), ("start", "start-out", "contact", "on"),
        ("house", "start", "contact", "combine"), ("house", "start-out", "contact", "combine"),
    ]
    assert KINDS["selector"].positions(values) == ("off", "on", "combine")


@pytest.mark.parametrize(("kind", "values", "expected"), [
    ("bank", of(), {"main": inf}),
    ("shore", of(rating=30.0), {"main": inf}),
    ("alternator", of(output=90.0), {"main": 90.0}),
    ("alternator", of(output=90.0, self_limiting=False), {"main": inf}),
    ("pv", of(isc=9.0, parallel=2), {"main": 22.5}),
    ("solar charger", of(output=35.0), {"main": 35.0}),
    ("inverter", of(power=2000.0), {"out": pytest.approx(16.67, abs=0.01)}),
    ("inverter", of("iso", power=2300.0), {"out": 10.0}),
    ("inverter", of(power=6000.0, phases="2+N"), {"out": 25.0}),  # 120/240 V: 25 A in each line
    ("inverter", of("iso", power=6900.0, phases="3+N"), {"out": pytest.approx(10.0)}),
    ("inverter", of(power=2400.0, phases="2", voltage=240.0), {"out": 10.0}),
    ("inverter charger", of("iso", power=2300.0, charge=70.0), {"out": 10.0, "main": 70.0}),
    ("ac charger", of(output=40.0, outputs=3), {"main": 40.0, "2": 40.0, "3": 40.0}),
    ("wind", of(power=480.0, voltage=48.0), {"main": 10.0}),
    ("load", of(voltage=12.0), {}),
])
def test_gives(kind, values, expected):
    assert gives(kind, values) == expected


def test_an_inverter_charger_gives_in_its_position_or_in_all_if_it_assists():
    out, charger = KINDS["inverter charger"].gives(of(power=2000.0, charge=50.0))
    assert (out.positions, charger.positions) == (("inverting",), ("bypass",))
    assert KINDS["inverter charger"].gives(of(power=2000.0, charge=50.0, assist=True))[0].positions == ()


@pytest.mark.parametrize(("phases", "volts"), [
    ("1", (120.0,)), ("2", (120.0,)), ("2+N", (120.0, 240.0)), ("3", (120.0,)),
    ("3+N", (120.0, pytest.approx(120 * sqrt(3)))),
])
def test_ac_claims_are_sets(phases, volts):
    (claim,) = KINDS["shore"].claims(of(phases=phases))
    assert claim.volts == volts and claim.role == "source"


def test_claims_of_a_window_and_of_nothing_known():
    (claim,) = KINDS["load"].claims(of(voltage=(9.0, 33.0)))
    assert (claim.low, claim.high, claim.stated) == (9.0, 33.0, True)
    assert KINDS["solar charger"].claims(of(output=30.0)) == ()
    assert [claim.port for claim in KINDS["ac charger"].claims(of(outputs=3, output=30.0))] == ["in"]
    (taken,) = KINDS["ac charger"].claims(of(**{"input_voltage": (100.0, 240.0)}))
    assert {120.0, 230.0} < set(taken.volts)


def test_a_chargers_own_voltage_is_not_that_of_its_mains():
    by_port = {claim.port: claim for claim in KINDS["ac charger"].claims(of("iso", voltage=12.0))}
    assert by_port["main"].low == 12.0 and by_port["in"].volts == (230.0,)


def test_pv_claims_the_voltage_of_its_string():
    (claim,) = KINDS["pv"].claims(of(voc=24.0, vmp=20.0, series=3))
    assert (claim.low, claim.high) == (60.0, 72.0)


def test_letters_and_symbols_follow_duty():
    load = KINDS["load"]
    assert (load.letter_of(of(duty="motor")), load.symbol_of(of(duty="motor"))) == ("M", "motor")
    assert (load.letter_of(of()), load.symbol_of(of(duty="light"))) == ("E", "lamp")
    assert KINDS["other"].letter_of(of(letter="K")) == "K"
