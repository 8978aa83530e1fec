"""The page on notes: what may be written in one, and which pictures are shown."""

from __future__ import annotations

from markupsafe import Markup

from builder.display.style import Style
from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Link, Page, Part, Prose, Row, Table
from builder.reading.limits import LIMITS
from builder.reading.pictures import HIGHEST, MOST_PIXELS, WIDEST

PATH = "writing/notes.html"

_WRITTEN = (
    (Deferred("**bold**, *slanted*, - a list"), Deferred("Markdown, as CommonMark has it")),
    ("[[cuts/beef-chuck-roll]]", Deferred("a link to the page of that record, under its name")),
    (
        "[[beef-chuck-roll]], [[Beef chuck roll]]",
        Deferred("the same by id or name, where only one has it"),
    ),
    (
        "[[cuts/beef-chuck-roll|the roll]]",
        Deferred("the same under other words; in a table write \\|"),
    ),
    ("[[notes/opening-list]]", Deferred("a link to a free page of notes/")),
    (Deferred("| Station | Start |"), Deferred("a table, with | --- | ---: | below its heading")),
    ("[the table](https://example.org)", Deferred("a link to the web: http, https or mailto")),
    (
        Deferred("![The whole cut](pictures/chuck.jpg)"),
        Deferred("a picture of the folder pictures/"),
    ),
    ("<b>HTML</b>", Deferred("the same signs, as text")),
)


_FREE_PAGE = """\
---
title: The Friday push
---

Who does what from two o'clock, when [[services/friday-dinner]] is full.

| Station | Start |
| --- | ---: |
| [[beef-chuck-roll\\|Plancha]] | 17:30 |
"""
_LOGGED = (
    (
        "log: [{date: 2026-09-03, who: JB, what: Cooked 30 h, why: tasters found no difference}]",
        Deferred("what was decided about a record, newest first"),
    ),
    (
        "decided: {date: 2026-09-03, who: JB, why: it earns more, margin change: "
        "1.20, food saved: 6.10, forecast: 50}",
        Deferred(
            "what was decided on a swap, its figures of that day beside today's and what was sold"
        ),
    ),
    ("taken: no", Deferred("within decided: the benchmark stays")),
)
_INITIALS = Deferred(
    "who: takes initials only, up to four capitals: names of people do not "
    "belong on a site. What was sold since is taken from whole months after "
    "the day, else from counted periods."
)


def notes_page(style: Style, crumbs: tuple[Link, ...], nav: str) -> Page:
    """What a note may hold."""
    columns = (Column("written", tr("Written")), Column("shown", tr("On the page")))
    rows = tuple(
        Row((Cell(Markup("<code>{}</code>").format(written)), Cell(shown)))
        for written, shown in _WRITTEN
    )
    return Page(
        path=PATH,
        title=tr("Notes, pictures and logs"),
        lead=tr("A note is free text in Markdown."),
        also=(
            tr(
                "A link that leads nowhere, or a picture that can't be shown, is reported "
                "with its line."
            ),
        ),
        kind=tr("Writing the files"),
        crumbs=crumbs,
        nav=nav,
        sections=(
            Part(
                "words",
                tr("What a note may hold"),
                (Table("in-notes", tr("Notes"), columns, rows),),
            ),
            Part("pictures", tr("Pictures"), (_pictures(style),)),
            Part("free-pages", tr("Free pages"), (_free_pages(), _example())),
            Part("logs", tr("Logs and decisions"), (_logs(),)),
        ),
    )


def _free_pages() -> Table:
    about = (
        (
            tr("where"),
            tr("in notes/ or folders within it, files that end in .md, named as records are"),
        ),
        (
            tr("title"),
            tr("title: between two lines of three hyphens, else the first # heading, else the id"),
        ),
        (tr("first words"), tr("a first paragraph of 24 words or fewer leads the page")),
        (
            tr("links"),
            tr("one that leads nowhere, or may be several pages, is a warning at its line"),
        ),
        (tr("mentioned on"), tr("every record and free page lists at its foot what links to it")),
    )
    rows = tuple(Row((Cell(what.capitalize()), Cell(words))) for what, words in about)
    columns = (Column("what", tr("What")), Column("how", tr("How")))
    return Table("free-pages-table", tr("Free pages"), columns, rows)


def _example() -> Prose:
    return Prose(Markup("<pre><code>{}</code></pre>").format(_FREE_PAGE))


def _logs() -> Table:
    columns = (Column("written", tr("Written")), Column("shown", tr("On the page")))
    rows = tuple(
        Row((Cell(Markup("<code>{}</code>").format(written)), Cell(shown)))
        for written, shown in _LOGGED
    )
    return Table(
        "logs-table", tr("In any record, and in a swap"), columns, rows, about=tr(_INITIALS)
    )


def _pictures(style: Style) -> Table:
    about = (
        (
            tr("where"),
            tr("in pictures/, named as records are: lowercase letters, digits and hyphens"),
        ),
        (
            tr("kind"),
            tr("PNG or JPEG. SVG may hold scripts, so it is refused; other kinds are not read"),
        ),
        (
            tr("words"),
            tr("between the brackets, for who can't see the picture: they must be there"),
        ),
        (
            tr("size"),
            tr(
                "at most {picture_bytes} bytes and {most_pixels} pixels",
                picture_bytes=style.count(LIMITS.picture_bytes),
                most_pixels=style.count(MOST_PIXELS),
            ),
        ),
        (
            tr("published"),
            tr(
                "upright, within {widest} by {highest} pixels, where a note or step has it",
                widest=WIDEST,
                highest=HIGHEST,
            ),
        ),
        (
            tr("in a step"),
            tr("picture: [pictures/plate.png, Five slices in a row], its words included"),
        ),
        (
            tr("left out"),
            tr("all that a camera writes beside it: place, time, owner, comments, profile"),
        ),
    )
    rows = tuple(Row((Cell(what.capitalize()), Cell(words))) for what, words in about)
    columns = (Column("what", tr("What")), Column("how", tr("How")))
    return Table("pictures-table", tr("Pictures in notes and steps"), columns, rows)
