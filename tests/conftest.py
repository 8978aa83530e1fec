"""What all tests share: a browser, built sites, and Hypothesis without a clock or dice."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, sync_playwright

from tests.browser import ARGUMENTS, chromium

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
