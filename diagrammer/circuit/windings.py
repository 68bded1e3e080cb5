"""What an ac port stands between: line and neutral, or line and line."""

from __future__ import annotations

from diagrammer.netlist.model import Node, Port


def windings(node: Node, port: Port) -> list[tuple[str, str, str, float]]:
    """(name, plus, minus, volts): what an ac port stands between, as single-phase windings."""
    prefix = node.name if port.name == "main" else f"{node.name}.{port.name}"
    lines, volts = port.lines, node.values.mains
    if not port.neutral:
        return [(f"{a}-{b}", f"{prefix}.{a}", f"{prefix}.{b}", volts) for a, b in zip(lines, lines[1:], strict=False)]
    if len(lines) == 2:
        return [("L1", f"{prefix}.L1", f"{prefix}.N", volts), ("L2", f"{prefix}.N", f"{prefix}.L2", volts)]
    return [(line, f"{prefix}.{line}", f"{prefix}.N", volts) for line in lines]
