"""Options of the test run."""

from __future__ import annotations


def pytest_addoption(parser):
    parser.addoption("--systems", type=int, default=0, help="how many generated systems to check (0: the usual few hundred)")
