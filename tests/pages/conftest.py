"""The gallery on disk and a browser to open it with, once for all tests."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.pages import gallery


@pytest.fixture(scope="session")
def cache_dir(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory, cache_dir: Path) -> Path:
    folder = tmp_path_factory.mktemp("gallery")
    gallery.write(folder, cache_dir)
    return folder


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        found = shutil.which("chromium") or shutil.which("chromium-browser")
        opened = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        yield opened
        opened.close()
