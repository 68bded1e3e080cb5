"""What the loads of a net take at least, so that no device ahead of them can be smaller."""

from __future__ import annotations

from diagrammer.netlist.model import Node


def asks(node: Node, port: str, volts: float) -> float:
    """[A] the known current that a node takes at one port of a net of `volts`; 0 where it is not known.

    Loads at their stated current or power, a window of voltages at its top; converters, chargers
    and inverters at their rated output, without losses: never more than the real current.
    """
    values, name = node.values, node.kind.name
    if name == "load" and port == "main":
        return values["count"] * (values.get("current") or _over(values.get("power"), values["voltage"]))
    if name == "ac load" and port == "main" and values["phases"] == "1":
        return values["count"] * _over(values["power"], values.mains)
    if name in ("converter", "dc charger") and port == "in":
        return _over(values["output"] * (values.get("voltage") or 0.0), volts)
    if name in ("inverter", "inverter charger") and port == "main":
        return _over(values["power"], volts)
    return 0.0


def _over(power: float, volts: float | tuple[float, float]) -> float:
    volts = max(volts) if isinstance(volts, tuple) else volts
    return power / volts if volts else 0.0
