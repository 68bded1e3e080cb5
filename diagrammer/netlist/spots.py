"""Where an item of a path lands: its node, the port, and the terminal where that is written."""

from __future__ import annotations

from diagrammer.frozen import frozen
from diagrammer.kinds.kind import Port
from diagrammer.netlist.draft import Draft
from diagrammer.netlist.model import Node
from diagrammer.netlist.path import Item
from diagrammer.text.suggest import listed

LINES = ("L", "L1", "L2", "L3")
MANY_WAYS = ("selector", "transfer")  # kinds whose main port is `common`


@frozen
class Spot:
    """A place of a path resolved as far as the text says: port, and the terminal if written."""

    node: Node
    port: Port
    pole: str = ""  # "+", "-", "N", "earth", "L1+L2" where written
    named: bool = False  # the port was written


def node_of(draft: Draft, item: Item) -> Node | None:
    if item.device:
        return draft.nodes.get(draft.written.get(id(item), ""))
    node = draft.nodes.get(item.name)
    if node is None:
        if item.name not in draft.unreadable:
            _no_node(draft, item)
    return node


def _no_node(draft: Draft, item: Item) -> None:
    """Taken for one: a node's terminal without the dot, or a kind."""
    if draft.say.full:
        return
    known = [name for name in draft.nodes if name not in draft.numbered]
    if item.name[:-1] in known and item.name[-1] in "+-":
        draft.say(item.named, f"there is no node `{item.name}`", f"Write `{item.name[:-1]}.{item.name[-1]}`.")
        return
    alike = [name for name in known if draft.nodes[name].kind.name == item.name]
    if alike:
        draft.say(item.named, f"there is no node `{item.name}`, only the kind", f"A node of it: `{alike[0]}`.")
    else:
        draft.say.unknown(item.named, "node", item.name, known, "Declare it under `nodes`.")


def spot(draft: Draft, item: Item, node: Node, role: str) -> Spot | None:
    """The port and terminal that an item names, or the main ones of the role."""
    if not node.ports:
        return None  # a field that they hang on is missing or wrong, and was said
    ports = {port.name: port for port in node.ports}
    parts = list(item.parts)
    port, named = None, False
    if parts and parts[0].text in ports and not (parts[0].text == "earth" and len(parts) > 1):
        port, named = ports[parts.pop(0).text], True
    pole = parts.pop(0) if parts else None
    if parts:
        draft.say(parts[0].place, f"`{parts[0].text}` is one name too many", "A place is NAME.port.terminal.")
        return None
    if pole and not _is_pole(pole.text):
        draft.say.unknown(pole.place, f"port or terminal of `{node.name}`", pole.text, names(node))
        return None
    port = port or main(node, role, pole.text if pole else "")
    if port is None:
        _no_port(draft, item, node, role)
        return None
    if pole and pole.text not in _poles(port) and not set(pole.text.split("+")) <= set(port.lines):
        has = f"There are {listed(_poles(port))}." if len(_poles(port)) > 1 else "It is one terminal: leave that out."
        draft.say(pole.place, f"there is no `{pole.text}` at this port of `{node.name}`", has)
        return None
    lines = pole.text.split("+") if pole and pole.text != "+" else []
    if len(set(lines)) < len(lines):
        draft.say(pole.place, f"`{pole.text}` names a line twice")
        return None
    return Spot(node, port, pole.text if pole else "", named)


def _is_pole(text: str) -> bool:
    return text in ("+", "-", "N", "earth") or all(line in LINES for line in text.split("+"))


def _poles(port: Port) -> tuple[str, ...]:
    return {"dc": ("+", "-"), "ac": port.cores(), "plus": ("+",), "minus": ("-",)}.get(port.form, ())


def names(node: Node) -> list[str]:
    """The ports and terminals of a node that may be written after its dot."""
    named = [port.name for port in node.ports if port.name != "main"]
    return [pole for port in node.ports if port.name == "main" for pole in _poles(port)] + named


def main(node: Node, role: str, pole: str) -> Port | None:
    """The main port of the role: the first of its sort; for a bond the earth, else the one terminal."""
    def first(*forms: str) -> Port | None:
        found = (port for port in node.ports if port.form in forms and port.name != "earth")
        if node.kind.name in MANY_WAYS:
            return next((port for port in found if port.name == "common"), None)
        return next(found, None)

    if pole == "earth" or (role == "bond" and not pole):
        earth = next((port for port in node.ports if port.name == "earth"), None)
        return earth or next((port for port in node.ports if port.form == "single" and port.name == "main"), None)
    if pole == "N" or pole[:1] == "L" or (role == "ac" and pole not in ("+", "-")):
        return first("ac")
    if node.kind.name == "terminals":
        return None
    return first("dc") or first("single", "plus", "contact", "minus")


def _no_port(draft: Draft, item: Item, node: Node, role: str) -> None:
    named = [name for name in names(node) if name not in ("+", "-", *LINES, "N")]
    if role == "bond":
        poles = [f"`{node.name}.{name}`" for name in names(node) if name != "earth"]
        draft.say(item.place, f"`{node.name}` ({node.kind.name}) has no earth terminal",
                  f"Name the terminal: {listed(poles, 'or')}." if poles else "")
    elif node.kind.name == "terminals" or node.kind.name in MANY_WAYS:
        places = [f"`{node.name}.{name}`" for name in named if name not in ("earth", "coil")]
        draft.say(item.place, f"a place on `{node.name}` ({node.kind.name}) must name the terminal",
                  f"Write {listed(places, 'or')}.")
    else:
        _other_current(draft, item, node, role)


def _other_current(draft: Draft, item: Item, node: Node, role: str) -> None:
    if role == "ac":
        advice = "An ac junction box is a joint with `phases`." if node.kind.name == "joint" else ""
        draft.say(item.place, f"`{node.name}` ({node.kind.name}) has no terminal for alternating current", advice)
    else:
        draft.say(item.place, f"`{node.name}` ({node.kind.name}) has no terminal for direct current",
                  "Write the circuit with `ac:`.")
