"""What is written at conductors: lengths as the netlist has them, numbers, sizes in both systems."""

from __future__ import annotations

import pytest

from diagrammer import pipeline
from diagrammer.electrics.conductor import area, made as sizes
from diagrammer.layout.conductors import LIKE, converted, length, numbers, other, runs, said
from diagrammer.layout.draw import draw
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import wiring
from diagrammer.layout.scene import Scene
from diagrammer.layout.tags import tag
from diagrammer.quantity import size
from tests.layout.common_systems import NAMES, made, parsed, sample

BOTH = Options(numbers=True, both=True, engine="own")
LAMP = """
nodes:
  bank: {{kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}}
  lamp: {{kind: load, voltage: 12 V, power: 60 W}}
circuits:
  - {{name: lamp, feed: bank -> fuse 10 A -> switch 10 A -> lamp, wire: {wire}}}
"""


def drawn(wire: str, **options) -> Scene:
    return draw(parsed(LAMP.format(wire=wire)), (), Options(engine="own", **options))


def written(scene: Scene) -> list[str]:
    """The lines at conductors, piece by piece."""
    return [text.text for sheet in scene.sheets for text in sheet.texts if text.role == "wire"]


def words(scene: Scene) -> list[str]:
    return written(scene) + [tag(stub).text.text for sheet in scene.sheets for stub in sheet.stubs]


@pytest.mark.parametrize("wire, text", [
    ("10 AWG 6 m", "10 AWG 6 m"), ("10 AWG 6 ft", "10 AWG 6 ft"), ("6 mm² 6 in", "6 mm² 0.5 ft"),
    ("[10 AWG 1 ft, 2 ft, 30 in]", "10 AWG 5.5 ft"), ("{size: 10 AWG, length: 5 ft 6 in}", "10 AWG 5.5 ft"),
    ("{hops: [10 AWG 1 m, 1 m, 0.5 m]}", "10 AWG 2.5 m"), ("2 parallel 10 AWG 6 m", "2 parallel 10 AWG 6 m"),
    ("{size: 4 AWG, length: 6 m, material: aluminium}", "4 AWG Al 6 m"),
    ("{size: 4 AWG, length: 6 m, material: tinned}", "4 AWG 6 m"),
])
def test_lengths_are_in_the_unit_they_were_written_in(wire, text):
    assert written(drawn(wire)) == [text]


@pytest.mark.parametrize("metres, feet, text", [
    (6.0, False, "6 m"), (0.25, False, "0.25 m"), (12.34, False, "12.3 m"), (0.0, False, ""),
    (0.3048, True, "1 ft"), (0.1524, True, "0.5 ft"), (3.048, True, "10 ft"), (6.0, True, "19.7 ft"),
])
def test_lengths(metres, feet, text):
    assert length(metres, feet) == text


@pytest.mark.parametrize("one, text", [
    # areas of ASTM B258 and IEC 60228 side by side; the pairs that the trade names (common practice)
    ("14 AWG", "≤ 2.5 mm²"), ("12 AWG", "≤ 4 mm²"), ("10 AWG", "≤ 6 mm²"), ("8 AWG", "≤ 10 mm²"), ("6 AWG", "≤ 16 mm²"),
    ("4 AWG", "≤ 25 mm²"), ("2 AWG", "≈ 35 mm²"), ("2/0 AWG", "≈ 70 mm²"), ("3/0 AWG", "≤ 95 mm²"),
    ("4/0 AWG", "≤ 120 mm²"), ("300 kcmil", "≈ 150 mm²"),
    ("2.5 mm²", "≤ 12 AWG"), ("35 mm²", "≈ 2 AWG"), ("70 mm²", "≈ 2/0 AWG"), ("120 mm²", "≤ 250 kcmil"),
    ("16 mm²", "≤ 4 AWG"),
    ("1000 kcmil", "507 mm²"), ("300 mm²", "> 500 kcmil"),
])
def test_a_size_in_the_other_system(one, text):
    assert other(size(one)) == text


@pytest.mark.parametrize("one", [*sizes("mm²"), *sizes("AWG")], ids=lambda one: one.label)
def test_what_stands_for_a_size_is_hardly_thinner(one):
    """Whoever buys it gets at least the area, less what ≈ admits."""
    sign, _, label = other(one).partition(" ")
    if sign in "≈≤":
        assert area(size(label)) >= area(one) * (1 - LIKE)
        assert sign == "≤" or area(size(label)) <= area(one) * (1 + LIKE)


