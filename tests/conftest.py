"""What holds for every test.

In CI a skipped test is a failure, unless it needs a package that the extra `test` does not bring. No property has a
deadline: machines are noisy, and speed is measured in ``tests/benchmarks``.
"""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

_FAILED = 1
_BROUGHT_APART = "tinysoundfont is not installed"

settings.register_profile("untimed", deadline=None)
settings.register_profile("fast", deadline=None, max_examples=25)


def pytest_configure(config: pytest.Config) -> None:
    """Without the slow tests, properties that name no number of examples are tried on fewer."""
    settings.load_profile("fast" if "not slow" in config.option.markexpr else "untimed")


def pytest_sessionfinish(session: pytest.Session) -> None:
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter is None or os.environ.get("CI") != "true" or hasattr(session.config, "workerinput"):
        return
    skipped = [str(report.longrepr) for report in reporter.stats.get("skipped", ())]
    if session.exitstatus == 0 and not all(_BROUGHT_APART in why for why in skipped):
        reporter.write_line("A test was skipped, and in CI none may be.", red=True)
        session.exitstatus = _FAILED
