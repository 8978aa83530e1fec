"""A content folder from disk: the bytes of its files, and what should not be there."""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from builder.language import Deferred, either, tr
from builder.problems import Place, Problem, Severity, ShankbookError, did_you_mean, in_order
from builder.reading.limits import LIMITS, Limits
from builder.reading.names import (
    is_id,
    is_ignored,
    printable,
    same_name,
    slug,
    why_no_file_name,
    without_added_ending,
)
from builder.reading.source import too_large
from builder.refusals import refusal

YAML = (".yaml", ".yml")
CSV = (".csv",)
PICTURES = "pictures"
PICTURE = (".png", ".jpg", ".jpeg")
PAGES = "notes"
"""The sub-folder of free pages, which may hold folders of its own."""
PAGE = (".md",)
_DEEPEST = 4
_ANY_LETTERS = Deferred('such as "beef-cheek"; name: in the file may have any letters')


@dataclass(frozen=True, slots=True)
class ContentFile:
    """The bytes of one file, where it is, and its SHA-256 in hexadecimal.

    `path` is relative and posix; `folder` is its sub-folder, "" at the top.
    """

    path: str
    folder: str
    id: str
    data: bytes = field(repr=False)
    digest: str

    @property
    def suffix(self) -> str:
        """The ending that says how to read it, such as ".yaml", ".csv" or ".png"."""
        return PurePosixPath(self.path).suffix


@dataclass(frozen=True, slots=True)
class Folder:
    """What was read, sorted by path, and the problems met on the way.

    `refused` holds the paths that files with an error would have, well named; a folder
    with an error stands for all in it.
    """

    files: tuple[ContentFile, ...]
    problems: tuple[Problem, ...]
    refused: frozenset[str] = frozenset()

    def within(self, folder: str) -> tuple[ContentFile, ...]:
        """The files of one sub-folder, in order."""
        return tuple(file for file in self.files if file.folder == folder)


def read_folder(
    root: Path,
    folders: Mapping[str, Collection[str]],
    top: Collection[str] = ("kitchen",),
    limits: Limits = LIMITS,
) -> Folder:
    """Read a content folder: every file of the known sub-folders, in sorted order.

    `folders` gives for each sub-folder the file endings read there, such as
    `{"cuts": YAML, "prices": CSV}`; `top` the ids of the YAML files that must stand at
    the top. Nothing outside `root` is read. Raises ShankbookError if `root` is not a
    folder that can be listed; everything else is a Problem.
    """
    return _Walk(root, folders, top, limits).folder()


