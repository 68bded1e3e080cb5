"""How long the graph's checks take on generated systems of growing size, stage by stage.

    python tests/bench/check.py [CIRCUITS ...]

Prints seconds of processor time, and exits 1 where 1,000 circuits take more than a second, or where
time grows faster than the circuits by more than half.
"""

from __future__ import annotations

import gc
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from diagrammer.circuit.survey import Survey  # noqa: E402
from diagrammer.netlist.read import read  # noqa: E402
from tests.systems import build, render  # noqa: E402

STAGES = ("start", "poles", "domains", "measured", "sources", "protection", "loops")
NODES_A_CIRCUIT = 1.11  # of a generated system


def measure(circuits: int) -> tuple[int, dict[str, float]]:
    """The circuits there are, and the seconds of each stage."""
    system, problems = read(render(build(3, round(circuits * NODES_A_CIRCUIT))))
    assert system is not None, problems
    survey, taken = Survey(system), {}
    gc.collect()
    gc.freeze()  # what reading left behind is not the checks' to walk through
    for stage in STAGES:
        start = time.process_time()
        getattr(survey, stage)
        taken[stage] = time.process_time() - start
    return len(system.circuits), taken


def main(sizes: list[int]) -> int:
    print("circuits", *(f"{stage:>10}" for stage in (*STAGES, "all")))
    totals = []
    for size in sizes:
        count, taken = measure(size)
        totals.append((count, sum(taken.values())))
        print(f"{count:8}", *(f"{seconds:10.3f}" for seconds in (*taken.values(), sum(taken.values()))))
    slow = [total for count, total in totals if count <= 1000 and total > 1]
    (few, first), (many, last) = totals[0], totals[-1]
    steep = few != many and last / first > 1.5 * many / few
    return int(bool(slow or steep))


if __name__ == "__main__":
    sys.exit(main([int(word) for word in sys.argv[1:]] or [100, 1000, 3000]))
