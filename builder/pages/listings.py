"""A record's file as it was written, each line an anchor that figures lead to."""

from __future__ import annotations

from builder.language import tr
from builder.pages.components import Part, SourceListing
from builder.pages.view import View
from builder.records.base import Record


def listing(view: View, record: Record) -> Part | None:
    """The record's file as it was written, each line an anchor; None where no file is shown."""
    if not view.where.lists:
        return None
    file = view.costed.content.files[record.file]
    lines = tuple(file.data.decode("utf-8-sig").splitlines())
    return Part("file", tr("As written"), (SourceListing(record.file, lines),))
