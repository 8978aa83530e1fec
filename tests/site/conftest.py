"""The demo kitchen and the published one, built once and reachable from disk and over http."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from builder import build as building
from builder.build import build
from builder.starter import start
from tests.kitchens import PUBLISHED
from tests.site.command import Command
from tests.site.opened import served
from tests.site.sites import DEMO, BuiltSite

FAR_OFF = date(2031, 5, 6)
"""A today that must not show anywhere: both kitchens name their own day."""


@pytest.fixture(scope="session")
def script_cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the chart scripts are kept, so that the user's own cache is left alone."""
    return tmp_path_factory.mktemp("cache") / "shankbook"


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory, script_cache: Path) -> Iterator[BuiltSite]:
    """The site of the demo kitchen."""
    yield from _built(DEMO, tmp_path_factory.mktemp("demo") / "site", script_cache)


@pytest.fixture(scope="session")
def published(tmp_path_factory: pytest.TempPathFactory, script_cache: Path) -> Iterator[BuiltSite]:
    """The site of the kitchen of published figures."""
    yield from _built(PUBLISHED, tmp_path_factory.mktemp("published") / "site", script_cache)


@pytest.fixture(scope="session")
def french_demo(
    tmp_path_factory: pytest.TempPathFactory, script_cache: Path
) -> Iterator[BuiltSite]:
    """The site of the demo kitchen in French, with numbers and money as in France."""
    here = tmp_path_factory.mktemp("french")
    shutil.copytree(DEMO, here / "content")
    kitchen = here / "content" / "kitchen.yaml"
    text = kitchen.read_text(encoding="utf-8")
    french = text.replace("locale: en_CA", "locale: fr_FR").replace(
        "currency: CAD", "currency: EUR"
    )
    kitchen.write_text(french, encoding="utf-8")
    yield from _built(here / "content", here / "site", script_cache)


def _built(content: Path, output: Path, cache: Path) -> Iterator[BuiltSite]:
    outcome = build(content, output, None, FAR_OFF, cache=cache)
    errors = [f"{p.place} {p.message}" for p in outcome.problems if p.is_error]
    assert outcome.report is not None, errors
    with served(output) as address:
        yield BuiltSite(output, address)


@pytest.fixture
def command(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, script_cache: Path
) -> Command:
    """The command line, with a cache of the tests' own."""
    monkeypatch.setattr(building, "cache_folder", lambda: script_cache)
    return Command(capsys)


@pytest.fixture
def kitchen(tmp_path: Path) -> Path:
    """A small kitchen of a test's own to spoil."""
    start(tmp_path / "kitchen")
    return tmp_path / "kitchen"
