"""Where a path lands: each item becomes a stop, with the terminals it enters and leaves by."""

from __future__ import annotations

from dataclasses import dataclass

from diagrammer.kinds.kind import Port
from diagrammer.netlist.draft import Draft
from diagrammer.netlist.model import Node, Stop
from diagrammer.netlist.nodes import way_back_of_pair
from diagrammer.netlist.path import Item, Path, Word
from diagrammer.text.suggest import listed

LINES = ("L", "L1", "L2", "L3")
STORES = ("bank", "battery")
FACING = ("shunt", "bms")  # kinds whose terminal `battery` faces the battery


@dataclass(frozen=True)
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
        draft.say.unknown(item.place, "node", item.name, draft.nodes)
    return node


def spot(draft: Draft, item: Item, node: Node, role: str) -> Spot | None:
    """The port and terminal that an item names, or the main ones of the role."""
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
        draft.say.unknown(pole.place, f"port or terminal of `{node.name}`", pole.text, _names(node))
        return None
    port = port or _main(node, role, pole.text if pole else "")
    if port is None:
        _no_port(draft, item, node, role, pole)
        return None
    if pole and pole.text not in _poles(port) and not set(pole.text.split("+")) <= set(port.lines):
        draft.say(pole.place, f"`{node.name}` has no {pole.text} there", f"It has {listed(_poles(port) or ('one terminal', ))}.")
        return None
    return Spot(node, port, pole.text if pole else "", named)


def _is_pole(text: str) -> bool:
    return text in ("+", "-", "N", "earth") or all(line in LINES for line in text.split("+"))


def _poles(port: Port) -> tuple[str, ...]:
    return ("+", "-") if port.form == "dc" else {"ac": port.cores(), "plus": ("+",), "minus": ("-",)}.get(port.form, ())


def _names(node: Node) -> list[str]:
    names = [port.name for port in node.ports if port.name != "main"]
    return names + [pole for port in node.ports if port.name == "main" for pole in _poles(port)]


def _main(node: Node, role: str, pole: str) -> Port | None:
    """The main port of the role: the first of its sort."""
    def first(*forms: str) -> Port | None:
        return next((port for port in node.ports if port.form in forms and port.name != "earth"), None)

    if pole == "earth" or (role == "bond" and not pole):
        earth = next((port for port in node.ports if port.name == "earth"), None)
        return earth or next((port for port in node.ports if port.form == "single" and port.name == "main"), None)
    if role == "ac" or pole == "N" or pole[:1] == "L":
        return first("ac") or (first("single") if role == "bond" else None)
    if pole:
        return first("dc", "plus", "minus")
    return first("dc") or first("single", "plus", "contact", "minus")


def _no_port(draft: Draft, item: Item, node: Node, role: str, pole: Word | None) -> None:
    wanted = {"ac": "alternating current", "bond": "an earth conductor"}.get(role, "direct current")
    names = [port.name for port in node.ports if port.name != "main"]
    advice = f"Name one of its ports: {listed(names, 'or')}." if role == "bond" and names else ""
    draft.say(item.place, f"`{node.name}` ({node.kind.name}) has no terminal for {wanted}", advice)


def resolve(draft: Draft, role: str, path: Path) -> list[Stop] | None:
    """The stops of a dc or bond path, or None with what is wrong said."""
    nodes = [node_of(draft, item) for item in path.items]
    if None in nodes:
        return None
    stops = []
    for number, (item, node) in enumerate(zip(path.items, nodes, strict=True)):
        ends = (number == 0) - (number == len(nodes) - 1)
        stops.append(_stop(draft, role, item, node, ends, nodes))
    return None if None in stops else stops


def _stop(draft: Draft, role: str, item: Item, node: Node, ends: int, nodes: list[Node]) -> Stop | None:
    """`ends`: 1 at the first item, -1 at the last, 0 between."""
    if node.kind.sort == "through":
        return _at_end(draft, role, item, node) if ends else _through(draft, role, item, node, nodes)
    if node.kind.sort == "end" and not ends and role != "bond":
        draft.say(item.place, f"a path can't go through `{node.name}` ({node.kind.name})",
                  "End the path at one of its ports and begin another circuit at the next.")
        return None
    found = spot(draft, item, node, role)
    if found is None:
        return None
    terminal = _terminal(draft, role, item, found, ends)
    if terminal is None:
        return None
    enter, leave = terminal
    return Stop(node.name, "" if ends == 1 else enter, "" if ends == -1 else leave, item.stud, item.place)


