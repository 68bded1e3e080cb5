"""How long `draw` takes as a whole process, against what its packages and the engine alone take.

    python tests/bench/draw.py [RUNS]

Prints the medians and their ratio, and exits 1 where the ratio is above 2. Both sides run from byte code, as they do
for whoever draws a second time: one run of each is not counted, and may write it.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LIMIT = 2.0
WRITING = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def largest() -> Path:
    return max(sorted((ROOT / "samples").glob("*.yaml")), key=lambda path: path.stat().st_size)


def seconds(command: list[str], text: str | None = None) -> float:
    start = time.perf_counter()
    subprocess.run(command, input=text, text=True, check=True, stdout=subprocess.DEVNULL, env=WRITING)
    return time.perf_counter() - start


def graphs(sample: Path) -> list[str]:
    """What the engine is asked while the sample is drawn."""
    from diagrammer import pipeline
    from diagrammer.layout import engine
    from diagrammer.layout.options import Options

    asked, source = [], engine.source

    def noted(*given) -> str:
        asked.append(source(*given))
        return asked[-1]

    engine.source = noted
    try:
        system = pipeline.load(sample).system
        pipeline.lay_out(system, pipeline.check(system), Options())
    finally:
        engine.source = source
    return asked


def main(runs: int = 9) -> int:
    from diagrammer.layout import engine

    sample = largest()
    program, _ = engine.program("")
    inputs = graphs(sample)
    ours, theirs = [], []
    with tempfile.TemporaryDirectory() as folder:
        draw = [sys.executable, "-m", "diagrammer", "draw", str(sample), "-o", f"{folder}/out.svg"]
        packages = [sys.executable, "-c", "import networkx, yaml, graphviz"]
        for command in (draw, packages):
            seconds(command)
        for _ in range(runs):
            ours.append(seconds(draw))
            imports = seconds(packages)
            theirs.append(imports + sum(seconds([program, "-Kdot", "-Tjson0"], graph) for graph in inputs))
    ratio = statistics.median(ours) / statistics.median(theirs)
    print(f"{sample.name}: draw {statistics.median(ours):.3f} s; packages and engine alone on the same "
          f"{len(inputs)} graphs {statistics.median(theirs):.3f} s; ratio {ratio:.2f} (limit {LIMIT:g})")
    return int(ratio > LIMIT)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 9))
