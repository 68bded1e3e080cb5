"""The README's table of kinds, made from the kinds themselves.

    python -m tests.kinds_table     prints it, to be put between the README's marks
"""

from __future__ import annotations

from diagrammer.kinds import KINDS
from diagrammer.kinds.kind import Kind


def needs(kind: Kind) -> str:
    fields = [field.name for field in kind.fields if field.required]
    return ", ".join([*fields, *(" or ".join(group) for group in kind.either)])


def may(kind: Kind) -> str:
    asked = {name for group in kind.either for name in group}
    return ", ".join(field.name for field in kind.fields if not field.required and field.name not in asked)


def table() -> str:
    rows = ["| kind | is | needs | may have |", "|---|---|---|---|"]
    for name, kind in KINDS.items():
        rows.append(f"| {name} | {kind.says.rstrip('.')} | {needs(kind)} | {may(kind)} |")
    return "\n".join(rows)


if __name__ == "__main__":
    print(table())
