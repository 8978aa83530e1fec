"""Every golden kitchen turns into exactly the files that are expected of it."""

from __future__ import annotations

from pathlib import Path
from shutil import copytree

import pytest

from tests.golden import HERE, SITES, differences, produced
from tests.golden.__main__ import update
from tests.site.sites import STARTER, files_of


@pytest.mark.parametrize("site", SITES, ids=lambda site: site.name)
def test_a_golden_site(site: Path, tmp_path: Path) -> None:
    found = produced(site, tmp_path / "site")
    reported = differences(files_of(site / "expected"), found)
    assert not reported, "\n\n".join([*reported, "python -m tests.golden writes them anew"])


def test_the_first_one_is_the_starter_on_a_day_of_its_own() -> None:
    starter = {path: data for path, data in files_of(STARTER).items() if path.endswith(".yaml")}
    first = files_of(HERE / "first" / "content")
    day = b"as of: 2026-02-01\n"
    assert first == {**starter, "kitchen.yaml": starter["kitchen.yaml"] + day}


def test_no_golden_site_depends_on_today() -> None:
    for site in SITES:
        assert "as of: " in (site / "content" / "kitchen.yaml").read_text(encoding="utf-8")


def test_what_is_missing_unexpected_or_different_is_reported_and_mended(tmp_path: Path) -> None:
    site = tmp_path / "first"
    copytree(HERE / "first" / "content", site / "content")
    update(site)
    expected = files_of(site / "expected")
    (site / "expected" / "menu.html").unlink()
    (site / "expected" / "cuts" / "veal.html").write_text("unexpected")
    page = site / "expected" / "plates" / "chuck-steak.html"
    page.write_bytes(page.read_bytes().replace(b"26.00", b"62.00"))
    found = produced(site, tmp_path / "site")
    missing, unexpected, different = differences(files_of(site / "expected"), found)
    assert (missing, unexpected) == ("missing: cuts/veal.html", "unexpected: menu.html")
    assert different.startswith("--- plates/chuck-steak.html expected")
    assert "62.00" in different
    assert update(site) == 3
    assert files_of(site / "expected") == expected
