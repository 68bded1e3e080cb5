"""What each phase promises to the next, on samples and generated systems."""

from __future__ import annotations

import pytest

from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import SIGNALS, wiring
from diagrammer.layout.p2_chains import chains
from diagrammer.layout.p3_returns import returns
from diagrammer.layout.p3_tree import tree
from diagrammer.layout.p3_ways import up
from diagrammer.layout.p4_blocks.plan import Plan, Words
from diagrammer.layout.p5_place import piece
from diagrammer.layout.texts import designations
from tests.layout.common_systems import NAMES, made, parsed, sample

SYSTEMS = [*NAMES, *range(200, 215)]


def system(which):
    return sample(which) if isinstance(which, str) else made(which)


def forest(which):
    wired = wiring(system(which))
    return tree(wired, chains(wired, wired.links))


@pytest.mark.parametrize("which", SYSTEMS)
def test_every_hop_is_in_one_list_of_the_wiring(which):
    wired = wiring(system(which))
    hops = sum(len(leg.links) for circuit in system(which).circuits for leg in circuit.legs)
    lists = (wired.links, wired.returns, wired.paired)
    assert hops == sum(map(len, lists)) == len({link.index for some in lists for link in some})


@pytest.mark.parametrize("which", SYSTEMS)
def test_every_link_is_in_one_chain_and_members_are_met_once(which):
    wired = wiring(system(which))
    made_ = chains(wired, wired.links)
    assert sorted(link.index for chain in made_ for link in chain.links) == sorted(link.index for link in wired.links)
    members = [member.vertex for chain in made_ for member in chain.members]
    assert len(members) == len(set(members))
    for chain in made_:
        assert len(chain.links) == len(chain.members) + 1
        assert not {vertex for vertex, port in (chain.a, chain.b) if port not in SIGNALS} & set(members)


@pytest.mark.parametrize("which", SYSTEMS)
def test_every_hub_is_in_a_tree_and_every_chain_is_tree_or_cross(which):
    grown = forest(which)
    assert set(grown.at) == set(grown.reached)
    led = {came[0].index for came in grown.reached.values() if came}
    for chain in grown.chains:
        assert (chain.index in led) != (chain.index in grown.cross)
    for vertex, came in grown.reached.items():
        if came is None:
            assert vertex in grown.roots


@pytest.mark.parametrize("which", SYSTEMS)
def test_every_return_is_drawn_tagged_or_crossed_once(which):
    sorted_ = returns(forest(which))
    uses = [chain.index for tags in sorted_.tags.values() for _, chain, _ in tags]
    uses += [chain.index for tails in sorted_.tails.values() for chain, _, _ in tails if chain]
    uses += [chain.index for down in sorted_.down.values() for chain, _ in down]
    uses += list(sorted_.cross)
    assert sorted(uses) == [chain.index for chain in sorted_.chains]


@pytest.mark.parametrize("which", SYSTEMS)
def test_blocks_keep_what_they_hold_inside_their_room(which):
    grown = forest(which)
    plan = Plan(grown, returns(grown), Options(), Words(designations(system(which)), {}))
    for root in grown.roots:
        if root in grown.wiring.vertices:
            for placed in piece(plan, root, "own"):
                block = placed.block
                assert not block.tails
                for left, top, right, bottom in block.extents():
                    assert block.left <= left + 1e-6 and right <= block.right + 1e-6
                    assert block.top <= top + 1e-6 and bottom <= block.bottom + 1e-6


def test_the_bar_with_most_circuits_is_the_main_bar():
    assert forest("workboat-12v").roots[0] == ("feed-bar", "")


def test_sources_stand_above_their_bar_and_loads_below():
    grown = forest("workboat-12v")
    ends = {
        (chain.b if at_a else chain.a)[0][0]: up(grown, chain, chain.a if at_a else chain.b)
        for port, chain, at_a in grown.ends(("feed-bar", ""))
    }
    assert ends["sun"] and ends["mains-charger"] and ends["engine-battery"]
    assert not ends["bank-feed"] and not ends["wheelhouse"] and not ends["inverter"]


def test_designations_are_those_written_or_numbered_in_file_order():
    text = """
title: Names
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  F2: {kind: fuse, rating: 10 A}
  spare: {kind: fuse, rating: 10 A}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  pump: {kind: load, voltage: 12 V, power: 20 W, duty: motor}
circuits:
  - {feed: bank -> F2 -> lamp, wire: 14 AWG 2 m}
  - {feed: bank -> spare -> pump, wire: 14 AWG 2 m}
"""
    assert designations(parsed(text)) == {"bank": "G1", "F2": "F2", "spare": "F1", "lamp": "E1", "pump": "M1"}
