"""What one build leaves for the next: when an entry is made, what is read, what is refused."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from builder.build import Outcome, build
from builder.costing.history import History
from builder.costing.history_text import history_bytes, history_of
from builder.costing.moves import MOST_ENTRIES
from builder.publish.paths import HISTORY
from tests.changes.kitchens import BEFORE, Files, built, edited
from tests.kitchens import write
from tests.site.sites import files_of

DAY = date(2026, 10, 1)
PRICE = ("cuts/x.yaml", "10/kg", "12/kg")


def site(root: Path, files: Files, day: date = DAY) -> Outcome:
    """Build a kitchen into one folder, again and again."""
    shutil.rmtree(root / "content", ignore_errors=True)
    outcome = build(write(root / "content", files), root / "site", None, day)
    assert outcome.report is not None
    return outcome


@pytest.fixture(scope="module")
def built_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The kitchen with its first site."""
    root = tmp_path_factory.mktemp("once")
    site(root, BEFORE)
    return root


@pytest.fixture
def root(built_once: Path, tmp_path: Path) -> Path:
    """A kitchen with its first site, of a test's own."""
    return Path(shutil.copytree(built_once, tmp_path / "root"))


def kept(root: Path) -> History:
    """The history in the folder."""
    found = history_of((root / "site" / HISTORY).read_bytes())
    assert found is not None
    return found


def test_builds_of_the_same_rewrite_nothing(root: Path) -> None:
    assert kept(root).entries == ()
    first = files_of(root / "site")
    outcome = site(root, BEFORE)
    assert outcome.report is not None and outcome.report.written == ()
    assert files_of(root / "site") == first

    site(root, edited(PRICE))
    changed = files_of(root / "site")
    assert len(kept(root).entries) == 1
    again = site(root, edited(PRICE))
    assert again.report is not None and again.report.written == ()
    assert files_of(root / "site") == changed


def test_a_word_in_a_file_is_no_entry(tmp_path: Path) -> None:
    one = built(tmp_path / "a", BEFORE)
    noted = built(tmp_path / "b", edited(("cuts/x.yaml", "beef", "beef  # a word")), one.history)
    assert noted.history.entries == ()


def test_a_comparison_spans_the_builds_without_a_change(root: Path) -> None:
    last = date(2026, 10, 9)
    site(root, BEFORE, date(2026, 10, 5))
    site(root, edited(PRICE), last)
    (entry,) = kept(root).entries
    assert (entry.since, entry.day) == (DAY, last)


def test_entries_have_names_of_their_own_and_old_ones_leave(tmp_path: Path) -> None:
    history = History()
    for number in range(MOST_ENTRIES + 3):
        files = edited(PRICE) if number % 2 else BEFORE
        history = built(tmp_path / str(number % 2), files, history).history
    names = [entry.id for entry in history.entries]
    assert len(set(names)) == len(names) == MOST_ENTRIES


def test_the_history_survives_its_text(tmp_path: Path) -> None:
    one = built(tmp_path / "a", BEFORE)
    two = built(tmp_path / "b", edited(PRICE), one.history)
    assert history_of(history_bytes(two.history)) == two.history


Damage = Callable[[Path], object]
FOREIGN = history_bytes(History()).replace(b'"format":1', b'"format":2')


@pytest.mark.parametrize(
    "damage",
    [
        lambda file: file.write_bytes(b""),
        lambda file: file.write_bytes(b"\xff\x00{"),
        lambda file: file.write_bytes(b"[" * 100_000),
        lambda file: file.write_bytes(b'{"now": {"day": "yesterday"}}'),
        lambda file: file.write_bytes(file.read_bytes()[:-40]),
        lambda file: file.write_bytes(FOREIGN),
        lambda file: (file.unlink(), file.symlink_to("index.html")),
        lambda file: file.write_text(json.dumps({"entries": [{"since": 5}], "format": 1})),
    ],
)
def test_a_damaged_history_is_ignored_with_a_warning(damage: Damage, root: Path) -> None:
    damage(root / "site" / HISTORY)
    outcome = site(root, edited(PRICE))
    (warning,) = [each for each in outcome.problems if each.place.file == HISTORY]
    assert not warning.is_error
    assert kept(root).entries == ()


def test_after_a_damaged_history_a_new_one_begins(root: Path) -> None:
    (root / "site" / HISTORY).write_bytes(b"")
    site(root, edited(PRICE))
    assert [e for e in site(root, BEFORE).problems if e.place.file == HISTORY] == []
    assert len(kept(root).entries) == 1


def test_the_history_of_another_kitchen_is_ignored(root: Path) -> None:
    other = {
        "kitchen.yaml": BEFORE["kitchen.yaml"].replace("Ferrystone", "Another"),
        "cuts/z.yaml": "species: beef\nprice: 10/kg\n",
    }
    outcome = site(root, other)
    assert "another kitchen" in " ".join(each.message for each in outcome.problems)
    assert kept(root).entries == ()


def test_a_lost_history_begins_afresh(root: Path) -> None:
    (root / "site" / HISTORY).unlink()
    outcome = site(root, edited(PRICE))
    assert [each for each in outcome.problems if each.place.file == HISTORY] == []
    assert kept(root).entries == ()
