"""Free pages: Markdown files under notes/, in folders if the kitchen likes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from pydantic import Field

from builder.language import tr
from builder.problems import Place, Problem
from builder.reading.folder import PAGES, ContentFile
from builder.reading.limits import LIMITS
from builder.reading.salvage import parse_or_salvage
from builder.reading.source import Source
from builder.reading.tree import Text
from builder.records.base import Written, read_record, title_of
from builder.records.fields import Words

_FRONT = re.compile(r"---[ \t]*(?:\n(?P<keys>.*?))?\n(?:---|\.\.\.)[ \t]*(?:\n|\Z)", re.DOTALL)
_HEADING = re.compile(r"\s*^ {0,3}# +(?P<title>[^\n]*?)(?: +#+)? *(?:\n|\Z)", re.MULTILINE)


class FrontMatter(Written):
    """The keys between two lines of three hyphens at the top of notes/PAGE.md."""

    title: Words | None = Field(
        None, description="what the page is called; its first heading if left out"
    )


@dataclass(frozen=True, slots=True)
class FreePage:
    """A page that the kitchen writes freely.

    `path` is its place without the ending, such as "notes/suppliers/harrow-lane", `title` what
    it is called, and `body` the Markdown below its front matter and the heading that names it.
    """

    path: str
    file: str
    title: str
    body: Text

    @property
    def id(self) -> str:
        """The file's name without its ending."""
        return self.path.rpartition("/")[2]

    @property
    def folder(self) -> str:
        """The folder below notes/ that it lies in; empty at the top."""
        return self.path.rpartition("/")[0].removeprefix(PAGES).lstrip("/")


def load_pages(files: Iterable[ContentFile]) -> tuple[dict[str, FreePage], list[Problem]]:
    """Read the free pages by path; one with an error is there with what could be read."""
    pages: dict[str, FreePage] = {}
    problems: list[Problem] = []
    for file in files:
        if file.folder.partition("/")[0] == PAGES:
            page, found = _page(file)
            pages[page.path] = page
            problems += found
    return pages, problems


def _page(file: ContentFile) -> tuple[FreePage, list[Problem]]:
    source = Source(file.path)
    source.decode(file.data, LIMITS.yaml_bytes)
    text = source.text.replace("\r\n", "\n").replace("\r", "\n")
    written, begin, problems = _front_matter(file, text)
    heading = _HEADING.match(text, begin)
    if heading and (not written or heading["title"].strip() == written):
        written, begin = written or heading["title"].strip(), heading.end()
    body = Text(text[begin:], file.path, text.count("\n", 0, begin) + 1, 1)
    path = f"{file.folder}/{file.id}"
    page = FreePage(path, file.path, written or title_of(file.id), body)
    return page, [*source.problems, *problems]


def _front_matter(file: ContentFile, text: str) -> tuple[str, int, list[Problem]]:
    """The title that is written there, where the page's own text begins, and what is wrong."""
    found = _FRONT.match(text)
    if found is None:
        return "", 0, [_unclosed(file)] if re.match(r"---[ \t]*\n\w[\w ]*:", text) else []
    if not (found["keys"] or "").strip():
        return "", found.end(), []
    # The line of hyphens stays, so that a problem has its own line.
    tree, reported = parse_or_salvage(file.path, f"---\n{found['keys']}\n".encode())
    if tree is None:
        return "", found.end(), reported
    matter, problems = read_record(FrontMatter, tree, file.path, {}, reported)
    title = str(matter.title or "") if matter else ""
    return title, found.end(), [*reported, *problems]


def _unclosed(file: ContentFile) -> Problem:
    message = tr("the keys at the top of this page never end")
    return Problem(Place(file.path, 1, 1), message, tr("write --- on a line of its own below them"))
