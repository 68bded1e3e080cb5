"""What the loads of a net take at least, so that no device ahead of them can be smaller."""

from __future__ import annotations

from diagrammer.netlist.model import Node


def asks(node: Node, port: str, volts: float) -> float:
    """[A] the known current that a node takes at one port of a net of `volts`; 0 where it is not known.

    Loads at their stated current or power, a window of voltages at its top; converters, chargers
    and inverters at their rated output, without losses: never more than the real current.
    """
    values, name = node.values, node.kind.name
    count = values.get("count") or 1
    if name == "load" and port == "main":
        return count * (values.get("current") or _over(values.get("power"), values.get("voltage") or volts))
    if name == "ac load" and port == "main" and (values.get("phases") or "1") == "1":
        return count * _over(values.get("power"), values.mains)
    if name in ("converter", "dc charger") and port == "in":
        return _over((values.get("output") or 0.0) * (values.get("voltage") or 0.0), volts)
    if name in ("inverter", "inverter charger") and port == "main":
        return _over(values.get("power"), volts)
    return 0.0


def _over(power: float | None, volts) -> float:
    volts = max(volts) if isinstance(volts, tuple) else volts
    return power / volts if power and volts else 0.0
