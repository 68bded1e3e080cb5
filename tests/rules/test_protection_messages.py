"""What the rules on protection and on the measured side say, in every way a fault can come about."""

from __future__ import annotations

import pytest

from diagrammer.rules.run import check
from tests.circuit import test_measured_cases as measured
from tests.circuit import test_protection_cases as protection
from tests.circuit.cases import system
from tests.circuit.test_protection_more import MORE

CASES = (protection.MAIN + protection.BY_SOURCE + protection.BANKS + protection.LIMITED + protection.RATINGS
         + protection.MESHES + measured.RETURNS + measured.SHUNTS + measured.CONVERTERS)
TEXTS = {number: text for number, text, _ in CASES}
SAYS = {
    2: ("no overcurrent device stands between `bank` and the 2/0 AWG from `bank` to `feed-bar`: in a short circuit all that "
        "the source gives flows, it may carry 330 A", "Put a device of at most 350 A at `bank`, or at most 0.178 m from it."),
    4: ("the 200 A fuse `F1` stands 0.2 m from `bank`: 0.178 m is the most with a bare conductor between",
        "Move `F1` to `bank`, or to at most 0.178 m from it."),
    7: ("the 200 A fuse `F1` stands 1.85 m from `bank`: 1.829 m is the most within a sheath throughout, from a battery",
        "Move `F1` to `bank`, or to at most 0.178 m from it."),
    14: ("the 14 AWG from `stud` to `pump` needs a device of its own: the one that is missing ahead of it must pass 150 A, "
         "for this conductor 35 A is the most", "Put a device of at most 35 A at `stud`, or at most 0.178 m from it."),
    33: ("the 100 A fuse `F2` and the 100 A fuse `F3` together let 200 A into the 6 AWG from `feed-bar` to `F1`: 180 A is "
         "the most", "Take devices that together let at most 180 A through, or 4 AWG."),
    39: ("no overcurrent device protects the 2/0 AWG from `bank2` to `bank`, which `bank2` and `bank` feed from either end, "
         "it may carry 330 A", "Put a device of at most 350 A at each end, or at most 0.178 m from it."),
    45: ("only the 200 A fuse `F1` protects the 8 AWG from `feed-bar` to `Q1`, 80 A is the most: the 40 A breaker `Q1` "
         "stands 1.1 m away, 0.178 m is the most with a bare conductor between",
         "Move `Q1` to `feed-bar`, or to at most 0.178 m from it."),
    50: ("`step` can drive 30 A into the 16 AWG from `panel` to `a`, which may carry 25 A, and nothing opens",
         "Take 14 AWG, or put a device of at most 25 A at `panel`."),
    51: ("only the 40 A breaker `Q1` protects the 18 AWG from `panel` to `a`: 20 A is the most, and 30 A can flow",
         "Put a device of at most 20 A at `panel`, or at most 0.178 m from it, or 14 AWG for the conductor."),
    58: ("the 40 A fuse `F4` is too large for the 14 AWG from `F4` to `pump`: 35 A is the most",
         "Take a device of at most 35 A, or 12 AWG."),
    64: ("the 30 A fuse `F4` is too large for the 2.5 mm² from `F4` to `pump`: 25 A is the most",
         "Take a device of at most 25 A, or 4 mm²."),
    68: ("only the 200 A fuse `F1` protects the 14 AWG from `feed-bar` to `F4`, 35 A is the most: the 60 A fuse `F4` behind "
         "it is too large too",
         "Put a device of at most 35 A at `feed-bar`, or at most 0.178 m from it, or 3 AWG for the conductor."),
    75: ("the 150 A fuse `F1` and the 150 A fuse `F2` together let 300 A into the 4 AWG from `sel` to `feed-bar` with `sel` "
         "at both: 240 A is the most", "Take devices that together let at most 240 A through, or 2 AWG."),
    119: ("the return from `sub-bar`, with `x0`, `x1` and 2 others on it, lands on `bank`, on the bank's side of the shunt "
          "`meter`, which does not measure them", "Land it on the system side of `meter`."),
    122: ("`return-bar` is joined to `bank` past the shunt `meter`, which does not measure what flows here",
          "Take it out: `meter` is the only way between the two."),
    123: ("the bond to `hull` lands on `bank`, on the bank's side of the shunt `meter`, which does not measure it",
          "Land it on the system side of `meter`."),
    132: ("`bank2` stands parallel to `bank`, but its return lands beyond the shunt `meter`, which does not measure it",
          "Land it where the return of `bank` is, on the bank's side of `meter`."),
}


@pytest.mark.parametrize("number", SAYS)
def test_says(number):
    found = [(one.message, one.fix) for one in check(system(TEXTS[number]))]
    assert SAYS[number] in found, found


def test_a_run_that_is_not_divided_is_asked_about():
    text, _ = MORE["one length, longer than allowed"]
    one, = (one for one in check(system(text)) if one.rule == "missing-protection")
    assert one.message == ("where the 200 A fuse `F1` stands is not said, it may be 1 m from `bank`: 0.178 m is the most "
                           "with a bare conductor between")
    assert one.fix == "Say how the run divides, a length for each conductor: [2/0 AWG 0.178 m, ...]."


@pytest.mark.parametrize("number, text, expected", [case for case in CASES if case[2]],
                         ids=lambda value: str(value) if isinstance(value, int) else "")
def test_every_finding_is_whole(number, text, expected):
    made = system(text)
    rules = {mark.partition("@")[0] for mark in expected.split()}
    for one in check(made):
        if one.rule in rules:
            assert len(one.message) <= 300 and one.fix and one.reason and one.at.line > 1
            assert set(one.path) <= set(made.nodes)
            if one.rule in ("missing-protection", "protection-too-large"):
                assert len(one.path) > 1 and one.path[-1] in one.nodes, one.path
                assert ", ".join(one.path) in one.reason


def test_a_selector_is_named_only_where_its_position_matters():
    """Case 75 needs both banks at once; an oversized branch fuse is wrong wherever the selector stands."""
    text = TEXTS[74].replace("feed-bar/fuse 10 A -> lamp-1", "feed-bar/fuse 60 A -> lamp-1")
    one, = (one for one in check(system(text)) if one.rule == "protection-too-large")
    assert one.message == "the 60 A fuse `F3` is too large for the 14 AWG from `F3` to `lamp-1`: 35 A is the most"
