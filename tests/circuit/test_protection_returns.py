"""Devices and thin conductors in ways back: which are told of, and with what current.

Ampacities of 33 CFR 183.425 Table 5, 105 °C: 16 AWG 25 A, 10 AWG 60 A, 8 AWG 80 A.
"""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import marks, system
from tests.circuit.test_protection_cases import LAMP, PUMP, branch, house, solar, tied

EXTRA = "extra: breaker, rating: 15 A\n"
IN_RETURN = "return: lamp -> extra -> return-bar, wire: {feed: 14 AWG 2 m, return: [14 AWG 1 m, 1 m]}"
SUB = "sub: bar, rating: 600 A, pair: return-bar\nheater: load, voltage: 12 V, current: 48 A\n"
OVER = "{feed: 6 AWG 2 m, return: 10 AWG 2 m}"

CASES = {
    "a device that is not wired stands nowhere": (house(nodes=EXTRA), "unused-node@extra"),
    "a device in the return of two lines, of which one is told already": (
        house(nodes=LAMP + PUMP + EXTRA, circuits=f"lamp: feed: feed-bar/fuse 10 A -> lamp, {IN_RETURN}\n"
              "pump: feed: feed-bar -> pump, return: pump -> extra.1, wire: 14 AWG 2 m\n"),
        "protection-too-large@pump:f0"),
    "a device in the return of two lines": (
        house(nodes=LAMP + PUMP + EXTRA, circuits=f"lamp: feed: feed-bar/fuse 10 A -> lamp, {IN_RETURN}\n"
              "pump: feed: feed-bar/fuse 10 A -> pump, return: pump -> extra.1, wire: 14 AWG 2 m\n"),
        "protection-in-return@extra"),
    "a device in the return of a line that is on the wrong voltage": (
        house(nodes=LAMP.replace("12 V", "24 V") + EXTRA,
              circuits=f"lamp: feed: feed-bar/fuse 10 A -> lamp, {IN_RETURN}\n"), "wrong-domain@lamp:f0"),
    "breakers of ac, of one pole and of two": (house(nodes="""
        shore: shore, rating: 16 A
        kettle: ac load, power: 1 kW
        """, circuits="kettle: ac: shore -> breaker 2-pole 16 A -> breaker 15 A -> kettle, "
                      "wire: [12 AWG 0.5 m, 1 m, 2 m]\n"), ""),
    # returns thinner than the feed
    "as thick as the thinnest of the feed": (branch(
        "feed-bar/fuse 35 A -> switch 60 A -> pump", "{feed: [4 AWG 1 m, 14 AWG 2 m], return: 14 AWG 3 m}"), ""),
    "thinner than the thinnest of the feed": (branch(
        "feed-bar/fuse 25 A -> switch 60 A -> pump", "{feed: [4 AWG 1 m, 14 AWG 2 m], return: 16 AWG 3 m}"),
        "thin-return@pump:r0"),
    "thinner twice": (branch(
        "feed-bar/fuse 60 A -> pump", "{feed: 6 AWG 2 m, return: [14 AWG 1 m, 16 AWG 1 m]}").replace(
        "-> pump, wire", "-> pump, return: pump -> tee -> return-bar, wire").replace(
        "circuits:", "  tee: {kind: joint}\ncircuits:", 1), "thin-return@pump:r0"),
    "a return of which no size is said": (branch("feed-bar/fuse 60 A -> pump", "{feed: 6 AWG 2 m, return: 2 m}"), ""),
    "a feed of which one part has no size": (
        branch("feed-bar/fuse 60 A -> switch 60 A -> pump", "[1 m, 6 AWG 1 m]"), ""),
    "a feed of which no size is said": (branch("feed-bar/fuse 60 A -> pump", "{feed: 2 m, return: 16 AWG 2 m}"), ""),
    "thin, of a line whose device is too large": (
        branch("feed-bar/fuse 90 A -> pump", "{feed: 10 AWG 2 m, return: 16 AWG 2 m}"), "protection-too-large@pump:f0"),
    "thin, of a line on the wrong voltage": (branch(
        "feed-bar/fuse 60 A -> pump", OVER).replace("voltage: 12 V, power: 60 W", "voltage: 24 V, power: 60 W"),
        "wrong-domain@pump:f0"),
}


@pytest.mark.parametrize("name", CASES)
def test_case(name):
    text, expected = CASES[name]
    assert marks(text) == sorted(expected.split()), text


def pair(first: str, wire: str) -> str:
    """A line behind two devices on one bar."""
    return house(nodes=SUB, circuits=f"""
    one: feed: feed-bar/fuse {first} -> sub, wire: 4 AWG 1 m
    two: feed: feed-bar/fuse 60 A -> sub, wire: 4 AWG 1 m
    heater: feed: sub -> heater, wire: {wire}
    """)


def tie(size: str) -> str:
    return tied("bank/fuse 150 A -> fuse 200 A/bank2").replace("return: 2/0 AWG 3 m", f"return: {size} 3 m")


@pytest.mark.parametrize(("text", "amps"), [
    (branch("feed-bar/fuse 60 A -> pump", OVER), None),  # 10 AWG may carry 60 A
    (branch("feed-bar/fuse 70 A -> pump", OVER), 70),
    (pair("60 A", OVER), 120),  # two devices together
    (pair("25 A", OVER), None),  # 85 A of two: 150 % of 60 A are 90 A
    (solar("sun -> feed-bar", "{feed: 2/0 AWG 0.1 m, return: 10 AWG 1 m}", output=70), 200),  # from the bar
    (solar("sun/breaker 70 A -> breaker 60 A/feed-bar", "{feed: 4 AWG 1 m, return: 10 AWG 1 m}", output=70), 70),
    (solar("sun -> breaker 60 A/feed-bar", "{feed: 4 AWG 1 m, return: 10 AWG 1 m}", output=70), 70),  # by itself
    (tie("8 AWG"), 200),  # the larger of what comes from either end
    (tie("1/0 AWG"), None),
])
def test_the_most_that_is_too_much_for_a_thin_return(text, amps):
    (fact,) = Survey(system(text)).facts
    assert fact.rule == "thin-return"
    assert (fact.flow and fact.flow.total) == amps
    assert (fact.flow is None) == (fact.limit is None)


def test_the_feed_is_named_by_its_first_conductor_of_the_thinnest():
    line = "feed-bar/fuse 50 A -> switch 60 A -> pump"
    (fact,) = Survey(system(branch(line, "{feed: [6 AWG 1 m, 6 AWG 1 m], return: 14 AWG 2 m}"))).facts
    assert (fact.feed.id, fact.back.id, fact.nodes) == ("pump:f0", "pump:r0", ("return-bar", "pump"))


@pytest.mark.parametrize(("main", "amps"), [("bank/fuse 200 A", 230), ("bank", None)])
def test_what_a_line_lets_by_that_is_told_of_itself_is_not_the_return_s(main, amps):
    """Of a main that will get a device of its own nobody knows yet what comes past it; a fuse of 30 A beside it, of a
    second bank, would be too much for 16 AWG."""
    text = house(main + " -> feed-bar",
                 nodes=PUMP + "bank2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah\n",
                 circuits="second: feed: bank2/fuse 30 A -> feed-bar, return: bank2 -> bank, wire: 8 AWG 1 m\n"
                          "pump: feed: feed-bar -> pump, wire: {feed: 4/0 AWG 2 m, return: 16 AWG 2 m}\n")
    facts = {fact.mark: fact for fact in Survey(system(text)).facts}
    fact = facts["thin-return@pump:r0"]
    assert (fact.flow and fact.flow.total) == amps
