"""The sweep over kitchens and readers made by chance: it looks, and what leaks is found."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages import reader
from tests.editions.proved import of_scripts
from tests.editions.sweep import Case, case_of, found_in

# Seeds that once found something: a till without its prices, what counts say was sold since.
FOUND_ONCE = (13, 19)


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("scripts")


@pytest.fixture(scope="module")
def scripts(cache: Path, tmp_path_factory: pytest.TempPathFactory) -> set[bytes]:
    return of_scripts(tmp_path_factory.mktemp("kitchens"), cache)


def made(seed: int, folder: Path) -> Case:
    case = case_of(seed, folder)
    assert case is not None
    return case


@pytest.mark.parametrize("seed", FOUND_ONCE)
def test_what_was_found_once_stays_mended(
    seed: int, scripts: set[bytes], cache: Path, tmp_path: Path
) -> None:
    assert list(found_in(made(seed, tmp_path), seed, scripts, cache)) == []


def test_a_figure_that_is_made_from_a_withheld_count_is_found(
    scripts: set[bytes], cache: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without what mended it the seed that showed it shows it again."""
    case = made(19, tmp_path)
    monkeypatch.setattr(reader, "_MADE_FROM_KINDS", {})
    reader._hidden.cache_clear()
    try:
        said = " ".join(found_in(case, 19, scripts, cache))
    finally:
        reader._hidden.cache_clear()
    assert "moved by what is withheld" in said
    assert "data/swaps.csv" in said