class _Walk:
    """One pass over the folder; files are read as they are accepted."""

    def __init__(
        self,
        root: Path,
        folders: Mapping[str, Collection[str]],
        top: Collection[str],
        limits: Limits,
    ) -> None:
        self.root = root
        self.real_root = Path(os.path.realpath(root))
        self.folders = folders
        self.top = top
        self.limits = limits
        self.files: list[ContentFile] = []
        self.problems: list[Problem] = []
        self.refused: set[str] = set()
        self.total = 0
        self.inner: dict[str, list[os.DirEntry[str]]] = {}

    def folder(self) -> Folder:
        """Walk the top, then each known sub-folder."""
        try:
            entries = _listed(self.root)
        except OSError as error:
            raise ShankbookError(
                tr("cannot list the folder {root}: {why}", root=self.root, why=refusal(error))
            ) from error
        if not self.is_kitchen(entries):
            hint = tr('no kitchen is in this folder; "shankbook new FOLDER" starts one')
            self.refuse(f"{min(self.top)}{YAML[0]}", tr("this file is missing"), hint)
            return Folder((), tuple(self.problems), frozenset(self.refused))
        known = [entry.name for entry in entries if self.is_known_folder(entry)]
        self.read_files("", [entry for entry in entries if entry.name not in known])
        for name in known:
            self.read_tree(name)
        self.check_top()
        self.files.sort(key=lambda file: file.path)
        return Folder(tuple(self.files), tuple(in_order(self.problems)), frozenset(self.refused))

    def refuse(
        self, path: str, message: str, hint: str = "", severity: Severity = Severity.ERROR
    ) -> None:
        """Add a problem about a whole file or folder."""
        self.problems.append(Problem(Place(printable(path)), message, hint, severity))
        if severity is Severity.ERROR:
            self.refused.add(_well_named(path))

    def is_kitchen(self, entries: list[os.DirEntry[str]]) -> bool:
        """Whether anything at the top has a name that a kitchen's entry may have."""
        names = {same_name(entry.name) for entry in entries}
        return not names.isdisjoint(self.folders) or any(
            name.startswith(tuple(self.top)) for name in names
        )

    def is_known_folder(self, entry: os.DirEntry[str]) -> bool:
        """Whether an entry of the top is a sub-folder to read; report the ones that are not."""
        if is_ignored(entry.name) or not _is_dir(entry):
            return False
        if entry.name in self.folders:
            return self.stays_inside(entry, entry.name)
        known = ", ".join(sorted(self.folders))
        hint = did_you_mean(entry.name.lower(), self.folders) or tr(
            "known folders: {known}", known=known
        )
        self.refuse(entry.name, tr("this folder is not one that is read"), hint)
        return False

    def read_tree(self, folder: str) -> None:
        """Read a known sub-folder and, of free pages, the folders inside it."""
        self.read_files(folder, list(self.entries(folder)))
        for inner in self.inner.pop(folder, ()):
            if self.is_folder_of_pages(f"{folder}/{inner.name}", inner):
                self.read_tree(f"{folder}/{inner.name}")

    def is_folder_of_pages(self, path: str, entry: os.DirEntry[str]) -> bool:
        """Whether a folder of free pages is well named and not too deep; report it if not."""
        if not is_id(entry.name) or why_no_file_name(entry.name):
            better = slug(entry.name)
            hint = tr('rename it to "{better}"', better=better) if better else tr(_ANY_LETTERS)
            self.refuse(path, tr("a folder's name is lowercase letters, digits and hyphens"), hint)
        elif entry.is_symlink():
            self.refuse(
                path, tr("a symbolic link to a folder is not followed"), tr("move its files here")
            )
        elif path.count("/") > _DEEPEST:
            self.refuse(
                path,
                tr("folders here go {deepest} deep", deepest=_DEEPEST),
                tr("move its files up"),
            )
        else:
            return True
        return False

    def entries(self, folder: str) -> Iterator[os.DirEntry[str]]:
        """The entries of a known sub-folder; folders inside it are kept apart or refused."""
        try:
            listed = _listed(self.root / folder)
        except OSError as error:
            self.refuse(folder, tr("cannot list this folder: {why}", why=refusal(error)))
            return
        for entry in listed:
            if not _is_dir(entry):
                yield entry
            elif is_ignored(entry.name):
                continue
            elif folder.partition("/")[0] == PAGES:
                self.inner.setdefault(folder, []).append(entry)
            else:
                path = f"{folder}/{entry.name}"
                self.refuse(
                    path,
                    tr("a folder in here is not read"),
                    tr("move its files up to {folder}/", folder=folder),
                )

    def read_files(self, folder: str, entries: list[os.DirEntry[str]]) -> None:
        """Read the entries that are content, once the names are known to differ."""
        suffixes = tuple(self.folders[folder.partition("/")[0]]) if folder else YAML
        wanted = [entry for entry in entries if self.is_content(folder, entry, suffixes)]
        first: dict[str, str] = {}
        for entry in sorted(wanted, key=_valid_first):
            twin = first.setdefault(_twin_key(entry.name), entry.name)
            if self.is_named_well(folder, entry.name, twin):
                self.read_file(folder, entry)

    def is_content(self, folder: str, entry: os.DirEntry[str], suffixes: tuple[str, ...]) -> bool:
        """Whether an entry has an ending that is read here; a stray file gets a warning."""
        if is_ignored(entry.name, suffixes) or _is_dir(entry):
            return False
        suffix = PurePosixPath(entry.name).suffix
        if suffix.lower() in suffixes:
            return True
        path = _join(folder, entry.name)
        if not folder and entry.name in self.folders:
            self.refuse(path, tr("this is a file; a folder of this name is read"))
            return False
        if meant := without_added_ending(entry.name, suffixes):
            self.refuse(
                path,
                tr("this file is not read"),
                tr('rename it to "{printable}"', printable=printable(meant)),
            )
            return False
        hint = tr("files here end in {suffixes}", suffixes=either(suffixes))
        self.refuse(path, tr("this file is not read"), hint, Severity.WARNING)
        return False

    def is_named_well(self, folder: str, name: str, first: str) -> bool:
        """Whether a file's name is an id of its own, in lower case."""
        path, stem = _join(folder, name), PurePosixPath(name)
        if first != name:
            what = "same id" if first.lower() != name.lower() else tr("same name but for its case")
            self.refuse(
                path,
                tr('the {what} as "{printable}"', what=what, printable=printable(first)),
                tr("delete or rename one of them"),
            )
        elif not folder and stem.stem.lower() not in self.top:
            known = ", ".join(sorted(f"{top}{YAML[0]}" for top in self.top))
            hint = did_you_mean(stem.stem, self.top) or tr("known here: {known}", known=known)
            self.refuse(path, tr("this file does not belong at the top"), hint)
        elif not is_id(stem.stem) or stem.suffix != stem.suffix.lower():
            better = slug(stem.stem)
            hint = (
                tr('rename it to "{better}{suffix}"', better=better, suffix=stem.suffix.lower())
                if better
                else tr(_ANY_LETTERS)
            )
            message = tr("a file's name is its id: lowercase letters, digits and hyphens")
            self.refuse(path, message, hint)
        elif reason := why_no_file_name(stem.stem):
            self.refuse(path, reason, tr("rename it; name: in the file may say more"))
        else:
            return True
        return False

    def read_file(self, folder: str, entry: os.DirEntry[str]) -> None:
        """Read one file, after its kind and size were looked at."""
        path = _join(folder, entry.name)
        if not self.stays_inside(entry, path):
            return
        try:
            data = self.bytes_of(path, entry)
        except OSError as error:
            self.refuse(path, tr("cannot read this file: {why}", why=refusal(error)))
            return
        if data is not None:
            digest = hashlib.sha256(data).hexdigest()
            stem = PurePosixPath(entry.name).stem
            self.files.append(ContentFile(path, folder, stem, data, digest))

    def bytes_of(self, path: str, entry: os.DirEntry[str]) -> bytes | None:
        """The file's bytes, or None with a problem; nothing is opened that is not a file."""
        found = entry.stat()
        if not stat.S_ISREG(found.st_mode):
            self.refuse(path, tr("not an ordinary file, so it is not opened"))
            return None
        most, smaller = self.most_bytes(PurePosixPath(entry.name).suffix)
        if found.st_size > most:
            self.refuse(path, too_large(found.st_size, most), smaller)
            return None
        if self.total + found.st_size > self.limits.total_bytes:
            self.refuse(
                path,
                tr(
                    "the folder holds more than {total_bytes:,} bytes",
                    total_bytes=self.limits.total_bytes,
                ),
            )
            return None
        # One byte over the cap, so that a file that grew meanwhile is caught by its reader.
        with Path(entry.path).open("rb") as file:
            data = file.read(most + 1)
        self.total += len(data)
        return data

    def most_bytes(self, suffix: str) -> tuple[int, str]:
        """How large a file of an ending may be [B], and how it gets smaller."""
        if suffix in PICTURE:
            return self.limits.picture_bytes, tr("save it smaller; pages show 1200 pixels at most")
        csv = suffix in CSV
        most = self.limits.csv_bytes if csv else self.limits.yaml_bytes
        return most, tr("split it into several files")

    def stays_inside(self, entry: os.DirEntry[str], path: str) -> bool:
        """Whether an entry is no symbolic link, or one that stays inside the folder."""
        if not entry.is_symlink():
            return True
        target = Path(os.path.realpath(entry.path))
        if target.is_relative_to(self.real_root):
            return True
        self.refuse(
            path, tr("a symbolic link out of the content folder"), tr("copy the file in instead")
        )
        return False

    def check_top(self) -> None:
        """Each file that must stand at the top does, or has a problem already."""
        said = self.refused | {file.path for file in self.files}
        for name in sorted(n for n in self.top if said.isdisjoint(n + end for end in YAML)):
            self.refuse(f"{name}{YAML[0]}", tr("this file is missing"), tr("every kitchen has one"))


