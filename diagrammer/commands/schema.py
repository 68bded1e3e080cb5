"""diagrammer schema: the JSON Schema of a netlist, for an editor."""

from __future__ import annotations

import argparse

NAME = "schema"
HELP = "print the JSON Schema of a netlist, for completion and hover in an editor"
MORE = "Keep it in a file and name that in the editor's settings for YAML."


def arguments(parser: argparse.ArgumentParser) -> None:
    """None: there is one schema."""


def run(given: argparse.Namespace) -> int:
    import json

    from diagrammer.netlist.schema import schema

    print(json.dumps(schema(), indent=2, ensure_ascii=False))
    return 0
