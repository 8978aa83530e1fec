"""Finding a Chromium for the tests, or installing one; never skipping for want of it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from functools import cache
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
MAC_APPS = ("Google Chrome", "Chromium")
# Each manager with the commands that bring a Chromium; tried where the manager is there.
MANAGERS: dict[str, Sequence[Sequence[str]]] = {
    "apt-get": (("apt-get", "update", "-qq"), ("apt-get", "install", "-y", "-qq", "chromium")),
    "dnf": (("dnf", "install", "-y", "-q", "chromium"),),
    "apk": (("apk", "add", "--quiet", "chromium"),),
    "brew": (("brew", "install", "--quiet", "--cask", "chromium"),),
}
# Without these Chromium asks the outside for updates as soon as it starts.
ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@cache
def chromium() -> str | None:
    """Return the path of an installed browser; None means the library's own download.

    Raises RuntimeError where none is found and none can be installed.
    """
    found = _installed() or _from_manager()
    if found is None:
        _download()
    return found


def _installed() -> str | None:
    for name in NAMES:
        if found := shutil.which(name):
            return found
    for app in MAC_APPS:
        program = Path("/", "Applications", f"{app}.app", "Contents", "MacOS", app)
        if program.exists():
            return str(program)
    return None


def _from_manager() -> str | None:
    for manager, commands in MANAGERS.items():
        if shutil.which(manager) and all(_run(_allowed(command)) for command in commands):
            return _installed()
    return None


def _allowed(command: Sequence[str]) -> list[str]:
    root = not hasattr(os, "geteuid") or os.geteuid() == 0 or command[0] == "brew"
    return [*([] if root else ["sudo", "-n"]), *command]


def _download() -> None:
    if not _run([sys.executable, "-m", "playwright", "install", "--with-deps", "chromium"]):
        raise RuntimeError("no Chrome or Chromium is installed, and none could be installed")


def _run(command: Sequence[str]) -> bool:
    sys.stderr.write(f"$ {' '.join(command)}\n")
    try:
        return subprocess.run(command, check=False).returncode == 0
    except OSError:
        return False


if __name__ == "__main__":
    sys.stdout.write(f"{chromium() or 'the browser library has its own'}\n")
