"""The publishing guide and its container: what they say to run is run here, as far as it can be."""

from __future__ import annotations

import json
import re
import shlex
import subprocess
import sys
from pathlib import Path

from builder.cli import DONE, main
from builder.records.editions import READY
from tests.editions.small import SMALL, written

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "PUBLISHING.md").read_text(encoding="utf-8")
LINES = [
    line.partition(" ")
    for line in (ROOT / ".ci" / "Containerfile").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]
STEPS = [(word, rest) for word, _, rest in LINES]


def of(word: str) -> list[str]:
    """The arguments of every step of a kind, in order."""
    return [rest for step, rest in STEPS if step == word]


def test_every_step_is_known_and_the_base_is_a_distribution_without_a_host() -> None:
    known = {"FROM", "RUN", "WORKDIR", "COPY", "ARG", "USER", "EXPOSE", "CMD"}
    assert {step for step, _ in STEPS} == known
    for base in of("FROM"):
        assert re.fullmatch(r"debian:[a-z-]+( AS [a-z]+)?", base)


def test_the_image_holds_the_site_alone_and_runs_without_root() -> None:
    last = max(number for number, (step, _) in enumerate(STEPS) if step == "FROM")
    copied = [rest for step, rest in STEPS[last:] if step == "COPY"]
    assert copied == ["--from=build /kitchen/site /site"]
    [user] = [rest for step, rest in STEPS[last:] if step == "USER"]
    assert all(int(part) > 0 for part in user.split(":"))
    command = json.loads(of("CMD")[0])
    port = command[command.index("-p") + 1]
    assert port == of("EXPOSE")[0]
    assert int(port) >= 1024
    assert command[command.index("-h") + 1] == "/site"
    after = [step for step, _ in STEPS[last:]]
    assert after.index("USER") > after.index("RUN")  # nothing is installed by the one who serves


def test_the_step_that_builds_gives_one_edition_without_hidden_files(tmp_path: Path) -> None:
    written(SMALL, tmp_path / "content")
    (tmp_path / ".venv").symlink_to(sys.prefix)
    [build] = [rest for rest in of("RUN") if "shankbook build" in rest]
    name, _, edition = of("ARG")[0].partition("=")
    environment = {name: edition, "HOME": str(tmp_path), "PATH": "/usr/bin:/bin"}
    subprocess.run(["/bin/sh", "-c", build], cwd=tmp_path, env=environment, check=True)
    site = tmp_path / "site"
    assert (site / "cooks" / "chuck-30h.html").exists()
    assert not (site / "menu.html").exists()
    assert not list(site.glob(".*"))


def test_files_that_the_steps_name_are_in_the_repository() -> None:
    named = {word for rest in of("RUN") for word in shlex.split(rest) if word.startswith(".ci/")}
    assert named == {".ci/build.txt"}
    for name in (*named, *re.findall(r"\.ci/\w+(?:\.txt)?", GUIDE)):
        assert (ROOT / name).exists(), name


def test_the_guides_commands_do_what_it_says(tmp_path: Path) -> None:
    written(SMALL, tmp_path / "content")
    found = {
        command.strip()
        for line in GUIDE.splitlines()
        if "shankbook build content" in line
        for command in re.findall(r"shankbook (?:check|build)[^&]*", line)
    }
    assert {command.split()[1] for command in found} == {"check", "build"}
    for number, command in enumerate(sorted(found)):
        _, *words = shlex.split(command)
        places = {
            "content": str(tmp_path / "content"),
            "site": str(tmp_path / f"{number}" / "site"),
        }
        (tmp_path / f"{number}").mkdir()
        assert main([places.get(word, word) for word in words]) == DONE
        if "all" in words:
            folders = {path.name for path in (tmp_path / f"{number}").iterdir()}
            sites = {"site", *(f"site-{name}" for name in READY if name != "owner")}
            assert sites <= folders
            assert all(f"`{name}`" in GUIDE for name in sites)


def test_the_guide_names_files_of_a_site_that_are_there(tmp_path: Path) -> None:
    written(SMALL, tmp_path / "content")
    words = ["build", str(tmp_path / "content"), str(tmp_path / "site"), "--edition", "owner"]
    assert main(words) == DONE
    for name in ("index.html", "assets/search-data.js", "data/datapackage.json", "robots.txt"):
        assert f"`{name}`" in GUIDE
        assert (tmp_path / "site" / name).exists()
    assert ".shankbook-history.json" in GUIDE
    assert (tmp_path / "site" / ".shankbook-history.json").exists()
