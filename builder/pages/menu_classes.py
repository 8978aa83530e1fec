"""The four classes of a section's plates by what sells and what earns, and what is above target."""

from __future__ import annotations

import math
from collections.abc import Callable

from markupsafe import Markup

from builder.costing.left_out import left_out
from builder.language import tr
from builder.pages.charts.fields import MARGIN_CLASSES
from builder.pages.components import Text
from builder.pages.parts import as_written
from builder.pages.per_view import per_view
from builder.pages.targets import is_over
from builder.pages.unknown import IN_DOUBT, sold_doubt
from builder.pages.view import View
from builder.records.kinds import Plate

# (popular, earns above the dividing margin) -> class.
CLASSES = dict(
    zip(((True, True), (True, False), (False, True), (False, False)), MARGIN_CLASSES, strict=True)
)
# A class that holds in so many draws needs no word of doubt; `live.js` has the same number.
SURE = 0.95


@per_view
def section_plates(view: View, section: str) -> list[Plate]:
    """The plates of a section of the menu."""
    return [plate for plate in view.costed.content.plates.values() if plate.menu == section]


def class_of(view: View, plate: Plate) -> str:
    """Which of the four classes a plate falls in; empty where it has none."""
    row = view.plate(plate)
    if not row.known("is_popular"):
        return ""
    popular = row.number("is_popular") > 0
    earns = row.number("earns_above") > 0
    return CLASSES[popular, earns]


def class_after_labour(view: View, plate: Plate) -> str:
    """The class with labour taken off the margin, too; empty where it is not known in full."""
    row = view.plate(plate)
    if not (row.known("earns_after_labour") and row.known("is_popular")):
        return ""
    if "labour_cost" in left_out(view.costed, plate):
        return ""
    return CLASSES[row.number("is_popular") > 0, row.number("earns_after_labour") > 0]


def class_words(view: View, plate: Plate, marked: Callable[[str], Text] = as_written) -> Text:
    """The class of a plate, as sure as it is, or why it has none; `marked` as it is written."""
    if found := class_of(view, plate):
        words = Markup("{}{}").format(marked(tr(found)), _class_chance(view, plate))
        return words + f", {tr(IN_DOUBT)}" if class_doubt(view, plate) else words
    counted = view.plate(plate).known("menu_mix")
    return tr("no class: nothing else in its section sold") if counted else tr("not counted")


def _class_chance(view: View, plate: Plate) -> Markup:
    """How sure a class is; hidden where it needs no word of doubt, until a what-if makes it."""
    row = view.plate(plate)
    chance = row.number("class_chance")
    if math.isnan(chance):
        return Markup()
    hidden = Markup(" hidden") if chance >= SURE else ""
    words = Markup(' <span class="chance"{}>({})</span>')
    return words.format(hidden, row.traced("class_chance"))


def class_doubt(view: View, plate: Plate) -> str:
    """Why the class of a plate is in doubt: the line that divides rests on all that was sold."""
    if not class_of(view, plate):
        return ""
    return _section_doubt(view, str(plate.menu))


@per_view
def _section_doubt(view: View, section: str) -> str:
    return sold_doubt(view, section_plates(view, section))


def over_target(view: View, plate: Plate) -> bool:
    """Whether a plate's food cost is a larger share of its price than is aimed at."""
    return is_over(view.plate(plate))
