"""Power flow, short circuits and sizes of systems of 100 to 10,000 circuits on one core.

    python -m tests.bench.electrics

Prints seconds of processor time and memory a size, and the exponent of growth, fitted by least squares over the logarithms
of all sizes, as that of n log n is; exits 1 above 1 s at 1,000 circuits, above 300 MB at 10,000, or where it grows faster.
"""

from __future__ import annotations

import gc
import math
import resource
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SECONDS, MEGABYTES = 1.0, 300
SIZES = (100, 300, 1_000, 3_000, 10_000)


def text(circuits: int) -> str:
    """A 24 V bank, panels of twenty loads, no size written on any branch."""
    nodes = ["practice: abyc", "nodes:",
             "  bank: {kind: bank, chemistry: lifepo4, voltage: 24 V, capacity: 2000 Ah, short circuit: 30 kA, pair: return-bar}",
             "  return-bar: {kind: bar, rating: 2000 A}", "  feed-bar: {kind: bar, rating: 2000 A, pair: return-bar}",
             "  meter: {kind: shunt, rating: 2000 A}"]
    lines = ["circuits:", "  - {name: main, feed: bank/fuse class-t 1200 A 50 kA -> feed-bar, return: bank -> meter -> return-bar, "
             "wire: {feed: 6 parallel 4/0 AWG 0.1 m, return: [6 parallel 4/0 AWG 0.1 m, 0.1 m]}}"]
    panels = max(1, circuits // 21)
    for panel in range(panels):
        nodes.append(f"  panel-{panel}: {{kind: panel, rating: 100 A, pair: return-bar}}")
        lines.append(f"  - {{feed: feed-bar/fuse class-t 80 A -> panel-{panel}, wire: 2 AWG 2 m}}")
    for load in range(circuits - panels - 1):
        power = max(1, (10 + load % 40) * min(1.0, 1000 / circuits))  # all together within what the bank carries
        nodes.append(f"  load-{load}: {{kind: load, voltage: 24 V, power: {power:.2f} W, hours: 3}}")
        lines.append(f"  - {{feed: panel-{load % panels}/fuse blade 5 A -> load-{load}, wire: {2 + load % 9} m}}")
    return "\n".join(nodes + lines) + "\n"


def seconds(circuits: int) -> float:
    from diagrammer.circuit.study import study
    from diagrammer.netlist.read import read
    from diagrammer.rules import RULES
    from diagrammer.sizing.choose import choose

    assert RULES
    system, problems = read(text(circuits))
    assert not problems, problems[:3]
    start = time.process_time()
    assert study(system).solved[0].flow
    faults = study(system).faults
    assert faults.largest("bank.+") and faults.smallest("bank.+")
    del faults  # as in the program: who sizes keeps no figures of what had no sizes
    sized = choose(system)
    spent = time.process_time() - start
    assert len(sized.choice.sizes) > circuits * 0.9
    return spent


def exponent(spent: dict[int, float]) -> float:
    """The slope of the straight line nearest to the logarithms of time over those of size."""
    xs, ys = [math.log(n) for n in spent], [math.log(t) for t in spent.values()]
    x, y = sum(xs) / len(xs), sum(ys) / len(ys)
    return sum((a - x) * (b - y) for a, b in zip(xs, ys)) / sum((a - x) ** 2 for a in xs)


def alone(circuits: int) -> tuple[float, float]:
    """Seconds and the most memory [MB] of a size, in a process of its own."""
    run = subprocess.run([sys.executable, "-m", "tests.bench.electrics", str(circuits)], cwd=ROOT, check=True,
                         capture_output=True, text=True)
    spent, memory = map(float, run.stdout.split())
    return spent, memory


def measure(circuits: int) -> None:
    gc.disable()  # as the program itself does
    seconds(50)
    spent = min(seconds(circuits) for _ in range(1 if circuits > 1_000 else 3))
    print(spent, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)


def main() -> int:
    spent, memory = {}, {}
    for circuits in SIZES:
        spent[circuits], memory[circuits] = alone(circuits)
        print(f"{circuits:6} circuits: {spent[circuits]:.3f} s, {memory[circuits]:.0f} MB at most")
    grows, may = exponent(spent), exponent({n: n * math.log(n) for n in SIZES})
    print(f"growth n^{grows:.3f}; n log n is n^{may:.3f} over the same sizes; the last decade alone "
          f"n^{math.log10(spent[10_000] / spent[1_000]):.3f}")
    return int(spent[1_000] > SECONDS or memory[10_000] > MEGABYTES or grows > may)


if __name__ == "__main__":
    sys.exit(measure(int(sys.argv[1])) if len(sys.argv) > 1 else main())
