"""Random dc networks: feed and return conductors, batteries, loads, chargers, converters, meshes, joints."""

from __future__ import annotations

import random

from diagrammer.electrics.network import Branch, Charger, Converter, Load, Network, Source


class Draft:
    def __init__(self, seed: int, loading: float):
        self.rng = random.Random(seed)
        self.volts = self.rng.choice((12.8, 25.6, 51.2))
        self.loading = loading
        self.branches, self.sources, self.loads, self.chargers, self.converters = [], [], [], [], []
        self.pairs = []  # (feed node, return node, nominal voltage there)

    def ohms(self, low: float = 0.5e-3, high: float = 50e-3) -> float:
        return low * (high / low) ** self.rng.random()

    def pair(self, near: tuple[str, str, float], low: float = 0.5e-3, high: float = 20e-3) -> tuple[str, str, float]:
        """A new feed and return node, each on its own conductor from `near`."""
        n = len(self.branches)
        feed, back, volts = near
        new = (f"f{n}", f"r{n}", volts)
        self.branches.append(Branch(f"wf{n}", feed, new[0], self.ohms(low, high)))
        joint = self.rng.random() < 0.1
        self.branches.append(Branch(f"wr{n}", new[1], back, 0.0 if joint else self.ohms(low, high)))
        self.pairs.append(new)
        return new

    def load(self, near: tuple[str, str, float]) -> None:
        feed, back, volts = self.pair(near, 2e-3, 80e-3)
        sort = self.rng.choice(("power", "power", "current", "resistance"))
        watts = self.rng.uniform(5, 120) * min(1.0, (volts / 12.8) ** 2) * self.loading
        value = {"power": watts, "current": watts / volts, "resistance": volts**2 / watts}[sort]
        self.loads.append(Load(f"l{len(self.loads)}", feed, back, sort, value))

    def converter(self, near: tuple[str, str, float]) -> None:
        feed, back, volts = self.pair(near)
        n = len(self.converters)
        out = self.rng.choice((5.0, 12.5, 24.5))
        common = self.rng.random() < 0.6
        minus = back if common else f"c{n}-"
        limit = self.rng.choice((float("inf"), 60.0))
        self.converters.append(
            Converter(f"c{n}", feed, back, f"c{n}+", minus, out, self.rng.uniform(0.8, 0.97), limit, 2e-3)
        )
        for _ in range(self.rng.randint(1, 3)):
            self.load((f"c{n}+", minus, out))


def network(seed: int, loading: float = 1.0) -> Network:
    """The network of `seed`; with a `loading` far above 1 it has no steady state."""
    draft = Draft(seed, loading)
    rng, volts = draft.rng, draft.volts
    root = ("bar", "rbar", volts)
    for n in range(rng.randint(1, 3)):
        draft.branches.append(Branch(f"b{n}f", f"b{n}+", "bar", draft.ohms(0.3e-3, 3e-3)))
        draft.branches.append(Branch(f"b{n}r", "rbar", f"b{n}-", draft.ohms(0.3e-3, 3e-3)))
        open_volts = volts * rng.uniform(0.98, 1.02)
        draft.sources.append(Source(f"b{n}", f"b{n}+", f"b{n}-", open_volts, draft.ohms(1e-3, 8e-3)))
    draft.pairs.append(root)
    for _ in range(rng.randint(0, 4)):
        draft.pair(rng.choice(draft.pairs), 0.3e-3, 4e-3)
    panels = list(draft.pairs)
    for _ in range(rng.randint(1, 8)):
        draft.load(rng.choice(panels))
    for _ in range(rng.randint(0, 2)):
        draft.converter(rng.choice(panels))
    for n in range(rng.randint(0, 2)):
        feed, back, _ = draft.pair(rng.choice(panels))
        draft.chargers.append(Charger(f"s{n}", feed, back, volts * rng.uniform(1.0, 1.12), rng.uniform(5, 40), 5e-3))
    if rng.random() < 0.4 and len(panels) > 2:  # a mesh: two panels joined, on both sides
        (a, ra, _), (b, rb, _) = rng.sample(panels, 2)
        draft.branches.append(Branch("tie", a, b, draft.ohms()))
        draft.branches.append(Branch("tie back", ra, rb, draft.ohms()))
    return Network(*map(tuple, (draft.branches, draft.sources, draft.loads, draft.chargers, draft.converters)))
