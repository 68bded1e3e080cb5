"""`@frozen` against `@dataclass(frozen=True)`, which it stands for."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, dataclass, field, fields, replace

import pytest

from diagrammer.frozen import changing, frozen


def of(decorate, **options):
    """The same class made by either."""
    class Wire:
        name: str
        amps: float = 10.0
        cores: list[int] = field(default_factory=list)
        note: str = field(default="", compare=False, repr=False)

    return (decorate(**options) if options else decorate)(Wire)


def ours(**options):
    return of(frozen, **options)


def theirs():
    return of(dataclass(frozen=True))


def test_it_is_made_equal_and_shown_alike():
    for given, named in ((("a",), {}), (("a", 5.0), {"note": "x"}), ((), {"name": "b", "cores": [1]})):
        own, other = ours()(*given, **named), theirs()(*given, **named)
        assert vars(own) == vars(other) and repr(own) == repr(other)


def test_its_fields_are_those_of_a_dataclass():
    assert [str(one) for one in fields(ours())] == [str(one) for one in fields(theirs())]
    assert ours().amps == theirs().amps and ours().note == theirs().note and not hasattr(ours(), "cores")


def test_a_default_that_can_change_is_refused():
    with pytest.raises(ValueError, match="default_factory"):
        @frozen
        class Wrong:
            a: list = []


def test_a_default_is_made_anew():
    made = ours()
    assert made("a").cores is not made("a").cores


def test_equality_is_of_compared_fields_and_of_one_class():
    made = ours()
    assert made("a") == made("a", note="x") and made("a") != made("b") and made("a") != ours()("a")
    assert hash(made("a", cores=())) == hash(made("a", cores=(), note="x"))
    with pytest.raises(TypeError, match="unhashable"):
        hash(made("a"))


def test_without_eq_each_is_itself():
    made = ours(eq=False)
    one = made("a")
    assert one == one and one != made("a") and len({one, made("a")}) == 2


@pytest.mark.parametrize("change", (lambda one: setattr(one, "amps", 1.0), lambda one: delattr(one, "amps"),
                                    lambda one: setattr(one, "other", 1)))
def test_it_cannot_be_changed(change):
    one = ours()("a")
    with pytest.raises(FrozenInstanceError):
        change(one)
    assert replace(one, amps=3.0) == ours_like(one, 3.0) and one.amps == 10.0


def ours_like(one, amps: float):
    return type(one)(one.name, amps, one.cores)


def test_what_the_class_defines_itself_stays_and_fields_are_inherited():
    @frozen
    class Base:
        a: int

        def __repr__(self):
            return "base"

    @frozen
    class More(Base):
        b: int = 2

        def __post_init__(self):
            object.__setattr__(self, "a", self.a + 1)

    assert repr(Base(1)) == "base" and (More(1).a, More(1).b) == (2, 2) and More(1) == More(1) != Base(2)
    assert More.__match_args__ == ("a", "b")


def test_a_missing_or_unknown_field_is_refused():
    with pytest.raises(TypeError, match="name"):
        ours()()
    with pytest.raises(TypeError, match="volts"):
        ours()("a", volts=1)


def test_a_field_without_a_default_cannot_follow_one_that_has_it():
    with pytest.raises(TypeError, match="without a default"):
        @frozen
        class Wrong:
            a: int = 1
            b: int


def test_slots_leave_no_room_for_more():
    made = of(frozen, slots=True)
    one = made("a")
    assert not hasattr(one, "__dict__") and one == made("a") != made("b") and one.amps == 10.0
    with pytest.raises(FrozenInstanceError):
        one.amps = 1.0


def test_what_changes_is_made_alike_and_equal_to_itself_only():
    made = of(changing)
    one = made("a", cores=[1])
    one.amps = 5.0
    assert vars(one) == {"name": "a", "amps": 5.0, "cores": [1], "note": ""} and one != made("a", 5.0, [1]) and one == one
    assert made("b").cores is not made("b").cores and repr(made("b")).endswith("Wire(name='b', amps=10.0, cores=[])")
