"""A netlist while it is being read: what the steps of reading share."""

from __future__ import annotations

from dataclasses import field

from diagrammer.frozen import changing
from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.model import Conductor, Inside, Joint, Leg, Node, Run, Terminal
from diagrammer.netlist.path import Path
from diagrammer.netlist.wires import Spec
from diagrammer.text.place import Place


@changing
class Entry:
    """One circuit: its written paths by role, and what has been made of them."""

    name: str
    named: bool
    place: Place
    paths: dict[str, Path]
    spec: Spec
    note: str = ""
    no_return: bool = False
    accept: dict[str, tuple[str, Place]] = field(default_factory=dict)
    legs: list[Leg] = field(default_factory=list)
    conductors: list[Conductor] = field(default_factory=list)
    joints: list[Joint] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)


@changing
class Draft:
    """Everything read so far. `passed`: contacts that a path has used, with the place."""

    practice: str
    say: Complaints
    nodes: dict[str, Node]
    entries: list[Entry] = field(default_factory=list)
    passed: dict[str, Place] = field(default_factory=dict)
    cores: dict[str, Terminal] = field(default_factory=dict)  # of devices in ac paths
    core_insides: list[Inside] = field(default_factory=list)
    unreadable: set[str] = field(default_factory=set)  # nodes declared, but not understood
    numbered: set[str] = field(default_factory=set)  # devices without a name of their own
    in_ac: set[str] = field(default_factory=set)
    written: dict[int, str] = field(default_factory=dict)  # item's id: the device's node
