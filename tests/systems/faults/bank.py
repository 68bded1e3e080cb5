"""What a bank lacks, or is asked: chargers, switches, shunts, room for what hangs on it."""

from __future__ import annotations

from random import Random

from tests.systems.draft import fuse, switch, trail
from tests.systems.faults.ask import end, house, number, one, plain_loads, start
from tests.systems.faults.poles import wire
from tests.systems.model import Circuit, Device, Model, Node, Place, Run
from tests.systems.practice import area
from tests.systems.solar import WATTS

COLD = 0.0175  # [Ω mm²/m] copper at 20 °C
SUN = ("solar charger", "pv", "string", "strings", "combiner", "combiner return", "branch shunt", "pv inverter")


def banks(model: Model) -> str:
    """Any of the house batteries: those that stand together are named together."""
    return "|".join(node.name for node in model.nodes_of("bank"))


def met(circuit: Circuit) -> set[str]:
    """The nodes on its paths."""
    paths = [path for path in (circuit.path, circuit.back) if path]
    return {item.node for path in paths for item in path.items if isinstance(item, Place)}


def all_chargers_left_out(model: Model, rng: Random):
    """The array was the only charger, and is not there."""
    others = ("engine", "alternator", "ac charger", "inverter charger", "dc charger", "wind charger", "wind", "battery")
    if any(node.kind in others and node.part != "bank" for node in model.nodes.values()):
        return None
    gone = {node.name for node in model.nodes.values() if node.part in SUN or node.kind in ("pv", "solar charger")}
    touched = [c for c in model.circuits if gone & met(c)]
    if not gone or any(c.part == "combi output" for c in touched):
        return None
    model.circuits = [c for c in model.circuits if c not in touched]
    model.nodes = {name: node for name, node in model.nodes.items() if name not in gone}
    return (f"bank-never-charged@{banks(model)}",)


def main_switch_left_out(model: Model, rng: Random):
    """Something hangs on the bar through fuses alone, and on the bank through its fuse."""
    mains = [c for c in model.of("main") if c.path.devices("switch")]
    bare = [
        c
        for c in model.of("load", "inverter feed", "converter feed")
        if start(c) == "feed-bar" and all(i.word == "fuse" for i in c.path.items if isinstance(i, Device))
    ]
    if len(mains) != 1 or not bare:
        return None
    (c,) = mains
    at = c.path.devices("switch")[0]
    before, after = c.path.hops[at - 1 : at + 1]
    c.path.items.pop(at)
    c.path.hops[at - 1 : at + 1] = [Run(after.size, before.length + after.length, after.parallel)]
    return (f"bank-without-disconnect@{banks(model)}",)


def cold_day(model: Model, rng: Random):
    """It gets colder than a bank without electronics of its own may be charged."""
    lithium = [n for n in model.nodes_of("bank") if n.fields["chemistry"] == "lifepo4"]
    if not lithium or "cold cutoff" in lithium[0].fields or any(n.kind == "bms" for n in model.nodes.values()):
        return None
    model.site["coldest"] = "-6 °C"
    return (f"cold-charging@{banks(model)}",)


def cold_cutoff_left_out(model: Model, rng: Random):
    lithium = [n for n in model.nodes_of("bank") if "cold cutoff" in n.fields]
    if not lithium or number(model.site["coldest"]) >= 0 or any(n.kind == "bms" for n in model.nodes.values()):
        return None
    for node in lithium:
        del node.fields["cold cutoff"]
    return (f"cold-charging@{banks(model)}",)


def taken_from_one(model: Model, rng: Random):
    """Feed and return of two linked batteries on the posts of the first."""
    if not model.of("link"):
        return None
    (main,) = model.of("main")
    main.back.items[0] = Place(start(main))
    return (f"uneven-bank@{start(main)}",)


