"""Which inputs each kind of page lets its reader move."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from builder.engine.tables import Given
from builder.pages.components import Tries, TryLine
from builder.pages.values import capital
from builder.pages.view import View
from builder.records.chains import stages_of
from builder.records.kinds import Cook, Cut, Plate, Swap

Lines = Iterator[TryLine]

# A longer strip is no help: the others can be moved on their own pages.
MOST_PRICES = 40


def tries(lines: Iterable[TryLine]) -> Tries | None:
    """The strip of a page, each input once; None where there is nothing to move."""
    found = {line.figure: line for line in lines}
    return Tries(tuple(found.values())) if found else None


def cut_tries(view: View, cut: Cut) -> Lines:
    """Price and yields of a cut."""
    yield _line(view, f"{cut.title}: AP price", "cut", "ap_price", view.costed.rows.cuts[cut.id])
    yield from _yields(view, cut)


def cook_tries(view: View, cook: Cook) -> Lines:
    """What a servable kilogram of a cook depends on."""
    yield from cut_tries(view, view.costed.content.cuts[cook.cut])
    yield from _yields(view, cook)
    row = view.costed.rows.cooks[cook.id]
    yield _line(view, f"{cook.title}: active work a batch", "batch", "hands_on", row)
    if math.isfinite(view.number("batch", "energy_price", row)):
        yield _line(view, f"{cook.title}: energy tariff", "batch", "energy_price", row)
    yield from kitchen_tries(view)


def plate_tries(view: View, plate: Plate, *, named: bool = False) -> Lines:
    """What the cost and the margin of a plate depend on, with its name where there are two."""
    row = view.costed.rows.plates[plate.id]
    own = f"{plate.title}: " if named else ""
    yield _line(view, f"{own}menu price", "plate", "menu_price", row)
    yield _line(view, f"{own}portion", "plate", "portion", row)
    for order in view.costed.rows.orders.get(plate.id, [])[:1]:
        yield _line(view, f"{own}portions to serve", "order", "covers", order)
    if plate.cook:
        yield from cook_tries(view, view.costed.content.cooks[plate.cook])
    yield from kitchen_tries(view)


def swap_tries(view: View, swap: Swap) -> Lines:
    """What a saving depends on, on both sides."""
    plates = view.costed.content.plates
    for name in (*swap.challengers, swap.benchmark):
        yield from plate_tries(view, plates[name], named=True)
    for name in swap.challengers:
        row = view.costed.rows.swaps[swap.id, str(name)]
        yield _line(view, "Plates a week", "swap", "swap_forecast", row)


def menu_tries(view: View) -> Lines:
    """The wage, and every cut that is on the menu."""
    yield from kitchen_tries(view)
    content = view.costed.content
    used = {content.cooks[plate.cook].cut for plate in content.plates.values() if plate.cook}
    for cut in content.cuts.values():
        if cut.id in used:
            row = view.costed.rows.cuts[cut.id]
            yield _line(view, f"{cut.title}: AP price", "cut", "ap_price", row)
    for plate in list(content.plates.values())[:MOST_PRICES]:
        row = view.costed.rows.plates[plate.id]
        yield _line(view, f"{plate.title}: menu price", "plate", "menu_price", row)


def kitchen_tries(view: View) -> Lines:
    """What every plate of the kitchen depends on."""
    yield _line(view, "Loaded wage", "kitchen", "loaded_wage", 0)


def _yields(view: View, owner: Cut | Cook) -> Lines:
    for name, _ in stages_of(owner):
        row = view.costed.rows.stages.get((owner.path, name))
        if row is not None:
            label = f"{owner.title}: left after {name}"
            yield _line(view, label, "stage", "assumed_yield", row, now="stage_yield")


def _line(view: View, label: str, table: str, figure: str, row: int, now: str = "") -> TryLine:
    if not isinstance(view.definition(table, figure).how, Given):
        raise ValueError(f"{table}.{figure} is computed: only an input can be moved")
    return TryLine(capital(label), f"{table}.{figure}.{row}", f"{table}.{now}.{row}" if now else "")
