"""The generator itself: repeatable, of the size asked for, readable, and of every shape."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from tests.systems import build, generate, render
from tests.systems.faults import SORTS, seed_fault

SIZES = (5, 6, 8, 12, 20, 30, 60, 120)


@pytest.mark.parametrize("size", SIZES)
def test_same_seed_same_text(size):
    assert generate(7, size) == generate(7, size) != generate(8, size)


@pytest.mark.parametrize("size", (5, 12, 30, 120, 400))
def test_size_is_what_was_asked(size):
    for seed in range(20):
        assert size <= len(build(seed, size).nodes) <= size + 3


def test_every_system_reads():
    for seed in range(200):
        text = generate(seed, SIZES[seed % len(SIZES)])
        system, problems = read(text, "generated.yaml")
        assert system is not None and not problems, f"{problems}\n{text}"


def test_every_kind_of_shape_comes_up():
    parts = {c.part for seed in range(300) for c in build(seed, (12, 30, 60)[seed % 3]).circuits}
    wanted = {
        "main",
        "lead",
        "link",
        "stack",
        "string",
        "selector lead",
        "main in feed",
        "sense",
        "alarm",
        "tie",
        "bar line",
        "cranking",
        "alternator lead",
        "isolator",
        "dc charger feed",
        "emergency",
        "pv line",
        "string line",
        "charger line",
        "wind line",
        "inverter output",
        "combi output",
        "transfer output",
        "transformer output",
        "shore line",
        "generator line",
        "outlet line",
        "converter output",
        "converter output paired",
        "feeder",
        "feeder paired",
        "sub feeder",
        "chain",
        "tee",
        "coil",
        "main bond",
        "frame return",
        "cooker line",
        "thruster",
        "dump line",
        "keyed",
        "stripped",
        "twice fed",
        "motor line",
    }
    assert wanted <= parts


def test_every_sort_of_fault_finds_a_system_and_reads_and_every_rule_has_one():
    missing, rules = set(SORTS), set(RULES)
    for seed in range(400):
        model = build(seed, (12, 30, 60)[seed % 3])
        for sort in sorted(missing):
            fault = seed_fault(model, sort, seed)
            if fault:
                system, problems = read(render(fault.model), "faulty.yaml")
                assert system is not None, (sort, problems)
                missing.remove(sort)
                rules -= {mark.partition("@")[0] for mark in fault.marks}
        if not missing:
            break
    assert not missing and not rules


def test_a_fault_leaves_the_sound_system_alone():
    model = build(3, 30)
    before = render(model)
    assert seed_fault(model, "post_fuse_left_out", 1) is not None
    assert render(model) == before
