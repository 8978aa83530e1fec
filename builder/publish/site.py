"""Publishing: compare with what is there, stage what differs, swap."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from builder.language import tr
from builder.problems import ShankbookError
from builder.publish.folders import holds, link_or_copy, parents, survey
from builder.publish.manifest import MANIFEST, Manifest, read_manifest, sha256
from builder.publish.paths import HISTORY, Claims
from builder.publish.system import exchange, flush
from builder.publish.work import (
    INSIDE,
    Observe,
    Work,
    beside,
    identity,
    locate,
    opened,
    reported,
    unobserved,
)

_KEPT = ".gitkeep"


class Swap(StrEnum):
    """How the new site took the old one's place."""

    NOT_NEEDED = "not needed"
    FIRST = "put where there was none"
    EXCHANGED = "exchanged in one step"
    RENAMED = "renamed in two steps"
    IN_PLACE = "moved in file by file"


@dataclass(frozen=True, slots=True)
class Report:
    """What a build did to the output, each a sorted list of paths."""

    written: tuple[str, ...]
    unchanged: tuple[str, ...]
    deleted: tuple[str, ...]
    swap: Swap


@dataclass(frozen=True, slots=True)
class Known:
    """A page given by its hash: rendered only when the output does not hold it any more."""

    sha256: str
    render: Callable[[], bytes]

    def content(self) -> bytes:
        """Render the page and insist on the hash that was promised."""
        content = self.render()
        if sha256(content) != self.sha256:
            raise ShankbookError(
                tr("a page came out differently from the same inputs; build afresh")
            )
        return content


Page = bytes | Known


def publish(
    pages: Mapping[str, Page] | Iterable[tuple[str, Page]],
    output: Path,
    *,
    durable: bool = True,
    observe: Observe = unobserved,
) -> Report:
    """Make the output folder hold exactly these pages, or leave it as it was.

    Parameters: `pages` by relative path, taken one at a time when it is an iterator; `output`, a
    folder that is missing, empty or our own; `durable`, whether to wait until the new site is on
    the disk before the swap, which only a power cut can tell; `observe`, called with the name of
    each step as it comes.
    Errors: ShankbookError for a path that no page can have or that is taken, a folder that is not
    ours, another build at work, a full disk, a missing permission. What `pages` itself raises
    passes through. The package's description says what each of them leaves behind.
    """
    output = _checked(output)
    pairs = pages.items() if isinstance(pages, Mapping) else pages
    with reported(output):
        output.parent.mkdir(parents=True, exist_ok=True)
    recover(output, observe)
    with opened(locate(output), output, observe) as work:
        with reported(output):
            draft = _Draft(work)
        for path, page in pairs:
            with reported(output):
                draft.add(path, page)
        with reported(output):
            return draft.commit(durable=durable)


def recover(output: Path, observe: Observe = unobserved) -> None:
    """Settle what a killed build left, so that the output is whole; nothing to do otherwise."""
    output = _checked(output)
    for folder in (beside(output), output / INSIDE):
        if folder.exists():
            with opened(folder, output, observe):
                pass


def _checked(output: Path) -> Path:
    """Make the path absolute; the output itself must be a folder, as a link cannot be swapped."""
    absolute = Path(os.path.abspath(output))  # noqa: PTH100 - resolve() would follow the last link
    output = absolute.parent.resolve() / absolute.name
    if output.is_symlink():
        raise ShankbookError(
            tr("{output} is a symbolic link; name the folder that it points to", output=output)
        )
    for folder in (output, *output.parents):
        if folder.exists() and not folder.is_dir():
            raise ShankbookError(tr("{folder} is not a folder", folder=folder))
    if not output.name:
        raise ShankbookError(tr("the root of the file system cannot be the output folder"))
    return output


