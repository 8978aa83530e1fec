"""Free pages: where they may lie, what they are called, and what is refused at its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.problems import Severity
from builder.records.content import Content, load
from builder.records.links import Links
from builder.records.notes import mentions
from tests.kitchens import TODAY, read, write
from tests.kitchens.small import SMALL


def loaded(root: Path, files: dict[str, str]) -> Content:
    content, problems = load(write(root, {**SMALL, **files}), None, TODAY)
    assert [str(problem.place) for problem in problems] == []
    return content


@pytest.mark.parametrize(
    ("text", "title", "line", "body"),
    [
        ("---\ntitle: Opening list\n---\nBaths on.\n", "Opening list", 4, "Baths on.\n"),
        ("# Opening list\n\nBaths on.\n", "Opening list", 2, "\nBaths on.\n"),
        ("\ufeff# Opening list #\r\nBaths on.\r\n", "Opening list", 2, "Baths on.\n"),
        ("---\ntitle: A\n---\n# A\nBaths on.\n", "A", 5, "Baths on.\n"),
        ("---\ntitle: A\n---\n# B\n", "A", 4, "# B\n"),
        ("---\n---\nBaths on.\n", "First page", 3, "Baths on.\n"),
        ("Baths on.\n\n# Later\n", "First page", 1, "Baths on.\n\n# Later\n"),
        ("Above\n\n---\n\nBelow\n", "First page", 1, "Above\n\n---\n\nBelow\n"),
        ("---\n\nBelow a line\n", "First page", 1, "---\n\nBelow a line\n"),
        ("", "First page", 1, ""),
    ],
)
def test_a_page_is_called_by_its_keys_its_heading_or_its_file(
    tmp_path: Path, text: str, title: str, line: int, body: str
) -> None:
    page = loaded(tmp_path, {"notes/how/first-page.md": text}).pages["notes/how/first-page"]
    assert (page.title, page.folder, page.body.place.line, str(page.body)) == (
        title, "how", line, body,
    )  # fmt: skip


BAD = [
    ("notes/a.md", "---\ntitel: A\n---\n", "notes/a.md:2:1", 'did you mean "title"?'),
    ("notes/a.md", "---\ntitle: A\nBaths on.\n", "notes/a.md:1:1", "write --- on a line"),
    ("notes/a.md", "---\ntitle: [A]\n---\n", "notes/a.md:2:8", "write A"),
    ("notes/a.md", "A\n\nhidden\u200b\n", "notes/a.md:3:7", "delete it"),
    ("notes/a.md", "A\n\n[x](ftp://example.org)\n", "notes/a.md:3:5", "http, https and mailto"),
    ("notes/a.md", "A\n\n![x](pictures/none.png)\n", "notes/a.md:3:6", "pictures/none.png"),
    ("notes/How we/a.md", "A\n", "notes/How we", 'rename it to "how-we"'),
    ("notes/Opening List.md", "A\n", "notes/Opening List.md", 'rename it to "opening-list.md"'),
    ("notes/a.md.txt", "A\n", "notes/a.md.txt", 'rename it to "a.md"'),
    ("notes/1/2/3/4/5/a.md", "A\n", "notes/1/2/3/4/5", "move its files up"),
    ("cuts/more/a.yaml", "species: beef\n", "cuts/more", "move its files up to cuts/"),
]


@pytest.mark.parametrize(("file", "text", "place", "hint"), BAD)
def test_what_is_wrong_in_a_page_has_its_place(
    tmp_path: Path, file: str, text: str, place: str, hint: str
) -> None:
    _, problems = read(write(tmp_path, {**SMALL, file: text}))
    [error] = [problem for problem in problems if problem.is_error]
    assert (str(error.place), hint in error.hint) == (place, True), error


def test_a_page_in_another_encoding_is_refused(tmp_path: Path) -> None:
    (write(tmp_path, SMALL) / "notes").mkdir()
    (tmp_path / "notes/a.md").write_bytes("one\nCôte".encode("cp1252"))
    _, problems = read(tmp_path)
    [error] = [problem for problem in problems if problem.is_error]
    assert str(error.place) == "notes/a.md:2:2"


def test_a_folder_that_is_a_link_is_not_followed(tmp_path: Path) -> None:
    (write(tmp_path, {**SMALL, "notes/a.md": "A"}) / "notes/again").symlink_to(tmp_path / "notes")
    _, problems = read(tmp_path)
    [error] = [problem for problem in problems if problem.is_error]
    assert str(error.place) == "notes/again"


def test_a_readme_among_the_pages_is_passed_over(tmp_path: Path) -> None:
    assert not loaded(tmp_path, {"notes/README.md": "Not for the site"}).pages


def test_a_link_of_a_page_that_leads_nowhere_has_its_line(tmp_path: Path) -> None:
    text = "---\ntitle: A\n---\nfirst\n\n| a | b |\n| - | - |\n| [[ribey\\|it]] | [[Mash]] |\n"
    costed, problems = read(write(tmp_path, {**SMALL, "notes/a.md": text}))
    assert costed is not None
    found = [problem for problem in problems if problem.record == "notes/a"]
    assert [(str(each.place), each.hint, each.severity) for each in found] == [
        ("notes/a.md:8:3", 'did you mean "[[cuts/ribeye]]"?', Severity.WARNING),
        ("notes/a.md:8:19", "write [[pantry/mash]] or [[plates/mash]]", Severity.WARNING),
    ]


def test_pages_and_records_know_what_mentions_them(tmp_path: Path) -> None:
    files = {
        "notes/a.md": "[[notes/in/b]], [[B]], [[ribeye]], [[in/b|again]], `[[chuck]]`",
        "notes/in/b.md": "# B\n\nof [[a]] and of [[B]] itself",
        "cuts/chuck.yaml": SMALL["cuts/chuck.yaml"] + "note: see [[B]]\n",
    }
    found = mentions(Links.of(loaded(tmp_path, files)))
    assert {path: [each.path for each in owners] for path, owners in found.items()} == {
        "notes/in/b": ["cuts/chuck", "notes/a"],
        "cuts/ribeye": ["notes/a"],
        "notes/a": ["notes/in/b"],
    }
