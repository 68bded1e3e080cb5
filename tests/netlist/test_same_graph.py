"""What makes no difference to the graph: the order of circuits, the style of the YAML, the sense of a return."""

from __future__ import annotations

import re
from collections import Counter

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from diagrammer.netlist.model import System
from diagrammer.netlist.read import read
from tests.netlist.reading import edges as made
from tests.netlist.reading import system
from tests.netlist.test_fuzz import SAMPLES
from tests.systems.generate import generate

seeds = st.integers(0, 10_000)
few = settings(max_examples=30, deadline=None)


def sound(text: str) -> System:
    found, problems = read(text)
    assert not problems, [f"{one.at}: {one.message}" for one in problems] + [text]
    return found


def edges(of: System, names: dict[str, str], circuits: bool = True) -> Counter:
    """Every edge with all it carries, under other names of nodes and terminals; both ways round alike."""
    twice = {one.id for one in of.conductors if one.derived and shared(of, one)}

    def name(terminal: str) -> str:
        if terminal in names:
            return names[terminal]
        node, dot, rest = terminal.partition(".")
        return names.get(node, node) + dot + rest

    made = Counter()
    for one in of.conductors:
        run = of.runs[one.run] if one.run else None
        length = None if one.id in twice else run and (run.length, len(run.members)) or one.length
        wire = None if one.id in twice else one.wire
        made[frozenset(map(name, (one.a, one.b))), one.side, one.role, one.core, wire, length, one.derived,
             one.circuit if circuits else ""] += 1
    for one in of.joints:
        made[frozenset(map(name, (one.a, one.b))), one.side, "joint", one.core, one.circuit if circuits else ""] += 1
    for one in of.insides:
        made[frozenset(map(name, (one.a, one.b))), one.side, one.form, one.core, one.positions] += 1
    return made


def shared(of: System, one) -> bool:
    """Whether the derived return may be that of several feeds: the first in the file gives its size and length."""
    fed = Counter(end for other in of.conductors + of.joints if other.side == "feed" for end in {other.a, other.b})
    return any(fed[f"{end[:-1]}+"] > 1 for end in (one.a, one.b) if end.endswith(".-"))


def renamed(a: System, b: System, order: list[int]) -> dict[str, str]:
    """The anonymous devices of b by their names in a: circuit n of b is circuit order[n] of a."""
    names = {}
    for position, circuit in enumerate(b.circuits):
        for one, other in zip(circuit.legs, a.circuits[order[position]].legs, strict=False):
            names |= {x.node: y.node
                      for x, y in zip(one.stops, other.stops, strict=True) if not b.nodes[x.node].declared}
    return names


@few
@given(seeds, st.data())
def test_the_order_of_circuits(seed, data):
    tree = yaml.load(generate(seed, 20), yaml.BaseLoader)
    order = data.draw(st.permutations(range(len(tree["circuits"]))))
    other = sound(yaml.dump({**tree, "circuits": [tree["circuits"][n] for n in order]}, allow_unicode=True,
                            sort_keys=False))
    plain = sound(yaml.dump(tree, allow_unicode=True, sort_keys=False))
    assert edges(other, renamed(plain, other, order), circuits=False) == edges(plain, {}, circuits=False)


@few
@given(st.one_of(seeds.map(lambda seed: generate(seed, 20)), st.sampled_from(SAMPLES)),
       st.sampled_from([None, True, False]), st.integers(20, 200),
       st.sampled_from([None, "'", '"']))
def test_flow_or_block_folded_or_quoted(text, flow, width, quote):
    """Long texts are folded over lines by the writer."""
    other = yaml.dump(yaml.load(text, yaml.BaseLoader), allow_unicode=True, sort_keys=False, default_flow_style=flow,
                      width=width, default_style=quote)
    assert edges(sound(other), {}) == edges(sound(text), {})


@few
@given(seeds)
def test_remarks_and_blank_lines(seed):
    text = generate(seed, 15)
    other = re.sub("\n", "   # a remark: {with} [signs]\n\n", text)
    assert edges(sound(other), {}) == edges(sound(text), {})


@settings(max_examples=100, deadline=None)
@given(st.permutations(["meter", "fuse 5 A", "switch", "splice", "strip.1", "strip.2", "earth-bar", "switch 2-pole"]),
       st.integers(0, 8),
       st.lists(st.sampled_from([" -> ", "/"]), min_size=9, max_size=9),
       st.sampled_from(["return-bar", "lone-bar", "lamp", "b1"]))
def test_a_written_return_turned_round(middle, count, joints, end):
    """The same graph, but for which contact of a fuse or switch is the first."""
    stops = ["bank", *(one for one in middle[:count] if (one, end) != ("meter", "b1")), end]
    joints = joints[: len(stops) - 1]

    def written(stops: list[str], joints: list[str]) -> System:
        path = stops[0] + "".join(joint + stop for joint, stop in zip(joints, stops[1:], strict=True))
        return system(f"return: {path}, wire: 10 AWG 3 m" if " -> " in joints else f"return: {path}")

    plain, turned = written(stops, joints), written(stops[::-1], joints[::-1])
    names, devices = {}, [node for node in turned.nodes.values() if node.kind.device]
    kinds = {}
    for node in plain.nodes.values():
        kinds.setdefault((node.kind.name, node.get("poles")), node.name)
    for node in devices:
        own = kinds[node.kind.name, node.get("poles")]
        names |= {f"{node.name}.{a}": f"{own}.{b}" for a, b in ("12", "21", "34", "43")}
    assert edges(turned, names, circuits=False) == edges(plain, {}, circuits=False)


def test_a_shunt_without_a_battery_at_either_end_faces_the_end_written_first():
    assert made(system("return: lone-bar -> meter -> "
                       "return-bar")) != made(system("return: return-bar -> meter -> lone-bar"))
