"""Which inputs each kind of page lets its reader move."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial

from builder.engine.tables import Given
from builder.language import labelled, tr
from builder.pages.components import Tries, TryLine
from builder.pages.figure_names import KitchenFigure, PlateFigure, PortionFigure
from builder.pages.portions import further_row
from builder.pages.values import capital
from builder.pages.view import F, FigureRow, View
from builder.pages.withheld import each_seen
from builder.records.chains import stages_of
from builder.records.covered import bears_cover
from builder.records.kinds import Cook, Cut, Plate, Swap
from builder.records.portions import source_of

Lines = Iterator[TryLine]

# A longer strip is no help: the others can be moved on their own pages.
MOST_PRICES = 40


def tries(lines: Iterable[TryLine]) -> Tries | None:
    """The strip of a page, each input once; None where there is nothing to move."""
    found = {line.figure: line for line in each_seen(lines)}
    return Tries(tuple(found.values())) if found else None


def cut_tries(view: View, cut: Cut) -> Lines:
    """Price and yields of a cut."""
    yield _line(view, tr("{cut}: AP price", cut=cut.title), view.cut(cut), "ap_price")
    yield from _yields(view, cut)


def cook_tries(view: View, cook: Cook) -> Lines:
    """What a servable kilogram of a cook depends on."""
    yield from cut_tries(view, view.costed.content.cuts[cook.cut])
    yield from _yields(view, cook)
    row = view.batch(cook)
    if row.known("hands_on"):
        yield _line(view, tr("{cook}: active work a batch", cook=cook.title), row, "hands_on")
    # A tariff moves nothing where nobody knows what a batch draws.
    draws = row.hides("batch_energy") or row.known("batch_energy")
    if row.known("energy_price") and draws:
        if row.number("burns_gas") > 0:
            yield _line(view, tr("Gas tariff"), view.kitchen, "gas_price")
        else:
            yield _line(view, tr("Electricity tariff"), view.kitchen, "electricity_price")
    yield from kitchen_tries(view)


def plate_tries(view: View, plate: Plate, *, named: bool = False) -> Lines:
    """What the cost and the margin of a plate depend on, with its name where there are two."""
    row = view.plate(plate)
    own = partial(_of, plate.title if named else "")
    yield _line(view, own(tr("menu price")), row, "menu_price")
    if plate.portion_pieces:
        yield _line(view, own(tr("pieces in a portion")), row, "portion_pieces")
    else:
        yield _line(view, own(tr("portion")), row, "stated_portion")
    for further in view.costed.rows.further[plate.id]:
        cook = source_of(view.costed.content, further.portion).title
        figure: PortionFigure = "portion_pieces" if further.portion.pieces else "stated_portion"
        what = tr("pieces in a portion") if further.portion.pieces else tr("portion")
        yield _line(
            view,
            own(tr("{what} of {cook}", what=what, cook=cook)),
            further_row(view, further),
            figure,
        )
    yield from _factors(view, plate, own)
    for order in view.orders(plate)[:1]:
        yield _line(view, own(tr("portions to serve")), order, "covers")
    for name in plate.cooks:
        yield from cook_tries(view, view.costed.content.cooks[name])
    for name in plate.raw_cuts:
        yield from cut_tries(view, view.costed.content.cuts[name])
    yield from kitchen_tries(view)


def _of(owner: str, what: str) -> str:
    """An input, with whose it is where there are several."""
    return labelled(owner, what) if owner else what


def _factors(view: View, plate: Plate, own: Callable[[str], str]) -> Lines:
    """Garnish, seasoning and cover cost, the plate's own or the kitchen's, where written."""
    kitchen, row = view.costed.content.kitchen, view.plate(plate)
    if plate.garnish:
        share = plate.garnish.dimension is not None
        figure: PlateFigure = "plate_garnish_share" if share else "plate_garnish"
        yield _line(view, own(tr("garnish")), row, figure)
    elif kitchen.garnish:
        share = kitchen.garnish.dimension is not None
        of_all: KitchenFigure = "kitchen_garnish_share" if share else "kitchen_garnish"
        yield _line(view, tr("Garnish"), view.kitchen, of_all)
    if plate.seasoning:
        yield _line(view, own(tr("seasoning allowance")), row, "plate_seasoning")
    if plate.cover_cost:
        yield _line(view, own(tr("cover cost")), row, "plate_cover")
    elif bears_cover(view.costed.content, plate):
        if view.kitchen.known("stated_cover_cost"):
            yield _line(view, tr("Cover cost"), view.kitchen, "stated_cover_cost")
        for name, item in view.cover().items():
            title = view.costed.content.pantry[name].title
            yield _line(view, tr("Cover: {title}", title=title), item, "quantity")


def menu_inputs(view: View, plates: Sequence[Plate]) -> Lines:
    """Portions of a set menu's plates, prices of their cuts, and the wage."""
    content = view.costed.content
    for plate in plates:
        row, figure = view.plate(plate), _portion_of(plate)
        if row.known(figure):
            yield _line(view, tr("{plate}: portion", plate=plate.title), row, figure)
    cooks = (content.cooks[name] for plate in plates for name in plate.cooks)
    cuts = [cook.cut for cook in cooks] + [name for plate in plates for name in plate.raw_cuts]
    yield from cut_inputs(view, cuts)


