"""kill -9 at every step: once settled, the folder beside a site is the one that belongs to it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.problems import ShankbookError
from builder.publish.pair import publish_pair, settle_pair

from .sites import FOREIGN, NEW, OLD, KillAt, in_child, put, swap_by, tree, whole

OLD_KEYS = {"index.html": b"old key", "forms/a.html": b"a 123"}
NEW_KEYS = {"index.html": b"new key", "forms/b.html": b"b 456"}
NOTE = {"mine.txt": b"mine"}
_TOO_MANY = 300


def _build(
    root: Path, site: Mapping[str, bytes], keys: Mapping[str, bytes], step: int = _TOO_MANY
) -> None:
    observe = KillAt(step)
    publish_pair(site.items(), root / "site", lambda: keys, root / "site-keys", observe=observe)


@pytest.mark.parametrize("way", ["exchange", "two renames", "in place"])
def test_keys_belong_to_the_site_after_a_kill_at_any_step(
    way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    swap_by(way, monkeypatch)
    pairs = [
        (whole(OLD, FOREIGN), whole(OLD_KEYS, NOTE)), (whole(NEW, FOREIGN), whole(NEW_KEYS, NOTE)),
    ]  # fmt: skip
    seen = []
    for step in range(_TOO_MANY):
        root = tmp_path / str(step)
        _build(root, OLD, OLD_KEYS)
        put(root / "site", FOREIGN)
        put(root / "site-keys", NOTE)
        ended = in_child(lambda: _build(root, NEW, NEW_KEYS, step))  # noqa: B023 - called at once
        settle_pair(root / "site", root / "site-keys")
        found = tree(root / "site"), tree(root / "site-keys")
        assert found in pairs, step
        assert sorted(path.name for path in root.iterdir()) == ["site", "site-keys"], step
        seen.append(found == pairs[1])
        if ended == 0:
            break
    assert seen == sorted(seen)
    assert set(seen) == {False, True}
    assert seen.count(True) > 10  # steps after the swap of the site


def test_a_killed_first_build_leaves_no_key_without_its_site(tmp_path: Path) -> None:
    for step in range(_TOO_MANY):
        root = tmp_path / str(step)
        root.mkdir()
        ended = in_child(lambda: _build(root, NEW, NEW_KEYS, step))  # noqa: B023
        assert tree(root / "site-keys") == {} or tree(root / "site") == whole(NEW), step
        settle_pair(root / "site", root / "site-keys")
        keys = tree(root / "site-keys")
        assert keys == (whole(NEW_KEYS) if tree(root / "site") else {}), step
        if ended == 0:
            return
    raise AssertionError("no build got through")


def test_a_build_that_fails_leaves_the_old_pair(tmp_path: Path) -> None:
    _build(tmp_path, OLD, OLD_KEYS)
    with pytest.raises(ShankbookError):
        _build(tmp_path, {**NEW, "../up.html": b""}, NEW_KEYS)
    assert tree(tmp_path / "site") == whole(OLD)
    assert tree(tmp_path / "site-keys") == whole(OLD_KEYS)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["site", "site-keys"]
