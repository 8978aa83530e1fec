"""The shell around the builder: help without waiting, exit codes, silence where nobody looks."""

from __future__ import annotations

import json
import os
import signal
import time
from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from builder import cli
from builder.build import Outcome, build, compute_content
from builder.problems import BusyError
from tests.kitchens import write
from tests.site.command import Command, in_process
from tests.site.test_printing import tree

# Of scipy, what is imported when a sourced function first asks for it.
LATE = {"scipy.optimize", "scipy.integrate"}
HEAVY = {"numpy", "pandas", "scipy", "altair", "pydantic", "jinja2", "babel", "yaml", "rich"}


def imported_by(*arguments: str) -> set[str]:
    """The modules that a run of the command line has imported by its end."""
    script = (
        "import json, sys\nfrom builder.cli import main\ntry:\n    main(sys.argv[1:])\n"
        "except SystemExit:\n    pass\n"
        "sys.stderr.write(json.dumps(sorted(sys.modules)))"
    )
    ran = in_process("-c", script, *arguments)
    names: list[str] = json.loads(ran.reported.splitlines()[-1])
    return set(names)


@pytest.mark.parametrize(
    "arguments", [("--help",), ("build", "--help"), ("--version",), ("build", "--as-of", "soon")]
)
def test_help_waits_for_no_library(arguments: tuple[str, ...]) -> None:
    names = imported_by(*arguments)
    assert "argparse" in names
    assert names & HEAVY == set()


def test_building_does_import_them(kitchen: Path) -> None:
    """The check above can fail: a run that computes has them; but what is slow to import, and for
    tastings and curves alone, waits until one asks for it."""
    names = imported_by("check", str(kitchen))
    assert names >= HEAVY - {"altair", "rich"}
    assert names & {"altair", *LATE} == set()


def test_what_waits_is_imported_when_it_is_first_needed() -> None:
    """The check above can fail: the distance behind a share of correct answers has its solver."""
    script = (
        "import sys\nfrom builder.tasting import protocols, thurstone\n"
        "before = 'scipy.optimize' in sys.modules\n"
        "thurstone._invert(0.5, protocols.TRIANGLE)\n"
        "sys.stderr.write(str((before, 'scipy.optimize' in sys.modules)))"
    )
    assert in_process("-c", script).reported.endswith("(False, True)")


def test_help_names_the_exit_codes(command: Command) -> None:
    ran = command("--help")
    assert ran.code == 0
    for line in ("0  done", "1  the content", "2  the command line", "3  something else"):
        assert f"  {line}" in ran.out


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("bild",),
        ("build", "--as-of", "yesterday"),
        ("build", "--as-of", "2026-02-30"),
        ("build", "a", "b", "c"),
        ("build", ""),
        ("build", "content", " "),
        ("check", "content", "output"),
        ("new",),
        ("preview", "--port", "many"),
    ],
)
def test_what_is_not_understood(command: Command, arguments: tuple[str, ...]) -> None:
    ran = command(*arguments)
    assert ran.code == 2
    assert "usage: shankbook" in ran.reported


def test_a_bad_day_is_named(command: Command) -> None:
    reported = command("build", "--as-of", "1.10.2026").reported
    assert '"1.10.2026" is not a date such as 2026-10-01' in reported


def test_check_publishes_nothing(command: Command, kitchen: Path) -> None:
    ran = command("check", kitchen)
    assert (ran.code, ran.reported) == (0, "the content can be published\n")
    assert [entry.name for entry in kitchen.parent.iterdir()] == ["kitchen"]


def test_new_writes_over_nothing(command: Command, kitchen: Path) -> None:
    ran = command("new", kitchen)
    assert ran.code == 3
    assert "is not empty" in ran.reported


