"""Write the expected files of every golden site anew: `python -m tests.golden`."""

from __future__ import annotations

import sys
from pathlib import Path
from shutil import rmtree
from tempfile import TemporaryDirectory

from tests.golden import SITES, differences, produced
from tests.site.sites import files_of


def update(site: Path) -> int:
    """Make `expected/` hold what the kitchen turns into; return how many files changed."""
    with TemporaryDirectory() as folder:
        found = produced(site, Path(folder) / "site")
    expected = site / "expected"
    changed = differences(files_of(expected), found)
    if changed:
        rmtree(expected, ignore_errors=True)
        for path, data in found.items():
            target = expected / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
    return len(changed)


def main() -> int:
    """Update every site and say what changed."""
    for site in SITES:
        sys.stderr.write(f"{site.name}: {update(site)} files changed\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