def _terminal(draft: Draft, role: str, item: Item, found: Spot, ends: int) -> tuple[str, str] | None:
    node, port = found.node, found.port
    prefix = "" if port.name == "main" else f"{port.name}."
    if port.form == "ac" and found.pole in ("", *(("L", "L1", "L2", "L3") if role != "bond" else ())):
        draft.say(item.place, f"a {role} of direct current can't land on the ac side of `{node.name}`",
                  "Write the circuit with `ac:`, or name a dc port.")
        return None
    if found.pole == "earth" and port.name == "earth":
        found = Spot(node, port)
    if found.pole and port.form in ("dc", "ac"):
        same = node.terminal(f"{prefix}{found.pole}")
        return same, same
    if port.form != "dc":
        same = node.terminal(port.terminals()[0])
        return same, same
    if role == "return" and node.kind.name == "panel" and node.get("pair") and port.name == "main":
        same = way_back_of_pair(draft.nodes[node.get("pair")])
        return same, same
    if role == "series":
        return node.terminal(f"{prefix}-"), node.terminal(f"{prefix}+")
    if role == "bond":
        draft.say(item.place, f"`{node.name}` has no earth terminal", f"Name the terminal: `{node.name}.-`.")
        return None
    same = node.terminal(f"{prefix}{'-' if role == 'return' else '+'}")
    if role == "return" and port.name == "main" and f"{prefix}-" not in port.terminals():
        draft.say(item.place, f"`{node.name}` has no - of its own")
        return None
    return same, same


def _at_end(draft: Draft, role: str, item: Item, node: Node) -> Stop | None:
    """A through kind where a path begins or ends: its terminal must be named."""
    contacts = [port.name for port in node.ports]
    if not item.parts:
        draft.say(item.place, f"a path that begins or ends on `{node.name}` ({node.kind.name}) must name the terminal",
                  f"Write {listed([f'`{node.name}.{name}`' for name in contacts], 'or')}.")
        return None
    found = spot(draft, item, node, "feed")
    if found is None:
        return None
    local = found.port.terminals()[0]
    if found.port.form == "dc":
        local = f"{found.port.name}.{found.pole or ('-' if role == 'return' else '+')}"
    terminal = node.terminal(local)
    return Stop(node.name, terminal, terminal, item.stud, item.place)


def _through(draft: Draft, role: str, item: Item, node: Node, nodes: list[Node]) -> Stop | None:
    """In at one contact, out at its partner; each contact is passed once in the whole file."""
    pair = _contacts(draft, role, item, node, nodes)
    if pair is None:
        return None
    enter, leave = (node.terminal(name) for name in pair)
    for terminal in (enter, leave):
        if terminal in draft.passed:
            first = draft.passed[terminal]
            draft.say(item.place, f"`{terminal}` is passed a second time (the first is in line {first.line})",
                      "A contact is passed once: give the device more contacts or poles, or begin the path at its terminal.")
            return None
    draft.passed[enter] = draft.passed[leave] = item.place
    return Stop(node.name, enter, leave, item.stud, item.place)


def _contacts(draft: Draft, role: str, item: Item, node: Node, nodes: list[Node]) -> tuple[str, str] | None:
    names = [port.name for port in node.ports if port.form == "contact"]
    if item.parts:
        named = item.parts[0].text
        partner = _partner(named, names)
        if not partner or len(item.parts) > 1:
            draft.say.unknown(item.parts[0].place, f"contact of `{node.name}`", named, names)
            return None
        return named, partner
    if node.kind.name in FACING:
        stores = [end.kind.name in STORES for end in (nodes[0], nodes[-1])]
        other = names[1]
        return (other, names[0]) if stores == [False, True] else (names[0], other)
    second_pole = role == "return" and (node.get("poles") or 1) > 1 and "3" in names
    if second_pole:
        return "3", "4"
    if len(names) < 2:
        draft.say(item.place, f"a path of direct current can't go through `{node.name}` ({node.kind.name})")
        return None
    return names[0], names[1]


def _partner(name: str, names: list[str]) -> str:
    if name not in names:
        return ""
    if name.isdigit():
        partner = str(int(name) + 1 if int(name) % 2 else int(name) - 1)
        return partner if partner in names else ""
    return names[1] if name == names[0] else names[0]
