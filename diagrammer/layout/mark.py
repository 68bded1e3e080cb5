"""What the drawing must flag: a finding as layout sees it, without the rule behind it."""

from __future__ import annotations

from diagrammer.frozen import frozen


@frozen
class Mark:
    """One thing to flag. `number` orders the marks as given; the drawing numbers them anew, by zone.

    nodes and conductors (cable ids) name what is marked, the first of them being what is wrong. path: the names met
    from the source to it.
    """

    number: int
    severity: str
    rule: str
    text: str
    nodes: tuple[str, ...] = ()
    conductors: tuple[str, ...] = ()
    accepted: bool = False
    path: tuple[str, ...] = ()
