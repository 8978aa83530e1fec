"""Golden sites: small kitchens with the files that they must turn into.

Each sub-folder holds `content/` and `expected/`. All that is produced is compared but
`assets/` (scripts and styles, tested by what they do in a browser, and large), `methods/`
and `writing/` with their lists, the sources and the notices (the same for every kitchen, made
from docstrings and record types, with tests of their own), the manifest and the
history (hashes and values of these).

`python -m tests.golden` writes `expected/` anew; read the difference before you commit it.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from difflib import unified_diff
from itertools import islice
from pathlib import Path

from builder.build import build
from builder.publish import MANIFEST
from builder.publish.paths import HISTORY
from tests.site.sites import files_of

HERE = Path(__file__).parent
SITES = sorted(folder.parent for folder in HERE.glob("*/content"))
SHARED = ("methods/", "methods.html", "writing/", "writing.html", "sources.html", "notices.html")
NOT_COMPARED = ("assets/", *SHARED, MANIFEST, HISTORY)
NO_DAY = date(1999, 1, 1)
"""Golden kitchens name their own day; this one would show."""
MOST_LINES = 40


def produced(site: Path, output: Path) -> dict[str, bytes]:
    """Build a golden kitchen; return the files that are compared."""
    outcome = build(site / "content", output, None, NO_DAY)
    reported = [f"{problem.place}: {problem.message}" for problem in outcome.problems]
    if outcome.report is None:
        raise ValueError(f"{site.name} has errors: {reported}")
    found = files_of(output)
    return {path: data for path, data in found.items() if not path.startswith(NOT_COMPARED)}


def differences(expected: Mapping[str, bytes], found: Mapping[str, bytes]) -> list[str]:
    """What is missing, what nobody expected, and what reads differently, in lines.

    >>> differences({"a.html": b"x", "b.html": b"y"}, {"b.html": b"z", "c.html": b""})
    ['missing: a.html', 'unexpected: c.html', '--- b.html expected\\n+++ b.html found\\n-y\\n+z']
    """
    return [
        *(f"missing: {path}" for path in sorted(expected.keys() - found.keys())),
        *(f"unexpected: {path}" for path in sorted(found.keys() - expected.keys())),
        *(
            _difference(path, expected[path], found[path])
            for path in sorted(expected.keys() & found.keys())
            if expected[path] != found[path]
        ),
    ]


def _difference(path: str, one: bytes, other: bytes) -> str:
    was, now = (data.decode("utf-8", "replace").splitlines() for data in (one, other))
    lines = unified_diff(was, now, f"{path} expected", f"{path} found", lineterm="", n=0)
    changed = (line for line in lines if not line.startswith("@@"))
    return "\n".join(islice(changed, MOST_LINES)) or f"{path}: other bytes, the same lines"
