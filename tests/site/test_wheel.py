"""The wheel carries all that a build reads: its site is the one of the source tree, to the byte."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path
from zipfile import ZipFile

import pytest

from tests.site.command import in_process
from tests.site.sites import ROOT
from tests.site.test_printing import tree

PACKAGED = ("builder", "site_templates", "pyproject.toml", "README.md", "LICENSE")


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel that is made from a copy, so that nothing is left in the tree."""
    folder = tmp_path_factory.mktemp("wheel")
    for name in PACKAGED:
        source, target = ROOT / name, folder / "source" / name
        if source.is_dir():
            shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(source, target)
    made = in_process(
        "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation", "--no-index",
        "--wheel-dir", folder, folder / "source",
    )  # fmt: skip
    assert made.code == 0, made.reported
    (found,) = folder.glob("*.whl")
    return found


@pytest.fixture(scope="module")
def unpacked(wheel: Path) -> Path:
    """The files of the wheel."""
    with ZipFile(wheel) as archive:
        archive.extractall(wheel.parent / "unpacked")
    return wheel.parent / "unpacked"


def published(root: Path, code: Path, cache: Path) -> dict[str, bytes]:
    """The site of a new kitchen, by the package that lies in a folder."""
    changes = {"PYTHONPATH": str(code), "XDG_CACHE_HOME": str(cache)}
    root.mkdir()
    where = in_process("-c", "import builder; print(builder.__file__)", cwd=root, changes=changes)
    assert Path(where.out.strip()).is_relative_to(code)
    for words in (("new", "kitchen"), ("build", "kitchen", "site", "--as-of", "2026-11-01")):
        ran = in_process("-m", "builder", *words, cwd=root, changes=changes)
        assert ran.code == 0, ran.reported
    return tree(root / "site")


def test_a_wheel_publishes_what_the_source_tree_publishes(unpacked: Path, tmp_path: Path) -> None:
    from_source = published(tmp_path / "source", ROOT, tmp_path / "cache")
    assert published(tmp_path / "wheel", unpacked, tmp_path / "cache") == from_source


def test_a_wheel_has_the_package_and_its_licence_and_nothing_else(unpacked: Path) -> None:
    found = {path.relative_to(unpacked).parts[0] for path in unpacked.rglob("*") if path.is_file()}
    (metadata,) = found - {"builder", "site_templates"}
    assert metadata.endswith(".dist-info")
    assert list((unpacked / metadata).rglob("LICENSE"))


def test_installed_in_an_environment_of_its_own_it_builds_the_demo(
    wheel: Path, tmp_path: Path
) -> None:
    """With the packages that it needs, which are those of this environment, and nothing else."""
    venv.create(tmp_path / "venv", with_pip=False)
    python = tmp_path / "venv" / "bin" / "python"
    pip = [sys.executable, "-m", "pip", "--python", str(python), "install", "--quiet"]
    subprocess.run([*pip, "--no-deps", "--no-index", str(wheel)], check=True)
    (packages,) = (tmp_path / "venv" / "lib").glob("python*/site-packages")
    # A .pth in it adds the folder alone: this project's own link to its source is not followed.
    (packages / "needed.pth").write_text(f"{sysconfig.get_path('purelib')}\n")
    where = tmp_path / "elsewhere"
    shutil.copytree(ROOT / "content", where / "kitchen")
    env = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache")}
    env.pop("PYTHONPATH", None)
    found = subprocess.run(
        [str(python), "-c", "import builder; print(builder.__file__)"],
        cwd=where, env=env, check=True, capture_output=True, text=True,
    )  # fmt: skip
    assert Path(found.stdout.strip()).is_relative_to(packages)
    build = [str(python.with_name("shankbook")), "build", "kitchen", "site"]
    subprocess.run(build, cwd=where, env=env, check=True, capture_output=True)
    assert "Chuck steak" in (where / "site" / "index.html").read_text(encoding="utf-8")
