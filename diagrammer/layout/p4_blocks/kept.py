"""Blocks that are kept from try to try. A try that answers every question in the same way takes them as they are."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import TypeVar

from diagrammer.frozen import frozen
from diagrammer.layout.p4_blocks.plan import Asked, Branch, Plan

T = TypeVar("T")


@frozen(eq=False)
class Kept:
    """What was built, what the plan was asked meanwhile, and what that left behind in it."""

    made: object
    asked: Asked
    met: tuple[int, ...]
    sizes: dict[int, tuple[float, float, str]]
    gathered: dict
    nested: bool


def kept(plan: Plan, key: Hashable, make: Callable[[], T]) -> T:
    """What `make` builds, or the same from a try before. key: all that it depends on beside the plan's answers."""
    known = plan.words.kept.setdefault(key, [])
    for one in known:
        if plan.agrees(one.asked) and not any(at in plan.gathered for at in one.gathered):
            _left(plan, one)
            return one.made
    one = _built(plan, make)
    known.append(one)
    return one.made


def branch_key(branch: Branch) -> tuple:
    """A branch as part of a key; its chain is the same object in every try."""
    return id(branch.chain), branch.from_a, branch.form, branch.port, branch.upward


def _left(plan: Plan, one: Kept) -> None:
    plan.met += one.met
    plan.sizes |= one.sizes
    plan.gathered |= one.gathered
    plan.nested |= one.nested
    if plan.asked is not None:
        plan.asked |= one.asked


def _built(plan: Plan, make: Callable[[], object]) -> Kept:
    before = plan.asked, plan.met, plan.sizes, plan.gathered, plan.nested
    plan.asked, plan.met, plan.sizes, plan.nested = {}, [], {}, False
    plan.gathered = dict(plan.gathered)
    made = make()
    new = {at: count for at, count in plan.gathered.items() if at not in before[3]}
    one = Kept(made, plan.asked, tuple(plan.met), plan.sizes, new, plan.nested)
    plan.asked, plan.met, plan.sizes, plan.gathered, plan.nested = before
    _left(plan, one)
    return one
