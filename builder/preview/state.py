"""What an open page has to know of the build behind it."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from pathlib import Path

from builder.publish import MANIFEST


@dataclass(frozen=True, slots=True)
class State:
    """What an open page has to know: which site is the present one, and how the last build went."""

    version: str
    failed: bool = False

    def to_json(self) -> str:
        """Write the state as the script reads it."""
        return json.dumps({"version": self.version, "failed": self.failed})


def version_of(output: Path) -> str:
    """Name the published site by its manifest: the same site has the same name."""
    try:
        return hashlib.sha256((output / MANIFEST).read_bytes()).hexdigest()[:16]
    except OSError:
        return "none"
