"""A state for the drawing: which, what is said of it, and what where there is none."""

from __future__ import annotations

import pytest

from diagrammer import pipeline
from diagrammer.circuit.study import study
from diagrammer.layout.options import Options
from diagrammer.notes.state import NoState, shown
from tests.layout.common_systems import NAMES, parsed, sample

WEAK = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  heater: {kind: load, voltage: 12 V, power: 900 W}
  horn: {kind: load, voltage: 12 V, power: 40 W, hours: 0.1}
  bell: {kind: load, voltage: 12 V, current: 1 A, hours: 0.1}
circuits:
  - {name: heater, feed: bank -> fuse 100 A -> heater, wire: 6 mm² 25 m}
  - {name: horn, feed: bank -> fuse 5 A -> horn, wire: 1.5 mm² 2 m}
  - {name: bell, feed: bank -> fuse 5 A -> bell, wire: 1.5 mm² 2 m}
"""


def words(scene) -> list[str]:
    return [text.text for sheet in scene.sheets for text in sheet.texts]


def drawn(system, state: str, **options):
    return pipeline.lay_out(system, (), pipeline.in_state(system, state, Options(engine="own", **options)))


def test_an_unknown_state_lists_those_there_are():
    with pytest.raises(NoState, match="there is no state `at sea`; .*`parked, nothing charges`.*`full sun`"):
        shown(sample("workboat-12v"), "at sea")
    with pytest.raises(pipeline.Unusable, match="`engine running`"):
        pipeline.in_state(sample("workboat-12v"), "at sea", Options())


def test_a_state_s_name_may_be_written_in_any_letters():
    assert shown(sample("workboat-12v"), " Full SUN ").name == "full sun"


@pytest.mark.parametrize("name", NAMES)
def test_the_drawing_says_which_state_it_shows(name):
    for state in study(sample(name)).states:
        said = words(drawn(sample(name), state.name))
        assert f"State: {state.name}" in said
        assert any(text.endswith(f"; state: {state.name}") for text in said)


@pytest.mark.parametrize("size", ("A3", "A4", ""))
@pytest.mark.parametrize("name", NAMES)
def test_gates_hold_with_currents_and_voltages(name, size):
    for state in study(sample(name)).states:
        assert drawn(sample(name), state.name, size=size).remarks == ()


@pytest.mark.parametrize("name", NAMES)
def test_gates_hold_with_everything_written_at_once(name):
    state = study(sample(name)).states[-1].name
    assert drawn(sample(name), state, size="A4", numbers=True, both=True).remarks == ()


def test_a_state_that_collapses_is_said_to():
    system = parsed(WEAK)
    made = shown(system, "parked, nothing charges")
    assert not made.readings
    scene = drawn(system, "parked, nothing charges")
    said = words(scene)
    assert "State: parked, nothing charges - cannot last" in said
    assert any("voltage gives way at heater" in text for text in said)
    assert not any(text.endswith((" A", " V")) and text.startswith(("↓", "↑", "→", "←")) for text in said)


def test_of_momentary_loads_the_largest_is_on():
    system = parsed(WEAK.replace("900 W", "30 W"))
    made = shown(system, "parked, nothing charges")
    assert made.readings["horn:f0"].amps[0] > 3 and made.readings["bell:f0"].amps == (0.0,)
    assert made.told[2] == "Of the loads that run for moments only, horn alone is on."


def test_arrows_show_which_way_the_current_flows():
    """The bank's own line lies upright: down into the bank in full sun, up out of it in the dark."""
    system = sample("bird-observatory-48v")
    cable = "main:f0"
    arrows = {}
    for state in ("parked, nothing charges", "full sun and wind"):
        sheets = drawn(system, state).sheets
        arrows[state] = next(t.text[0] for s in sheets for t in s.texts if t.owner == cable and t.text[0] in "↑↓")
    assert arrows == {"parked, nothing charges": "↑", "full sun and wind": "↓"}


def test_what_is_told_of_the_state_stands_over_the_title_block():
    sheet = drawn(sample("bird-observatory-48v"), "full sun and wind").sheets[0]
    told = [text for text in sheet.texts if text.role == "note"]
    caption = min(text.x for text in sheet.texts if text.role == "caption")
    caution = min(text.y for text in sheet.texts if text.role == "caution")
    assert {abs(text.x - caption) < 2 for text in told} == {True}
    assert 0 < caution - max(text.y for text in told) < 12


def test_positions_are_told():
    system = sample("animal-clinic-24v")
    assert "Positions: combi inverting." in shown(system, "full sun").told
    assert "Positions: combi bypass." in shown(system, "on shore power").told
