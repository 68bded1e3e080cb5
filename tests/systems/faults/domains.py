"""Two voltages on one net, sources without a controller."""

from __future__ import annotations

from random import Random

from tests.systems.draft import fuse, trail
from tests.systems.faults.ask import POST_FUSED, end, house, one, settled, start
from tests.systems.faults.poles import wire
from tests.systems.model import NONE, Circuit, Model, Node, Run
from tests.systems.practice import MAINS, SIZES

OTHER = {12: 24, 24: 12, 48: 12}


def load_of_other_voltage(model: Model, rng: Random):
    choices = [c for c in model.of("load") if ".." not in model.nodes[end(c)].fields["voltage"]]
    c = one(rng, choices)
    if not c:
        return None
    fields = model.nodes[end(c)].fields
    fields["voltage"] = f"{OTHER[int(fields['voltage'].split()[0])]} V"
    places = [c.name]
    if house(model, c) and not settled(model, c):  # the bank may be the one that is wrong
        places += [o.name for o in model.of(*POST_FUSED, "selected main")]
    return (f"wrong-domain@{'|'.join(f'{name}:*' for name in places)}",)


def bridge_past_converter(model: Model, rng: Random):
    c = one(rng, model.of("converter output", "converter output paired"))
    if not c:
        return None
    path = trail("feed-bar", None, fuse(10), wire(model), end(c))
    model.circuits.append(Circuit("bad", "feed", path, NONE))
    return ("wrong-domain@bad:f0",)


def module(model: Model, name: str) -> None:
    fields = {"power": "195 W", "voc": "24.6 V", "vmp": "20.4 V", "isc": "10.2 A", "imp": "9.6 A"}
    model.nodes[name] = Node(name, "pv", fields)


def pv_on_bar(model: Model, rng: Random):
    module(model, "bare-module")
    thick = SIZES[model.practice][3].label
    path = trail("bare-module", Run(thick, 3), fuse(20, "class-t", "20 kA"), None, "feed-bar")
    model.circuits.append(Circuit("bad", "feed", path))
    return ("uncontrolled-source@bad:*",)


def pv_port_forgotten(model: Model, rng: Random):
    """The array lands on the controller's battery side."""
    c = one(rng, [c for c in model.of("pv line") if model.nodes[start(c)].part == "pv"])
    if not c:
        return None
    sun = end(c)
    out = next(o for o in model.of("charger line") if start(o) == sun)
    if out.back is not None:
        return None
    c.path.items[-1].port = ""
    run = c.path.runs[0]
    c.back = trail(start(c), Run(run.size, run.length, run.parallel), sun)
    run = out.path.runs[0]
    out.back = trail(sun, Run(run.size, sum(r.length for r in out.path.runs), run.parallel), "return-bar")
    return (f"uncontrolled-source@{c.name}:*",)


def shore_of_other_voltage(model: Model, rng: Random):
    c = one(rng, [c for c in model.of("shore line") if model.nodes[end(c)].kind == "inverter charger"])
    if not c:
        return None
    model.nodes[start(c)].fields["voltage"] = "230 V" if MAINS[model.practice] == 120 else "120 V"
    return (f"wrong-domain@{c.name}:*",)


def ac_load_of_other_voltage(model: Model, rng: Random):
    c = one(rng, model.of("ac load line"))
    if not c:
        return None
    model.nodes[end(c)].fields["voltage"] = "230 V" if MAINS[model.practice] == 120 else "120 V"
    return (f"wrong-domain@{c.name}:*",)


def panel_of_other_voltage(model: Model, rng: Random):
    """Every load of a panel is made for another voltage: one finding, on the panel's line."""
    choices = []
    for c in model.of("feeder", "feeder paired"):
        hung = [o for o in model.circuits if o.role == "feed" and start(o) == end(c)]
        if (
            len(hung) >= 4
            and settled(model, c)
            and all(o.part == "load" and ".." not in model.nodes[end(o)].fields["voltage"] for o in hung)
        ):
            choices.append((c, hung))
    chosen = one(rng, choices)
    if not chosen:
        return None
    c, hung = chosen
    for line in hung:
        model.nodes[end(line)].fields["voltage"] = f"{OTHER[model.volts]} V"
    return (f"wrong-domain@{c.name}:*",)


def battery_of_other_voltage(model: Model, rng: Random):
    """One of three batteries in parallel."""
    leads = model.of("lead")
    c = one(rng, leads)
    if not c or len(leads) < 3:
        return None
    model.nodes[start(c)].fields["voltage"] = f"{OTHER[model.volts]} V"
    return (f"wrong-domain@{c.name}:*",)


def charger_of_other_voltage(model: Model, rng: Random):
    """A dc charger whose output is made for another bank."""
    c = one(rng, [c for c in model.of("charger line") if model.nodes[start(c)].kind == "dc charger"])
    if not c:
        return None
    model.nodes[start(c)].fields["voltage"] = f"{OTHER[model.volts]} V"
    return (f"wrong-domain@{c.name}:*",)


def converter_fed_wrong(model: Model, rng: Random):
    """A converter's input takes another voltage than the bar has."""
    c = one(rng, model.of("converter feed"))
    if not c or not settled(model, c):
        return None
    model.nodes[end(c)].fields["input voltage"] = f"{OTHER[model.volts]} V"
    return (f"wrong-domain@{c.name}:*",)


FAULTS = (
    panel_of_other_voltage,
    battery_of_other_voltage,
    charger_of_other_voltage,
    converter_fed_wrong,
    load_of_other_voltage,
    bridge_past_converter,
    pv_on_bar,
    pv_port_forgotten,
    shore_of_other_voltage,
    ac_load_of_other_voltage,
)