class _Draft:
    """The new site while it is staged, beside what the output holds."""

    def __init__(self, work: Work) -> None:
        self.work = work
        manifest = read_manifest(work.output)
        self.before = manifest or Manifest()
        self.present = survey(work.output, INSIDE)
        self.claims = Claims()
        self.files: dict[str, str] = {}
        self.written: list[str] = []
        self._made: set[Path] = set()
        ours = {*self.before.files, MANIFEST, HISTORY}
        self.foreign = [path for path in self.present.files if path not in ours]
        our_folders = {folder for path in self.before.files for folder in parents(path)}
        self.empty = [each for each in self.present.folders if each not in our_folders]
        if manifest is None and {*self.foreign, *self.empty} - {_KEPT}:
            raise ShankbookError(
                tr(
                    "{folder} holds files and was not made by this tool; "
                    "name an empty or a new folder",
                    folder=work.output,
                )
            )
        self._claim_foreign()

    def _claim_foreign(self) -> None:
        for path in self.empty:
            self.claims.foreign(path, folder=True)
        for path in self.foreign:
            self.claims.foreign(path)

    def add(self, path: str, page: Page) -> None:
        """Take one page: nothing is written when the output already holds it."""
        self.claims.page(path)
        self.files[path] = page.sha256 if isinstance(page, Known) else sha256(page)
        if not self._is_there(path, page):
            self.work.observe("write")
            self._target(path).write_bytes(page.content() if isinstance(page, Known) else page)
            self.written.append(path)

    def _is_there(self, path: str, page: Page) -> bool:
        if not self.present.files.get(path):
            return False
        file = self.work.output / path
        if isinstance(page, Known):
            return sha256(file.read_bytes()) == page.sha256
        return holds(file, page)

    def _target(self, path: str) -> Path:
        target = self.work.new / path
        if target.parent not in self._made:
            target.parent.mkdir(parents=True, exist_ok=True)
            self._made.add(target.parent)
        return target

    def commit(self, *, durable: bool) -> Report:
        """Swap the staged site in, unless it is the one that is there."""
        if not self.files:
            raise ShankbookError(tr("there is no page to publish"))
        gone = sorted(path for path in self.before.files if path not in self.files)
        manifest = Manifest(self.files).to_bytes()
        swap = Swap.NOT_NEEDED
        if self.written or gone or not self._is_there(MANIFEST, manifest):
            swap = self._swap(manifest, gone, durable)
        unchanged = sorted(self.files.keys() - set(self.written))
        deleted = tuple(path for path in gone if path in self.present.files)
        return Report(tuple(sorted(self.written)), tuple(unchanged), deleted, swap)

    def _swap(self, manifest: bytes, gone: list[str], durable: bool) -> Swap:
        if not self.work.inside:
            self._complete()
        self.work.observe("manifest")
        self._target(MANIFEST).write_bytes(manifest)
        self._verify()
        if durable:
            flush(self.work.new)
        if self.work.inside:
            self.work.note(delete=gone)
            self.work.apply()
            return Swap.IN_PLACE
        return _swap_folders(self.work)

    def _verify(self) -> None:
        """Look at the staged site once more, as a whole, before anything of the old one moves."""
        expected = {*self.written, MANIFEST}
        if not self.work.inside:
            expected |= {*self.files, *self.foreign}
        if survey(self.work.new).files.keys() != expected:
            raise ShankbookError(
                tr("somebody changed {folder} during the build; build again", folder=self.work.new)
            )

    def _complete(self) -> None:
        """Give the staged site all that the output keeps: unchanged pages, other people's files."""
        for path in sorted(self.files.keys() - set(self.written)) + self.foreign:
            self.work.observe("keep")
            link_or_copy(self.work.output / path, self._target(path))
        for folder in self.empty:
            (self.work.new / folder).mkdir(parents=True, exist_ok=True)
        self.work.new.mkdir(exist_ok=True)
        if self.work.output.exists():
            self.work.new.chmod(self.work.output.stat().st_mode & 0o7777)


def _swap_folders(work: Work) -> Swap:
    """Put the complete staged folder where the output is, then take the old one down."""
    work.note(staged=identity(work.new))
    work.observe("swap")
    if not work.output.exists():
        work.new.rename(work.output)
        return Swap.FIRST
    if exchange(work.new, work.output):
        work.observe("swapped")
        work.retire(work.new)
        return Swap.EXCHANGED
    work.journal.unlink()
    work.output.rename(work.old)
    work.observe("aside")
    work.new.rename(work.output)
    work.observe("swapped")
    work.retire(work.old)
    return Swap.RENAMED
