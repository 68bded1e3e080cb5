"""What a rule has to say, and what is wrong with a text: plain values, no rendering."""

from __future__ import annotations

from diagrammer.frozen import frozen
from diagrammer.text.place import Place

SEVERITIES = ("danger", "warning", "notice")  # signal words of ANSI Z535 / ISO 3864


@frozen
class Problem:
    """Something in the text that cannot be read. `help` is at most one sentence of advice."""

    at: Place
    message: str
    help: str = ""


@frozen
class Finding:
    """One fault of a system, at one place.

    `nodes` and `conductors` (cable ids such as "main:f0") name what the drawing marks, the first
    of them being what is wrong; `subjects` are the node and circuit names a reader knows;
    `path` are the names met from the source to the fault; `symptoms` what follows from it and is
    told with it: "rule: message".
    """

    rule: str
    severity: str
    message: str
    reason: str
    fix: str
    source: str
    at: Place
    subjects: tuple[str, ...] = ()
    path: tuple[str, ...] = ()
    nodes: tuple[str, ...] = ()
    conductors: tuple[str, ...] = ()
    accepted: str = ""
    symptoms: tuple[str, ...] = ()
