"""Finding browsers for the tests, or installing them."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

UPDATE = ("apt-get", "update", "-qq")


@dataclass(frozen=True)
class Kind:
    """What a browser is called as a program and on a Mac, and the commands that bring it.

    A manager's commands are tried where the manager is there.
    """

    names: Sequence[str]
    apps: Mapping[str, str]
    managers: Mapping[str, Sequence[Sequence[str]]]


CHROMIUM = Kind(
    ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"),
    {"Google Chrome": "Google Chrome", "Chromium": "Chromium"},
    {
        "apt-get": (UPDATE, ("apt-get", "install", "-y", "-qq", "chromium")),
        "dnf": (("dnf", "install", "-y", "-q", "chromium"),),
        "apk": (("apk", "add", "--quiet", "chromium"),),
        "brew": (("brew", "install", "--quiet", "--cask", "chromium"),),
    },
)
FIREFOX = Kind(
    ("firefox-esr", "firefox"),
    {"Firefox": "firefox"},
    {
        "apt-get": (UPDATE, ("apt-get", "install", "-y", "-qq", "firefox-esr")),
        "dnf": (("dnf", "install", "-y", "-q", "firefox"),),
        "apk": (("apk", "add", "--quiet", "firefox-esr"),),
        "brew": (("brew", "install", "--quiet", "--cask", "firefox"),),
    },
)
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
    found = installed(CHROMIUM) or _from_manager(CHROMIUM)
    if found is None:
        _download()
    return found


@cache
def firefox() -> str | None:
    """Return the path of a Firefox, installed if need be; None where no manager brings one."""
    return installed(FIREFOX) or _from_manager(FIREFOX)


def installed(kind: Kind) -> str | None:
    """Return the path of a browser that is there already."""
    for name in kind.names:
        if found := shutil.which(name):
            return found
    for app, program in kind.apps.items():
        path = Path("/", "Applications", f"{app}.app", "Contents", "MacOS", program)
        if path.exists():
            return str(path)
    return None


def _from_manager(kind: Kind) -> str | None:
    for manager, commands in kind.managers.items():
        if shutil.which(manager) and all(_run(_allowed(command)) for command in commands):
            return installed(kind)
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
    sys.stdout.write(f"{firefox() or 'no Firefox'}\n")
