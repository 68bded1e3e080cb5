"""The schema against the reader: what reads well is valid, what has a wrong word or unit in a field is not."""

from __future__ import annotations

import json

import jsonschema
import pytest
import yaml

from diagrammer.__main__ import main
from diagrammer.kinds import KINDS
from diagrammer.netlist.read import read
from diagrammer.netlist.schema import schema
from tests.netlist.reading import STOCK, netlist
from tests.netlist.test_fuzz import SAMPLES
from tests.systems.generate import generate

SCHEMA = json.loads(json.dumps(schema()))
CHECK = jsonschema.Draft202012Validator(SCHEMA)


class Core(yaml.SafeLoader):
    """Scalars as the core schema of YAML 1.2 has them (10.3.2): `yes`, `on` and `12:30` are strings."""


Core.yaml_implicit_resolvers = {}
for tag, pattern, first in (("bool", "true|false", "tf"), ("int", "[-+]?[0-9]+", "-+0123456789"),
                            ("float", r"[-+]?([0-9]+)?[.][0-9]+", "-+.0123456789"), ("null", "~|null|", "~n")):
    Core.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", __import__("re").compile(f"^({pattern})$"), list(first))


def faults(text: str) -> list[str]:
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message}"
            for error in CHECK.iter_errors(yaml.load(text, Core))]


def test_it_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("number", range(len(SAMPLES)))
def test_samples_are_valid(number):
    assert not faults(SAMPLES[number])


@pytest.mark.parametrize("seed", range(40))
def test_generated_systems_are_valid(seed):
    assert not faults(generate(seed, 30))


def test_the_stock_is_valid():
    assert not faults(netlist("feed: bank -> lamp",
                              nodes="\n".join(f"{name}-x: {{{fields}}}"
                                              for name, fields in STOCK.items() if "return-bar" not in fields)))


def test_the_command(capsys):
    assert main(["schema"]) == 0
    assert json.loads(capsys.readouterr().out) == SCHEMA


def test_every_kind_and_field_is_there():
    for kind in KINDS.values():
        properties = SCHEMA["$defs"][kind.name]["properties"]
        assert set(properties) == {"kind", "label", "note", "part", "accept", *(field.name for field in kind.fields)}
        assert all(properties[field.name]["description"] for field in kind.fields)


GOOD = [
    "a: {kind: bar, rating: 12.5 A, label: 5}", "a: {kind: bar, rating: 100A}",
    "a: {kind: load, voltage: 9 .. 33 V, power: 5 W}",
    "a: {kind: load, voltage: 12 V, current: 500 mA, critical: yes, hours: 0.5}",
    "a: {kind: shore, rating: 30 A, phases: 2}", "a: {kind: shore, rating: 30 A, phases: 3+N}",
    "a: {kind: chassis, strap: 1 ft 6 in}", "a: {kind: chassis, strap: 1/2 in}", "a: {part: big-fuse}",
    "a: {part: big-fuse, kind: fuse, rating: 5 A}",
    "a: {kind: other, ports: {x: dc, y: lead}}", "a: {kind: selector, rating: 5 A, positions: {off: none, 1: a+b c+d}}",
    "a: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 1.2 kWh, cold cutoff: no}",
    "a: {kind: pv, power: 100 W, voc: 20 V, isc: 5 A, voc drift: -0.28 %/°C}",
    "a: {kind: pv, power: 100 W, voc: 20 V, isc: 5 A, voc drift: −60 mV/K}",
    "a: {kind: resistor, resistance: 47 \u2126}", "a: {kind: bar, rating: 5 A, accept: {thin-return: short}}",
]
BAD = [
    "a: {kind: bar}", "a: {kind: bar, rating: 5}", "a: {kind: bar, rating: 5 V}", "a: {kind: bar, rating: five A}",
    "a: {kind: bar, rating: 5 A, ratting: 5 A}", "a: {kind: baar, rating: 5 A}", "a: {rating: 5 A}", "a: bar",
    "a: {kind: load, voltage: 12 V}", "a: {kind: load, voltage: 12 V, power: 5 W, critical: true}",
    "a: {kind: load, voltage: 12 V, power: 5 W, hours: 25}", "a: {kind: load, voltage: 12 V, power: 5 W, count: 0}",
    "a: {kind: load, voltage: 12 V, power: 5 W, duty: x}", "a: {kind: shore, rating: 30 A, phases: 4}",
    "a: {kind: other}", "a: {kind: other, ports: {x: ad}}", "a: {kind: selector, rating: 5 A, positions: {on: a}}",
    "a-: {kind: bar, rating: 5 A}",
    "a b: {kind: bar, rating: 5 A}", "a: {kind: bar, rating: 5 A, accept: yes}",
    "a: {kind: load, voltage: 9 .. V, power: 5 W}",
]


