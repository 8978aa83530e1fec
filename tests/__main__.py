"""Every check of the project, one after the other: `python -m tests`.

Arguments are handed on to pytest; lint and types are then left out, so that one
test can be run alone. The whole lot is shared among a few processes.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Sequence

from tests.browser import chromium, firefox

CHECKS: tuple[Sequence[str], ...] = (
    ("ruff", "check", "."),
    ("ruff", "format", "--check", "."),
    ("mypy",),
    ("vulture",),
)
SHARED = ("--numprocesses=auto", "--maxprocesses=4", "--dist=worksteal")


def main(arguments: Sequence[str]) -> int:
    """Run the checks until one fails and return its exit code."""
    chromium()
    firefox()
    checks = () if arguments else CHECKS
    for check in (*checks, ("pytest", *(arguments or SHARED))):
        sys.stderr.write(f"\n$ {' '.join(check)}\n")
        code = subprocess.run([sys.executable, "-m", *check], check=False).returncode
        if code:
            return code
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
