"""Options of the test run."""

from __future__ import annotations

import gc
import os

gc.set_threshold(50_000, 20, 100)  # systems that modules keep for their tests are many, and seldom rubbish


def pytest_addoption(parser):
    parser.addoption("--systems", type=int, default=0, help="how many generated systems to check (0: the usual few hundred)")
    parser.addoption("--first", type=int, default=0, help="the first seed of generated systems")
    parser.addoption("--rewrite-messages", action="store_true", help="write the messages on the pages of tests/language anew")


def pytest_sessionfinish(session, exitstatus):
    """Under CI a skipped test is a failure: what it needs has to be installed there."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    skipped = reporter.stats.get("skipped", []) if reporter else []
    if os.environ.get("CI") and skipped and not exitstatus:
        reporter.write_line(f"{len(skipped)} skipped under CI, where nothing may be")
        session.exitstatus = 1
