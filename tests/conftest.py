"""What all tests share: a browser, built sites, and Hypothesis without a clock."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright

from tests.browser import ARGUMENTS, chromium

# A deadline would make a test depend on how busy the machine is.
settings.register_profile("no clock", deadline=None)
settings.load_profile("no clock")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A real Chromium, started once."""
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium(), args=list(ARGUMENTS))
        yield started
        started.close()
