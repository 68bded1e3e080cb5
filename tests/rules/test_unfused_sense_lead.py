"""What is said of a sense lead without a fuse."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "unfused-sense-lead"


@pytest.mark.parametrize(("wire", "carries"), [("18 AWG 1 m", ", it may carry 20 A"), ("1 m", "")])
def test_on_the_post(wire, carries):
    """33 CFR 183.425 Table 5, 105 °C: 18 AWG 20 A; of a conductor without a size nothing is said."""
    (one,) = found(RULE, van(f"{{feed: bank -> meter.sense, wire: {wire}}}"))
    what = "18 AWG" if carries else "conductor"
    assert one.message == (f"the {what} lead from `bank` to `meter` has no fuse where it leaves: `bank` feeds it in a "
                           f"short circuit{carries}")
    assert one.fix == "Put a fuse of 1 A at `bank`."


def test_behind_the_main_fuse():
    (one,) = found(RULE, van("{feed: feed-bar -> meter.sense, wire: 18 AWG 1 m}"))
    assert one.message == ("the 18 AWG lead from `feed-bar` to `meter` has no fuse of its own: only the 200 A fuse `F1` "
                           "stands before it, it may carry 20 A")


def test_with_its_fuse():
    assert found(RULE, van("{feed: bank/fuse 1 A -> meter.sense, wire: 18 AWG 1 m}")) == ()
