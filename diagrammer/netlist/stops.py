"""How a dc or bond path meets its items: each becomes a stop, with the terminals it enters and leaves by."""

from __future__ import annotations

from diagrammer.netlist.draft import Draft
from diagrammer.netlist.model import Node, Stop
from diagrammer.netlist.pairs import way_back_of_pair
from diagrammer.netlist.path import Item, Path
from diagrammer.netlist.spots import LINES, Spot, node_of, spot
from diagrammer.text.suggest import listed

STORES = ("bank", "battery")
FACING = ("shunt", "bms")  # kinds whose terminal `battery` faces the battery


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
        return _at_end(draft, role, item, node, ends) if ends else _through(draft, role, item, node, nodes)
    if node.kind.sort == "end" and not ends and role != "bond":
        through_end(draft, item, node)
        return None
    found = spot(draft, item, node, role)
    terminals = found and _terminals(draft, role, item, found)
    if not terminals:
        return None
    enter, leave = terminals
    return Stop(node.name, "" if ends == 1 else enter, "" if ends == -1 else leave, item.stud, item.place)


def through_end(draft: Draft, item: Item, node: Node) -> None:
    draft.say(item.place, f"a path can't go through `{node.name}` ({node.kind.name})",
              "End the path at one of its ports and begin another circuit at the next.")


def _terminals(draft: Draft, role: str, item: Item, found: Spot) -> tuple[str, str] | None:
    """The terminals entered and left: alike but in a series link, in at - and out at +."""
    node, port = found.node, found.port
    prefix = "" if port.name == "main" else f"{port.name}."
    if port.form == "ac":
        local = _on_ac(draft, role, item, found, prefix)
        return (node.terminal(local),) * 2 if local else None
    if role == "return" and node.kind.name == "panel" and node.get("pair") and not found.pole:
        back = way_back_of_pair(draft.nodes.get(node["pair"]))
        return (back, back) if back else None
    if port.form != "dc":
        return (node.terminal(port.terminals()[0]),) * 2
    if found.pole:
        return (node.terminal(f"{prefix}{found.pole}"),) * 2
    if role == "bond":
        draft.say(item.place, "a bond lands on one terminal",
                  f"Write `{item.name}.{prefix}-` or `{item.name}.{prefix}+`.")
        return None
    if role == "series":
        return node.terminal(f"{prefix}-"), node.terminal(f"{prefix}+")
    return (node.terminal(f"{prefix}{'-' if role == 'return' else '+'}"),) * 2


def _on_ac(draft: Draft, role: str, item: Item, found: Spot, prefix: str) -> str:
    """Of ac terminals a bond takes one: the neutral, or an earth of the port's own."""
    if role == "bond" and found.pole in ("N", "earth", *LINES):
        return f"{prefix}{found.pole}"
    if role == "bond":
        draft.say(item.place, "a bond lands on one terminal",
                  f"Write `{item.name}.{prefix}N`, or leave the port out for the earth.")
    else:
        draft.say(item.place, f"a {role} can't land on the ac side of `{found.node.name}`",
                  "Write the circuit with `ac:`, or name a dc port.")
    return ""


def _at_end(draft: Draft, role: str, item: Item, node: Node, ends: int) -> Stop | None:
    """A through kind where a path begins or ends: its terminal must be named."""
    found = spot(draft, item, node, "feed") if item.parts else None
    if item.parts and found is None:
        return None
    if found is None or not found.named:
        ports = [f"`{node.name}.{port.name}`" for port in node.ports]
        draft.say(item.place, f"a path that begins or ends on `{node.name}` ({node.kind.name}) must name the terminal",
                  f"Write {listed(ports, 'or')}.")
        return None
    local = found.port.terminals()[0]
    if found.port.form == "dc":
        local = f"{found.port.name}.{found.pole or ('-' if role == 'return' else '+')}"
    terminal = node.terminal(local)
    return Stop(node.name, "" if ends == 1 else terminal, "" if ends == -1 else terminal, item.stud, item.place)


def _through(draft: Draft, role: str, item: Item, node: Node, nodes: list[Node]) -> Stop | None:
    """In at one contact, out at its partner; each contact is passed once in the whole file."""
    pair = _contacts(draft, role, item, node, nodes)
    if pair is None:
        return None
    enter, leave = (node.terminal(name) for name in pair)
    for terminal in (enter, leave):
        first = draft.passed.get(terminal)
        if first:
            draft.say(item.place, f"`{terminal}` is passed a second time (the first is in line {first.line})",
                      "Give the device more contacts or poles, or begin the path at its terminal.")
            return None
    draft.passed[enter] = draft.passed[leave] = item.place
    return Stop(node.name, enter, leave, item.stud, item.place)


def _contacts(draft: Draft, role: str, item: Item, node: Node, nodes: list[Node]) -> tuple[str, str] | None:
    contacts = [port.name for port in node.ports if port.form == "contact"]
    if poles(node) > 2:
        draft.say(item.place, f"`{node.name}` has {poles(node)} poles; a circuit of direct current has two conductors",
                  "For separate circuits write `contacts: ...` where the switch is declared.")
        return None
    if item.parts:
        return _named(draft, item, node, contacts)
    if len(contacts) < 2:
        draft.say(item.place, f"a path of direct current can't go through `{node.name}` ({node.kind.name})")
        return None
    if node.kind.name in FACING:
        stores = [end.kind.name in STORES for end in (nodes[0], nodes[-1])]
        return (contacts[1], contacts[0]) if stores == [False, True] else (contacts[0], contacts[1])
    if role == "return" and poles(node) == 2 and "3" in contacts:
        return "3", "4"
    return contacts[0], contacts[1]


def _named(draft: Draft, item: Item, node: Node, contacts: list[str]) -> tuple[str, str] | None:
    """The contact that is named is the one entered."""
    named = item.parts[0].text
    if named not in contacts or len(item.parts) > 1:
        draft.say.unknown(item.parts[0].place, f"contact of `{node.name}`", ".".join(part.text for part in item.parts),
                          contacts)
        return None
    partner = _partner(named, contacts)
    if node.kind.name == "bms" and named == "charge":
        partner = ""
    if not partner:
        draft.say(item.place, f"a path can't go through `{node.name}.{named}`", "Begin or end the path there.")
        return None
    return named, partner


def _partner(name: str, contacts: list[str]) -> str:
    if name.isdigit():
        partner = str(int(name) + 1 if int(name) % 2 else int(name) - 1)
        return partner if partner in contacts else ""
    return contacts[1] if name == contacts[0] else contacts[0]


def poles(node: Node) -> int:
    """Conductors of one circuit that a device passes or opens together; unsaid, a plug or rcd has both."""
    unsaid = 2 if node.kind.name in ("plug", "rcd", "rcbo") else 1
    return node.get("poles") or unsaid