def lead_far_longer(model: Model, rng: Random):
    """One of several batteries with as much resistance in its cable as in itself: what it does not give, they must."""
    leads = model.of("lead")
    c = one(rng, leads)
    if not c:
        return None
    fields, run = model.nodes[start(c)].fields, c.path.runs[0]
    ohms = number(fields["voltage"]) / number(fields["short circuit"])
    metres = round(ohms * area(model.practice, run.size) * run.parallel / (2 * COLD), 1)
    for path in (c.path, c.back):
        for run in path.runs:
            run.length += metres
    others = [start(o) for o in leads if o is not c]
    return (f"uneven-bank@{'|'.join(others)}",)


def linked_too_large(model: Model, rng: Random):
    """Two of 300 Ah post to post, with one fuse for both."""
    if not model.of("link"):
        return None
    for node in model.nodes_of("bank"):
        node.fields["capacity"] = "300 Ah"
    return (f"unfused-batteries@{banks(model)}",)


def load_on_midpoint(model: Model, rng: Random):
    """A load of half the voltage on the lower of two batteries."""
    stack = one(rng, [c for c in model.of("stack") if len(c.path.items) == 2 and c.path.runs[0].parallel < 3])
    if not stack:
        return None
    low = start(stack)
    model.nodes["mid-lamp"] = Node("mid-lamp", "load", {"voltage": model.nodes[low].fields["voltage"], "power": "3 W"})
    path = trail(low, None, fuse(3, "", "20 kA"), wire(model), switch(5), wire(model), "mid-lamp")
    model.circuits.append(Circuit("bad", "feed", path, trail("return-bar", wire(model, 2.0), "mid-lamp")))
    return ("midpoint-load@mid-lamp",)


def no_shunt_at_all(model: Model, rng: Random):
    """The main return without its shunt, and what measures with it."""
    mains = model.of("main", "selected main")
    if len(mains) != 1:
        return None
    back = mains[0].back
    gone = {i.node for i in back.items if model.nodes[i.node].kind == "shunt"}
    model.circuits = [c for c in model.circuits if not gone & {getattr(c.path.items[-1], "node", "")}]
    for name in gone:
        at = next(i for i, item in enumerate(back.items) if item.node == name)
        back.items.pop(at)
        back.hops.pop(at)
        del model.nodes[name]
    return (f"no-shunt@{banks(model)}",)


def long_running(model: Model, rng: Random) -> tuple[Node, float] | None:
    """A load of the house, made to run day and night; with what it takes of the bank in a day [Wh] at least."""
    choices = [c for c in plain_loads(model) if house(model, c) and ".." not in model.nodes[end(c)].fields["voltage"]]
    c = one(rng, [c for c in choices if number(model.nodes[end(c)].fields["power"]) > 10])
    if not c:
        return None
    node = model.nodes[end(c)]
    node.fields["hours"] = "24"
    return node, 24 * number(node.fields["power"])


def autonomy_too_long(model: Model, rng: Random):
    found = long_running(model, rng)
    if not found:
        return None
    stored = sum(number(n.fields["capacity"]) * number(n.fields["voltage"]) for n in model.nodes_of("bank"))
    model.site["autonomy"] = f"{int(stored / found[1]) + 2} days"
    return (f"runs-out@{banks(model)}",)


def sun_too_weak(model: Model, rng: Random):
    """An hour's winter sun for a load that runs day and night."""
    found = long_running(model, rng)
    arrays = model.nodes_of("pv", "strings", "string", "pv ac")
    modules = sum(int(n.fields.get("series", 1)) * int(n.fields.get("parallel", 1)) for n in arrays)
    if not found or not modules or model.nodes_of("pv inverter"):
        return None
    model.site["sun hours"] = f"{0.5 * found[1] / (modules * WATTS):.3f}"
    return (f"never-recovers@{banks(model)}",)


FAULTS = (
    all_chargers_left_out,
    main_switch_left_out,
    cold_day,
    cold_cutoff_left_out,
    taken_from_one,
    lead_far_longer,
    linked_too_large,
    load_on_midpoint,
    no_shunt_at_all,
    autonomy_too_long,
    sun_too_weak,
)
