"""Shared by every test: nothing may be skipped quietly where everything is installed."""

import os

import hypothesis

# The same examples at every run, so that a run that failed can be run again. To look for new ones:
# HANGARLEAF_RANDOM_EXAMPLES=1
hypothesis.settings.register_profile(
    "hangarleaf", derandomize=not os.environ.get("HANGARLEAF_RANDOM_EXAMPLES"), deadline=None
)
hypothesis.settings.load_profile("hangarleaf")

_skipped: list[str] = []


def pytest_runtest_logreport(report):
    if report.skipped and not hasattr(report, "wasxfail"):
        _skipped.append(f"{report.nodeid}: {report.longrepr[2] if report.longrepr else ''}")


def pytest_collectreport(report):
    if report.skipped:
        _skipped.append(f"{report.nodeid}: skipped whole")


def pytest_sessionfinish(session, exitstatus):
    """With HANGARLEAF_NO_SKIPS set (as .ci/run does), a skipped test is a failure."""
    if os.environ.get("HANGARLEAF_NO_SKIPS") and _skipped and exitstatus == 0:
        session.exitstatus = 1


def pytest_terminal_summary(terminalreporter):
    if os.environ.get("HANGARLEAF_NO_SKIPS") and _skipped:
        terminalreporter.section("skipped, and must not be here", red=True)
        for line in sorted(_skipped):
            terminalreporter.line(line)
