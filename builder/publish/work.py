"""The work folder: where a build stages the new site, locked while it does, settled after a kill.

.output.shankbook-work/     beside `output`; inside it where that is impossible
    lock                    held by the running build; also the mark that the folder is ours
    new/                    the staged site; after an exchange, the retired one
    old/                    the retired site where names cannot be exchanged
    journal.json            written when the staged site is complete, gone when all is done
"""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from builder.language import tr
from builder.problems import BusyError, ShankbookError
from builder.publish.folders import Survey, parents, remove_empty, same, survey
from builder.publish.manifest import MANIFEST, read_manifest
from builder.publish.paths import HISTORY
from builder.publish.system import is_mount, try_lock
from builder.refusals import refusal

INSIDE = ".shankbook-work"
_LOCK = "lock"

Observe = Callable[[str], None]


def unobserved(_step: str) -> None:
    """Take no notice of a step."""


@dataclass(frozen=True, slots=True)
class Work:
    """One work folder and the output folder that it serves."""

    folder: Path
    output: Path
    observe: Observe = unobserved

    @property
    def inside(self) -> bool:
        """Whether the work folder had to go into the output itself."""
        return self.folder.parent == self.output

    @property
    def new(self) -> Path:
        """The staged site."""
        return self.folder / "new"

    @property
    def old(self) -> Path:
        """The site that was moved aside."""
        return self.folder / "old"

    @property
    def journal(self) -> Path:
        """The note that says how to go on after a kill."""
        return self.folder / "journal.json"

    def note(self, **entry: object) -> None:
        """Write the journal in one step."""
        self._draft.write_text(json.dumps(entry))
        self._draft.replace(self.journal)

    @property
    def _draft(self) -> Path:
        return self.folder / "journal.draft"

    def noted(self) -> dict[str, object]:
        """Read the journal; empty when there is none."""
        return dict(json.loads(self.journal.read_bytes())) if self.journal.exists() else {}

    def discard(self) -> None:
        """Throw a staged site away: all in it is ours, or a second name of somebody's file."""
        if self.new.exists():
            self.observe("discard")
            shutil.rmtree(self.new)
        self._draft.unlink(missing_ok=True)
        self.journal.unlink(missing_ok=True)

    def settle(self) -> None:
        """Bring what a killed build left behind to its old or its new site."""
        if self.inside:
            if self.journal.exists():
                self.apply()
        else:
            self._settle_aside()
            self._settle_exchanged()
        self.discard()

    def _settle_aside(self) -> None:
        if not self.old.exists():
            return
        if not os.path.lexists(self.output):
            self.old.rename(self.output)
        elif not self.new.exists():
            self.retire(self.old)
        else:
            raise ShankbookError(
                tr(
                    "{old} is the site that a killed build moved aside, yet {output} is "
                    "there too; remove one of them",
                    old=self.old,
                    output=self.output,
                )
            )

    def _settle_exchanged(self) -> None:
        staged = self.noted().get("staged")
        if staged is None or not self.new.exists() or staged == identity(self.new):
            return
        if not self.output.exists() or staged != identity(self.output):
            raise ShankbookError(
                tr(
                    "a killed build left {new}, its old or its new site, but the folders were "
                    "moved since; compare it with {output} and remove it",
                    new=self.new,
                    output=self.output,
                )
            )
        self.retire(self.new)

    def retire(self, tree: Path) -> None:
        """Take a replaced site down, losing nothing that its manifest does not list.

        A file of somebody else's that the new site lacks, saved while we swapped, moves over.
        """
        self.observe("retire")
        listed = read_manifest(tree)
        ours = set(listed.files) | {MANIFEST, HISTORY} if listed else set[str]()
        found = survey(tree)
        for path in _manifest_last(found):
            if path in ours or _carried(tree / path, self.output / path):
                (tree / path).unlink()
            else:
                _move_over(tree / path, self.output / path)
            self.observe("retired")
        remove_empty(tree, found.folders)
        tree.rmdir()
        self.journal.unlink(missing_ok=True)

    def apply(self) -> None:
        """Move the staged files into the output one by one, the manifest last."""
        present = survey(self.output, INSIDE)
        gone = _strings(self.noted()["delete"])
        for path in gone:
            self.observe("delete")
            if path in present.files:
                (self.output / path).unlink()
        above = {folder for path in gone for folder in parents(path)}
        remove_empty(self.output, sorted(above.intersection(present.folders)))
        self.note(delete=[])
        for path in _manifest_last(survey(self.new)):
            self.observe("move")
            self._refuse_link_above(path)
            (self.output / path).parent.mkdir(parents=True, exist_ok=True)
            (self.new / path).replace(self.output / path)
        self.observe("moved")
        self.journal.unlink()

    def _refuse_link_above(self, path: str) -> None:
        for folder in parents(path):
            if (self.output / folder).is_symlink():
                raise ShankbookError(
                    tr("{folder} is a symbolic link; remove it", folder=self.output / folder)
                )


