"""A dc or bond path with its wire becomes a leg with conductors and joints."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.netlist.draft import Draft, Entry
from diagrammer.netlist.model import Conductor, Joint, Leg, Run, Stop
from diagrammer.netlist.path import Path
from diagrammer.netlist.wires import Spec

LETTERS = {"feed": "f", "return": "r", "ac": "a", "series": "s", "bond": "b"}
SIDES = {"feed": "feed", "return": "return", "ac": "ac", "series": "feed", "bond": "earth"}


def add(draft: Draft, entry: Entry, role: str, path: Path, stops: list[Stop], spec: Spec) -> None:
    """The leg of a written path, its conductors, joints and run, into the entry."""
    if not fits(draft, path, spec):
        return
    letter, side = LETTERS[role], SIDES[role]
    wires, links, made = spec.split(path.wires), [], []
    for joint, a, b in zip(path.joints, stops, stops[1:], strict=False):
        if joint == "/":
            links.append("")
            entry.joints.append(Joint(entry.name, side, "", a.leave, b.enter, path.place))
            continue
        wire, hop = wires[len(made)]
        cable = f"{entry.name}:{letter}{len(made)}"
        links.append(cable)
        own = hop.length if hop and (spec.listed or path.wires == 1) else None
        made.append(Conductor(
            cable, cable, entry.name, role, side, "", a.leave, b.enter, wire, own, "", False,
            a.place.to(b.place), hop.size_place if hop else None, (a.stud, b.stud),
        ))
    entry.conductors += share(entry, f"{entry.name}:{letter}", made, None if spec.listed else spec.length)
    entry.legs.append(Leg(role, tuple(stops), tuple(links), False, path.place))


def fits(draft: Draft, path: Path, spec: Spec) -> bool:
    """Whether a wire list has one entry for each conductor of the path."""
    if spec.listed and len(spec.hops) != path.wires:
        entries, wires = counted(len(spec.hops), "entry", "entries"), counted(path.wires, "conductor", "conductors")
        draft.say(spec.place, f"{entries} for {wires} (`->`)",
                  "A list has one entry for each `->`; one size and length alone is the whole run.")
        return False
    return True


def counted(number: int, one: str, several: str) -> str:
    return f"1 {one}" if number == 1 else f"{number or 'no'} {several}"


def share(entry: Entry, name: str, made: list[Conductor], length: float | None) -> list[Conductor]:
    """Conductors that have one length together: a single one has it alone, several as a run."""
    if length is None or not made:
        return made
    if len(made) == 1:
        return [replace(made[0], length=length)]
    entry.runs.append(Run(name, length, tuple(one.id for one in made)))
    return [replace(one, run=name) for one in made]
