"""The network solver against ngspice, many decks in one process; loads that draw constant power as B sources."""

import re
import shutil
import subprocess

import pytest

from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Branch, Flow, Load, Network, Source
from tests.oracles.networks import network

pytestmark = pytest.mark.skipif(shutil.which("ngspice") is None, reason="ngspice is not installed")


def deck(net):
    """Lines of a circuit; a constant-power load turns into a resistance far below its voltage, so that it converges."""
    parts = (*net.sources, *net.branches, *net.loads, *net.chargers, *net.converters)
    ends = ("plus", "minus", "a", "b", "from_plus", "from_minus")
    names = dict.fromkeys(getattr(p, end) for p in parts for end in ends if hasattr(p, end))
    grounded = {net.sources[0].minus} | {c.minus for c in net.converters if c.minus.startswith("c")}
    node = {name: "0" if name in grounded else f"n{n}" for n, name in enumerate(names)}
    lines = []
    for n, b in enumerate(net.branches):
        a, b_, ohms = node[b.a], node[b.b], b.ohms
        lines.append(f"Rb{n} {a} {b_} {ohms!r}" if ohms else f"Vj{n} {a} {b_} 0")
    for n, s in enumerate(net.sources):
        lines += [f"Vs{n} s{n} {node[s.minus]} {s.volts!r}", f"Rs{n} s{n} {node[s.plus]} {s.ohms!r}"]
    for n, load in enumerate(net.loads):
        a, b, value = node[load.plus], node[load.minus], load.value
        across = f"V({a},{b})"
        lines.append({
            "power": f"Bl{n} {a} {b} I = {across}>3 ? {value!r}/{across} : {value!r}*{across}/9",
            "current": f"Il{n} {a} {b} {value!r}", "resistance": f"Rl{n} {a} {b} {value!r}",
        }[load.sort])
    for n, g in enumerate((*net.chargers, *net.converters)):
        a, b = node[g.plus], node[g.minus]
        most = min(g.amps, 1e6)
        amps = f"max(0, min({most!r}, ({g.volts!r}-V({a},{b}))/{g.ohms!r}))"
        lines.append(f"Bg{n} {b} {a} I = {amps}")
        if hasattr(g, "from_plus"):
            c, d = node[g.from_plus], node[g.from_minus]
            lines.append(f"Bi{n} {c} {d} I = {amps}*V({a},{b})/{g.efficiency!r}/max(V({c},{d}),3)")
        lines.append(f".nodeset v({a})={g.volts!r}")
    lines += [f".nodeset v(s{n})={s.volts!r}" for n, s in enumerate(net.sources)]
    return [".options reltol=1e-10 abstol=1e-11 vntol=1e-10 gmin=1e-15 itl1=500", *lines], node


def run(folder, decks):
    """Node voltages of every deck, from one ngspice process."""
    script = ["all the decks", ".control", "set numdgt=12"]
    for number, lines in enumerate(decks):
        (folder / f"d{number}.cir").write_text("\n".join([f"deck {number}", *lines, ".end", ""]))
        script += [f"source {folder}/d{number}.cir", f"echo deck {number}", "op", "print all", "destroy all", "remcirc"]
    (folder / "all.cir").write_text("\n".join([*script, "quit", ".endc", ".end", ""]))
    out = subprocess.run(["ngspice", "-b", "all.cir"], cwd=folder, capture_output=True, text=True, timeout=120).stdout
    found = re.split(r"^deck (\d+)$", out, flags=re.M)
    return {
        int(number): {k: float(v) for k, v in re.findall(r"^(\S+) = (\S+)$", text, flags=re.M)}
        for number, text in zip(found[1::2], found[2::2])
    }


def test_600_networks(tmp_path):
    nets = [network(seed) for seed in range(1000, 1600)]
    decks = [deck(net) for net in nets]
    found = run(tmp_path, [lines for lines, _ in decks])
    compared = 0
    for number, (net, (_, node)) in enumerate(zip(nets, decks)):
        flow, spice = solve(net), {**found.get(number, {}), "0": 0.0}
        if not isinstance(flow, Flow) or any(node[p.plus] not in spice for p in net.sources):
            continue
        across = [(p.plus, p.minus) for p in (*net.loads, *net.sources, *net.chargers, *net.converters)]
        if any(not 3 < spice[node[a]] - spice[node[b]] < 100 for a, b in across):
            continue  # ngspice took the other branch of the nose curve, or ran away
        compared += 1
        for a, b in across:
            expected = spice[node[a]] - spice[node[b]]
            assert flow.volts[a] - flow.volts[b] == pytest.approx(expected, rel=1e-6), f"network {number}, {a}"
    assert compared >= 500, compared


def test_the_three_branch_network(tmp_path):
    """12.8 V, 2 mohm bank, 0.2 mohm fuse, 1 m of 35 mm² both ways; a 60 W load, a 4 ohm heater, 1000 W through 0.9."""
    net = Network(
        (Branch("fuse", "bp", "f1", 0.2e-3), Branch("pos", "f1", "bus", 0.554e-3), Branch("neg", "nbus", "0", 0.554e-3),
         Branch("p1", "bus", "l1", 39.9e-3), Branch("n1", "l1n", "nbus", 39.9e-3), Branch("p2", "bus", "l2", 14.85e-3),
         Branch("n2", "l2n", "nbus", 14.85e-3), Branch("p3", "bus", "l3", 0.554e-3),
         Branch("n3", "l3n", "nbus", 0.554e-3)),
        (Source("bank", "bp", "0", 12.8, 2e-3),),
        (Load("lamp", "l1", "l1n", "power", 60), Load("heater", "l2", "l2n", "resistance", 4),
         Load("inverter", "l3", "l3n", "power", 1111.11)),
    )
    flow = solve(net)
    lines, node = deck(net)
    spice = run(tmp_path, [lines])[0]
    spice["0"] = 0.0
    for (a, b), printed in ((("bus", "nbus"), 12.476359), (("l1", "l1n"), 12.080001), (("l2", "l2n"), 12.384405),
                            (("l3", "l3n"), 12.376890)):  # published values of the same network
        across = flow.volts[a] - flow.volts[b]
        assert across == pytest.approx(printed, abs=1e-5)
        assert across == pytest.approx(spice[node[a]] - spice[node[b]], rel=1e-7)
    assert flow.amps["bank"] == pytest.approx(97.835942, abs=1e-5)