def identity(folder: Path) -> list[int]:
    """Return the numbers that follow a folder through a rename."""
    about = folder.stat()
    return [about.st_dev, about.st_ino]


def _manifest_last(found: Survey) -> list[str]:
    """Order files so that what a kill leaves still has its manifest."""
    return sorted(found.files, key=lambda path: path == MANIFEST)


def _strings(value: object) -> list[str]:
    return [str(each) for each in value] if isinstance(value, list) else []


def _carried(old: Path, new: Path) -> bool:
    return os.path.lexists(new) and same(old, new)


def _move_over(old: Path, new: Path) -> None:
    new.parent.mkdir(parents=True, exist_ok=True)
    old.replace(new.with_name(f"{new.name}.kept") if os.path.lexists(new) else new)


def locate(output: Path) -> Path:
    """Choose the work folder: beside the output, or inside where its name cannot be moved."""
    fixed = output.is_dir() and (is_mount(output) or not os.access(output.parent, os.W_OK))
    return output / INSIDE if fixed else beside(output)


def beside(output: Path) -> Path:
    """Return the work folder's place next to the output folder."""
    return output.parent / f".{output.name}.shankbook-work"


@contextmanager
def reported(output: Path) -> Iterator[None]:
    """Turn the system's refusals into one line for the user."""
    try:
        yield
    except OSError as error:
        why = ": ".join(filter(None, (refusal(error), str(error.filename or ""))))
        raise ShankbookError(
            tr("{output} could not be published: {why}", output=output, why=why)
        ) from error


@contextmanager
def opened(folder: Path, output: Path, observe: Observe) -> Iterator[Work]:
    """Lock the work folder, settle what a killed build left, and clear up on the way out."""
    work = Work(folder, output, observe)
    with reported(output):
        handle = _take(folder)
    try:
        with reported(output):
            work.settle()
        yield work
    finally:
        with suppress(OSError, ShankbookError):
            _close(work)
        os.close(handle)
        with suppress(OSError):
            folder.rmdir()


def _close(work: Work) -> None:
    """Drop what was not swapped in; the lock stays, as the mark, when something has to stay."""
    work.settle()
    if {entry.name for entry in work.folder.iterdir()} == {_LOCK}:
        (work.folder / _LOCK).unlink()


def _take(folder: Path) -> int:
    """Open and lock; the holder deletes the lock at its end, so look again whether it is ours."""
    while True:
        folder.mkdir(exist_ok=True)
        _refuse_foreign(folder)
        lock = folder / _LOCK
        try:
            handle = os.open(lock, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o666)
        except FileNotFoundError:
            continue
        if not try_lock(handle):
            os.close(handle)
            raise BusyError(tr("another build is writing this site (it holds {lock})", lock=lock))
        if lock.exists() and os.path.samestat(lock.stat(), os.fstat(handle)):
            return handle
        os.close(handle)


def _refuse_foreign(folder: Path) -> None:
    names = {entry.name for entry in folder.iterdir()} if not folder.is_symlink() else {""}
    if names and _LOCK not in names:
        raise ShankbookError(
            tr("{folder} is in the way and not ours; move it elsewhere", folder=folder)
        )
