"""The pages of the swaps: challengers against a benchmark, and what would end the saving."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import TypeAlias

from markupsafe import Markup

from builder.display.words import listed
from builder.language import clauses, ntr, tr
from builder.pages.allergens import swap_allergens
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Figures,
    FigureTile,
    Link,
    Page,
    Part,
    Row,
    Section,
    Table,
    Text,
    Tone,
)
from builder.pages.crossovers import cost_crossover, margin_crossover
from builder.pages.cut_limits import cut_limits
from builder.pages.decided import decided_part, decided_words
from builder.pages.decision_sheets import TITLE as DECISION
from builder.pages.decision_sheets import sheet_path, sheets_words
from builder.pages.figure_names import SwapFigure
from builder.pages.how_sure import how_sure_part
from builder.pages.in_clauses import in_clauses
from builder.pages.interval_words import sure_tile
from builder.pages.listings import listing
from builder.pages.menu_classes import SURE
from builder.pages.parts import links, page_of, part, present
from builder.pages.remarks import remarks
from builder.pages.swap_charts import cost_stack
from builder.pages.swap_counts import earns_more, expected_gain, fault_of, left_out, pairs
from builder.pages.swap_limits import MARGINS, limits
from builder.pages.swap_sides import side_by_side
from builder.pages.swap_words import (
    answer,
    count_words,
    doubt_of,
    food_clause,
    leaves_out,
    limit_words,
    payback_tiles,
    takes_loss,
    yearly_count_words,
)
from builder.pages.tasting_evidence import lost_words, swap_evidence, swap_mouth
from builder.pages.tries import swap_tries, tries
from builder.pages.unknown import (
    IN_DOUBT,
    doubted,
    missing_words,
)
from builder.pages.view import SwapRow, View
from builder.pages.warned import pair_fault_words, plate_faults, uncooked
from builder.pages.withheld import seen
from builder.records.kinds import Plate, Swap

NAV = "~/swaps.html"


def swap_pages(view: View) -> Iterator[Page]:
    """The list of swaps, then a page for each."""
    yield _list_page(view)
    for swap in view.costed.content.swaps.values():
        yield _swap_page(view, swap)


def _swap_page(view: View, swap: Swap) -> Page:
    benchmark = view.costed.content.plates[swap.benchmark]
    found = pairs(view, swap)
    plates = [plate for plate, _ in found]
    faults = seen(_benchmark_faults, view, benchmark, plates) or []
    decided = filter(None, (decided_words(view, swap, plate, benchmark) for plate in plates))
    words = seen(answer, view, found, benchmark) or _is_for(found, benchmark)
    lead, *also = *faults[:1], *filter(None, (" ".join(faults[1:]),)), *words
    return Page(
        path=page_of(swap),
        title=swap.title,
        lead=lead,
        also=(*also, swap_mouth(view, swap), *decided),
        alarm=bool(faults or any(seen(plate_faults, view, plate) for plate in plates)),
        kind=tr("Swap"),
        crumbs=(Link(tr("Swaps"), NAV),),
        nav=NAV,
        sections=present(
            view.notices(swap.path),
            uncooked(view, plates),
            links(
                tr("To print"),
                [Link(tr(DECISION), f"~/{sheet_path(swap)}", sheets_words(swap))],
            ),
            tries(swap_tries(view, swap)),
            *(_challenger_part(view, plate, benchmark, row) for plate, row in found),
            *(seen(decided_part, view, swap, plate, benchmark) for plate in plates),
            swap_evidence(view, swap),
            swap_allergens(view, plates, benchmark),
            part(
                "side-by-side",
                tr("Side by side"),
                seen(cost_stack, view, [benchmark, *plates]),
                seen(side_by_side, view, [benchmark, *plates]),
            ),
            *remarks(view, swap),
            listing(view, swap),
        ),
    )


def _is_for(found: list[tuple[Plate, SwapRow]], benchmark: Plate) -> list[str]:
    """What a swap is about, and what its food saves, where the margin is not for the reader."""
    named = listed([plate.title for plate, _ in found])
    food = [
        tr("{code}: {words}.", code=p.title, words=food_clause(r))
        for p, r in found
        if not r.hides("food_saving")
    ]
    return [tr("{named} instead of {benchmark}.", named=named, benchmark=benchmark.title), *food]


def _benchmark_faults(view: View, benchmark: Plate, challengers: list[Plate]) -> list[str]:
    """What fails in the benchmark's cook, where no challenger has the same one."""
    shared = any(set(benchmark.cooks) <= set(plate.cooks) for plate in challengers)
    return [] if shared else plate_faults(view, benchmark)


