"""Systems made from a seed: sound ones as netlist text, and the same with one fault in them."""

from tests.systems.generate import build, generate
from tests.systems.render import render

__all__ = ["build", "generate", "render"]
