"""A site and a folder beside it that belongs to it: never the folder of another site for long.

Two folders can't change place in one step. So the second one is staged whole, hidden beside its
place, with the hash of the site that it belongs to. The site is swapped in, then the folder. What
a killed build leaves is settled by the next: the staged folder goes in where its site is there,
and goes away where it isn't.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path

from builder.language import tr
from builder.problems import ShankbookError
from builder.publish.manifest import MANIFEST, Manifest, read_manifest, sha256
from builder.publish.site import Report, publish, recover
from builder.publish.work import Observe, reported, unobserved

_SITE = "site.txt"


def publish_pair(
    pages: Iterable[tuple[str, bytes]],
    output: Path,
    apart: Callable[[], Mapping[str, bytes]],
    folder: Path,
    *,
    observe: Observe = unobserved,
) -> Report:
    """Publish a site, and with it the folder beside it.

    `apart` gives the files of the folder once the site is printed; none leave it as it is. Errors:
    those of `publish`. A folder that is not ours is refused before the site is touched.
    """
    settle_pair(output, folder, observe)
    try:
        report = publish(_staged(pages, apart, folder, observe), output, observe=observe)
    except BaseException:
        with suppress(ShankbookError, OSError):
            settle_pair(output, folder, observe)
        raise
    observe("site")
    settle_pair(output, folder, observe)
    return report


def _staged(
    pages: Iterable[tuple[str, bytes]],
    apart: Callable[[], Mapping[str, bytes]],
    folder: Path,
    observe: Observe,
) -> Iterator[tuple[str, bytes]]:
    """The site's pages, and at their end the folder on the disk, but not in its place."""
    hashes = {}
    for path, page in pages:
        hashes[path] = sha256(page)
        yield path, page
    files = apart()
    if files:
        with reported(folder):
            _refuse_foreign(folder)
        site = sha256(Manifest(hashes).to_bytes()).encode()
        publish({**files, _SITE: site}, _pending(folder), observe=observe)


def _refuse_foreign(folder: Path) -> None:
    if folder.is_dir() and read_manifest(folder) is None and any(folder.iterdir()):
        raise ShankbookError(
            tr(
                "{folder} holds files and was not made by this tool; move them elsewhere",
                folder=folder,
            )
        )


def settle_pair(output: Path, folder: Path, observe: Observe = unobserved) -> None:
    """Put a staged folder in its place if its site is there, else remove it."""
    pending = _pending(folder)
    for each in (output, pending, folder):
        recover(each, observe)
    with reported(folder):
        if not pending.is_dir():
            return
        mark, site = pending / _SITE, output / MANIFEST
        if mark.is_file() and site.is_file() and mark.read_text() == sha256(site.read_bytes()):
            observe("put")
            publish(_files(pending), folder, observe=observe)
        observe("clear")
        mark.unlink(missing_ok=True)
        shutil.rmtree(pending)


def _files(pending: Path) -> dict[str, bytes]:
    manifest = read_manifest(pending) or Manifest()
    return {path: (pending / path).read_bytes() for path in manifest.files if path != _SITE}


def _pending(folder: Path) -> Path:
    return folder.with_name(f".{folder.name}.next")