def cut_inputs(view: View, cuts: Iterable[str]) -> Lines:
    """Prices of cuts, each once, and the wage."""
    for name in dict.fromkeys(cuts):
        cut = view.costed.content.cuts[name]
        yield _line(view, tr("{cut}: AP price", cut=cut.title), view.cut(cut), "ap_price")
    yield from kitchen_tries(view)


def _portion_of(plate: Plate) -> PlateFigure:
    return "portion_pieces" if plate.portion_pieces else "stated_portion"


def swap_tries(view: View, swap: Swap) -> Lines:
    """What a saving depends on, on both sides."""
    plates = view.costed.content.plates
    for name in (*swap.challengers, swap.benchmark):
        yield from plate_tries(view, plates[name], named=True)
    for name in swap.challengers:
        label = (
            tr("{plate}: plates a week", plate=plates[name].title)
            if len(swap.challengers) > 1
            else tr("Plates a week")
        )
        yield _line(view, label, view.swap(swap, name), "swap_forecast")


def candidate_tries(view: View, cuts: Sequence[Cut]) -> Lines:
    """What the cost of each candidate depends on, and the wage."""
    for cut in cuts:
        row = view.candidate(cut)
        if cut.id in view.costed.content.cuts:
            yield _line(view, tr("{cut}: AP price", cut=cut.title), view.cut(cut), "ap_price")
        else:
            yield _line(view, tr("{cut}: AP price", cut=cut.title), row, "listed_price")
        yield _line(view, tr("{cut}: left after cook", cut=cut.title), row, "published_cook_yield")
    yield from kitchen_tries(view) if cuts else ()


def menu_tries(view: View) -> Lines:
    """The wage, the tariffs, and every cut that is on the menu."""
    yield from kitchen_tries(view)
    if view.kitchen.known("electricity_price"):
        yield _line(view, tr("Electricity tariff"), view.kitchen, "electricity_price")
    if view.kitchen.known("gas_price"):
        yield _line(view, tr("Gas tariff"), view.kitchen, "gas_price")
    content = view.costed.content
    used = {content.cooks[name].cut for plate in content.plates.values() for name in plate.cooks}
    used |= {name for plate in content.plates.values() for name in plate.raw_cuts}
    for cut in content.cuts.values():
        if cut.id in used:
            yield _line(view, tr("{cut}: AP price", cut=cut.title), view.cut(cut), "ap_price")
    for plate in list(content.plates.values())[:MOST_PRICES]:
        yield _line(
            view, tr("{plate}: menu price", plate=plate.title), view.plate(plate), "menu_price"
        )


def kitchen_tries(view: View) -> Lines:
    """What every plate of the kitchen depends on."""
    yield _line(view, tr("Loaded wage"), view.kitchen, "loaded_wage")


def _yields(view: View, owner: Cut | Cook) -> Lines:
    for name, _ in stages_of(owner):
        if (owner.path, name) in view.costed.rows.stages:
            label, row = (
                tr("{owner}: left after {name}", owner=owner.title, name=name),
                view.stage(owner.path, name),
            )
            yield _line(view, label, row, "assumed_yield", now="stage_yield")


def _line(view: View, label: str, row: FigureRow[F], figure: F, now: F | None = None) -> TryLine:
    if not isinstance(view.definition(row.table, figure).how, Given):
        raise ValueError(f"{row.table}.{figure} is computed: only an input can be moved")
    return TryLine(capital(label), row.name(figure), row.name(now) if now else "")
