"""The network solver against scipy.optimize.root on the same equations, written independently and dense."""

import math

import pytest

from diagrammer.electrics.flow import imbalance, solve
from diagrammer.electrics.network import Branch, Collapse, Flow, Load, Network, Source
from tests.oracles.networks import network

np = pytest.importorskip("numpy")
optimize = pytest.importorskip("scipy.optimize")


def residuals(net, nodes, grounded):
    """Current into each node, as a function of the voltages of the nodes that are not grounded."""
    joints = [b for b in net.branches if b.ohms == 0]
    index = {node: n for n, node in enumerate(n for n in nodes if n not in grounded)}

    def function(x, share):
        v = {node: x[index[node]] if node in index else 0.0 for node in nodes}
        into = dict.fromkeys(nodes, 0.0)

        def flow(a, b, amps):
            into[a] -= amps
            into[b] += amps

        for b in net.branches:
            if b.ohms:
                flow(b.a, b.b, (v[b.a] - v[b.b]) / b.ohms)
        for s in net.sources:
            flow(s.minus, s.plus, (s.volts - v[s.plus] + v[s.minus]) / s.ohms)
        for load in net.loads:
            across = v[load.plus] - v[load.minus]
            amps = {"power": load.value / across, "current": load.value, "resistance": across / load.value}[load.sort]
            flow(load.plus, load.minus, amps * share)
        for g in (*net.chargers, *net.converters):
            across = v[g.plus] - v[g.minus]
            amps = min(max((g.volts - across) / g.ohms, 0.0), g.amps)
            flow(g.minus, g.plus, amps)
            if hasattr(g, "from_plus"):
                taken = v[g.from_plus] - v[g.from_minus]
                flow(g.from_plus, g.from_minus, amps * across / g.efficiency / taken)
        for n, joint in enumerate(joints):  # unknown current, known voltage
            flow(joint.a, joint.b, x[len(index) + n])
        return [into[node] for node in index] + [v[j.a] - v[j.b] for j in joints]

    return function, index, len(joints)


def oracle(net):
    nodes = list(dict.fromkeys(
        getattr(p, end) for p in (*net.sources, *net.branches, *net.loads, *net.chargers, *net.converters)
        for end in ("plus", "minus", "a", "b", "from_plus", "from_minus") if hasattr(p, end)
    ))
    grounded = {net.sources[0].minus} | {c.minus for c in net.converters if c.minus.startswith("c")}
    function, index, joints = residuals(net, nodes, grounded)
    fed = {c.plus: c.volts - 1e-3 for c in net.converters}  # beside the kink of its characteristic
    start = [net.sources[0].volts if n[0] in "bf" and not n.endswith("-") else 0.0 for n in index]
    for place, node in enumerate(index):
        start[place] = fed.get(node, start[place])
    for branch in net.branches:  # what hangs on a converter starts at its voltage
        if branch.a in fed and branch.b in index:
            start[index[branch.b]] = fed[branch.a]
    x = start + [0.0] * joints
    for share in (0.1, 0.4, 0.7, 1.0):  # follows the upper of two solutions
        x = optimize.root(function, x, args=(share,), tol=1e-13).x
    far = max(map(abs, x[:len(index)]), default=0.0) > 2 * max(s.volts for s in net.sources)
    if far or max(map(abs, function(x, 1.0)), default=0.0) > 1e-6:  # what scipy calls success may be far away
        return None
    return {node: x[place] for node, place in index.items()}


def test_600_networks():
    """Every voltage to 1e-6 relative; scipy has to solve nearly all of them for the comparison to count."""
    compared = 0
    for seed in range(600):
        net = network(seed)
        flow = solve(net)
        if isinstance(flow, Collapse):
            assert oracle(net) is None, f"seed {seed}"
            continue
        assert abs(imbalance(net, flow)) < 1e-9, f"seed {seed}"
        expected = oracle(net)
        if expected is None:
            continue
        compared += 1
        scale = max(map(abs, expected.values()))
        for node, volts in expected.items():
            assert flow.volts[node] == pytest.approx(volts, rel=1e-6, abs=1e-6 * scale), f"seed {seed}, {node}"
    assert compared >= 550, compared


def test_collapse_is_where_scipy_finds_nothing():
    """One branch: P > E² / 4R has no solution; E 12.8 V, R 0.1 ohm gives 409.6 W (closed form)."""
    for watts, carried in ((409.0, True), (410.2, False), (500.0, False)):
        net = Network((Branch("wire", "s", "x", 0.1 - 1e-6),), (Source("bank", "s", "0", 12.8, 1e-6),),
                      (Load("load", "x", "0", "power", watts),))
        assert isinstance(solve(net), Flow) is carried
        root = optimize.root(lambda v: (12.8 - v) / 0.1 - watts / v, 12.8, tol=1e-13)
        assert bool(root.success) is carried


def test_closed_form_of_one_branch():
    """V = (E + sqrt(E² - 4 R P)) / 2: E 12.8 V, R 0.1 ohm, P 100 W gives 11.964171 V and 8.358289 A."""
    net = Network((Branch("wire", "s", "x", 0.1 - 1e-6),), (Source("bank", "s", "0", 12.8, 1e-6),),
                  (Load("load", "x", "0", "power", 100),))
    flow = solve(net)
    assert flow.volts["x"] == pytest.approx((12.8 + math.sqrt(12.8**2 - 40)) / 2, rel=1e-12)
    assert flow.volts["x"] == pytest.approx(11.964171, abs=1e-6)
    assert flow.amps["load"] == pytest.approx(8.358289, abs=1e-6)


def test_overloaded_networks_are_not_answered():
    """Constant powers 3000 times too large: no voltages are returned, a load and a part of its way are named."""
    for seed in range(40):
        net = network(seed, loading=3000.0)
        if all(load.sort != "power" for load in net.loads):
            continue
        found = solve(net)
        assert isinstance(found, Collapse), f"seed {seed}"
        assert 0 < found.share < 1
        names = {p.name for p in (*net.loads, *net.converters)}
        ways = {p.name for p in (*net.branches, *net.sources, *net.converters)}
        assert found.load in names and found.branch in ways, f"seed {seed}: {found}"
