"""Power flow, short circuits and sizes of systems of 100, 1,000 and 10,000 circuits on one core.

    python tests/bench/electrics.py

Prints seconds of processor time and memory a size, and the exponent of growth from 1,000 to 10,000;
exits 1 above 1 s at 1,000 circuits, above 300 MB there, or where it grows faster than n log n.
"""

from __future__ import annotations

import gc
import math
import resource
import sys
import time

SECONDS, MEGABYTES = 1.0, 300
N_LOG_N = math.log(10_000 * math.log(10_000) / (1_000 * math.log(1_000))) / math.log(10)  # about 1.125
NOISE = 0.05  # of a fitted exponent, on a machine that does other things too


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
    computed = study(system)
    assert computed.solved[0].flow and computed.faults.largest("bank.+") and computed.faults.smallest("bank.+")
    sized = choose(system)
    spent = time.process_time() - start
    assert len(sized.choice.sizes) > circuits * 0.9
    return spent


def main() -> int:
    gc.disable()  # as the program itself does
    seconds(50)
    spent = {}
    for circuits in (100, 1_000, 10_000):
        spent[circuits] = min(seconds(circuits) for _ in range(1 if circuits > 1_000 else 3))
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(f"{circuits:6} circuits: {spent[circuits]:.3f} s, {memory:.0f} MB at most so far")
        if circuits == 1_000:
            at_thousand = memory
    exponent = math.log10(spent[10_000] / spent[1_000])
    print(f"growth from 1,000 to 10,000: n^{exponent:.3f}; n log n would be n^{N_LOG_N:.3f}")
    return int(spent[1_000] > SECONDS or at_thousand > MEGABYTES or exponent > N_LOG_N + NOISE)


if __name__ == "__main__":
    sys.exit(main())
