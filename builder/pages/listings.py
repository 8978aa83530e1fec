"""A record's file as it was written, each line an anchor that figures lead to."""

from __future__ import annotations

from builder.pages.components import Part, SourceListing
from builder.pages.view import View
from builder.records.base import Record


def listing(view: View, record: Record) -> Part:
    """The record's file as it was written, each line an anchor."""
    file = view.costed.content.files[record.file]
    lines = tuple(file.data.decode("utf-8-sig").splitlines())
    return Part("file", "As written", (SourceListing(record.file, lines),))