def test_the_module_is_the_command_and_a_pipe_sees_no_progress(
    kitchen: Path, tmp_path: Path
) -> None:
    """The same words from `python -m builder` and the installed command, and nothing else."""
    reported = []
    for name, start in (
        ("one", ("-m", "builder")),
        ("two", ("-c", "import sys; from builder.cli import main; sys.exit(main())")),
    ):
        output = tmp_path / name
        changes = {"XDG_CACHE_HOME": str(tmp_path / "cache"), "TERM": "xterm-256color"}
        arguments = ("build", kitchen, output, "--as-of", "2026-02-01")
        ran = in_process(*start, *arguments, changes=changes)
        assert (ran.code, ran.out) == (0, "")
        reported.append(ran.reported.replace(str(output), "OUT"))
    assert reported[0] == reported[1]
    first, second = reported[0].splitlines()
    assert first.endswith(" files written, 0 unchanged, 0 deleted")
    assert second == "open OUT/index.html"
    assert not set(reported[0]) & {"\r", "\x1b"}


def test_problems_without_end_are_reported_in_part_and_counted(
    command: Command, kitchen: Path
) -> None:
    (kitchen / "prices").mkdir(exist_ok=True)
    rows = "".join(f"2026-09-01,nothing-{row},1.00/kg\n" for row in range(2_000))
    (kitchen / "prices" / "long.csv").write_text(f"date,item,price\n{rows}")
    (kitchen / "cuts" / "zz.yaml").write_text("species: beef\nprice: thirteen\n")
    ran = command("check", kitchen)
    assert ran.code == 1
    assert "cuts/zz.yaml:2:8: error" in ran.reported
    assert "prices/long.csv:2:12: error" in ran.reported
    assert "prices/long.csv: 1,950 more, not listed here" in ran.reported
    assert "2,001 errors, " in ran.reported
    assert len(ran.reported) < 20_000


@pytest.mark.parametrize(
    ("row", "word"), [("2026-09-01,nothing,1.00/kg", "no cut"), ("2026-09-01,x,dear", "dear")]
)
def test_a_list_of_wrong_rows_is_not_read_to_its_end(row: str, word: str, tmp_path: Path) -> None:
    """What is held does not grow with the rows: each check gives up after 5,000 of a file."""
    rows = f"{row}\n" * 40_000
    files = {"kitchen.yaml": "name: X\ncurrency: CAD\n", "prices/l.csv": f"date,item,price\n{rows}"}
    _, problems = compute_content(write(tmp_path, files), None, date(2026, 10, 1))
    found = [problem for problem in problems if problem.place.file == "prices/l.csv"]
    assert 5_001 <= len(found) <= 3 * 5_001
    assert any(word in problem.message for problem in found)
    assert found[0].message == "more problems than are counted here"


def test_many_lists_of_wrong_rows_hold_no_more_than_a_few(tmp_path: Path) -> None:
    """The lists after the first ten each have their first wrong row, and a word of the rest."""
    rows = "2026-09-01,x,dear\n" * 6_000
    lists = {f"prices/l{n:02}.csv": f"date,item,price\n{rows}" for n in range(14)}
    files = {"kitchen.yaml": "name: X\ncurrency: CAD\n", **lists}
    _, problems = compute_content(write(tmp_path, files), None, date(2026, 10, 1))
    counts = Counter(problem.place.file for problem in problems)
    assert all(counts[file] >= 2 for file in lists)
    assert counts["prices/l00.csv"] >= 5_001
    assert {counts[f"prices/l{n}.csv"] for n in (11, 12, 13)} == {2}


def test_a_plate_of_wrong_keys_is_not_read_to_its_end(tmp_path: Path) -> None:
    keys = "".join(f"k{n}: 1\n" for n in range(3_000))
    files = {"kitchen.yaml": "name: X\ncurrency: CAD\n", "plates/p.yaml": keys}
    _, problems = compute_content(write(tmp_path, files), None, date(2026, 10, 1))
    assert problems[0].message == "more problems than are counted here"
    assert len([p for p in problems if p.place.file == "plates/p.yaml"]) <= 502


def test_one_error_is_one_error(command: Command, kitchen: Path) -> None:
    (kitchen / "cuts" / "zz.yaml").write_text("species: beef\nprice: thirteen\n")
    assert "\n1 error, " in command("check", kitchen).reported


@pytest.mark.parametrize("inside", ["site", "cuts/site", "."])
def test_a_site_among_the_records_is_refused(command: Command, kitchen: Path, inside: str) -> None:
    before = sorted(kitchen.rglob("*"))
    ran = command("build", kitchen, kitchen / inside)
    assert ran.code == 3
    assert "is in the content folder; name one beside it" in ran.reported
    assert sorted(kitchen.rglob("*")) == before


