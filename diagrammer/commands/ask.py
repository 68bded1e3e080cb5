"""diagrammer ask FILE THING: can this system run that, for how long, and what stops it."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

NAME = "ask"
HELP = "can this system run that, for how long, and what stops it"
MORE = """\
examples:
  diagrammer ask boat.yaml kettle 1500 W 5 min
  diagrammer ask boat.yaml saw 1.2 kW start 3 kW 10 min --at workshop-outlet
  diagrammer ask boat.yaml pump 60 W 12 V 2 h
A thing with a voltage below 60 V is looked for on the dc panels, any other at the outlets,\nor where there are none at the ac panels or the inverter."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help="a netlist (YAML)")
    parser.add_argument("thing", nargs="+", metavar="THING", help="name, power, time, start, as in the examples")
    parser.add_argument("--at", metavar="NODE", default="", help="only at this outlet, panel, bar or inverter")


def run(given: argparse.Namespace) -> int:
    from diagrammer import pipeline
    from diagrammer.circuit import question
    from diagrammer.notes import answer
    from diagrammer.text import report

    try:
        asked = answer.read(" ".join(given.thing))
        reading = pipeline.load(given.file)
    except (answer.NoQuestion, pipeline.Unusable) as error:
        print(f"diagrammer: {error}", file=sys.stderr)
        return 2
    if reading.system is None:
        print("\n".join(report.problem(one, reading.source) for one in reading.problems), file=sys.stderr)
        return 2
    places = [node for node in question.places(reading.system, asked.volts) if given.at in ("", node.name)]
    if not places:
        where = f"`{given.at}` is" if given.at else "there is"
        print(f"diagrammer: {where} no {'panel or bar' if asked.volts else 'outlet, ac panel or inverter'} in {given.file}", file=sys.stderr)
        return 2
    possible = False
    for place in places:
        bare = question.alone(asked.question, reading.system)
        alone, together = (question.ask(one, asked.question, place) for one in (bare, reading.system))
        possible = possible or any(one.yes for one in (*alone, *together))
        print(answer.tell(reading.system, asked.question, place, alone, together), end="\n\n")
    print("Worked out from the netlist. Local codes and the makers' instructions come first.")
    return 0 if possible else 1
