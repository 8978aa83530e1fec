"""What people wrote about a record beside its figures: its note, its log, and who mentions it.

These are the only parts of a record's page that hold free words, and are made here alone.
"""

from __future__ import annotations

from builder.language import tr
from builder.pages.components import Cell, Column, Link, Part, Prose, Row, Table
from builder.pages.parts import links
from builder.pages.prose import html_of, tokens_shown
from builder.pages.view import View
from builder.records.base import LogEntry, Record
from builder.records.fields import Day
from builder.records.free_pages import FreePage


def remarks(view: View, record: Record) -> tuple[Part | None, ...]:
    """The free note of a record, its log, and the pages whose notes lead to it."""
    return (
        _note(view, getattr(record, "note", None)),
        _log(view, record),
        mentioned_on(view, record),
    )


def mentioned_on(view: View, owner: Record | FreePage) -> Part | None:
    """The records and free pages whose notes lead to this one."""
    found = view.where.mentions.get(owner.path)
    if not found:
        return None
    named = sorted(found, key=lambda each: str(each.title).casefold())
    to_each = (Link(str(each.title), f"~/{each.path}.html") for each in named)
    return Part("mentioned-on", tr("Mentioned on"), (links("", to_each),))


def by_line(view: View, day: Day, who: str) -> str:
    """When something was decided, and by whom."""
    return f"{view.style.date(day.day)}, {who}"


def _note(view: View, written: str | None) -> Part | None:
    """The record's free note: Markdown, its [[links]] followed, HTML shown as text."""
    if not written:
        return None
    return Part("note", tr("Note"), (Prose(html_of(tokens_shown(view, str(written), 3))),))


def _log(view: View, record: Record) -> Part | None:
    """What was decided about the record by the day of the site, newest first."""
    if not record.log:
        return None
    as_of = view.costed.content.as_of
    shown = sorted(
        (each for each in record.log if each.date.day <= as_of),
        key=lambda each: (each.date.day, each.date.place),
        reverse=True,
    )
    later = len(record.log) - len(shown)
    day = view.style.date(as_of)
    about = (
        tr("What was decided after {day} is left out: {later}.", day=day, later=later)
        if later
        else ""
    )
    columns = (Column("day", tr("Decided")), Column("what", tr("What")), Column("why", tr("Why")))
    rows = tuple(_log_row(view, each) for each in shown)
    table = Table("log-table", tr("What was decided, newest first"), columns, rows, about=about)
    return Part("log", tr("Log"), (table,))


def _log_row(view: View, each: LogEntry) -> Row:
    place = each.date.place
    day = Cell(
        by_line(view, each.date, each.who), href=view.where.line_href(place.file, place.line)
    )
    return Row((day, Cell(str(each.what)), Cell(str(each.why))))
