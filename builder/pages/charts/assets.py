"""The scripts behind the pictures, kept between builds because they take seconds to make."""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Callable
from contextlib import suppress
from importlib.metadata import version
from pathlib import Path

from builder.language import catalogue_bytes, current_language, current_words

MADE_FROM = ("altair", "vl-convert-python")
_DIGEST_BYTES = 65  # 64 hexadecimal digits of a SHA-256 and a line end


def chart_assets(cache_dir: Path) -> dict[str, bytes]:
    """Return the chart scripts by their path in the site.

    `cache_dir` is a folder of the caller's; what is found there is taken when it was
    made from the same versions of the chart libraries and the same source as now, is
    whole, and was written by this user: a site must not publish somebody else's script. Where the
    folder can't be made or written, the scripts are made anew each time.
    """
    key = _key()
    return {
        "assets/chart-bundle.js": _kept(cache_dir / f"bundle-{key}.js", _bundle),
        "assets/chart-kinds.js": _kept(cache_dir / f"kinds-{key}.js", _kinds),
    }


def _bundle() -> bytes:
    # Imported late: a build that finds its scripts in the cache starts in half the time.
    from builder.pages.charts.bundle import bundle_script  # noqa: PLC0415

    return bundle_script()


def _kinds() -> bytes:
    from builder.pages.charts.specs import kinds_script  # noqa: PLC0415

    return kinds_script()


def _key() -> str:
    digest = hashlib.sha256()
    for package in MADE_FROM:
        digest.update(f"{package} {version(package)}\n".encode())
    for source in sorted(Path(__file__).parent.glob("*.py")):
        digest.update(source.read_bytes())
    # Titles of axes are in the language of the pages.
    digest.update(current_words().encode() + catalogue_bytes(current_language()))
    return digest.hexdigest()[:16]


def _kept(path: Path, make: Callable[[], bytes]) -> bytes:
    kept = _verified(path)
    if kept is not None:
        return kept
    data = make()
    with suppress(OSError):
        _keep(path, data)
    return data


def _keep(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        part.write_bytes(_digest(data) + data)
        part.chmod(0o644)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)


def _verified(path: Path) -> bytes | None:
    """The script kept in a file behind its own hash; None unless it is whole and ours."""
    try:
        with path.open("rb") as file:
            if not _only_ours(os.fstat(file.fileno())):
                return None
            digest, data = file.read(_DIGEST_BYTES), file.read()
    except OSError:
        return None
    return data if digest == _digest(data) else None


def _only_ours(found: os.stat_result) -> bool:
    """Whether nobody but this user can have written a file; Windows has no such numbers."""
    if not hasattr(os, "geteuid"):
        return True
    return found.st_uid == os.geteuid() and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def _digest(data: bytes) -> bytes:
    return f"{hashlib.sha256(data).hexdigest()}\n".encode()
