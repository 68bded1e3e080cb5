"""Earth: a bar with its rod, sea plate or hull, the cases on it, one bond to the return side."""

from __future__ import annotations

from tests.systems.draft import Draft, trail
from tests.systems.model import Run

GROUND = {"van": ("body-metal", "chassis"), "boat": ("sea-plate", "sea plate"), "cabin": ("rod", "earth")}
CASED = ("inverter", "inverter charger", "ac charger", "transformer")


def earth(draft: Draft) -> None:
    """Two nodes; made last, so that every case is known."""
    bar = draft.node("bonds", "earth-bar", "bar", "earth bar", rating="100 A")
    name, kind = GROUND[draft.vehicle]
    ground = draft.node("bonds", name, kind, "earth")
    wire = {"abyc": "4 AWG", "nec": "4 AWG", "iso": "16 mm²"}[draft.practice]
    draft.circuit(
        "bonds", "main-bond", "bond", trail("return-bar", Run(wire, draft.length(0.3, 1)), bar), part="main bond"
    )
    draft.circuit(
        "bonds", f"{ground}-bond", "bond", trail(bar, Run(wire, draft.length(0.5, 3)), ground), part="ground bond"
    )
    for node in [n for section in ("mains", "ac") for n in draft.nodes[section] if n.kind in CASED]:
        if draft.chance(0.7):
            draft.circuit(
                "bonds",
                f"{node.name}-bond",
                "bond",
                trail(node.name, Run(wire, draft.length(0.5, 2)), bar),
                part="case bond",
            )
