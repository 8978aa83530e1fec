"""A content folder as it was at a revision of its git repository, where it lies in one."""

from __future__ import annotations

import os
import subprocess
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from builder.language import tr
from builder.problems import ShankbookError
from builder.refusals import refusal

# Set in hooks, and then about another folder than the one that is asked about.
_OF_ANOTHER = (
    "GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX", "GIT_OBJECT_DIRECTORY",
    "GIT_ALTERNATE_OBJECT_DIRECTORIES",
)  # fmt: skip
# An index that is out of date is not written anew in passing.
_QUIET = {"GIT_OPTIONAL_LOCKS": "0"}
_LIKE_ENOUGH = "--find-renames=50%"


@dataclass(frozen=True, slots=True)
class Revision:
    """A commit: the day that it was made, and new names of files since, with the earlier ones."""

    name: str
    day: date
    renamed: Mapping[str, str]


@contextmanager
def checked_out(root: Path, name: str) -> Iterator[tuple[Path, Revision]]:
    """Give the content folder as it was at a revision, in a folder that is removed afterwards.

    Nothing of the repository changes, its index included. Raises ShankbookError where there is
    no git, no repository, no such revision, or no content folder in it.
    """
    commit = _commit(root, name)
    tree = _run(
        root,
        tr("there was no {root} at revision {name}", root=root, name=name),
        "rev-parse",
        f"{commit}:./",
    )
    with tempfile.TemporaryDirectory(prefix="shankbook-") as work:
        folder = Path(work) / "content"
        folder.mkdir()
        index = {"GIT_INDEX_FILE": str(Path(work) / "index")}
        failed = tr("revision {name} can't be read", name=name)
        _run(root, failed, "read-tree", tree, **index)
        # Below the top git would check out what lies below the same folder of the tree.
        top = Path(_run(root, failed, "rev-parse", "--show-toplevel"))
        _run(top, failed, "checkout-index", "--all", f"--prefix={folder}/", **index)
        yield folder, Revision(name, _day(root, commit), _renamed(root, commit, Path(work)))


def _commit(root: Path, name: str) -> str:
    _run(root, tr("{root} is in no git repository", root=root), "rev-parse", "--git-dir")
    asked = (
        "rev-parse",
        "--verify",
        "--quiet",
        "--end-of-options",
        f"{name}^{{commit}}",
    )
    return _run(
        root,
        tr("the git repository of {root} has no revision {name}", root=root, name=name),
        *asked,
    )


def _day(root: Path, commit: str) -> date:
    day = _run(root, "", "show", "--no-patch", "--format=%cs", commit)
    return date.fromisoformat(day)


def _renamed(root: Path, commit: str, work: Path) -> dict[str, str]:
    """Earlier names by today's, of files that are alike, from the content folder on.

    Files that git has not been told of are among them, so today's are written down as git does,
    into an index and a store of objects in the folder `work`.
    """
    objects, own = root / _run(root, "", "rev-parse", "--git-path", "objects"), work / "objects"
    own.mkdir()
    aside = {
        "GIT_INDEX_FILE": str(work / "today"),
        "GIT_OBJECT_DIRECTORY": str(own),
        "GIT_ALTERNATE_OBJECT_DIRECTORIES": str(objects.resolve()),
    }
    failed = tr("the files of {root} can't be compared", root=root)
    _run(root, failed, "read-tree", commit, **aside)
    _run(root, failed, "add", "--all", "--", ".", **aside)
    found = _run(
        root, failed, "diff", "--cached", _LIKE_ENOUGH, "--diff-filter=R", "--name-status", "-z",
        "--relative", commit, "--", ".", **aside,
    )  # fmt: skip
    fields = found.split("\0")
    return dict(zip(fields[2::3], fields[1::3], strict=False))


def _run(root: Path, failure: str, *arguments: str, **extra: str) -> str:
    """What git prints; ShankbookError with the failure, and git's own words, where it fails."""
    kept = {key: value for key, value in os.environ.items() if key not in _OF_ANOTHER}
    try:
        # Without a shell; what a user writes comes after --end-of-options.
        done = subprocess.run(
            ["git", "-C", str(root), *arguments], env={**kept, **_QUIET, **extra},
            capture_output=True, text=True, check=False,
        )  # fmt: skip
    except OSError as error:
        raise ShankbookError(
            tr("git can't be run ({strerror})", strerror=refusal(error))
        ) from error
    if done.returncode:
        words = done.stderr.strip().removeprefix("fatal: ")
        raise ShankbookError(": ".join(each for each in (failure, words) if each))
    return done.stdout.strip("\n")
