"""What all tests share: a browser, built sites, and Hypothesis without a clock or dice."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, sync_playwright

from tests.bidi import Session, started
from tests.browser import ARGUMENTS, FIREFOX, chromium, installed

# The command speaks the language of whoever runs it; what tests look for is English.
os.environ["LC_ALL"] = "C.UTF-8"

# A clock would make a test depend on how busy the machine is, fresh examples on the day:
# what fails, fails everywhere. To look for more: pytest --hypothesis-profile=dice
NO_CLOCK = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("no clock", NO_CLOCK, derandomize=True)
settings.register_profile("dice", NO_CLOCK)
settings.load_profile("no clock")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A real Chromium, started once."""
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium(), args=list(ARGUMENTS))
        yield started
        started.close()


NO_FIREFOX = "no Firefox is installed here, and `python -m tests` could not install one"


@pytest.fixture(scope="session")
def firefox() -> Iterator[Session]:
    """A real Firefox, started once; the one browser that tests may go without.

    It is not installed here: several processes at once would be in each other's way.
    """
    program = installed(FIREFOX)
    if program is None:
        pytest.skip(NO_FIREFOX)
    with started(program) as session:
        yield session


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say at the end, where nobody overlooks it, that nothing was looked at in Firefox."""
    skipped = terminalreporter.getreports("skipped")
    left_out = sum(NO_FIREFOX in str(report.longrepr) for report in skipped)
    if left_out:
        terminalreporter.section("NOT TESTED IN FIREFOX", red=True, bold=True)
        terminalreporter.write_line(f"{left_out} tests left out: {NO_FIREFOX}.", red=True)
