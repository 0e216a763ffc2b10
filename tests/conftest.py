"""What holds for every test.

In CI everything is installed that tests need, so a skipped test there is a failure. No property has a
deadline: machines are noisy, and speed is measured in ``tests/benchmarks``.
"""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

_FAILED = 1

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


def pytest_sessionfinish(session: pytest.Session) -> None:
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter is None or os.environ.get("CI") != "true" or hasattr(session.config, "workerinput"):
        return
    if reporter.stats.get("skipped") and session.exitstatus == 0:
        reporter.write_line("A test was skipped, and in CI none may be.", red=True)
        session.exitstatus = _FAILED
