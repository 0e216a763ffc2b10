"""In CI everything is installed that tests need, so a skipped test there is a failure."""

from __future__ import annotations

import os

import pytest

_FAILED = 1


def pytest_sessionfinish(session: pytest.Session) -> None:
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter is None or os.environ.get("CI") != "true" or hasattr(session.config, "workerinput"):
        return
    if reporter.stats.get("skipped") and session.exitstatus == 0:
        reporter.write_line("A test was skipped, and in CI none may be.", red=True)
        session.exitstatus = _FAILED