def _listed(folder: Path) -> list[os.DirEntry[str]]:
    with os.scandir(folder) as entries:
        return sorted(entries, key=lambda entry: entry.name)


def _is_dir(entry: os.DirEntry[str]) -> bool:
    """Whether it is a folder; a link that leads nowhere is not, and fails when it is read."""
    try:
        return entry.is_dir()
    except OSError:
        return False


def _join(folder: str, name: str) -> str:
    return f"{folder}/{name}" if folder else name


def _well_named(path: str) -> str:
    """The path that a refused entry would have with a good name.

    >>> _well_named("cuts/Beef Cheek.yml.txt"), _well_named("cuts")
    ('cuts/beef-cheek.yaml', 'cuts')
    """
    folder, _, name = path.rpartition("/")
    name = without_added_ending(name, (*YAML, *CSV)) or name
    stem, ending = PurePosixPath(name).stem, PurePosixPath(name).suffix.lower()
    return _join(folder, slug(stem) + ending.replace(".yml", ".yaml"))


def _twin_key(name: str) -> str:
    """Files with one key would be one record: "Beef.yml" and "beef.yaml", not "beef.csv"."""
    path = PurePosixPath(same_name(name))
    return path.stem + path.suffix.replace(".yml", ".yaml")


def _valid_first(entry: os.DirEntry[str]) -> tuple[bool, str]:
    """Sort so that of two twins the well-named one is read and the other reported."""
    return not is_id(PurePosixPath(entry.name).stem), entry.name
