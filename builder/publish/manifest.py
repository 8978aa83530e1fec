"""The list of what we wrote, kept in the site itself: the only files that we may ever delete."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from builder import __version__
from builder.language import tr
from builder.problems import ShankbookError
from builder.publish.paths import check_path

MANIFEST = ".shankbook-manifest.json"
_FORMAT = 1
_HASH = re.compile(r"[0-9a-f]{64}")


def sha256(content: bytes) -> str:
    """Return the SHA-256 of `content` in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


@dataclass(frozen=True, slots=True)
class Manifest:
    """Path and SHA-256 of each page, and the version of the tool that wrote them."""

    files: Mapping[str, str] = field(default_factory=dict)
    tool: str = f"shankbook {__version__}"

    def to_bytes(self) -> bytes:
        """Write the manifest as JSON, one page a line, in the order of the paths."""
        body = {"format": _FORMAT, "tool": self.tool, "files": dict(sorted(self.files.items()))}
        return (json.dumps(body, indent=0) + "\n").encode()


def read_manifest(folder: Path) -> Manifest | None:
    """Read the manifest of a published folder; None when it has none.

    Raises ShankbookError when it cannot be read or lists a path that no page can have: what it
    lists is deleted, so nothing in it is taken on trust.
    """
    file = folder / MANIFEST
    if file.is_symlink():
        raise ShankbookError(tr("{file} is a symbolic link; it must be a file", file=file))
    try:
        body = json.loads(file.read_bytes())
    except FileNotFoundError:
        return None
    except ValueError as error:
        raise ShankbookError(
            tr(
                "{file} is damaged ({error}); empty the folder and build again",
                file=file,
                error=error,
            )
        ) from None
    return _checked(file, body)


def _checked(file: Path, body: object) -> Manifest:
    match body:
        case {"format": 1, "tool": str(tool), "files": dict(files)}:
            for path, digest in files.items():
                check_path(path)
                if not (isinstance(digest, str) and _HASH.fullmatch(digest)):
                    raise ShankbookError(
                        tr('{file} has no hash for "{path}"', file=file, path=path)
                    )
            return Manifest(files, tool)
    raise ShankbookError(
        tr("{file} was written by a version that this one does not know", file=file)
    )
