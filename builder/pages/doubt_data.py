"""The last column of the tables: why a row can't be trusted, in the words of its page."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from builder.costing.duration_words import unlike_words
from builder.costing.tasting_grades import few_words
from builder.language import Deferred, clauses, tr
from builder.pages.downloads import Field, Resource, Texts
from builder.pages.reader import MONEY
from builder.pages.swap_words import doubt_of
from builder.pages.unknown import (
    chain_doubts,
    missing_words,
    plate_doubt,
    plates_doubt,
    sold_doubt,
    use_doubt,
)
from builder.pages.view import View
from builder.pages.warned import pair_fault_words
from builder.reading.names import slug
from builder.records.chains import stages_of
from builder.records.editions import Group

Record = Mapping[str, str | None]
"""The texts of a row by the names of their columns."""

_ABOUT = Deferred(
    "Why figures of the row are in doubt or not known in full; empty where they are not"
)


def doubt_field(resource: Resource) -> Field | None:
    """The column of a table whose rows can be in doubt; None of any other."""
    groups: tuple[Group, ...] = () if resource.name == "tastings" else tuple(MONEY)
    return Field("in_doubt", tr(_ABOUT), groups=groups) if resource.name in _DOUBTS else None


def doubt_of_row(view: View, resource: Resource, texts: Texts) -> str | None:
    """Why a row is in doubt; None where it is not."""
    record = {field.name: text for field, text in zip(resource.fields, texts, strict=True)}
    return _DOUBTS[resource.name](view, record) or None


def _cut(view: View, row: Record) -> str:
    return view.costed.doubts.of_cut(view.costed.content.cuts[str(row["id"])])


def _stage(view: View, row: Record) -> str:
    content, name = view.costed.content, str(row["stage"])
    owner = content.cuts[row["cut"]] if row["cut"] else content.cooks[str(row["cook"])]
    return view.costed.doubts.of_stage(owner, name, dict(stages_of(owner))[name])


def _cook(view: View, row: Record) -> str:
    return view.costed.doubts.cooks[str(row["id"])]


def _step(view: View, row: Record) -> str:
    cook = view.costed.content.cooks[str(row["cook"])]
    names = [f"{cook.id}/{slug(link.name)}" for link, _ in view.steps(cook)]
    doubtful = dict(zip(names, map(any, chain_doubts(view, cook)), strict=True))
    return view.costed.doubts.cooks[cook.id] if doubtful[str(row["id"])] else ""


def _plate(view: View, row: Record) -> str:
    plate = view.costed.content.plates[str(row["id"])]
    return clauses((plate_doubt(view, plate), _not_in_full(missing_words(view, [plate]))))


def _of_plate(column: str) -> Callable[[View, Record], str]:
    """What rests on the food of the plate that a column names."""

    def doubt(view: View, row: Record) -> str:
        return plate_doubt(view, view.costed.content.plates[str(row[column])])

    return doubt


def _portion(view: View, row: Record) -> str:
    if row["cook"]:
        return view.costed.doubts.cooks[str(row["cook"])]
    return view.costed.doubts.of_cut(view.costed.content.cuts[str(row["cut"])])


def _swap(view: View, row: Record) -> str:
    plates = view.costed.content.plates
    plate, benchmark = plates[str(row["challenger"])], plates[str(row["benchmark"])]
    return clauses(
        (
            doubt_of(view, plate, benchmark),
            pair_fault_words(view, plate, benchmark),
            _not_in_full(missing_words(view, [benchmark, plate])),
        )
    )


def _swap_limit(view: View, row: Record) -> str:
    swap, _, challenger = str(row["swap"]).partition("/")
    benchmark = str(view.costed.content.swaps[swap].benchmark)
    return _swap(view, {"challenger": challenger, "benchmark": benchmark})


def _kitchen(view: View, _: Record) -> str:
    return sold_doubt(view, view.costed.content.plates.values())


def _section(view: View, row: Record) -> str:
    plates = view.costed.content.plates.values()
    return sold_doubt(view, (plate for plate in plates if plate.menu == row["id"]))


def _count(view: View, row: Record) -> str:
    content = view.costed.content
    names = content.counts[str(row["id"])].plates
    return plates_doubt(view, (content.plates[name] for name in names))


def _count_cut(view: View, row: Record) -> str:
    cooks = view.costed.counts[str(row["count"])].outputs
    return use_doubt(view, view.costed.content.cuts[str(row["cut"])], cooks)


def _count_cook(view: View, row: Record) -> str:
    return view.costed.doubts.cooks[str(row["cook"])]


def _thrown(view: View, row: Record) -> str:
    if row["cook"]:
        return _count_cook(view, row)
    return view.costed.doubts.of_cut(view.costed.content.cuts[str(row["cut"])])


def _order(view: View, row: Record) -> str:
    content = view.costed.content
    names = content.services[str(row["id"])].plates
    return plates_doubt(view, (content.plates[name] for name in names))


def _order_line(view: View, row: Record) -> str:
    """What is bought of a cut rests on the yields of the cooks that the service makes of it."""
    if not row["cut"]:
        return ""
    doubts, content = view.costed.doubts, view.costed.content
    planned = view.costed.services[str(row["service"])].cooks
    cooks = (doubts.cooks[each.cook.id] for each in planned if each.cook.cut == row["cut"])
    return doubts.of_cut(content.cuts[str(row["cut"])]) or next(filter(None, cooks), "")


def _buffet(view: View, row: Record) -> str:
    cooks = view.costed.content.buffets[str(row["id"])].cooks
    return next(filter(None, (view.costed.doubts.cooks[name] for name in cooks)), "")


def _set_menu(view: View, row: Record) -> str:
    content = view.costed.content
    plates = [content.plates[name] for name in content.menus[str(row["id"])].plate_ids]
    missing = _not_in_full(missing_words(view, plates))
    return clauses((plates_doubt(view, plates), missing))


def _tasting(view: View, row: Record) -> str:
    result = view.costed.tastings[str(row["id"])]
    beside = result.choice is None and result.benchmark is not None
    few = beside and result.count < result.fewest
    return clauses((unlike_words(result), few_words(result) if few else "")) if result.held else ""


def _not_in_full(missing: str) -> str:
    return tr("{missing} not known in full", missing=missing) if missing else ""


_DOUBTS: Mapping[str, Callable[[View, Record], str]] = {
    "cuts": _cut,
    "stages": _stage,
    "cooks": _cook,
    "steps": _step,
    "plates": _plate,
    "orders": _of_plate("plate"),
    "swaps": _swap,
    "swap_limits": _swap_limit,
    "swap_cut_limits": _swap_limit,
    "kitchen": _kitchen,
    "menu_sections": _section,
    "candidates": _of_plate("benchmark"),
    "counts": _count,
    "count_cuts": _count_cut,
    "count_cooks": _count_cook,
    "set_menus": _set_menu,
    "buffets": _buffet,
    "set_menu_plates": _of_plate("plate"),
    "count_plates": _of_plate("plate"),
    "count_thrown": _thrown,
    "portions": _portion,
    "service_orders": _order,
    "order_lines": _order_line,
    "tastings": _tasting,
}
