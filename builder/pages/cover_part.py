"""What every cover gets, on the kitchen's page: items, what they cost, which plates bear it."""

from __future__ import annotations

from builder.display.words import listed
from builder.language import Deferred, tr
from builder.pages.components import Cell, Part, Row, Section, Table
from builder.pages.parts import amounts, links, part, record_link
from builder.pages.view import View
from builder.records.covered import bears_cover

_ABOUT = Deferred(
    "Bread, condiments and the like that no plate lists. The cost is added to the food of each "
    "plate that it comes with, once a cover; a plate with the line cover cost: none is left out."
)


def cover_part(view: View) -> Part | None:
    """The items of a cover with their sum, and the plates; None without a cover cost."""
    content = view.costed.content
    cover = content.kitchen.cover_cost
    if cover is None:
        return None
    section: Section | None = None
    rows = view.cover()
    if rows:
        columns, body = amounts(view, tr("Item"), cover.of, rows)
        total = Row(
            (
                Cell(tr("A cover")),
                Cell(""),
                Cell(""),
                view.kitchen.cell("cover_food"),
                view.kitchen.cell("cover_hours"),
            ),
            "total",
        )
        section = Table("cover-items", tr("What every cover gets"), columns, body, (total,))
    bearing = [plate for plate in content.plates.values() if bears_cover(content, plate)]
    names = listed([str(name) for name in cover.on])
    about = (
        tr("{about} It comes with the plates of {names}.", about=_ABOUT, names=names)
        if names
        else tr(_ABOUT)
    )
    plates = links(tr("Plates that it comes with"), (record_link(plate) for plate in bearing))
    return part("cover", tr("Cover cost"), section, plates, about=about)
