"""Boundary cases of overcurrent protection, each with exactly what must be found, nothing more.

Unless said: practice abyc, 12 V, a 200 A main fuse on 2/0 AWG, lamps on 14 AWG. The limits are
those of 33 CFR 183.455(b) and (c), 183.460(a) and ABYC E-11 11.10, NEC 240.4, ISO 10133 8.1 and
IEC 60364-4-43 433.1, with the ampacities of 33 CFR 183.425 Table 5 (105 °C), NEC Table 310.16
(75 °C) and ISO 13297 Table A.1 (70 °C).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import marks, netlist, system

HOUSE = """
bank: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, pair: return-bar
meter: shunt, rating: 500 A
feed-bar: bar, rating: 600 A, pair: return-bar
return-bar: bar, rating: 600 A
lamp-1: load, voltage: 12 V, power: 24 W
lamp-2: load, voltage: 12 V, power: 24 W
"""
BACK = "return: bank -> meter -> return-bar"
THICK = {"abyc": "2/0 AWG", "nec": "3/0 AWG", "iso": "70 mm²"}
THIN = {"abyc": "14 AWG", "nec": "14 AWG", "iso": "2.5 mm²"}


def sheathed(runs: str) -> str:
    return f"{{hops: [{runs}], in: conduit}}"


def house(main: str = "bank/fuse 200 A -> feed-bar", wire: str = "", nodes: str = "", circuits: str = "",
          practice: str = "abyc") -> str:
    """A bank with its shunt, a bar, two fused lamps, and what the case adds."""
    thick, thin = THICK[practice], THIN[practice]
    lines = f"""
    main: feed: {main}, {BACK}, wire: {{feed: {wire or thick + ' 1 m'}, return: [{thick} 0.3 m, 0.3 m]}}
    lamp-1: feed: feed-bar/fuse 10 A -> lamp-1, wire: {thin} 2 m
    lamp-2: feed: feed-bar/fuse 10 A -> lamp-2, wire: {thin} 2 m
    """
    return netlist(HOUSE + nodes, lines + circuits, practice)


PUMP = "pump: load, voltage: 12 V, power: 60 W\n"
PUMPS = PUMP + "pump2: load, voltage: 12 V, power: 60 W\n"
STUD = "stud: joint, pair: return-bar\n"
BACK_WIRE = "return: [2/0 AWG 0.3 m, 0.3 m]"
POST_TO_STUD = f"main: feed: bank -> stud, {BACK}, wire: {{feed: 2/0 AWG 0.1 m, {BACK_WIRE}}}\n"
FUSED_MAIN = "feeder: feed: stud/fuse 200 A -> feed-bar, wire: 2/0 AWG 1 m\n"
LAMPS = """
lamp-1: feed: feed-bar/fuse 10 A -> lamp-1, wire: 14 AWG 2 m
lamp-2: feed: feed-bar/fuse 10 A -> lamp-2, wire: 14 AWG 2 m
"""


def stud(circuits: str, nodes: str = PUMP, main: str = FUSED_MAIN + LAMPS) -> str:
    """The post, 0.1 m bare, and a stud on which the case hangs its circuits."""
    base = HOUSE if main else "\n".join(HOUSE.strip().splitlines()[:2] + [HOUSE.strip().splitlines()[3]]) + "\n"
    return netlist(base + STUD + nodes, POST_TO_STUD + main + circuits)


def pump(name: str = "pump", start: str = "stud", wire: str = "14 AWG 2 m") -> str:
    return f"{name}: feed: {start} -> {name}, wire: {wire}\n"


WINCH = "winch: load, voltage: 12 V, current: 140 A\n"
SIX = "".join(f"lamp-{n}: load, voltage: 12 V, power: 24 W\n" for n in range(3, 7))
SIX_LINES = "".join(f"lamp-{n}: feed: feed-bar/fuse 10 A -> lamp-{n}, wire: 14 AWG 2 m\n" for n in range(3, 7))
FAT = "winch: feed: feed-bar/fuse 200 A -> winch, wire: 2/0 AWG 2 m\n"

MAIN = [
    (1, house(), ""),
    (2, house("bank -> feed-bar"), "missing-protection@main:f0"),
    (3, house("bank -> fuse 200 A -> feed-bar", "[2/0 AWG 0.15 m, 0.85 m]"), ""),
    (4, house("bank -> fuse 200 A -> feed-bar", "[2/0 AWG 0.2 m, 0.8 m]"), "missing-protection@main:f0"),
    (5, house("bank -> fuse 200 A -> feed-bar", "[70 mm² 0.2 m, 0.8 m]", practice="iso"), ""),
    (6, house("bank -> fuse 200 A -> feed-bar", sheathed("2/0 AWG 1.82 m, 0.3 m")), ""),
    (7, house("bank -> fuse 200 A -> feed-bar", sheathed("2/0 AWG 1.85 m, 0.3 m")), "missing-protection@main:f0"),
    (8, house("bank -> switch battery 300 A -> fuse 200 A -> feed-bar", sheathed("2/0 AWG 0.9 m, 0.9 m, 0.3 m")), ""),
    (9, house("bank -> switch battery 300 A -> fuse 200 A -> feed-bar", sheathed("2/0 AWG 0.9 m, 1 m, 0.3 m")),
     "missing-protection@main:f0"),
    # 10: one line has one `in`, so the sheathed part behind the switch is a line of its own
    (10, netlist(
        HOUSE + "Q1: switch, rating: 300 A\n",
        f"main: feed: bank -> Q1.1, {BACK}, wire: {{feed: 2/0 AWG 0.1 m, {BACK_WIRE}}}\n"
        f"rest: feed: Q1.2 -> fuse 200 A -> feed-bar, wire: {sheathed('2/0 AWG 0.5 m, 0.3 m')}\n" + LAMPS),
     "missing-protection@main:f0"),
    (11, stud(pump()), "missing-protection@pump:f0"),
    (12, stud(pump() + pump("pump2"), PUMPS), "missing-protection@pump:f0 missing-protection@pump2:f0"),
    (13, stud(pump() + pump("pump2"), PUMPS, ""), "missing-protection@main:f0"),
    # 14: a thick unfused winch brings the root to 150 A; what serves the root serves the winch
    (14, stud(pump() + pump("pump2") + pump("winch", wire="2/0 AWG 2 m"), PUMPS + WINCH, ""),
     "missing-protection@main:f0 missing-protection@pump:f0 missing-protection@pump2:f0"),
    (15, house("bank -> feed-bar", nodes=SIX, circuits=SIX_LINES), "missing-protection@main:f0"),
    # 16: a load always states what it takes; these are small enough for any device of the main
    (16, house("bank -> feed-bar", nodes=PUMP, circuits=pump(start="feed-bar")), "missing-protection@main:f0"),
    (17, house("bank -> feed-bar", nodes=PUMP + WINCH, circuits=FAT + pump(start="feed-bar")),
     "missing-protection@main:f0 missing-protection@pump:f0"),
    (18, house("bank -> feed-bar", nodes=PUMP + WINCH, circuits=FAT + pump(start="feed-bar", wire="2/0 AWG 2 m")),
     "missing-protection@main:f0"),
]

SUN = """
roof: pv, power: 180 W, voc: 22 V, isc: 9 A, parallel: {parallel}
sun: solar charger, type: mppt, max pv voltage: 60 V, output: {output} A
"""
ARRAY = "array: feed: roof -> sun.pv, wire: 10 AWG 5 m\n"


def solar(line: str, wire: str, output: int = 35, parallel: int = 1, **main) -> str:
    return house(nodes=SUN.format(parallel=parallel, output=output),
                 circuits=ARRAY + f"sun: feed: {line}, wire: {wire}\n", **main)


ALARM = "alarm: load, voltage: 12 V, power: 3 W, always on: yes\n"


def alarm(start: str, metres: str) -> str:
    return house(nodes=ALARM, circuits=f"alarm: feed: {start}, wire: 16 AWG {metres}\n")


ENGINE = """
start: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah
starter: starter, current: 200 A
engine: chassis
"""
CRANK = """
crank: feed: start -> starter, return: starter/engine -> start, wire: {feed: 2/0 AWG 4 m, return: 2/0 AWG 0.5 m}
"""
CHARGER = ENGINE + "dcc: dc charger, voltage: 12 V, output: 30 A, common: none\n"


def engine(circuits: str = "", nodes: str = ENGINE) -> str:
    return house(nodes=nodes, circuits=CRANK + circuits)


def tap(wire: str) -> str:
    return engine(
        "ecin: feed: starter -> fuse 60 A -> dcc.in, return: engine -> dcc.in, "
        f"wire: {{feed: {wire}, return: 6 AWG 3 m}}\n"
        "charge: feed: dcc -> fuse 40 A/feed-bar, wire: 8 AWG 2 m\n", CHARGER)


def alternator(line: str, wire: str, fields: str = "") -> str:
    return engine(f"alt: feed: {line}, return: alt/engine, wire: {wire}\n",
                  ENGINE + f"alt: alternator, output: 90 A{fields}\n")


BY_SOURCE = [
    (19, house("bank -> fuse 200 A -> feed-bar", "[2/0 AWG 0.5 m, 0.5 m]", SUN.format(parallel=1, output=35),
               ARRAY + "sun: feed: sun -> breaker 40 A -> feed-bar, wire: [8 AWG 0.2 m, 1.1 m]\n"),
     "missing-protection@main:f0 protection-too-large@sun:f1"),
    (20, alarm("bank/fuse 2 A -> alarm", "5 m"), ""),
    (21, alarm("bank -> fuse 2 A/alarm", "5 m"), "missing-protection@alarm:f0"),
    (22, alarm("bank -> alarm", "0.1 m"), "missing-protection@alarm:f0"),
    (23, engine(), ""),
    (24, tap("[6 AWG 0.15 m, 3 m]"), ""),
    (25, tap(sheathed("6 AWG 1 m, 3 m")), ""),
    (26, tap(sheathed("6 AWG 1.5 m, 3 m")), "missing-protection@ecin:f0"),
    (27, alternator("alt -> starter", sheathed("4 AWG 0.9 m")), ""),
    (28, alternator("alt -> starter", sheathed("4 AWG 1.2 m")), "missing-protection@alt:f0"),
    (29, alternator("alt -> start", sheathed("4 AWG 0.9 m")), "missing-protection@alt:f0"),
    (30, alternator("alt -> fuse 125 A/start", "4 AWG 3 m"), ""),
    (31, alternator("alt -> starter", sheathed("4 AWG 0.9 m"), ", self limiting: no"), "missing-protection@alt:f0"),
]


def batteries(count: int, leads: str, main: str = "", extra: str = "", main_back: str = "bank-return") -> str:
    """Batteries b1 ... with their negatives on a bar ahead of the shunt."""
    nodes = HOUSE.strip().split("\n", 1)[1] + "\nbank-return: bar, rating: 600 A\n" + extra
    nodes += "".join(f"b{n}: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah, pair: return-bar\n"
                     for n in range(1, count + 1))
    back = f"return: {main_back} -> meter -> return-bar"
    main = f"main: feed: {main}, {back}, " if main else f"back: {back}, wire: [2/0 AWG 0.3 m, 0.3 m]\n"
    return nodes, leads + main


def lead(number: int, feed: str, wire: str) -> str:
    return f"l{number}: feed: {feed}, return: b{number} -> bank-return, wire: {wire}\n"


def on_bar(count: int, size: str, fused: int | None = None) -> str:
    fused = count if fused is None else fused
    leads = "".join(lead(n, f"b{n}{'/fuse 100 A' if n <= fused else ''} -> feed-bar", f"{size} 1 m")
                    for n in range(1, count + 1))
    nodes, lines = batteries(count, leads)
    return netlist(nodes, lines + LAMPS)


def on_bank_bar(first: str, second: str) -> str:
    leads = "".join(lead(number, f"b{number} -> bank-bar", sheathed(f"2/0 AWG {metres}"))
                    for number, metres in ((1, first), (2, second)))
    nodes, lines = batteries(2, leads, "bank-bar -> fuse 200 A -> feed-bar",
                             "bank-bar: bar, rating: 600 A, pair: return-bar\n")
    return netlist(nodes, lines + f"wire: {{feed: {sheathed('2/0 AWG 1.1 m, 0.3 m')}, {BACK_WIRE}}}\n" + LAMPS)


def linked() -> str:
    nodes, _ = batteries(2, "")
    nodes = nodes.replace("bank-return: bar, rating: 600 A\n", "")
    return netlist(nodes, f"""
    link: feed: b1 -> b2, return: b1 -> b2, wire: 2/0 AWG 0.4 m
    main: feed: b1/fuse 200 A -> feed-bar, return: b1 -> meter -> return-bar, wire: {{feed: 2/0 AWG 1 m, {BACK_WIRE}}}
    """ + LAMPS)


def tied(line: str, wire: str = "2/0 AWG 3 m") -> str:
    return house(nodes="bank2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah\n",
                 circuits=f"tie: feed: {line}, return: bank -> bank2, wire: {{feed: {wire}, return: 2/0 AWG 3 m}}\n")


BANKS = [
    (32, on_bar(2, "6 AWG"), ""),
    (33, on_bar(3, "6 AWG"),
     "protection-too-large@l1:f0 protection-too-large@l2:f0 protection-too-large@l3:f0"),
    (34, on_bar(3, "2 AWG"), ""),
    (35, on_bar(2, "6 AWG", fused=1), "missing-protection@l2:f0"),
    (36, linked(), ""),
    (37, on_bank_bar("0.5 m", "0.7 m"), ""),
    (38, on_bank_bar("0.5 m", "0.9 m"), "missing-protection@main:f0"),
    (39, tied("bank -> bank2"), "missing-protection@tie:f0"),
    (40, tied("bank -> switch battery 300 A -> bank2", "[2/0 AWG 1.5 m, 1.5 m]"),
     "missing-protection@tie:f0 missing-protection@tie:f1"),
    (41, tied("bank/fuse 200 A -> bank2"), "missing-protection@tie:f0"),
    (42, tied("bank/fuse 200 A -> fuse 200 A/bank2"), ""),
]

MAINS = """
gen: generator, power: 3 kW, neutral: bonded
ac-panel: ac panel, rating: 30 A
kettle: ac load, power: 1 kW
"""


def generator(metres: str) -> str:
    return house(nodes=MAINS, circuits=f"""
    gen: ac: gen -> breaker 2-pole 25 A -> ac-panel, wire: [10 AWG {metres}, 1 m]
    kettle: ac: ac-panel/breaker 15 A -> kettle, wire: 12 AWG 3 m
    """)


STEP = """
step: converter, voltage: 12 V, output: 30 A, input voltage: 12 V
panel: panel, rating: 60 A
a: load, voltage: 12 V, power: 60 W
b: load, voltage: 12 V, power: 60 W
"""


def converter(size: str, output: str = "step -> panel") -> str:
    return house(nodes=STEP, circuits=f"""
    in: feed: feed-bar/fuse 50 A -> step.in, wire: 8 AWG 1 m
    step: feed: {output}, wire: 8 AWG 0.5 m
    a: feed: panel -> a, wire: {size} 2 m
    b: feed: panel -> b, wire: {size} 2 m
    """)


def strings(*fuses: str) -> str:
    """Pv nodes p1 ... on a combiner, each with its fuse or none."""
    nodes = "".join(f"p{n}: pv, power: 180 W, voc: 22 V, isc: 9 A\n" for n, _ in enumerate(fuses, 1))
    nodes += "comb: bar, rating: 60 A, pair: comb-return\ncomb-return: bar, rating: 60 A\n"
    nodes += "sun: solar charger, type: mppt, max pv voltage: 60 V, output: 35 A\n"
    lines = "".join(f"p{n}: feed: p{n}{fuse} -> comb, wire: 10 AWG 5 m\n" for n, fuse in enumerate(fuses, 1))
    return house(nodes=nodes, circuits=lines + """
    trunk: feed: comb -> sun.pv, wire: 10 AWG 3 m
    sun: feed: sun -> breaker 40 A/feed-bar, wire: 8 AWG 1.1 m
    """)


GOOD_SUN = ("sun -> breaker 40 A/feed-bar", "8 AWG 1.1 m")

LIMITED = [
    (43, generator("0.9 m"), ""),
    (44, generator("2 m"), "missing-protection@gen:a0"),
    (45, solar("sun -> breaker 40 A -> feed-bar", "[8 AWG 0.1 m, 1.1 m]"), "protection-too-large@sun:f1"),
    (46, solar(*GOOD_SUN), ""),
    (47, solar("sun -> feed-bar", "8 AWG 1.1 m"), "protection-too-large@sun:f0"),
    (48, solar("sun -> breaker 50 A/feed-bar", "12 AWG 1.1 m", output=50), "protection-too-large@sun:f0"),
    (49, converter("14 AWG"), ""),
    (50, converter("16 AWG"), "missing-protection@a:f0 missing-protection@b:f0"),
    (51, converter("18 AWG", "step/breaker 40 A -> panel"), "protection-too-large@a:f0 protection-too-large@b:f0"),
    (52, solar(*GOOD_SUN, parallel=2), ""),
    (53, solar(*GOOD_SUN, parallel=3), "unfused-strings@roof"),
    (54, strings("", ""), ""),
    (55, strings("", "", ""), "unfused-strings@comb"),
    (56, strings("/fuse 15 A", "", "/fuse 15 A"), "unfused-strings@p2"),
]


def branch(line: str, wire: str, practice: str = "abyc") -> str:
    return house(nodes=PUMP, circuits=f"pump: feed: {line}, wire: {wire}\n", practice=practice)


def fused(amps: int, size: str, practice: str = "abyc") -> str:
    return branch(f"feed-bar/fuse {amps} A -> pump", f"{size} 2 m", practice)


RATINGS = [
    (57, fused(35, "14 AWG"), ""),
    (58, fused(40, "14 AWG"), "protection-too-large@pump:f0"),
    (60, fused(200, "3 AWG"), ""),
    (61, fused(15, "14 AWG", "nec"), ""),
    (62, fused(20, "14 AWG", "nec"), "protection-too-large@pump:f0"),
    (63, fused(25, "2.5 mm²", "iso"), ""),
    (64, fused(30, "2.5 mm²", "iso"), "protection-too-large@pump:f0"),
    (65, branch("feed-bar -> fuse 15 A -> pump", "[14 AWG 0.13 m, 2 m]"), ""),
    (66, branch("feed-bar -> fuse 15 A -> pump", "[14 AWG 0.3 m, 2 m]"), "protection-too-large@pump:f0"),
    (67, branch("feed-bar -> fuse 15 A -> pump", sheathed("14 AWG 0.9 m, 2 m")), ""),
    (68, branch("feed-bar -> fuse 60 A -> pump", "[14 AWG 0.13 m, 2 m]"), "protection-too-large@pump:f0"),
    (69, branch("feed-bar/fuse 60 A -> switch 60 A -> pump", "{feed: [4 AWG 1 m, 14 AWG 2 m], return: 4 AWG 3 m}"),
     "protection-too-large@pump:f1"),
    (70, house(nodes="inv: inverter, power: 500 W, neutral: floating\nkettle: ac load, power: 400 W\n",
           circuits="inv: feed: feed-bar/fuse 50 A -> fuse 100 A -> inv, wire: [8 AWG 2 m, 0.3 m]\n"
                    "out: ac: inv -> kettle, wire: 14 AWG 2 m\n"), ""),
]


def two_feeds(first: str, tie: str) -> str:
    return house(nodes="""
    sub: bar, rating: 100 A, pair: return-bar
    sub2: bar, rating: 100 A, pair: return-bar
    lamp-3: load, voltage: 12 V, power: 24 W
    """, circuits=f"""
    f1: feed: {first} -> sub, wire: 10 AWG 2 m
    f2: feed: feed-bar/breaker 40 A -> sub, wire: 10 AWG 2 m
    tie: feed: sub -> sub2, wire: {tie} 2 m
    lamp-3: feed: sub2/fuse 10 A -> lamp-3, wire: 14 AWG 2 m
    """)


def selected(positions: str) -> str:
    nodes = HOUSE.strip().replace(", pair: return-bar", "", 1) + f"""
    bank2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah
    bank-return: bar, rating: 600 A
    sel: selector, rating: 300 A{positions}
    """
    return netlist(nodes, f"""
    m1: feed: bank/fuse 150 A -> sel.1, return: bank -> bank-return, wire: 2/0 AWG 1 m
    m2: feed: bank2/fuse 150 A -> sel.2, return: bank2 -> bank-return, wire: 2/0 AWG 1 m
    common: feed: sel -> feed-bar, return: bank-return -> meter -> return-bar, wire: {{feed: 4 AWG 1 m, {BACK_WIRE}}}
    """ + LAMPS)


def isolated(first: str) -> str:
    """A diode isolator is a stud with a diode to each battery."""
    return engine(f"""
    alt: feed: alt -> split, return: alt/engine, wire: 4 AWG 2 m
    d1: feed: split/diode 120 A -> {first}, return: none, wire: 4 AWG 2 m
    d2: feed: split/diode 120 A -> fuse 100 A/bank, return: none, wire: 4 AWG 2 m
    eret: return: engine -> return-bar, wire: 2/0 AWG 2 m
    """, ENGINE + "alt: alternator, output: 90 A\nsplit: joint\n")


LAMP = "lamp: load, voltage: 12 V, power: 24 W\n"

MESHES = [
    (71, two_feeds("feed-bar/breaker 40 A", "10 AWG"), ""),
    (72, two_feeds("feed-bar/breaker 40 A", "12 AWG"), "protection-too-large@tie:f0"),
    (73, two_feeds("feed-bar", "10 AWG"), "protection-too-large@f1:f0"),
    (74, selected(", positions: {off: none, 1: 1+common, 2: 2+common}"), ""),
    (75, selected(""), "protection-too-large@common:f0"),
    (76, isolated("fuse 100 A/start"), ""),
    (77, isolated("start"), "missing-protection@d1:f0"),
    (78, house(nodes=LAMP + "extra: breaker, rating: 15 A\n",
               circuits="lamp: feed: feed-bar/fuse 10 A -> lamp, return: lamp -> extra -> return-bar, "
                        "wire: {feed: 14 AWG 2 m, return: [14 AWG 1 m, 1 m]}\n"), "protection-in-return@extra"),
    (79, house(nodes=LAMP, circuits="lamp: feed: feed-bar/breaker 2-pole 15 A -> lamp, wire: 14 AWG 2 m\n"), ""),
    (80, house(nodes=LAMP, circuits="lamp: feed: feed-bar -> lamp, return: lamp -> fuse 10 A -> return-bar, "
                                    "wire: {feed: 14 AWG 2 m, return: [14 AWG 1 m, 1 m]}\n"),
     "protection-too-large@lamp:f0"),
    (81, house(nodes=PUMP, circuits="pump: feed: feed-bar/fuse 60 A -> pump, "
                                    "wire: {feed: 6 AWG 2 m, return: 14 AWG 2 m}\n"),
     "thin-return@pump:r0"),
]


@pytest.mark.parametrize("number, text, expected", MAIN + BY_SOURCE + BANKS + LIMITED + RATINGS + MESHES,
                         ids=lambda value: str(value) if isinstance(value, int) else "")
def test_case(number, text, expected):
    assert marks(text) == sorted(expected.split()), text


def test_case_59_of_the_federal_rule():
    """33 CFR 183.455(c)(1): below 50 V 150 % whatever is made; no practice of the language by itself."""
    federal = replace(system(fused(50, "14 AWG")), practice="cfr")
    assert [fact.mark for fact in Survey(federal).facts] == []
    beyond = replace(system(fused(60, "14 AWG")), practice="cfr")
    assert [fact.mark for fact in Survey(beyond).facts] == ["protection-too-large@pump:f0"]


@pytest.mark.parametrize(("amps", "size", "expected"), [
    (80, "8 AWG", ""), (81, "8 AWG", "missing-protection@alt:f0"), (119, "6 AWG", ""), (120, "6 AWG", ""),
    (121, "6 AWG", "missing-protection@alt:f0"),
])
def test_an_alternator_lead_carries_what_the_machine_gives(amps, size, expected):
    """33 CFR 183.425 Table 5, 105 °C: 8 AWG 80 A, 6 AWG 120 A (read)."""
    text = alternator("alt -> starter", sheathed(f"{size} 0.9 m")).replace("output: 90 A", f"output: {amps} A")
    assert marks(text) == expected.split()
