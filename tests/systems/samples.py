"""The samples as models, so that the same faults go into them: read by the plainest means, and named anew."""

from __future__ import annotations

import re
from pathlib import Path as File

import yaml

from tests.systems.model import NONE, Circuit, Device, Model, Node, Path, Place, Run
from tests.systems.practice import INSULATION
from tests.systems.render import FEET

FOLDER = File(__file__).parents[2] / "samples"
SAMPLES = tuple(sorted(FOLDER.glob("*.yaml")))
DEVICES = ("fuse", "breaker", "switch", "rcd", "rcbo", "plug", "galvanic-isolator", "diode", "resistor")
ROLES = ("feed", "ac", "series", "bond", "return")
RUN = re.compile(r"(?:(\d) parallel )?(?:(\S+ (?:AWG|mm²)) )?([\d.]+) (ft|m)$")


def sample(file: File) -> Model:
    """A sample without its words of comment; circuits without a name get one."""
    text = yaml.load(file.read_text(encoding="utf-8"), yaml.BaseLoader)
    nodes = {name: Node(name, fields["kind"], {k: v for k, v in fields.items() if k != "kind"})
             for name, fields in text["nodes"].items()}
    volts = next(int(float(n.fields["voltage"].split()[0])) for n in nodes.values() if n.name in ("bank", "house-a"))
    assert text["wire"]["insulation"] == f"{INSULATION[text['practice']]} °C" or text["practice"] == "nec"
    model = Model(text["title"], text["practice"], text["site"], text["wire"], volts, nodes)
    model.circuits = [circuit(number, entry) for number, entry in enumerate(text["circuits"])]
    for node in nodes.values():
        node.part = of_node(node)
    for one in model.circuits:
        one.part = of_circuit(model, one)
    return model


def circuit(number: int, entry: dict) -> Circuit:
    role = next(role for role in ROLES if role in entry)
    path, back = trail(entry[role]), None
    if role != "return" and "return" in entry:
        back = NONE if entry["return"] == "none" else trail(entry["return"])
    wires = entry.get("wire", "")
    told = wires if isinstance(wires, dict) else {"hops": wires}
    lay(path, told.get("feed", told.get("hops")))
    if back is not None and back.runs:
        lay(back, told.get("return", told.get("hops")))
    own = run(told["return"], None) if "return" in told and back is None else None
    name = entry.get("name", f"line-{number}").replace(" ", "-")
    return Circuit(name, role, path, back, inside=told.get("in", ""), back_run=own)


def trail(text: str) -> Path:
    first, *rest = re.split(r"( -> |/)", text)
    items, hops = [item(first)], []
    for joint, word in zip(rest[::2], rest[1::2], strict=True):
        hops.append(None if joint == "/" else Run("", 0.0))
        items.append(item(word))
    return Path(items, hops)


def item(text: str) -> Place | Device:
    word, *rest = text.split()
    if word not in DEVICES:
        node, _, stud = text.partition("@")
        node, _, port = node.partition(".")
        return Place(node, port, stud)
    name = rest.pop(0) if rest and re.match(r"[FQX]-", rest[0]) else ""
    at = next(i for i, unit in enumerate(rest) if unit == "A")
    return Device(word, float(rest[at - 1]), " ".join(rest[: at - 1]), " ".join(rest[at + 1 :]), name)


def lay(path: Path, wires: str | list[str]) -> None:
    """Put the conductors of a list, or of one for all, on the hops of a path; a size carries on."""
    places = [i for i, hop in enumerate(path.hops) if hop is not None]
    texts = wires if isinstance(wires, list) else [wires]
    before = None
    for at, text in zip(places, texts, strict=True):
        before = path.hops[at] = run(text, before)


def run(text: str, before: Run | None) -> Run:
    parallel, size, length, unit = RUN.match(text).groups()
    if size is None:
        return Run(before.size, metres(length, unit), before.parallel)
    return Run(size, metres(length, unit), int(parallel or 1))


def metres(length: str, unit: str) -> float:
    return float(length) * (FEET if unit == "ft" else 1)


def of_node(node: Node) -> str:
    """Its part, by what it is."""
    fields = node.fields
    match node.kind:
        case "bank" | "battery":
            return "starter battery" if fields.get("duty") == "starter" else "bank"
        case "bar":
            return {"feed-bar": "main bar", "return-bar": "main return", "bank-return": "spine"}.get(node.name, "")
        case "load":
            return "alarm" if "always on" in fields else "load"
    return node.kind


def of_circuit(model: Model, c: Circuit) -> str:
    """Its part, by the kinds at its ends."""
    first, last = c.path.items[0], c.path.items[-1]
    start, end = model.nodes[first.node], model.nodes[getattr(last, "node", first.node)]
    inner = [i for i in c.path.items[1:-1] if isinstance(i, Place)]
    if last.port in ("sense", "enable", "midpoint"):
        return "sense"
    if c.role == "bond":
        return {"return-bar": "main bond", "earth-bar": "ground bond"}.get(start.name, "case bond")
    if c.role == "return" or inner or first.port:
        return "isolator" if any(model.nodes[i.node].kind == "isolator" for i in inner) else ""
    if start.part == "bank" or start.name == "bank-feed":
        if end.part == "alarm":
            return "alarm"
        return "lead" if end.name == "bank-feed" else "main"
    own = "" if end.kind != "panel" or "pair" not in end.fields else " paired"
    return PARTS.get((start.kind, end.kind), "") + own


PARTS = {
    ("bar", "load"): "load",
    ("panel", "load"): "load",
    ("bar", "panel"): "feeder",
    ("bar", "converter"): "converter feed",
    ("panel", "converter"): "converter feed",
    ("converter", "panel"): "converter output",
    ("bar", "inverter"): "inverter feed",
    ("bar", "inverter charger"): "inverter feed",
    ("pv", "solar charger"): "pv line",
    ("solar charger", "bar"): "charger line",
    ("wind charger", "bar"): "charger line",
    ("dc charger", "bar"): "charger line",
    ("ac charger", "bar"): "charger line",
    ("battery", "starter"): "cranking",
    ("alternator", "battery"): "alternator lead",
    ("battery", "dc charger"): "dc charger feed",
    ("shore", "ac panel"): "shore line",
    ("shore", "inverter charger"): "shore line",
    ("generator", "ac panel"): "generator line",
    ("inverter", "outlet"): "inverter output",
    ("inverter", "transfer"): "inverter output",
    ("inverter charger", "ac panel"): "combi output",
    ("transfer", "ac panel"): "transfer output",
    ("ac panel", "outlet"): "outlet line",
    ("ac panel", "ac load"): "ac load line",
    ("ac panel", "ac charger"): "ac charger feed",
}
