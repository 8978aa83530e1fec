"""Editions on the command line: folders side by side, one computation, plain refusals."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from builder import build as building
from builder import editions
from builder.cli import CONTENT_ERRORS, DONE, IN_THE_WAY, main
from builder.publish.manifest import MANIFEST
from tests.editions.small import SMALL, written

Run = Callable[..., int]
CHEFS = """
editions:
  chefs:
    {folder: for-chefs, records: [cuts, cooks], figures: [weights, cooking], with: [data tables]}
"""


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setattr(editions, "cache_folder", lambda: tmp_path / "cache")
    monkeypatch.setattr(building, "cache_folder", lambda: tmp_path / "cache")
    kitchen = {**SMALL, "kitchen.yaml": SMALL["kitchen.yaml"] + CHEFS}

    def build(*names: str, more: str = "", output: str = "site") -> int:
        files = {**kitchen, "kitchen.yaml": kitchen["kitchen.yaml"] + more}
        written(files, tmp_path / "content")
        options = [option for name in names for option in ("--edition", name)]
        content, site = str(tmp_path / "content"), str(tmp_path / output)
        return main(["build", content, site, "--as-of", "2026-10-01", *options])

    return build


def test_one_edition_goes_into_the_folder_named(run: Run, tmp_path: Path) -> None:
    assert run("kitchen") == DONE
    assert (tmp_path / "site" / "cooks" / "chuck-30h.html").exists()
    assert not (tmp_path / "site" / "menu.html").exists()
    assert not (tmp_path / "site-keys").exists()


def test_all_go_side_by_side_and_are_computed_once(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = []
    compute = building.compute_content

    def counted(*arguments: object) -> object:
        calls.append(arguments)
        return compute(*arguments)  # type: ignore[arg-type]

    monkeypatch.setattr(editions, "compute_content", counted)
    assert run("all") == DONE
    sites = {path.name for path in tmp_path.iterdir() if (path / MANIFEST).exists()}
    assert sites == {"site", "site-kitchen", "site-front-of-house", "for-chefs", "site-keys"}
    assert len(calls) == 1
    assert (tmp_path / "site" / "menu.html").exists()
    assert (tmp_path / "site" / "robots.txt").exists()


def test_an_edition_of_ones_own_holds_what_it_grants(run: Run, tmp_path: Path) -> None:
    assert run("chefs") == DONE
    site = tmp_path / "site"
    package = json.loads((site / "data" / "datapackage.json").read_text())
    names = {resource["name"] for resource in package["resources"]}
    assert {"cuts", "cooks", "tests", "steps"} <= names
    assert not {"plates", "pantry", "swaps", "scores", "counts", "sales"} & names
    assert not (site / "plates").exists()


def test_the_owner_without_the_option_is_asked_nothing_new(run: Run, tmp_path: Path) -> None:
    assert run() == DONE
    site = tmp_path / "site"
    assert not (site / "robots.txt").exists()
    assert b"noindex" not in (site / "index.html").read_bytes()


def test_a_site_in_place_of_the_owners_leaves_nothing_of_it(run: Run, tmp_path: Path) -> None:
    assert run() == DONE
    assert run("front-of-house") == DONE
    left = [path for path in (tmp_path / "site").rglob("*") if path.is_file()]
    assert not [path for path in left if b"24.7193" in path.read_bytes()]


def test_no_edition_lies_in_another(
    run: Run, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run() == DONE
    assert run("kitchen", output="site/kitchen") == IN_THE_WAY
    assert "are inside each other" in capsys.readouterr().err
    assert not (tmp_path / "site" / "kitchen").exists()


def test_a_name_that_is_no_edition_is_met_with_the_nearest(
    run: Run, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("kitchn") == IN_THE_WAY
    assert 'there is no edition "kitchn"; did you mean "kitchen"?' in capsys.readouterr().err


def test_the_build_says_that_a_static_site_has_no_login(
    run: Run, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("kitchen") == DONE
    assert "a static site has no login" in capsys.readouterr().err


WRONG = [
    ("  Two Words: {records: cuts}\n", '"Two Words" is no name for an edition'),
    ("  owner: {records: cuts}\n", "the owner's edition holds everything"),
    ("  waiters: {folder: x}\n", "nothing is granted to the edition waiters"),
    ("  waiters: {folder: ../x, records: cuts}\n", "is no folder beside the owner's"),
    ("  waiters: {folder: for-chefs, records: cuts}\n", "the edition chefs has this folder, too"),
    ("  waiters: {figures: [wages]}\n", '"wages" is not known here'),
    ("  waiters: {figures: [wages]}\n", 'did you mean "labour"?'),
    ("  waiters: {figures: [profit]}\n", 'did you mean "margins"?'),
    ("  waiters: {figures: [tastings]}\n", "write it under records:"),
    ("  waiters: {records: [ingredients]}\n", 'did you mean "pantry"?'),
    ("  waiters: {records: cuts, with: [recipes]}\n", 'did you mean "steps"?'),
    ("  waiters: {records: cuts, with: [weights]}\n", "write it under figures:"),
]


@pytest.mark.parametrize(("more", "message"), WRONG)
def test_a_mistake_is_met_at_its_line(
    more: str, message: str, run: Run, capsys: pytest.CaptureFixture[str]
) -> None:
    line = (SMALL["kitchen.yaml"] + CHEFS).count("\n") + 1
    assert run("kitchen", more=more) == CONTENT_ERRORS
    assert f"kitchen.yaml:{line}:" in (told := capsys.readouterr().err)
    assert message in told
