"""A tasting's files as they were written."""

from __future__ import annotations

from builder.costing.tasting_results import TastingResult
from builder.language import tr
from builder.pages.components import Part, SourceListing
from builder.pages.kept_back import without_seed
from builder.pages.tasting_pieces import session_is_over
from builder.pages.view import View
from builder.reading.names import slug


def listings(view: View, result: TastingResult) -> Part | None:
    """The tasting's files as they were written; None where no file is shown."""
    if not view.where.lists:
        return None
    files, tasting = view.costed.content.files, result.tasting
    lines = _lines(view, tasting.file)
    if tasting.seed is not None and not session_is_over(view, result):
        lines = without_seed(lines, tasting.seed)
    found = [SourceListing(tasting.file, lines)]
    rows = f"tastings/{tasting.id}.csv"
    if rows in files:
        found.append(SourceListing(rows, _lines(view, rows), prefix=f"{slug(rows)}-"))
    return Part("file", tr("As written"), tuple(found))


def _lines(view: View, file: str) -> tuple[str, ...]:
    data = view.costed.content.files[file].data
    return tuple(data.decode("utf-8-sig", "replace").splitlines())
