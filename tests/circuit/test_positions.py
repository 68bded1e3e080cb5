"""Which positions of selectors, transfers and isolators are looked at."""

from __future__ import annotations

import pytest

from diagrammer.circuit.nets import Nets
from diagrammer.circuit.positions import CLOSED, Positions
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import expect, system
from tests.circuit.stock import Case
from tests.circuit.test_protection_cases import selected

BOTH = "protection-too-large@common:f0"  # with both banks at once 300 A reach a conductor for 240 A at most


@pytest.mark.parametrize(("states", "found"), [
    ("", BOTH),  # without states every position is possible
    ("states: {one: {sel: 1}, two: {sel: 2}}", ""),
    ("states: {one: {sel: 1}, together: {sel: both}}", BOTH),  # one state that allows it is enough
    ("states: {one: {sel: 1}, resting: {lamp-1: off}}", BOTH),  # a state that does not say how it stands allows all
])
def test_states_tell_which_positions_there_are(states, found):
    expect(selected("") + states + "\n", found)


def chain(count: int, words: str = "", head: str = "") -> Positions:
    """A bank behind `count` selectors in a row."""
    case = Case(head=head).load("lamp")
    for number in range(count):
        case.node(f"s{number}", f"selector, rating: 300 A{words}")
        before = "feed-bar" if not number else f"s{number - 1}"
        case.line(f"l{number}", f"feed: {before} -> s{number}.1, return: none, wire: 2/0 AWG 1 m")
    return Survey(system(case.text)).start.positions


def met(of: Positions) -> list[tuple[str, ...]]:
    return [tuple(one.positions.values()) for cluster in of.clusters() if cluster.edges for one in cluster.combinations]


@pytest.mark.parametrize(("count", "combinations"), [(1, 4), (4, 4**4), (5, 1 + 5 * 3)])
def test_every_combination_up_to_256_then_each_position_once(count, combinations):
    found = met(chain(count))
    assert len(found) == len(set(found)) == combinations and found[0] == ("off",) * count
    assert {len(one) for one in found} == {count}
    assert {one[-1] for one in found} == {"off", "1", "2", "both"}
    if count == 5:
        assert all(sum(word != "off" for word in one) <= 1 for one in found)


def test_one_position_is_no_choice():
    of = chain(1, ", positions: {on: 1+common}")
    assert of.choosers == {} and met(of) == []


def test_what_is_open_in_a_position():
    of = chain(1)
    (cluster,) = [one for one in of.clusters() if one.edges]
    shut = {one.positions["s0"]: len(one.open) for one in cluster.combinations}
    assert shut == {"off": 2, "1": 1, "2": 1, "both": 0}
    assert of.open_in({}) == frozenset() and len(of.open_in({"s0": "off"})) == 2
    assert of.open_in({"s0": "off"}, ()) == frozenset()


def test_of_an_interlock_one_is_closed():
    case = Case(head="interlocks: [[Q-a, Q-b]]").load("lamp").node("a", "bar, rating: 100 A").node("b", "bar, rating: 100 A")
    for name in "ab":
        case.line(name, f"feed: feed-bar -> switch Q-{name} 100 A -> {name}, return: none, wire: [2 AWG 1 m, 1 m]")
    of = Survey(system(case.text)).start.positions
    nets = [(set(one.terminals), one.combination.positions) for one in of.live() if "feed-bar" in one.terminals]
    assert [(("a" in terminals), ("b" in terminals), positions) for terminals, positions in nets] == [
        (True, False, {"interlock 0": "Q-a"}), (False, True, {"interlock 0": "Q-b"})]


def test_a_net_that_two_combinations_share_comes_once():
    """Once for each position of what touches it, but not for each of those that do not."""
    of = chain(2)
    nets = [one for one in of.live() if "s1.2" in one.terminals and "s0.2" not in one.terminals]
    bars = [one for one in of.live() if "feed-bar" in one.terminals]
    assert len(bars) == len({(one.terminals, tuple(one.combination.positions.items())) for one in bars})
    alone = [one for one in nets if one.terminals == ("s1.2",)]
    assert [one.combination.positions["s1"] for one in alone] == ["off", "1"]


def test_every_position_is_looked_at_where_a_state_names_another_switch():
    of = Survey(system(selected("") + "states: {one: {sel: 1}}\n")).start.positions
    assert met(of) == [("1",)]


def test_a_state_allows_its_own_positions_together():
    assert met(chain(2, head="states: {one: {s0: 1, s1: 2}, two: {s0: off, s1: off}}")) == [("off", "off"), ("1", "2")]


def test_of_two_positions_each():
    assert met(chain(1, ", positions: {1: 1+common, 2: 2+common}")) == [("1",), ("2",)]


def test_without_choices_every_net_comes_once_and_as_it_is():
    view = Survey(system(Case().load("lamp").text)).start
    assert [one.terminals for one in view.live] == list(view.nets)
    assert all(cluster.combinations == (CLOSED,) for cluster in view.positions.clusters())
    assert {(len(one.combination.positions), len(one.combination.open)) for one in view.live} == {(0, 0)}


def test_a_neutral_that_is_joined_passes_in_every_position_and_a_bond_joins_nothing():
    case = Case().load("lamp").node("pick", "transfer, rating: 30 A, neutral: joined").node("quay", "shore, rating: 30 A")
    case.node("combi", "inverter charger, power: 1 kW, charge: 20 A, neutral: relay")
    case.line("in", "ac: quay -> breaker 2-pole 30 A -> pick.1, wire: [10 AWG 1 m, 1 m]")
    case.line("on", "ac: pick -> combi.in, wire: 10 AWG 1 m")
    view = Survey(system(case.text)).start
    of = view.positions
    assert len(of.open_in({"pick": "off"})) == 2 and len(of.open_in({"pick": "1"})) == 1  # its two lines
    keys = {key for cluster in of.clusters() for *_, key in cluster.edges}
    assert {view.edges[key]["form"] for key in keys} == {"contact"} and len(keys) == 4  # two lines, L and N of the bypass


def test_a_selector_in_an_interlock_needs_its_position_and_its_turn():
    case = Case(head="interlocks: [[sel, Q-b]]").load("lamp").node("sel", "selector, rating: 100 A").node("b", "bar, rating: 100 A")
    case.line("a", "feed: feed-bar -> sel.1, return: none, wire: 2 AWG 1 m")
    case.line("b", "feed: feed-bar -> switch Q-b 100 A -> b, return: none, wire: [2 AWG 1 m, 1 m]")
    of = Survey(system(case.text)).start.positions
    turns = {"sel": "1", "interlock 0": "sel"}, {"sel": "1", "interlock 0": "Q-b"}, {"sel": "off", "interlock 0": "sel"}
    assert [len(of.open_in(one)) for one in turns] == [2, 2, 3]  # contact 2 and Q-b; both contacts; all three


@pytest.mark.parametrize("forms", [("conductor",), ("conductor", "joint", "contact"), ("joint", "contact", "overcurrent")])
def test_what_some_positions_can_join_is_as_the_edges_that_are_said_to_join(forms):
    of = chain(2)

    def joins(data) -> bool:
        return data["form"] in forms

    assert [one.terminals for one in of.clusters(joins)] == list(Nets(of.graph, joins))
