"""Whatever the tool reads at run time beside its code is packed with it."""

from __future__ import annotations

import tomllib
from pathlib import Path

ROOT = Path(__file__).parent.parent
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
PACKED: dict[str, list[str]] = SETTINGS["tool"]["setuptools"]["package-data"]


def packed() -> set[Path]:
    """The files that the patterns of the project file pick up."""
    return {
        file
        for name, patterns in PACKED.items()
        for pattern in patterns
        for file in ROOT.joinpath(*name.split(".")).glob(pattern)
        if file.is_file()
    }


def test_every_file_beside_the_code_is_packed() -> None:
    beside = {
        file
        for top in ("builder", "site_templates")
        for file in (ROOT / top).rglob("*")
        if file.is_file() and file.suffix not in {".py", ".pyc"}
    }
    assert beside
    assert beside - packed() == set()
