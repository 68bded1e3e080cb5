"""Beyond the boundary cases: what is not known, ac lines, positions, meshes, strings, sense leads."""

from __future__ import annotations

import pytest

from tests.circuit.cases import marks
from tests.circuit.test_protection_cases import (
    GOOD_SUN, LAMP, PUMP, SUN, branch, engine, generator, house, sheathed, solar, strings,
)


def shore(metres: str) -> str:
    return house(nodes="shore: shore, rating: 30 A\nac-panel: ac panel, rating: 30 A\nkettle: ac load, power: 1 kW\n",
                 circuits=f"""
        shore: ac: shore -> breaker 2-pole 30 A -> ac-panel, wire: [10 AWG {metres}, 1 m]
        kettle: ac: ac-panel/breaker 15 A -> kettle, wire: 12 AWG 3 m
        """)


SHEATHED = "{length: 1.8 m, size: 2/0 AWG, in: conduit}"
ALWAYS = "always: panel, rating: 40 A, pair: return-bar\n"

MORE = {
    # runs whose division is not known take every division
    "one length, longer than allowed": (house("bank -> fuse 200 A -> feed-bar", "2/0 AWG 1 m"),
                                        "missing-protection@main:f0"),
    "one length, within what is allowed": (house("bank -> fuse 200 A -> feed-bar", "2/0 AWG 0.17 m"), ""),
    "one length, sheathed": (house("bank -> fuse 200 A -> feed-bar", SHEATHED), ""),
    "one length over a switch counts once": (
        house("bank -> switch battery 300 A -> fuse 200 A -> feed-bar", SHEATHED), ""),
    "one length, tap": (branch("feed-bar -> fuse 15 A -> pump", "14 AWG 3 m"), "protection-too-large@pump:f0"),
    # what is not given is not guessed
    "no length at all": (house("bank -> fuse 200 A -> feed-bar", "2/0 AWG"), ""),
    "no length and no device": (house("bank -> feed-bar", "2/0 AWG"), "missing-protection@main:f0"),
    "no size": (branch("feed-bar/fuse 100 A -> pump", "3 m"), ""),
    "no size and no device": (house("bank -> feed-bar", "1 m"), "missing-protection@main:f0"),
    "a fuse without a rating": (branch("feed-bar/fuse -> pump", "14 AWG 3 m"), ""),
    "a main fuse without a rating": (house("bank/fuse -> feed-bar", nodes=PUMP,
                                           circuits="pump: feed: feed-bar -> pump, wire: 14 AWG 3 m\n"), ""),
    "a fuse without a rating, too far": (branch("feed-bar -> fuse -> pump", "[14 AWG 1 m, 2 m]"),
                                         "protection-too-large@pump:f0"),
    # the whole line behind one too large device is one finding, another line another
    "two lines behind one device": (house(nodes=PUMP + LAMP + "sub: bar, rating: 100 A, pair: return-bar\n",
                                          circuits="""
        sub: feed: feed-bar/fuse 60 A -> sub, wire: 6 AWG 1 m
        pump: feed: sub -> switch 20 A -> pump, wire: [14 AWG 1 m, 1 m]
        lamp: feed: sub -> lamp, wire: 14 AWG 2 m
        """), "protection-too-large@lamp:f0 protection-too-large@pump:f0"),
    "a missing main hides no wrong branch": (
        house("bank -> feed-bar", nodes=PUMP, circuits="pump: feed: feed-bar/fuse 60 A -> pump, wire: 14 AWG 2 m\n"),
        "missing-protection@main:f0 protection-too-large@pump:f0"),
    # parallel conductors
    "two conductors side by side, each fused": (
        house(circuits="beside: feed: bank/fuse 200 A -> feed-bar, return: none, wire: 2/0 AWG 1 m\n"), ""),
    "two conductors side by side, neither fused": (
        house("bank -> feed-bar", circuits="beside: feed: bank -> feed-bar, return: none, wire: 2/0 AWG 1 m\n"),
        "missing-protection@beside:f0 missing-protection@main:f0"),
    "one of the two is fused": (
        house(circuits="beside: feed: bank -> feed-bar, return: none, wire: 2/0 AWG 1 m\n"),
        "missing-protection@beside:f0"),
    "the fuse of the one beside leads back to where it began": (
        house("bank -> feed-bar", "2/0 AWG 0.05 m",
              circuits="beside: feed: bank/fuse 200 A -> feed-bar, return: none, wire: 2/0 AWG 0.05 m\n").replace(
            "feed-bar/fuse 10 A ->", "feed-bar -> fuse 10 A ->").replace("14 AWG 2 m", "[14 AWG 1 m, 1 m]"),
        "protection-too-large@lamp-1:f0 protection-too-large@lamp-2:f0 missing-protection@main:f0"),
    "a load fed from two bars": (house(nodes=PUMP + ALWAYS, circuits="""
        always: feed: bank/fuse 40 A -> always, wire: 8 AWG 1 m
        one: feed: always/fuse 10 A -> switch float 10 A -> pump, wire: [14 AWG 2 m, 1 m]
        two: feed: feed-bar/fuse 10 A -> switch 10 A -> pump, wire: [14 AWG 2 m, 1 m]
        """), ""),
    "fed from two bars, one fuse left out": (house(nodes=PUMP + ALWAYS, circuits="""
        always: feed: bank/fuse 40 A -> always, wire: 8 AWG 1 m
        one: feed: always/fuse 10 A -> switch float 10 A -> pump, wire: [14 AWG 2 m, 1 m]
        two: feed: feed-bar -> switch 10 A -> pump, wire: [14 AWG 2 m, 1 m]
        """), "protection-too-large@two:f0"),
    # lines of ac
    "unprotected cable is one finding, not one a core": (generator("3 m"), "missing-protection@gen:a0"),
    "a breaker too large for its cable": (house(nodes="""
        shore: shore, rating: 30 A
        ac-panel: ac panel, rating: 30 A
        kettle: ac load, power: 1 kW
        """, circuits="""
        shore: ac: shore -> breaker 2-pole 30 A -> ac-panel, wire: [10 AWG 0.5 m, 1 m]
        kettle: ac: ac-panel/breaker 30 A -> kettle, wire: 16 AWG 3 m
        """), "protection-too-large@kettle:a0"),
    "the main breaker within 10 ft of the inlet": (shore("3 m"), ""),  # ABYC E-11, quoted
    "the main breaker beyond 10 ft": (shore("3.1 m"), "missing-protection@shore:a0"),
    "an inverter limits itself": (house(nodes="""
        inv: inverter, power: 2 kW, neutral: bonded
        kettle: ac load, power: 1 kW
        """, circuits="""
        inv: feed: feed-bar/fuse 200 A -> inv, wire: 2/0 AWG 1 m
        out: ac: inv -> kettle, wire: 14 AWG 5 m
        """), ""),
    "a slide between two breakers opens one, which still stands where it stands": (house(nodes="""
        shore: shore, rating: 30 A
        gen: generator, power: 3 kW, neutral: floating
        ac-panel: ac panel, rating: 30 A
        """, circuits="""
        shore: ac: shore -> breaker Q-s 2-pole 30 A -> ac-panel, wire: [10 AWG 0.5 m, 1 m]
        gen: ac: gen -> breaker Q-g 2-pole 30 A -> ac-panel, wire: [10 AWG 0.5 m, 1 m]
        """) + "interlocks: [[Q-s, Q-g]]\n", ""),
    # strings
    "three strings, the modules take it": (
        solar(*GOOD_SUN, parallel="3, max series fuse: 25 A"), ""),
    "three strings, the modules do not": (
        solar(*GOOD_SUN, parallel="3, max series fuse: 20 A"), "unfused-strings@roof"),
    "three strings with a fuse in each": (solar(*GOOD_SUN, parallel="3, string fuse: 15 A"), ""),
    "three pv nodes, each with a fuse": (strings("/fuse 15 A", "/fuse 15 A", "/fuse 15 A"), ""),
    "two of three forgotten": (strings("/fuse 15 A", "", ""), "unfused-strings@p2 unfused-strings@p3"),
    # sense leads
    "a sense lead without a fuse": (house(circuits="sense: feed: bank -> meter.sense, wire: 18 AWG 1 m\n"),
                                    "unfused-sense-lead@sense:f0"),
    "a sense lead with a fuse that is too large": (
        house(circuits="sense: feed: bank/fuse 60 A -> meter.sense, wire: 18 AWG 1 m\n"), "protection-too-large@sense:f0"),
    "a sense lead with one": (house(circuits="sense: feed: bank/fuse 1 A -> meter.sense, wire: 18 AWG 1 m\n"), ""),
    # the engine
    "an unfused tap on the starter battery's post": (
        engine("horn: feed: start -> lamp-3, return: engine -> lamp-3, wire: 14 AWG 2 m\n",
               "start: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah\n"
               "starter: starter, current: 200 A\nengine: chassis\nlamp-3: load, voltage: 12 V, power: 24 W\n"),
        "missing-protection@horn:f0"),
    "a charger's lead over the fuse to the bank and on": (
        solar("sun -> breaker 40 A/feed-bar", sheathed("8 AWG 1.1 m")), ""),
    "a relay counts as closed": (house(nodes=PUMP + "relay: relay, rating: 30 A, coil: 12 V\n", circuits="""
        pump: feed: bank -> relay -> pump, wire: [14 AWG 1 m, 1 m]
        coil: feed: feed-bar/fuse 1 A -> relay.coil, wire: 16 AWG 1 m
        """), "missing-protection@pump:f0"),
}


@pytest.mark.parametrize("name", MORE)
def test_more(name):
    text, expected = MORE[name]
    assert marks(text) == sorted(expected.split()), text


def test_the_sun_of_the_cases_is_what_they_say():
    """1.25 times 9 A for each string: NEC 690.8(A)(1)."""
    assert "isc: 9 A" in SUN


@pytest.mark.parametrize(("line", "wire", "expected"), [
    ("start -> starter", "6 AWG 4 m", ""),  # a starter's cable is not fused, whatever its size (common practice)
    ("start/fuse 120 A -> starter", "6 AWG 4 m", ""),
    ("start/fuse 400 A -> starter", "6 AWG 4 m", "protection-too-large@crank:f0"),  # one that is must suit it
])
def test_a_starter_s_cable_with_a_fuse_is_a_line_like_others(line, wire, expected):
    text = engine().replace("feed: start -> starter, return", f"feed: {line}, return").replace("2/0 AWG 4 m", wire)
    text = text.replace("return: 2/0 AWG 0.5 m", f"return: {wire.split(' ')[0]} AWG 0.5 m")
    assert [mark for mark in marks(text) if "return" not in mark] == expected.split()