def test_records_among_the_pages_are_refused(command: Command, kitchen: Path) -> None:
    site = kitchen.parent / "site"
    assert command("build", kitchen, site).code == 0
    kitchen.rename(site / "kitchen")
    ran = command("build", site / "kitchen", site)
    assert ran.code == 3
    assert "holds the content folder" in ran.reported


def test_a_folder_that_is_no_kitchen_is_reported_in_one_line(
    command: Command, tmp_path: Path
) -> None:
    for name in ("letters", "photos"):
        (tmp_path / name).mkdir()
        (tmp_path / f"{name}.txt").write_text("x")
    ran = command("check", tmp_path)
    assert ran.code == 1
    assert ran.reported.splitlines() == [
        "kitchen.yaml: error: this file is missing",
        '    no kitchen is in this folder; "shankbook new FOLDER" starts one',
        "1 error, 0 warnings",
    ]


def test_a_file_in_the_way_of_the_output_is_named(command: Command, kitchen: Path) -> None:
    (kitchen.parent / "file").write_text("x")
    for output in ("file", "file/site"):
        ran = command("build", kitchen, kitchen.parent / output)
        assert (ran.code, ran.reported) == (
            3,
            f"shankbook: {kitchen.parent / 'file'} is not a folder\n",
        )


Rebuild = Callable[[], bool]


def previewed(monkeypatch: pytest.MonkeyPatch, steps: Callable[[Rebuild], None]) -> None:
    """Let the preview's builds come when a test wants them, with no server and no waiting."""

    def serve(_output: Path, rebuild: Rebuild, *_: object, **__: object) -> None:
        steps(rebuild)

    monkeypatch.setattr("builder.preview.serve", serve)
    monkeypatch.setattr(cli, "BUSY_WAITS_SECONDS", (0.01,) * 500)


def test_a_preview_outlives_a_content_folder_that_is_away_for_a_while(
    command: Command, kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site, away = kitchen.parent / "site", kitchen.parent / "away"

    def steps(rebuild: Rebuild) -> None:
        assert rebuild()
        before = tree(site)
        kitchen.rename(away)
        assert not rebuild()
        assert tree(site) == before
        away.rename(kitchen)
        assert rebuild()

    previewed(monkeypatch, steps)
    ran = command("preview", kitchen, site)
    assert ran.code == 0
    assert f"cannot list the folder {kitchen}" in ran.reported


def test_a_preview_waits_for_a_build_of_the_same_site(
    command: Command, kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = kitchen.parent / "site"

    busy = iter([False, True, True])

    def build_when_free(*arguments: Any, **named: Any) -> Outcome:
        if next(busy, False):
            raise BusyError("another build is writing this site")
        return build(*arguments, **named)

    def steps(rebuild: Rebuild) -> None:
        assert rebuild()
        assert rebuild()
        assert list(busy) == []

    previewed(monkeypatch, steps)
    monkeypatch.setattr("builder.build.build", build_when_free)
    ran = command("preview", kitchen, site)
    assert (ran.code, ran.reported.count("another build")) == (0, 0)


def test_a_preview_of_no_kitchen_ends_at_once(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    previewed(monkeypatch, lambda rebuild: [rebuild()].clear())
    assert command("preview", tmp_path / "nowhere", tmp_path / "site").code == 3


@pytest.mark.parametrize("sent", [signal.SIGINT, signal.SIGTERM])
def test_ctrl_c_before_the_kitchen_is_read_is_one_line(
    sent: signal.Signals, tmp_path: Path, capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    """The kitchen's language is asked for first; the signal comes while it is."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)

    def interrupted(_: object) -> str:
        os.kill(os.getpid(), sent)
        time.sleep(10)
        return "en"

    monkeypatch.setenv("LC_ALL", "C")
    monkeypatch.setattr(cli, "_language", interrupted)
    try:
        assert cli.main(["check", str(tmp_path)]) == cli.IN_THE_WAY
    finally:
        signal.signal(signal.SIGINT, before)
    assert capsys.readouterr().err == "stopped; the published site is whole, old or new\n"