@pytest.mark.parametrize(("node", "good"), [*((node, True) for node in GOOD), *((node, False) for node in BAD)])
def test_nodes(node, good):
    assert (not faults(f"nodes:\n  {node}\ncircuits: []\n")) == good


@pytest.mark.parametrize("node", GOOD)
def test_what_the_schema_lets_through_the_reader_reads(node):
    _, problems = read(f"nodes:\n  {node}\ncircuits: []\n")
    assert not [one.message for one in problems if "part" not in one.message]


@pytest.mark.parametrize(("circuit", "good"), [
    ("{feed: a -> b}", True), ("{feed: a/fuse -> b, return: none, wire: 10 AWG 2 m}", True),
    ("{ac: a -> b, wire: [2/0 AWG 0.3 m, 0.2 m]}", True), ("{return: a -> b, wire: 4 ft 6 in}", True),
    ("{name: x, feed: a -> b, wire: {feed: 2 parallel 4/0 1 m, return: {size: 70 mm², in: conduit}}, accept: {x: y}, "
     "note: z}", True), ("{bond: a -> b, wire: {hops: [250 kcmil 1 m], insulation: 105 °C, material: tinned}}", True),
    ("{feed: a}", False), ("{}", False), ("{wire: 1 m}", False), ("{feed: a -> b, ac: a -> b}", False),
    ("{feed: a -> b, wire: 10 AWG 2}", False), ("{feed: a -> b, wire: 10 gauge 2 m}", False),
    ("{feed: a -> b, wire: ''}", False),
    ("{feed: a -> b, wire: {gauge: 2}}", False), ("{feed: a -> b, length: 2 m}", False), ("a -> b", False),
    ("{feed: [a, b]}", False), ("{return: none}", True), ("{bond: none}", False),
    ("{feed: a -> b, wire: {material: gold}}", False),
])
def test_circuits(circuit, good):
    assert (not faults(f"nodes: {{a: {{kind: bar, rating: 5 A}}}}\ncircuits:\n  - {circuit}\n")) == good


@pytest.mark.parametrize(("head", "good"), [
    ("title: A van", True), ("practice: nec", True), ("practice: usa", False),
    ("site: {coldest: -15 °C, sun hours: 3.8, autonomy: 2 days}", True), ("site: {coldest: 5}", False),
    ("site: {rain: 5 mm}", False),
    ("wire: {insulation: 105 °C}", True), ("wire: {length: 2 m}", False), ("parts: [a.yaml]", True),
    ("parts: a.yaml", False), ("interlocks: [[a, b]]", True), ("interlocks: [[a]]", False),
    ("states: {x: {a: off, b: 2}}", True), ("states: {x: 2}", False),
    ("sheet: {owner: Kim, revision: 2}", True), ("sheet: {boss: Kim}", False), ("colour: red", False),
])
def test_sections(head, good):
    assert (not faults(f"{head}\nnodes: {{}}\ncircuits: []\n")) == good
