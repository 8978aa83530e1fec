"""The gallery on disk once for all tests."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages import gallery


@pytest.fixture(scope="session")
def cache_dir(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory, cache_dir: Path) -> Path:
    folder = tmp_path_factory.mktemp("gallery")
    gallery.write(folder, cache_dir)
    return folder
