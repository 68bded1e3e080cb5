"""100 W for 4 h at 96 % and 98 %: 376 Wh against 500 Wh."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, severities

RULE = "never-recovers"


@pytest.mark.parametrize("hours, expected", [("7.52", []), ("7.53", ["warning"]), ("10", ["warning"])])
def test_the_use(hours, expected):
    assert 7.52 * 50 < 100 * 4 * 0.96 * 0.98 < 7.53 * 50
    assert severities(bad(RULE, ("hours: 10", f"hours: {hours}"))) == expected


@pytest.mark.parametrize("site, expected",
                         [("sun hours: 5.3", ["warning"]), ("sun hours: 5.4", []), ("hottest: 30 °C", [])])
def test_the_sun(site, expected):
    assert severities(bad(RULE, ("sun hours: 4", site))) == expected


def test_a_controller_passes_no_more_than_its_output():
    """1 kW of modules through 5 A: 64 W at 12.8 V."""
    assert severities(bad(RULE, ("power: 100 W", "power: 1 kW"), ("output: 20 A", "output: 5 A"))) == ["warning"]


def test_what_else_charges_makes_it_a_notice():
    lines = ("  pedestal: {kind: shore, rating: 15 A}\n  mains-charger: {kind: ac charger, output: 20 A}\ncircuits:\n"
             "  - {ac: pedestal -> breaker 2-pole 15 A -> mains-charger.in, wire: [14 AWG 0.3 m, 2 m]}\n"
             "  - {feed: mains-charger -> fuse 30 A/panel, wire: 10 AWG 1 m}")
    (one,) = bad(RULE, ("circuits:", lines))
    assert one.severity == "notice" and "the rest has to come from `mains-charger`, about 0.49 h a day" in one.message


@pytest.mark.parametrize(("capacity", "chemistry", "hours"), [
    ("200 Ah", "lifepo4", "0.49"),  # 9.66 Ah at 20 A and 98 %
    ("200 Ah", "agm", "1.2"),  # 10.3 Ah at 12 V, of which the last are taken at 1.3 times what is missing
    ("40 Ah", "lifepo4", "0.53"),
    ("12 Ah", "lifepo4", ""),  # more is missing each day than the bank holds
])
def test_how_long_the_other_charger_runs(capacity, chemistry, hours):
    """battery.charge_time by hand, from 98 % less what is missing back to 98 %."""
    lines = ("  pedestal: {kind: shore, rating: 15 A}\n  mains-charger: {kind: ac charger, output: 20 A}\ncircuits:\n"
             "  - {ac: pedestal -> breaker 2-pole 15 A -> mains-charger.in, wire: [14 AWG 0.3 m, 2 m]}\n"
             "  - {feed: mains-charger -> fuse 30 A/panel, wire: 10 AWG 1 m}")
    (one,) = bad(RULE, ("circuits:", lines), ("capacity: 200 Ah", f"capacity: {capacity}"), ("lifepo4", chemistry))
    assert one.message.endswith(f"`mains-charger`, about {hours} h a day" if hours else "`mains-charger`")


def test_without_sun_nothing_is_known_of_the_charge():
    assert bad(RULE, ("  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}\n", "")) == ()


def test_two_banks_with_a_household_each():
    """The other bank's use does not count, nor does its lack of a charger."""
    second = ("  spare: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah}\n"
              "  fan: {kind: load, voltage: 12 V, power: 50 W, hours: 10}\ncircuits:\n"
              "  - {feed: spare/fuse 10 A -> fan, wire: 12 AWG 2 m}")
    assert [one.nodes[0] for one in bad(RULE, ("circuits:", second))] == [one.nodes[0] for one in bad(RULE)]


@pytest.mark.parametrize("hours, expected", [("7.5264", []), ("7.5264000075264 h", []), ("7.526400008", ["warning"])])
def test_a_billionth_is_rounding(hours, expected):
    """50 W for 7.5264 h take 376.32 Wh, which is what the sun brings."""
    assert 100 * 4 * 0.96 * 0.98 == pytest.approx(376.32)
    assert severities(bad(RULE, ("hours: 10", f"hours: {hours}"))) == expected


def test_a_bank_of_which_a_battery_is_wired_in_reverse_is_not_judged():
    right = ("  twin: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 10 Ah}\ncircuits:\n"
             "  - {feed: twin/fuse 50 A -> panel, return: twin -> panel, wire: 6 AWG 1 m}")
    wrong = right.replace("twin/fuse 50 A -> panel, return: twin -> panel", "twin.-/fuse 50 A -> panel, return: twin.+ -> panel.-")
    assert len(bad(RULE, ("circuits:", right))) == 1 and bad(RULE, ("circuits:", wrong)) == ()


@pytest.mark.parametrize("chemistry, volts, share", [
    ("lifepo4", 12.8, 0.98), ("lithium", 14.4, 0.98), ("flooded", 12, 0.85), ("agm", 12, 0.92), ("gel", 12, 0.9),
])
def test_what_each_chemistry_gives_back(chemistry, volts, share):
    """Of 100 W for 4 h at 96 %: common practice, tables/batteries.csv."""
    for factor, expected in ((0.999, []), (1.001, ["warning"])):
        pairs = ("lifepo4, voltage: 12.8 V", f"{chemistry}, voltage: {volts} V"), (
            "hours: 10", f"hours: {factor * 384 * share / 50:.5f}")
        assert severities(bad(RULE, *pairs)) == expected


def test_with_an_array_on_the_ac_side_nothing_is_said():
    """What it leaves to the bank depends on what the ac loads take while the sun shines."""
    more = ("  roof-ac: {kind: pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10.5 A, imp: 10 A, series: 5}\n"
            "  roof-inverter: {kind: pv inverter, power: 1200 W, max pv voltage: 200 V}\ncircuits:\n"
            "  - {feed: roof-ac -> roof-inverter.pv, wire: 12 AWG 4 m}")
    assert len(bad(RULE)) == 1 and bad(RULE, ("circuits:", more)) == ()
