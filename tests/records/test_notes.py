"""Links in notes: followed where there is a record, told where there is none."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.problems import Severity
from tests.kitchens import read, write
from tests.kitchens.small import SMALL


@pytest.mark.parametrize(
    ("note", "hints"),
    [
        ("see [[cuts/ribeye]] and [[cooks/chuck-30h]]", []),
        ("see [[cuts/ribey]]", ['did you mean "[[cuts/ribeye]]"?']),
        ("see [[ribeye]], [[Ribeye|it]] and [[Chuck, 30 h]]", []),
        ("see [[ribey]]", ['did you mean "[[cuts/ribeye]]"?']),
        ("see [[zzzz]]", ["write the folder and the id, as in [[cuts/beef-chuck-roll]]"]),
        (
            "[[]] and [[cuts/zzzz]]",
            ["write the folder and the id, as in [[cuts/beef-chuck-roll]]"] * 2,
        ),
        ("a list of [lists], [[unclosed", []),
    ],
)
def test_a_link_to_no_record_is_a_warning_on_its_page(
    tmp_path: Path, note: str, hints: list[str]
) -> None:
    cut = f"note: '{note}'\n" + SMALL["cuts/chuck.yaml"]
    _, problems = read(write(tmp_path, {**SMALL, "cuts/chuck.yaml": cut}))
    found = [problem for problem in problems if "leads to no record" in problem.message]
    assert [problem.hint for problem in found] == hints
    # The note's text begins in column 8, behind its quote; each link is reported where it is.
    starts = [match.start() for match in re.finditer(r"\[\[", note)] if hints else []
    places = [f"cuts/chuck.yaml:1:{8 + start}" for start in starts]
    assert [str(problem.place) for problem in found] == places
    for problem in found:
        assert problem.record == "cuts/chuck"
        assert problem.severity is Severity.WARNING


@pytest.mark.parametrize(
    "link",
    [
        "[x](javascript:alert%281%29)",
        "[x](JavaScript:alert)",
        "[x](file:///etc/hosts)",
        "[x](data:text/html,hello)",
        "[x](vbscript:msg)",
        "<javascript:alert>",
        "[x][1]\n\n  [1]: file:///etc/hosts",
    ],
)
def test_a_link_that_a_browser_would_run_is_an_error_at_its_line(tmp_path: Path, link: str) -> None:
    """Markdown passes such a link over as text, so that nobody would hear of it."""
    cut = f"note: |\n  first line\n\n  see {link}\n" + SMALL["cuts/chuck.yaml"]
    _, problems = read(write(tmp_path, {**SMALL, "cuts/chuck.yaml": cut}))
    (found,) = [p for p in problems if "is no address that a note can link to" in p.message]
    assert found.is_error
    assert found.place.file == "cuts/chuck.yaml"
    assert found.place.line in {4, 6}


def test_a_link_that_two_records_answer_to_names_both(tmp_path: Path) -> None:
    cut = "note: see [[Mash]]\n" + SMALL["cuts/chuck.yaml"]
    _, problems = read(write(tmp_path, {**SMALL, "cuts/chuck.yaml": cut}))
    (found,) = [problem for problem in problems if "may be 2 pages" in problem.message]
    assert str(found.place) == "cuts/chuck.yaml:1:11"
    assert found.hint == "write [[pantry/mash]] or [[plates/mash]]"
    assert found.severity is Severity.WARNING


def test_a_path_wins_over_a_name_and_code_is_no_link(tmp_path: Path) -> None:
    note = "note: 'see [[pantry/mash]], `[[nowhere]]` and \\[[nowhere]]'\n"
    _, problems = read(
        write(tmp_path, {**SMALL, "cuts/chuck.yaml": note + SMALL["cuts/chuck.yaml"]})
    )
    assert not [problem for problem in problems if "[[" in problem.message]


@pytest.mark.parametrize("name", ["chuck.gif", "chuck.webp", "chuck.HEIC"])
def test_a_picture_of_another_kind_is_hinted_by_the_kinds_that_are_shown(
    tmp_path: Path, name: str
) -> None:
    cut = f"note: '![the cut](pictures/{name})'\n" + SMALL["cuts/chuck.yaml"]
    _, problems = read(write(tmp_path, {**SMALL, "cuts/chuck.yaml": cut}))
    (found,) = [p for p in problems if "there is no picture" in p.message]
    wanted = "pages show .png, .jpg and .jpeg: save it as pictures/chuck.png or chuck.jpg"
    assert found.hint == wanted


@pytest.mark.parametrize(
    ("written", "hint"),
    [
        ("htps://example.org/a", "write https://example.org/a"),
        ("http//example.org", "write http://example.org"),
        ("HTTPS:/example.org", "write https://example.org"),
        ("see below", "a note links to records"),
        ("example.org/a", "write https://example.org/a"),
    ],
)
def test_a_misspelt_address_is_written_again(tmp_path: Path, written: str, hint: str) -> None:
    cut = f"note: see [x](<{written}>)\n" + SMALL["cuts/chuck.yaml"]
    _, problems = read(write(tmp_path, {**SMALL, "cuts/chuck.yaml": cut}))
    (found,) = [problem for problem in problems if problem.is_error]
    assert found.hint.startswith(hint)


def test_every_picture_that_is_missing_is_reported_where_it_is_written(tmp_path: Path) -> None:
    """Also those before a link of the same line, which is looked at first."""
    note = "note: see ![x](pictures/a.png), ![y](pictures/b.png), [z](https://example.org/z)\n"
    _, problems = read(
        write(tmp_path, {**SMALL, "cuts/chuck.yaml": note + SMALL["cuts/chuck.yaml"]})
    )
    found = [problem for problem in problems if "there is no picture" in problem.message]
    columns = [note.index(name) + 1 for name in ("pictures/a", "pictures/b")]
    assert [str(each.place) for each in found] == [f"cuts/chuck.yaml:1:{at}" for at in columns]
