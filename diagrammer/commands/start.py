"""diagrammer start FILE: a first netlist to go on from."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from diagrammer.netlist.start import PRACTICES, SOURCES, VOLTAGES, Choice, start

NAME = "start"
HELP = "write a first netlist, small and sound, to change into your own"
MORE = "example: diagrammer start my-van.yaml --voltage 24 --sources solar shore --practice iso"


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help="the netlist to write; it must not be there yet")
    parser.add_argument("--voltage", type=int, choices=VOLTAGES, default=12, help="of the bank, in volts (default: 12)")
    parser.add_argument("--sources", nargs="+", choices=SOURCES, default=["solar"], help="what charges the bank (default: solar)")
    parser.add_argument("--practice", choices=PRACTICES, default="abyc", help="whose tables and mains voltages apply (default: abyc)")


def run(given: argparse.Namespace) -> int:
    text = start(Choice(given.voltage, tuple(given.sources), given.practice))
    try:
        with given.file.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        print(f"diagrammer: {given.file}: is there already, and stays as it is; name another file", file=sys.stderr)
        return 2
    except OSError as error:
        print(f"diagrammer: {given.file}: can't be written: {error.strerror or error}", file=sys.stderr)
        return 2
    print(f"{given.file}: written. Next: diagrammer check {given.file}")
    return 0
