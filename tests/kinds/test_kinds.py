"""Every kind keeps its contract, with many sets of values."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagrammer import quantity
from diagrammer.kinds import DEVICES, KINDS
from diagrammer.kinds.kind import Field, Kind, Values
from diagrammer.symbols import find

# What the language promises, in its own order.
NAMES = """bank, battery, pv, wind, hydro, alternator, shore, generator, solar charger, wind charger, dump controller,
dc charger, ac charger, converter, inverter, inverter charger, pv inverter, transformer, drive, bar, panel, ac panel,
joint, terminals, chassis, hull, engine, earth, rod, sea plate, fuse, breaker, switch, rcd, rcbo, diode, resistor,
plug, galvanic-isolator, shunt, relay, contactor, isolator, bms, selector, transfer, load, starter, ac load, outlet,
other""".replace("\n", " ").split(", ")
DEVICE_NAMES = "fuse breaker switch rcd rcbo diode resistor plug galvanic-isolator".split()
LETTERS = set("ABCEFGHKMPQRSTUVWX")  # classes of IEC 81346-2:2009, from memory
SORTS = {
    "quantity", "window", "word", "yes/no", "count", "number", "text", "node", "nodes", "ports", "positions",
}
FORMS = {"contact", "overcurrent", "shunt", "diode", "common", "bond", "resistor", "capacitor"}
ROLES = {"storage", "source", "raw", "charger", "converter"}
CLAIMS = {"storage", "source", "input", "load"}

every = pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS.keys())


MAY_BE_NOTHING = {"charge", "regen", "hours", "strap"}  # a charger turned off, a load that never runs
METAL = {"chassis", "hull", "engine", "earth", "rod", "sea plate"}  # its resistance may be left out of account


@every
def test_no_quantity_is_nothing(kind: Kind):
    """0 A, 0 Ah or 0 V is a slip of the pen, and would be divided by."""
    for field in kind.fields:
        if field.form.sort in ("quantity", "window") and field.form.dimensions[0] not in ("drift", "temperature"):
            excused = field.name in MAY_BE_NOTHING or (field.name == "resistance" and kind.name in METAL)
            assert excused or field.above == 0 or field.least > 0, field.name


def some(field: Field) -> st.SearchStrategy:
    """Values that a field may be read as."""
    low, high = field.least or 0.0, field.most or 500.0
    amount = st.floats(max(low, 0.5), high, allow_nan=False)
    groups = st.lists(st.sampled_from([("1", "common"), ("2", "common"), ("a", "b", "c")]), max_size=2, unique=True)
    return {
        "quantity": amount, "number": amount,
        "window": amount | st.tuples(amount, amount).map(lambda pair: tuple(sorted(pair))),
        "word": st.sampled_from(field.form.words or ("none",)),
        "yes/no": st.booleans(), "count": st.integers(1, int(field.most or 6)),
        "text": st.sampled_from(["G", "left"]), "node": st.just("bar"), "nodes": st.just(("bar",)),
        "ports": st.just({"main": "dc", "middle": "lead", "second": "dc", "line": "ac"}),
        "positions": st.dictionaries(st.sampled_from("xyz"), groups.map(tuple), min_size=1).filter(any_common),
    }[field.form.sort]


def any_common(positions) -> bool:
    return any("common" in group for groups in positions.values() for group in groups)


@st.composite
def values(draw, kind: Kind) -> Values:
    """Required fields, and any of the others, or their defaults."""
    given_ = {}
    for field in kind.fields:
        if field.required or draw(st.booleans()):
            given_[field.name] = draw(some(field))
        elif field.default is not None and draw(st.booleans()):
            given_[field.name] = field.default
    return Values(given_, draw(st.sampled_from(["abyc", "iso", "nec"])))


def test_all_kinds_of_the_language_are_there():
    assert set(KINDS) == set(NAMES)
    assert list(KINDS) == sorted(KINDS)
    assert set(DEVICES) == set(DEVICE_NAMES)


@every
def test_is_documented(kind):
    assert kind.says.endswith(".") and len(kind.says) > 10
    assert kind.letter in LETTERS
    assert kind.sort in ("point", "through", "end")
    for field in kind.fields:
        assert field.says, field.name
        assert field.form.sort in SORTS
        assert all(dimension in quantity.DIMENSIONS for dimension in field.form.dimensions)
        assert not (field.required and field.default is not None), field.name
        assert field.form.sort != "word" or field.form.words
    names = [field.name for field in kind.fields]
    assert len(set(names)) == len(names)
    assert all(name in names for group in kind.either for name in group)


@every
def test_words_of_a_device_belong_to_its_fields(kind):
    fields = {field.name: field for field in kind.fields}
    of_fields = {word for field in kind.fields for word in field.form.words}
    for word in kind.words:
        assert word in of_fields or fields[word].form.sort == "yes/no", word


@every
@settings(max_examples=20, deadline=None)
@given(data=st.data())
def test_refers_to_nothing_it_has_not(kind, data):
    of = data.draw(values(kind))
    ports = {port.name: port for port in kind.ports(of)}
    assert len(ports) == len(kind.ports(of)) > 0
    terminals = [local for port in ports.values() for local in port.terminals()]
    assert len(set(terminals)) == len(terminals) > 0
    positions = kind.positions(of)
    for inner in kind.inside(of):
        assert inner.a in terminals and inner.b in terminals and inner.a != inner.b
        assert inner.form in FORMS and set(inner.positions) <= set(positions)
    for gives in kind.gives(of):
        assert gives.port in ports and gives.role in ROLES and gives.amps >= 0
        assert set(gives.positions) <= set(positions)
    for claim in kind.claims(of):
        assert claim.port in ports and claim.role in CLAIMS and 0 < claim.low <= claim.high < math.inf
        assert (ports[claim.port].form == "ac") == bool(claim.volts) or claim.stated
    for pair in kind.supplies(of):
        assert set(pair) <= set(ports) and pair[0] != pair[1]
    assert kind.letter_of(of) in LETTERS
    assert find(kind.symbol_of(of))


@every
@settings(max_examples=20, deadline=None)
@given(data=st.data())
def test_survives_a_file_half_read(kind, data):
    """A field whose text was wrong is missing, required or not."""
    of = data.draw(values(kind))
    left = Values({name: value for name, value in of.items() if data.draw(st.booleans())}, of.practice)
    for function in (kind.ports, kind.inside, kind.gives, kind.claims, kind.supplies, kind.positions):
        assert isinstance(function(left), tuple)


@every
@settings(max_examples=20, deadline=None)
@given(data=st.data())
def test_earth_is_there_where_a_bond_ends(kind, data):
    of = data.draw(values(kind))
    for inner in kind.inside(of):
        if inner.form == "bond":
            assert inner.a.endswith("N") and inner.b == "earth"
