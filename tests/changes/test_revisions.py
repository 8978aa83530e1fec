"""What changed since a revision of the content's git repository, made by git itself."""

from __future__ import annotations

import os
import subprocess
from datetime import date
from pathlib import Path

import pytest

from builder.build import build
from builder.costing.history import Cause, Entry, History, RecordMove
from builder.costing.history_text import history_of
from builder.problems import ShankbookError
from builder.publish.paths import HISTORY
from builder.reading.revisions import checked_out
from tests.changes.kitchens import BEFORE, COOK, Files, edited
from tests.kitchens import write

DAY = date(2026, 10, 9)
MADE = "2026-10-01T12:00:00Z"
WHO = {
    f"GIT_{role}_{what}": value
    for role in ("AUTHOR", "COMMITTER")
    for what, value in (("NAME", "a cook"), ("EMAIL", "cook@example.invalid"), ("DATE", MADE))
}


def git(root: Path, *arguments: str) -> str:
    """Run git in a folder as a cook who has no settings of their own."""
    env = {**os.environ, **WHO, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
    command = ["git", "-C", str(root), *arguments]
    return subprocess.run(command, check=True, capture_output=True, text=True, env=env).stdout


def committed(root: Path, files: Files = BEFORE) -> Path:
    """A repository with a kitchen in a folder of it, committed on 1 October; the content folder."""
    content = write(root / "repository" / "content", files)
    git(root / "repository", "init", "--quiet")
    git(root / "repository", "add", ".")
    git(root / "repository", "commit", "--quiet", "--message", "As it was")
    return content


def history(content: Path, site: Path, since: str = "HEAD") -> History:
    """Build, and read what the folder keeps."""
    outcome = build(content, site, None, DAY, since=since)
    assert outcome.report is not None, outcome.problems
    found = history_of((site / HISTORY).read_bytes())
    assert found is not None
    return found


def entry_of(history: History) -> Entry:
    (entry,) = history.entries
    return entry


def test_a_first_build_says_what_changed_since_a_revision(tmp_path: Path) -> None:
    """A portion of 2.50 is 0.50 dearer at 12 for 10 a kilogram: by hand, as 5 kg make 20."""
    content = committed(tmp_path)
    write(content, edited(("cuts/x.yaml", "10/kg", "12/kg")))
    entry = entry_of(history(content, tmp_path / "site"))
    assert (entry.since, entry.day, entry.revision) == (date(2026, 10, 1), DAY, "HEAD")
    food = next(m for m in entry.moves if m.plate == "plates/dear" and m.figure == "food_cost")
    assert food.before == pytest.approx(2.5) and food.after == pytest.approx(3.0)
    assert [cause for cause, _ in food.stations] == [Cause.PRICE]
    page = (tmp_path / "site" / "changes.html").read_text(encoding="utf-8")
    assert "compared with revision HEAD of Oct 1, 2026" in page


def test_nothing_is_said_where_nothing_changed(tmp_path: Path) -> None:
    assert history(committed(tmp_path), tmp_path / "site").entries == ()


def test_a_new_price_row_after_the_commit_is_new(tmp_path: Path) -> None:
    """The revision is computed for its own day: a row of 5 October had no effect on the first."""
    rows = "date,item,price\n2026-09-01,x,10/kg\n2026-10-05,x,12/kg\n"
    content = committed(tmp_path, {**BEFORE, "prices/list.csv": rows})
    entry = entry_of(history(content, tmp_path / "site"))
    assert {move.figure for move in entry.moves} >= {"food_cost", "contribution_margin"}


def test_a_file_that_was_renamed_and_edited_is_renamed(tmp_path: Path) -> None:
    content = committed(tmp_path)
    git(content, "mv", "plates/dear.yaml", "plates/dearer.yaml")
    file = content / "plates" / "dearer.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("price: 20", "price: 22"), "utf-8")
    entry = entry_of(history(content, tmp_path / "site"))
    assert entry.records == (RecordMove("renamed", "plates/dearer", "Dearer", "Dear"),)
    (move,) = entry.moves
    assert move.figure == "contribution_margin"
    assert move.before == pytest.approx(17.5) and move.after == pytest.approx(19.5)


@pytest.mark.parametrize("told", [False, True])
def test_a_file_renamed_and_edited_without_a_commit_is_renamed(tmp_path: Path, told: bool) -> None:
    """Whether git was told of the new name with `git add` or not."""
    content = committed(tmp_path)
    before = content / "plates" / "dear.yaml"
    after = before.with_name("dearer.yaml")
    text = before.read_text(encoding="utf-8").replace("price: 20", "price: 22")
    before.rename(after).write_text(text, "utf-8")
    if told:
        git(content, "add", "--intent-to-add", ".")
    entry = entry_of(history(content, tmp_path / "site"))
    assert entry.records == (RecordMove("renamed", "plates/dearer", "Dearer", "Dear"),)
    assert [move.figure for move in entry.moves] == ["contribution_margin"]


def test_older_entries_stay_and_later_ones_are_in_the_comparison(tmp_path: Path) -> None:
    content, site = committed(tmp_path), tmp_path / "site"
    before = edited(("cuts/x.yaml", "10/kg", "9/kg"))
    for files, day in ((before, date(2026, 9, 1)), (BEFORE, date(2026, 9, 20))):
        write(content, files)
        build(content, site, None, day)
    write(content, edited(("cuts/x.yaml", "10/kg", "11/kg")))
    build(content, site, None, date(2026, 10, 5))
    found = history(content, site)
    days = [(each.since.isoformat(), each.day.isoformat()) for each in found.entries]
    assert days == [("2026-10-01", "2026-10-09"), ("2026-09-01", "2026-09-20")]
    again = history(content, site)
    assert again == found


def test_the_repository_is_left_as_it_was(tmp_path: Path) -> None:
    content = committed(tmp_path)
    (content / "cuts" / "y.yaml").write_text("species: beef\nprice: 1/kg\n", "utf-8")
    (content / "kitchen.yaml").touch()  # git's index is out of date then
    before = _bytes_of(content.parent / ".git")
    with checked_out(content, "HEAD") as (folder, _):
        assert sorted(path.name for path in (folder / "cuts").iterdir()) == ["x.yaml"]
    assert not folder.exists()
    assert _bytes_of(content.parent / ".git") == before


def _bytes_of(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_files_that_git_is_to_ignore_are_no_new_names(tmp_path: Path) -> None:
    content = committed(tmp_path)
    (content.parent / ".gitignore").write_text("*.bak\n", "utf-8")
    plate = content / "plates" / "dear.yaml"
    plate.with_suffix(".bak").write_text(plate.read_text("utf-8"), "utf-8")
    plate.unlink()
    with checked_out(content, "HEAD") as (_, revision):
        assert revision.renamed == {}


def test_a_hook_of_another_repository_does_not_lead_astray(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = committed(tmp_path)
    monkeypatch.setenv("GIT_DIR", str(tmp_path / "elsewhere"))
    with checked_out(content, "HEAD") as (folder, revision):
        assert (folder / "kitchen.yaml").exists() and revision.day == date(2026, 10, 1)


@pytest.mark.parametrize("name", ["v9", "--help", "HEAD:content", ""])
def test_a_revision_that_is_not_there_stops_the_build(tmp_path: Path, name: str) -> None:
    content = committed(tmp_path)
    with pytest.raises(ShankbookError, match="no revision"), checked_out(content, name):
        pass


def test_a_folder_without_a_repository_stops_the_build(tmp_path: Path) -> None:
    content = write(tmp_path / "content", BEFORE)
    with pytest.raises(ShankbookError, match="in no git repository"):
        build(content, tmp_path / "site", None, DAY, since="HEAD")
    assert not (tmp_path / "site").exists()


def test_a_folder_that_was_not_there_yet_stops_the_build(tmp_path: Path) -> None:
    content = committed(tmp_path)
    other = write(content.parent / "other", BEFORE)
    with pytest.raises(ShankbookError, match="at revision HEAD"):
        build(other, tmp_path / "site", None, DAY, since="HEAD")


def test_a_machine_without_git_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    content = committed(tmp_path)
    monkeypatch.setenv("PATH", "")
    with pytest.raises(ShankbookError, match="git can't be run"), checked_out(content, "HEAD"):
        pass


def test_a_revision_with_errors_is_a_warning(tmp_path: Path) -> None:
    content = committed(tmp_path, {**BEFORE, "cooks/a.yaml": COOK.replace("5 kg", "five")})
    write(content, BEFORE)
    outcome = build(content, tmp_path / "site", None, DAY, since="HEAD")
    assert outcome.report is not None
    found = [each for each in outcome.problems if "revision HEAD has errors" in each.message]
    assert len(found) == 1 and "cooks/a.yaml:3" in found[0].hint
