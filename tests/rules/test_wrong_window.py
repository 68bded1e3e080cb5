"""16 lithium cells go from 44.8 V (2.8 V) to 58.4 V (3.65 V)."""

from __future__ import annotations

import pytest

from diagrammer.rules.domains import wrong_window
from tests.rules.asked import found
from tests.rules.variants import bad

RULE = "wrong-window"
WINDOW = "40 .. 57 V"


@pytest.mark.parametrize("window, expected", [
    ("44.8 .. 58.4 V", ""), ("44.9 .. 58.4 V", "down to 44.8 V"), ("44.8 .. 58.3 V", "up to 58.4 V"),
    ("36 .. 60 V", ""), ("48 V", ""), ("46 .. 56 V", "up to 58.4 V and down to 44.8 V before it is empty"),
])
def test_both_ends(window, expected):
    messages = [one.message for one in bad(RULE, (WINDOW, window))]
    assert [expected in message for message in messages] == [True] * bool(expected)


def test_the_banks_own_limit_goes_first():
    assert bad(RULE, ("capacity: 100 Ah", "capacity: 100 Ah, max voltage: 57 V")) == ()


INVERTER = """
nodes:
  bank: {kind: bank, chemistry: flooded, voltage: 12 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 500 W, neutral: bonded, input window: 10.5 .. 15 V}
  tool: {kind: ac load, power: 300 W}
  mains-charger: {kind: ac charger, voltage: VOLTS, output: 20 A}
  pedestal: {kind: shore, rating: 15 A}
circuits:
  - {feed: bank/fuse 80 A -> switch battery 100 A -> inverter, wire: [4 AWG 1 m, 1 m]}
  - {ac: inverter -> tool, wire: 14 AWG 1 m}
  - {ac: pedestal -> breaker 2-pole 15 A -> mains-charger.in, wire: [14 AWG 0.3 m, 2 m]}
  - {feed: mains-charger -> fuse 30 A/bank, wire: 10 AWG 1 m}
"""


@pytest.mark.parametrize("volts, expected", [("12 V", 0), ("14.8 V", 0), ("15 V", 0), ("15.5 V", 1)])
def test_a_charger_says_how_far_lead_is_taken(volts, expected):
    assert len(found(RULE, INVERTER.replace("VOLTS", volts))) == expected


def test_behind_a_converter_no_bank_is_met():
    text = INVERTER.replace("VOLTS", "12 V").replace("10.5 .. 15 V", "11.8 .. 15 V")
    assert len(found(RULE, text)) == 1


def test_a_bank_behind_a_selector():
    line = "{feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}"
    (one,) = bad(RULE, ("circuits:", "  pick: {kind: selector, rating: 100 A}\ncircuits:"),
                 (line, "{feed: bank/fuse 50 A -> pick.1, return: bank -> panel, wire: 6 AWG 1 m}\n"
                        "  - {feed: pick -> panel, return: none, wire: 6 AWG 1 m}"))
    assert one.nodes == ("step-down", "bank")


BANK = "  bank: {kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 100 Ah}"
CELLS = "kind: battery, chemistry: lifepo4, voltage: 24 V, capacity: 100 Ah"
HALVES = (BANK, f"  low: {{{CELLS}}}\n  bank: {{{CELLS}}}"), (
    "circuits:", "circuits:\n  - {series: low -> bank, wire: 6 AWG 0.2 m}"), (
    "feed: bank/fuse 50 A -> panel,", "feed: bank/fuse 50 A -> panel, return: low -> panel,")


def test_a_stack_by_its_whole_voltage():
    (one,) = bad(RULE, *HALVES)
    assert one.nodes == ("step-down", "low", "bank") and "go up to 58.4 V" in one.message


@pytest.mark.parametrize("half", ["low", "bank"])
def test_half_of_a_stack_is_not_the_bank(half):
    """One of its poles stands on the middle, the other on the bank's foot or top."""
    middle = f"feed: {half}/fuse 10 A -> step-down.in, return: {half} -> step-down.in"
    assert bad(RULE, *HALVES, ("input voltage: 40 .. 57 V", "input voltage: 20 .. 28 V"),
               ("feed: panel/fuse 10 A -> step-down.in", middle)) == ()


def other(volts: str, returns: str) -> tuple[tuple[str, str], ...]:
    """Another bank, which feeds a lamp of its own."""
    nodes = (f"  other: {{kind: bank, chemistry: lifepo4, voltage: {volts}, capacity: 100 Ah}}\n"
             f"  lamp: {{kind: load, voltage: {volts}, power: 24 W}}\n"
             f"circuits:\n  - {{feed: other/fuse 5 A -> lamp, return: {returns} -> lamp, wire: 14 AWG 1 m}}")
    return ("circuits:", nodes + ("\n  - {return: other -> panel, wire: 6 AWG 1 m}" if returns == "panel" else "")),


@pytest.mark.parametrize("returns", ["other", "panel"])
def test_another_bank_with_the_same_return_or_none(returns):
    (one,) = bad(RULE, *other("24 V", returns))
    assert one.nodes == ("step-down", "bank")
    assert bad(RULE, *other("24 V", returns), (WINDOW, "40 .. 60 V")) == ()


def test_banks_beside_each_other_are_one():
    lines = ("circuits:", "  other: {kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 100 Ah}\ncircuits:\n"
                          "  - {feed: other/fuse 50 A -> panel, wire: 6 AWG 1 m}")
    (one,) = bad(RULE, lines)
    assert "`bank` and `other` go up to 58.4 V" in one.message


def test_of_banks_in_turn_one_is_told_of():
    line = "{feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}"
    nodes = ("  pick: {kind: selector, rating: 100 A}\n"
             "  other: {kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 100 Ah}\ncircuits:")
    lines = "\n  - ".join(f"{{feed: {one}/fuse 50 A -> pick.{n}, return: {one} -> panel, wire: 6 AWG 1 m}}"
                          for n, one in enumerate(("bank", "other"), 1))
    found_ = bad(RULE, ("circuits:", nodes),
                 (line, lines + "\n  - {feed: pick -> panel, return: none, wire: 6 AWG 1 m}"))
    assert len(found_) == 1


@pytest.mark.parametrize("low, high, count", [
    (44.8 * (1 + 0.5e-9), 58.4 * (1 - 0.5e-9), 0), (44.8 * (1 + 1.05e-9), 58.4, 1), (44.8, 58.4 * (1 - 1.05e-9), 1)])
def test_a_billionth_is_rounding(low, high, count):
    assert len(bad(RULE, (WINDOW, f"{low!r} .. {high!r} V"))) == count


def test_what_is_met_is_not_passed(monkeypatch):
    monkeypatch.setattr(wrong_window, "SAME", 0.0)
    assert bad(RULE, (WINDOW, "44.8 .. 58.4 V")) == () and len(bad(RULE, (WINDOW, "44.8 .. 58.39999999 V"))) == 1
