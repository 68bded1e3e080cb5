"""How long layout takes in-process, on systems that tests/systems generates, and how it grows.

    python tests/bench/layout.py [RUNS]

Prints CPU times, the least of some runs with the packing of the layout itself (no engine), and exits 1 where one is
above its limit: 40 ms at 60 nodes, also at 80 where a drawing splits over sheets, 1.5 s at 1,000 circuits; or where
layout grows faster than n log n: from 250 circuits to 1,000 the time divided by n log n may rise by half at most.
"""

from __future__ import annotations

import gc
import math
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
# seed and size of a generated system, what is counted, how many there must be, and the limit [ms]
SYSTEMS = (
    ((1, 30), "nodes", 55, 40.0), ((5, 30), "nodes", 55, 40.0), ((2, 40), "nodes", 80, 40.0), ((9, 45), "nodes", 80, 40.0),
    ((1, 300), "circuits", 250, 1500.0), ((3, 600), "circuits", 500, 1500.0), ((1, 1150), "circuits", 1000, 1500.0),
)
RISE = 1.5  # of time divided by n log n


def milliseconds(system, runs: int) -> tuple[float, int]:
    """The least CPU time of some drawings, each with caches that other drawings left; and the sheets of one. The garbage
    collector rests while one is drawn, as it does in the program."""
    from diagrammer.layout.draw import draw
    from diagrammer.layout.options import Options

    least, sheets = math.inf, 0
    for _ in range(runs):
        gc.collect()
        gc.disable()
        start = time.process_time()
        sheets = len(draw(system, (), Options(engine="own")).sheets)
        least = min(least, time.process_time() - start)
        gc.enable()
    return least * 1000, sheets


def main(runs: int = 5) -> int:
    from diagrammer.netlist.read import read
    from tests.systems import generate

    failed, rates = False, []
    for (seed, size), counted, count, limit in SYSTEMS:
        system, _ = read(generate(seed, size), "generated.yaml")
        number = len(system.nodes if counted == "nodes" else system.circuits)
        took, sheets = milliseconds(system, runs)
        bad = took > limit or number < count
        failed |= bad
        if counted == "circuits":
            rates.append(took / (len(system.nodes) * math.log(len(system.nodes))))
        print(f"seed {seed}: {len(system.nodes)} nodes, {len(system.circuits)} circuits, {sheets} sheets: "
              f"{took:.0f} ms (limit {limit:g} at {count} {counted}){' TOO MUCH' if bad else ''}", flush=True)
    rise = rates[-1] / rates[0]
    print(f"time over n log n rises {rise:.2f} times (limit {RISE:g})")
    return int(failed or rise > RISE)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 5))