def test_both_systems_stand_below_each_other():
    twins = written(drawn("2 parallel 2/0 AWG 10 ft", both=True))
    assert twins == ["2 parallel 2/0 AWG 10 ft", "2 parallel ≈ 70 mm² 3 m"]
    assert written(drawn("70 mm² 3 m", both=True)) == ["70 mm² 3 m", "≈ 2/0 AWG 9.8 ft"]
    assert written(drawn("{length: 3 m}", both=True)) == ["3 m", "9.8 ft"]


@pytest.mark.parametrize("name", NAMES)
def test_both_say_the_same_run(name):
    wired = wiring(sample(name))
    for circuit in wired.system.circuits:
        for run in runs(wired, circuit.name, circuit.feet).values():
            assert bool(said(run)) == bool(converted(run)) and said(run) != converted(run) or not said(run)


def test_every_conductor_has_its_number():
    assert numbers(parsed(LAMP.format(wire="10 AWG 6 m"))) == {
        "lamp:f0": "1", "lamp:f1": "2", "lamp:f2": "3", "lamp:r0": "4",
    }


@pytest.mark.parametrize("system", [*NAMES, *range(200, 206)])
def test_every_number_stands_on_the_drawing_once(system):
    one = sample(system) if isinstance(system, str) else made(system)
    shown = [n for text in words(draw(one, (), BOTH)) for n in text.split(" · ")[0].split(", ") if n.isdigit()]
    wanted = list(numbers(one).values())
    assert sorted(shown, key=int) == wanted


def test_the_number_of_a_circuit_stays_when_one_is_added_after_it():
    text = LAMP.format(wire="10 AWG 6 m")
    more = text + "  - {name: more, feed: bank -> fuse 1 A -> lamp, wire: 10 AWG 1 m}\n"
    before = numbers(parsed(text))
    assert {cable: numbers(parsed(more))[cable] for cable in before} == before


@pytest.mark.parametrize("size_", ("A3", "A4"))
@pytest.mark.parametrize("options", [{"numbers": True}, {"both": True}, {"numbers": True, "both": True}], ids=str)
@pytest.mark.parametrize("name", NAMES)
def test_gates_hold_with_more_words_at_conductors(name, options, size_):
    assert draw(sample(name), (), Options(size=size_, engine="own", **options)).remarks == ()


@pytest.mark.parametrize("seed", range(300, 316))
def test_gates_hold_with_more_words_on_generated_systems(seed):
    assert draw(made(seed), (), BOTH).remarks == ()


def test_a_lead_between_two_control_terminals_says_its_number_and_size():
    """It is drawn by its ends alone."""
    one = parsed("""
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah}
  guard: {kind: bms, rating: 100 A}
  feed-bar: {kind: bar, rating: 100 A}
  charger: {kind: dc charger, voltage: 12 V, output: 20 A}
  start: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 80 Ah, duty: starter}
circuits:
  - {feed: bank/fuse 100 A -> guard.battery, return: none, wire: 25 mm² 1 m}
  - {feed: guard.load -> feed-bar, return: none, wire: 25 mm² 1 m}
  - {feed: start/fuse 30 A -> charger.in, return: none, wire: 6 mm² 4 m}
  - {feed: charger/fuse 30 A -> feed-bar, return: none, wire: 6 mm² 1 m}
  - {name: permit, feed: guard.allow-charge -> charger.enable, return: none, wire: 1 mm² 3 m}
""")
    made_ = draw(one, (), Options(numbers=True, engine="own"))
    ends = [stub.text for sheet in made_.sheets for stub in sheet.stubs if stub.form == "to"]
    number = numbers(one)["permit:f0"]
    assert any(text.endswith(f", {number} 1 mm² 3 m") for text in ends), ends
    assert made_.remarks == ()


@pytest.mark.parametrize("name", NAMES)
def test_returns_drawn_in_full_keep_their_numbers(name):
    """All but a few, which have no room at their line."""
    drawn_ = draw(sample(name), (), Options(numbers=True, all_returns=True, engine="own"))
    assert not [one for one in drawn_.remarks if "crossings" not in one]
    named = numbers(sample(name))
    lines = {line.cable for sheet in drawn_.sheets for line in sheet.lines if line.weight == "return" and line.cable}
    told = {text.text for sheet in drawn_.sheets for text in sheet.texts if text.role == "wire"}
    assert len(lines) > 2
    assert sum(named[cable] in told for cable in lines) >= 0.8 * len(lines)


def test_findings_name_the_numbers_of_their_conductors():
    one = sample("missing-protection")
    rows = {}
    for options in (Options(engine="own"), Options(engine="own", numbers=True)):
        made_ = pipeline.lay_out(one, pipeline.check(one), options)
        rows[options.numbers] = " ".join(text for sheet in made_.sheets for row in sheet.rows for text in row.text)
        assert made_.remarks == ()
    assert rows[True] == f"{rows[False]} [conductor {numbers(one)['main:f0']}]"