def _challenger_part(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Part:
    return part(
        plate.id,
        tr("{plate} instead of {benchmark}", plate=plate.title, benchmark=benchmark.title),
        seen(_key_figures, view, plate, benchmark, row),
        seen(_limits, view, plate, benchmark, row),
        seen(_cut_limits, view, plate, benchmark, row),
        *_pictures(view, plate, benchmark, row),
        seen(_sure_part, view, plate, benchmark, row),
    )


def _limits(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Table:
    return limits(view, plate, row, limit_words(view, plate, benchmark, row))


def _cut_limits(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Table | None:
    return cut_limits(view, plate, row, limit_words(view, plate, benchmark, row))


def _sure_part(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Part | None:
    doubt = doubt_of(view, plate, benchmark)
    return how_sure_part(view, row, "margin_change", tr("the margin change"), plate, doubt=doubt)


def _pictures(
    view: View, plate: Plate, benchmark: Plate, row: SwapRow
) -> tuple[Chart | Part | None, ...]:
    """Both margins over the price of the cut; both costs, which the saving rests on, folded."""
    margins = seen(margin_crossover, view, plate, benchmark, row)
    costs = seen(cost_crossover, view, plate, benchmark, row)
    if margins is None or costs is None:
        return margins, costs
    title = tr("Where the saving ends: {plate}", plate=plate.title)
    return margins, part(f"saving-{plate.id}", title, costs)


def _key_figures(view: View, challenger: Plate, benchmark: Plate, row: SwapRow) -> Figures:
    count = seen(count_words, view, benchmark, row)
    at = (
        tr("at {count}", count=count)
        if count
        else tr("no forecast is written and no sales are counted")
    )
    spread_as = seen(yearly_count_words, row) or ""
    fault = seen(pair_fault_words, view, challenger, benchmark) or ""
    doubtful = bool(doubt_of(view, challenger, benchmark) or fault)
    change: Tone = "" if doubtful else tone(row, "margin_change")
    missing = seen(missing_words, view, [benchmark, challenger]) or ""
    without = ""
    if missing:
        # What is missing is named once, below the lead.
        named = seen(leaves_out, view, challenger, benchmark, row)
        without = tr("not in full") if named else tr("{missing} not known in full", missing=missing)
    unknown = clauses(filter(None, (fault, without)))
    tiles = [
        _sure(
            row,
            "margin_change",
            tr("Margin change a plate"),
            clauses((tr("after full plate cost, at both menu prices"), unknown)),
            change,
        ),
        _sure(row, "margin_change_a_month", tr("Margin change a month"), at),
        _sure(
            row,
            "margin_change_a_year",
            tr("Margin change a year"),
            in_clauses((_chance(row, "chance_earns_more"), spread_as, unknown)),
        ),
        _sure(
            row, "food_saving", tr("Food cost saved a plate"), _chance(row, "chance_food_cheaper")
        ),
        *(payback_tiles(row, unknown) or [_saved(row, unknown)]),
    ]
    return doubted(tiles, doubt_of(view, challenger, benchmark))


def _saved(row: SwapRow, unknown: str) -> FigureTile:
    """What a plate costs less, and what that is a year."""
    year = ""
    if not row.hides("saving_a_year") and row.known("saving_a_year"):
        year = Markup(tr("{} a year")).format(row.traced("saving_a_year"))
    notes = in_clauses((year, unknown))
    return _sure(row, "saving", tr("Full plate cost saved"), notes)


def _sure(row: SwapRow, figure: SwapFigure, label: str, note: Text, tone: Tone = "") -> FigureTile:
    tile = row.tile(figure, label=label, note=note, tone=tone)
    return tile if row.hides(figure) else seen(sure_tile, row, figure, tile) or tile


def _chance(row: SwapRow, figure: SwapFigure) -> Text:
    """A chance with the way to it; empty where it is not known."""
    above = tr("it earns more") if figure == "chance_earns_more" else tr("it is cheaper")
    there = not row.hides(figure) and row.known(figure)
    return Markup("{} {}").format(row.traced(figure), above) if there else ""


def tone(row: SwapRow, figure: SwapFigure) -> Tone:
    """How an amount of a swap is coloured; one that reads as nothing, or may be either, is not."""
    if row.hides(figure) or row.hides("chance_earns_more"):
        return ""
    amount = row.as_read(figure)
    chance = row.number("chance_earns_more")
    if figure == "margin_change" and 1 - SURE < chance < SURE:
        return ""
    return "gain" if amount > 0 else "loss" if amount < 0 else ""


def _list_page(view: View) -> Page:
    columns = (
        Column("swap", tr("Swap")),
        Column("margin", tr("Margin change"), numeric=True),
        Column("year", tr("Margin change a year"), numeric=True),
        Column("chance", tr("Earns more"), numeric=True),
        Column("food", tr("Food saved a plate"), numeric=True),
        Column("saving", tr("Full cost saved"), numeric=True),
        Column("limit", tr("Margins equal at AP price"), numeric=True),
    )
    swaps, plates = list(view.costed.content.swaps.values()), view.costed.content.plates
    found = [(swap, plate, row) for swap in swaps for plate, row in pairs(view, swap)]
    found = seen(_best_first, view, found) or found
    both = [(plates[swap.benchmark], plate) for swap, plate, _ in found]
    shared = seen(_missing_everywhere, view, both) or ""
    body = tuple(_list_row(view, swap, plate, row, shared) for swap, plate, row in found)
    about = (
        tr("These figures leave out what is not known in full: {shared}.", shared=shared)
        if shared
        else ""
    )
    also = seen(_list_also, view, found) or ()
    table: Section = Table(
        "swaps",
        tr("Swaps"),
        columns,
        body,
        sortable=len(body) > 1,
        filterable=len(body) > 8,
        about=(about + (tr(MARGINS) if any(_earning(*each) for each in found) else "")).strip(),
    )
    return Page(
        path="swaps.html",
        title=tr("Swaps"),
        lead=seen(_list_lead, view, found)
        or tr(
            "{challengers}, each beside the plate that it might replace.",
            challengers=ntr("{count} challenger", "{count} challengers", len(body)),
        ),
        also=also,
        nav=NAV,
        sections=(table,),
    )


def _earning(_: Swap, __: Plate, row: SwapRow) -> bool:
    """Whether a margin is shown of a challenger."""
    return not row.hides("margin_change") and row.known("margin_change")


Pairs: TypeAlias = list[tuple[Swap, Plate, SwapRow]]
"""Swaps, a challenger of each, and its row."""


def _best_first(view: View, found: Pairs) -> Pairs:
    """What earns most first; what fails or is in doubt last."""
    plates = view.costed.content.plates

    def last(each: tuple[Swap, Plate, SwapRow]) -> tuple[bool, float, float]:
        swap, plate, row = each
        doubt, change = doubt_of(view, plate, plates[swap.benchmark]), row.as_read("margin_change")
        left = bool(doubt or fault_of(view, swap, plate))
        return left, -expected_gain(row), -change if math.isfinite(change) else math.inf

    return sorted(found, key=last)


def _list_lead(view: View, found: Pairs) -> str:
    """How many challengers earn more."""
    if not found:
        return tr("No challenger is compared with a benchmark yet.")
    more = sum(earns_more(view, *each) for each in found)
    return ntr(
        "{more} of {challengers} earns more a plate than the benchmark it would replace, "
        "as priced on the menu.",
        "{more} of {challengers} earn more a plate than the benchmark they would replace, "
        "as priced on the menu.",
        1 if 1 in (more, len(found)) else more,
        more=more,
        challengers=ntr("{count} challenger", "{count} challengers", len(found)),
    )


def _list_also(view: View, found: Pairs) -> tuple[str, ...]:
    """Which challengers are not counted, and how many save food and yet earn less."""
    plates = view.costed.content.plates
    less = sum(
        row.as_read("margin_change") < 0 < row.as_read("food_saving")
        for swap, plate, row in found
        if not doubt_of(view, plate, plates[swap.benchmark])
    )
    words = ntr(
        "{count} saves food and still earns less.", "{count} save food and still earn less.", less
    )
    return tuple(filter(None, (left_out(view), words if less else "")))


def pair_cell(view: View, swap: Swap, plate: Plate) -> Cell:
    """The way to a swap, with the plates that it is about and whether tasters found it worse.

    A phone has no room for three names.
    """
    benchmark = view.costed.content.plates[swap.benchmark]
    named = tr("{plate} instead of {benchmark}", plate=plate.title, benchmark=benchmark.title)
    note = clauses((named, lost_words(view, swap, plate)))
    return Cell(swap.title, swap.title.lower(), f"~/{page_of(swap)}", note=note)


def _missing_everywhere(view: View, pairs_of: list[tuple[Plate, Plate]]) -> str:
    """What no swap knows in full, the same in all of them; empty where they differ."""
    found = {missing_words(view, pair) for pair in pairs_of}
    return found.pop() if len(found) == 1 else ""


def _list_row(view: View, swap: Swap, plate: Plate, row: SwapRow, shared: str) -> Row:
    benchmark = view.costed.content.plates[swap.benchmark]
    doubt, fault = doubt_of(view, plate, benchmark), seen(pair_fault_words, view, plate, benchmark)
    change: Tone = "" if doubt or fault else tone(row, "margin_change")
    missing = seen(missing_words, view, [plate, benchmark])
    unknown = tr("{missing} not known in full", missing=missing) if missing and not shared else ""
    note = tr(IN_DOUBT) if doubt else ""
    named = pair_cell(view, swap, plate)
    return Row(
        (
            # What is missing is the row's: once, not beside each of its figures.
            named if note else replace(named, note=clauses((named.note, unknown))),
            row.cell("margin_change", tone=change, note=note),
            row.cell("margin_change_a_year", note=note),
            row.cell("chance_earns_more", note=note or takes_loss(view, swap, plate, row)),
            row.cell("food_saving", note=note),
            row.cell("saving", note=note or fault or ""),
            row.cell("equal_margin_ap_price", note=note),
        )
    )
