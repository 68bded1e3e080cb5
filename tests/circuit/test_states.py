"""Operating states: those named, those derived, the position of what has several."""

from __future__ import annotations

import pytest

from diagrammer.circuit.flow import Operation
import pytest

from diagrammer.circuit.states import states
from tests.circuit.cases import netlist, system

TEXT = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  spare: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  both: {kind: selector, rating: 100 A}
  pedestal: {kind: shore, rating: 30 A}
  combi: {kind: inverter charger, power: 1 kW, charge: 20 A}
circuits:
  - {feed: bank/fuse 100 A -> both.1, wire: 4 AWG 1 m}
  - {feed: spare/fuse 100 A -> both.2, return: spare -> bank, wire: 4 AWG 1 m}
  - {feed: both/fuse 10 A -> lamp, return: lamp -> bank, wire: 14 AWG 1 m}
  - {feed: bank/fuse 100 A -> combi, return: combi -> bank, wire: 4 AWG 1 m}
  - {ac: pedestal -> breaker 2-pole 30 A -> combi.in, wire: [10 AWG 1 m, 1 m]}
"""


def found(said: str = "") -> dict:
    return {one.name: one for one in states(system(TEXT + said))}


def test_those_that_follow_from_the_sources():
    one = found()
    assert list(one) == ["parked, nothing charges", "on shore power"]
    assert one["on shore power"].running == {"pedestal"} and not one["parked, nothing charges"].running


def test_an_inverter_charger_passes_shore_power_on_where_it_has_some():
    positions = {name: dict(one.positions) for name, one in found().items()}
    assert positions["on shore power"]["combi"] != positions["parked, nothing charges"]["combi"]


def test_a_selector_stands_where_the_state_says_and_else_in_the_first_that_joins():
    assert {one.positions["both"] for one in found().values()} == {"1"}
    named = found("states: {night: {both: '2', lamp: off}, dock: {pedestal: on}, away: {pedestal: off}}\n")
    assert list(named) == ["night", "dock", "away"]
    assert named["night"].positions["both"] == "2" and named["dock"].positions["both"] == "1"
    assert named["night"].off == {"lamp"} and named["dock"].running == {"pedestal"} and not named["away"].running
    assert "lamp" not in named["night"].positions


SPARE = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  fan: {kind: load, voltage: 12 V, current: 5 A}
  spare: {kind: switch, rating: 20 A, OPEN}
circuits:
  - {feed: bank/fuse 10 A -> spare -> fan, wire: 12 AWG 1 m}
"""


@pytest.mark.parametrize(("rests", "said", "amps"), [
    ("open: yes", "", 0), ("open: yes", "on", 5), ("open: yes", "off", 0),
    ("open: no", "", 5), ("open: no", "on", 5), ("open: no", "off", 0),
])
def test_a_state_closes_a_switch_that_rests_open_and_opens_one_that_rests_closed(rests, said, amps):
    text = SPARE.replace("OPEN", rests) + (f"states: {{now: {{spare: {said}}}}}\n" if said else "")
    one = system(text)
    flow = Operation(one, states(one)[0]).flow
    assert abs(flow.amps.get(one.conductors[0].id, 0.0)) == pytest.approx(amps)


EVERYTHING = {
    "alt": "alternator, output: 60 A", "quay": "shore, rating: 16 A", "gen": "generator, power: 2 kW, neutral: floating",
    "roof": "pv, power: 100 W, voc: 22 V, isc: 6 A", "mill": "wind, power: 100 W", "wheel": "hydro, power: 100 W",
}
BANK = "bank: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah"


def derived(*names: str) -> dict[str, set[str]]:
    nodes = "\n".join((BANK, "lamp: load, voltage: 12 V, power: 10 W", *(f"{name}: {EVERYTHING[name]}" for name in names)))
    found = states(system(netlist(nodes, "lamp: feed: bank/fuse 5 A -> lamp, wire: 14 AWG 1 m")))
    return {one.name: set(one.running) for one in found}


def test_at_rest_with_each_sort_of_source_and_with_all():
    """Of shore power and a generator only one runs at a time."""
    assert derived(*EVERYTHING) == {
        "parked, nothing charges": set(), "engine running": {"alt"}, "on shore power": {"quay"}, "on the generator": {"gen"},
        "full sun, wind and water": {"roof", "mill", "wheel"}, "everything at once": {"alt", "quay", "roof", "mill", "wheel"},
    }
    assert list(derived(*EVERYTHING)) == [
        "parked, nothing charges", "engine running", "on shore power", "on the generator", "full sun, wind and water", "everything at once"]


@pytest.mark.parametrize(("names", "found"), [
    ((), {"parked, nothing charges": set()}),
    (("mill",), {"parked, nothing charges": set(), "full wind": {"mill"}}),
    (("gen", "roof"), {"parked, nothing charges": set(), "on the generator": {"gen"}, "full sun": {"roof"},
                       "everything at once": {"gen", "roof"}}),
])
def test_only_what_the_system_has(names, found):
    assert derived(*names) == found


def at(nodes: str, lines: str, head: str = "") -> dict[str, dict[str, str]]:
    return {one.name: dict(one.positions) for one in states(system(netlist(f"{BANK}\n{nodes}", lines, head=head)))}


