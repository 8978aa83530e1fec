"""Finding a browser for the tests: on the path, from a package manager, from the library."""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tests import browser

Machine = Callable[..., Path]


@pytest.fixture(autouse=True)
def nothing_kept() -> Iterator[None]:
    """Look afresh in each test, and leave nothing of it for the other tests."""
    browser.chromium.cache_clear()
    yield
    browser.chromium.cache_clear()


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Machine:
    """Make a machine whose only programs are the ones that are given, as shell scripts."""
    programs = tmp_path / "bin"
    programs.mkdir()
    monkeypatch.setenv("PATH", str(programs))
    monkeypatch.setenv("LOG", str(tmp_path / "log"))
    monkeypatch.setenv("BIN", str(programs))
    monkeypatch.setattr(browser, "CHROMIUM", replace(browser.CHROMIUM, apps={}))

    def make(**scripts: str) -> Path:
        for name, script in scripts.items():
            file = programs / name.replace("_", "-")
            file.write_text(f'#!/bin/sh\necho "${{0##*/}} $*" >> "$LOG"\n{script}\n')
            file.chmod(file.stat().st_mode | stat.S_IXUSR)
        monkeypatch.setattr(sys, "executable", str(programs / "python"))
        return programs

    return make


INSTALLS = '[ "$1" = install ] || exit 0; : > "$BIN/chromium"; /bin/chmod +x "$BIN/chromium"'
BREWS = ': > "$BIN/chromium"; /bin/chmod +x "$BIN/chromium"'
FAILS = "exit 100"


def called(tmp_path: Path) -> list[str]:
    """Every program that was started, with its arguments."""
    log = tmp_path / "log"
    return log.read_text().splitlines() if log.exists() else []


def test_a_browser_on_the_path_is_taken_and_nothing_is_started(
    machine: Machine, tmp_path: Path
) -> None:
    programs = machine(google_chrome="", apt_get=INSTALLS, python="")
    assert browser.chromium() == str(programs / "google-chrome")
    assert called(tmp_path) == []


def test_a_package_manager_installs_one(machine: Machine, tmp_path: Path) -> None:
    programs = machine(apt_get=INSTALLS, sudo='shift; exec "$@"', python=FAILS)
    assert browser.chromium() == str(programs / "chromium")
    assert [line for line in called(tmp_path) if line.startswith("apt-get")] == [
        "apt-get update -qq",
        "apt-get install -y -qq chromium",
    ]
    assert browser.chromium() == str(programs / "chromium")
    assert len([line for line in called(tmp_path) if line.startswith("apt-get")]) == 2


@pytest.mark.parametrize("root", [True, False])
def test_who_is_not_root_asks_without_waiting_for_a_password(
    machine: Machine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, root: bool
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0 if root else 1000)
    machine(dnf=INSTALLS, sudo='shift; exec "$@"', python=FAILS)
    browser.chromium()
    first = "dnf install -y -q chromium" if root else "sudo -n dnf install -y -q chromium"
    assert called(tmp_path)[0] == first


def test_brew_is_never_run_as_root(
    machine: Machine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 501)
    machine(brew=BREWS, sudo=FAILS, python=FAILS)
    browser.chromium()
    assert called(tmp_path) == ["brew install --quiet --cask chromium"]


def test_a_manager_that_fails_gives_way_to_the_next(machine: Machine, tmp_path: Path) -> None:
    programs = machine(apt_get=FAILS, apk=BREWS, sudo='shift; exec "$@"', python=FAILS)
    assert browser.chromium() == str(programs / "chromium")
    managers = [line for line in called(tmp_path) if not line.startswith("sudo")]
    assert managers == ["apt-get update -qq", "apk add --quiet chromium"]


@pytest.mark.parametrize("manager", [{}, {"apt_get": FAILS}, {"apt_get": ""}])
def test_else_the_library_downloads_its_own(
    machine: Machine, tmp_path: Path, manager: dict[str, str]
) -> None:
    """Also where a manager says that all went well, yet brought no browser."""
    machine(python="", sudo='shift; exec "$@"', **manager)
    assert browser.chromium() is None
    assert called(tmp_path)[-1] == "python -m playwright install --with-deps chromium"


def test_without_any_the_tests_stop_and_say_so(machine: Machine) -> None:
    machine(python=FAILS)
    with pytest.raises(RuntimeError, match="none could be installed"):
        browser.chromium()


def test_a_program_that_cannot_be_started_counts_as_failed(machine: Machine) -> None:
    programs = machine(python="")
    (programs / "python").write_bytes(b"\x00no program")
    with pytest.raises(RuntimeError, match="none could be installed"):
        browser.chromium()
