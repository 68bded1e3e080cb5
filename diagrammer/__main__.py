"""The program: `diagrammer COMMAND ...`."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from typing import NoReturn

from diagrammer import __version__, commands

ABOUT = "Checks the netlist of an off-grid electrical system and draws its one-line diagram."
CAUTION = """\
first steps: write a netlist (see README.md), `diagrammer check FILE`, `diagrammer draw FILE`.
The program knows only what the netlist says. Batteries and mains can burn and kill: local codes
and licensed practice come first, and a person who may do so checks the installation."""


def parser(words: list[str]) -> argparse.ArgumentParser:
    """Of the command that the first of `words` names; of all of them where it names none."""
    top = argparse.ArgumentParser("diagrammer", description=ABOUT, epilog=CAUTION, formatter_class=argparse.RawDescriptionHelpFormatter)
    top.add_argument("--version", action="version", version=f"diagrammer {__version__}")
    below = top.add_subparsers(metavar="COMMAND", required=True)
    every = commands.names()
    for name in words[:1] if set(words[:1]) & set(every) else every:
        module = commands.command(name)
        sub = below.add_parser(
            module.NAME, help=module.HELP, description=f"{module.HELP[0].upper()}{module.HELP[1:]}.",
            epilog=getattr(module, "MORE", ""), formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        module.arguments(sub)
        sub.set_defaults(run=module.run)
    return top


def main(words: list[str] | None = None) -> int:
    words = sys.argv[1:] if words is None else words
    given = parser(words).parse_args(words)
    try:
        status = given.run(given)
        sys.stdout.flush()
        return status
    except BrokenPipeError:  # the reader of our output has gone
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        return 130


def program() -> NoReturn:
    """End with the status at once: all is written, and the system takes back in one piece what Python would take apart
    object by object."""
    gc.disable()  # the process is short; collecting cycles of a graph that lives to its end only costs time
    status = main()
    sys.stderr.flush()
    os._exit(status)


if __name__ == "__main__":
    program()