def test_what_a_named_state_says():
    nodes = "\n".join((BANK, "lamp: load, voltage: 12 V, power: 10 W", "pump: load, voltage: 12 V, power: 10 W",
                       "sel: selector, rating: 100 A", *(f"{name}: {text}" for name, text in EVERYTHING.items())))
    head = "states: {now: {alt: on, quay: off, roof: on, lamp: off, pump: on, sel: off}}"
    (now,) = states(system(netlist(nodes, "lamp: feed: bank/fuse 5 A -> lamp, wire: 14 AWG 1 m", head=head)))
    assert (now.name, now.running, now.positions) == ("now", {"alt", "roof"}, {"sel": "off"})
    assert now.off == {"quay", "lamp", "sel"}


COMBI = "combi: inverter charger, power: 1 kW, charge: 20 A{}\n" + "\n".join(f"{name}: {EVERYTHING[name]}" for name in ("quay", "gen"))
IN = "{0}: ac: {0} -> breaker 2-pole 15 A -> {1}, wire: [12 AWG 1 m, 1 m]"


def test_an_inverter_charger_passes_on_the_input_that_is_fed():
    found = at(COMBI.format(", inputs: 2"), "\n".join((IN.format("quay", "combi.in"), IN.format("gen", "combi.in2"))))
    assert {name: one["combi"] for name, one in found.items()} == {
        "parked, nothing charges": "inverting", "on shore power": "bypass", "on the generator": "bypass 2", "everything at once": "bypass"}


def test_what_feeds_its_output_is_no_input():
    nodes = COMBI.format("") + "\npanel: ac panel, rating: 30 A\nother: inverter, power: 1 kW, neutral: floating"
    lines = "\n".join((IN.format("gen", "panel"), IN.format("other", "combi.in"), "out: ac: combi -> panel, wire: 12 AWG 1 m"))
    assert {one["combi"] for one in at(nodes, lines).values()} == {"inverting"}  # nor does an inverter count as outside power


@pytest.mark.parametrize("more", ["", ", neutral: joined", ", positions: {1: 1+common, off: none, 2: 2+common}"])
def test_a_transfer_stands_where_something_runs(more):
    nodes = COMBI.format("") + f"\npick: transfer, rating: 30 A{more}"
    lines = "\n".join((IN.format("quay", "pick.1"), IN.format("gen", "pick.2")))
    assert {name: one["pick"] for name, one in at(nodes, lines).items()} == {
        "parked, nothing charges": "1", "on shore power": "1", "on the generator": "2", "everything at once": "1"}


def test_through_what_always_joins_and_not_through_another_switch():
    nodes = COMBI.format("") + ("\npick: transfer, rating: 30 A\nfirst: transfer, rating: 30 A\nbox: joint, phases: 1"
                                "\ninv: inverter, power: 1 kW, neutral: floating")
    box = "\n".join((IN.format("gen", "box"), "box: ac: box -> plug -> pick.2, wire: [12 AWG 1 m, 1 m]"))
    assert at(nodes, box)["on the generator"]["pick"] == "2"
    behind = "\n".join((IN.format("gen", "first.1"), "on: ac: first -> pick.2, wire: 12 AWG 1 m", IN.format("inv", "pick.1")))
    assert at(nodes, behind)["on the generator"]["pick"] == "1"


def test_an_output_by_name_leads_to_no_source():
    nodes = COMBI.format("") + "\npanel: ac panel, rating: 30 A\npick: transfer, rating: 30 A, positions: {a: x+out, b: y+out}"
    lines = "\n".join((IN.format("gen", "panel"), "out: ac: pick.out -> panel, wire: 12 AWG 1 m", IN.format("quay", "pick.y")))
    assert at(nodes, lines, "states: {now: {quay: on, gen: on}}")["now"]["pick"] == "b"


def test_a_selector_of_which_off_comes_first_or_alone():
    nodes = ("sel: selector, rating: 100 A, positions: {off: none, house: common+1, spare: common+2}\n"
             "lamp: load, voltage: 12 V, power: 10 W")
    assert at(nodes, "lamp: feed: bank/fuse 5 A -> sel.1, return: none, wire: 14 AWG 1 m")["parked, nothing charges"] == {"sel": "house"}


@pytest.mark.parametrize("kind", ["inverter, power: 1 kW, neutral: floating", "inverter charger, power: 1 kW, charge: 20 A"])
def test_a_transfer_stands_at_what_inverts_where_nothing_runs(kind):
    nodes = COMBI.format("") + f"\nown: {kind}\npick: transfer, rating: 30 A"
    lines = "\n".join((IN.format("quay", "pick.1"), IN.format("own", "pick.2"), "e: bond: quay -> own, wire: 8 AWG 1 m"))
    assert {name: one["pick"] for name, one in at(nodes, lines).items()} == {
        "parked, nothing charges": "2", "on shore power": "1", "on the generator": "2", "everything at once": "1"}


@pytest.mark.parametrize(("open_", "said", "positions"), [
    ("yes", "on", {"sw": "on"}), ("yes", "off", {}), ("no", "on", {}), ("no", "off", {}),
])
def test_a_state_closes_a_switch_that_rests_open(open_, said, positions):
    nodes = f"sw: switch, rating: 30 A, open: {open_}\nlamp: load, voltage: 12 V, power: 10 W"
    lines = "lamp: feed: bank/fuse 5 A -> sw -> lamp, wire: [14 AWG 1 m, 1 m]"
    assert at(nodes, lines, f"states: {{now: {{sw: {said}}}}}") == {"now": positions}
