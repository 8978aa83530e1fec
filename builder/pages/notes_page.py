"""The page on notes: what may be written in one, and which pictures are shown."""

from __future__ import annotations

from markupsafe import Markup

from builder.pages.components import Cell, Column, Link, Page, Part, Row, Table
from builder.reading.limits import LIMITS
from builder.reading.pictures import HIGHEST, MOST_PIXELS, WIDEST

PATH = "writing/notes.html"

_WRITTEN = (
    ("**bold**, *slanted*, - a list", "Markdown, as CommonMark has it"),
    ("[[cuts/beef-chuck-roll]]", "a link to the page of that record, under its name"),
    ("[the table](https://example.org)", "a link to the web: http, https or mailto"),
    ("![The whole cut](pictures/chuck.jpg)", "a picture of the folder pictures/"),
    ("<b>HTML</b>", "the same signs, as text"),
)


def notes_page(crumbs: tuple[Link, ...], nav: str) -> Page:
    """What a note may hold."""
    columns = (Column("written", "Written"), Column("shown", "On the page"))
    rows = tuple(
        Row((Cell(Markup("<code>{}</code>").format(written)), Cell(shown)))
        for written, shown in _WRITTEN
    )
    return Page(
        path=PATH,
        title="Notes and pictures",
        lead="A note is free text in Markdown. A link that leads nowhere, or a picture that can't "
        "be shown, is told with its line.",
        kind="Writing the files",
        crumbs=crumbs,
        nav=nav,
        sections=(
            Part("words", "What a note may hold", (Table("in-notes", "Notes", columns, rows),)),
            Part("pictures", "Pictures", (_pictures(),)),
        ),
    )


def _pictures() -> Table:
    about = (
        ("where", "in pictures/, named as records are: lowercase letters, digits and hyphens"),
        ("kind", "PNG or JPEG. SVG may hold scripts, so it is refused; other kinds are not read"),
        ("words", "between the brackets, for who can't see the picture: they must be there"),
        ("size", f"at most {LIMITS.picture_bytes:,} bytes and {MOST_PIXELS:,} pixels"),
        ("published", f"upright, within {WIDEST} by {HIGHEST} pixels, where a note or step has it"),
        ("in a step", "picture: [pictures/plate.png, Five slices in a row], its words included"),
        ("left out", "all that a camera writes beside it: place, time, owner, comments, profile"),
    )
    rows = tuple(Row((Cell(what.capitalize()), Cell(words))) for what, words in about)
    columns = (Column("what", "What"), Column("how", "How"))
    return Table("pictures-table", "Pictures in notes and steps", columns, rows)
