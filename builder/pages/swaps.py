"""The pages of the swaps: challengers against a benchmark, and what would end the saving."""

from __future__ import annotations

import math
from collections.abc import Iterator

from markupsafe import Markup

from builder.costing.counts import counts_of
from builder.display.numerals import MINUS
from builder.pages.allergens import swap_allergens
from builder.pages.components import (
    Cell,
    Column,
    Figures,
    FigureTile,
    Link,
    Page,
    Part,
    Row,
    RowKind,
    Section,
    Table,
    Text,
    Tone,
)
from builder.pages.figure_names import PlateFigure, SwapFigure
from builder.pages.how_sure import how_sure_part, near, sure_tile
from builder.pages.listings import listing
from builder.pages.parts import note, number_of, page_of, part, present, record_cell
from builder.pages.swap_charts import cost_stack, crossover
from builder.pages.swap_limits import limits
from builder.pages.tasting_evidence import swap_evidence, swap_mouth
from builder.pages.tries import swap_tries, tries
from builder.pages.unknown import (
    IN_DOUBT,
    doubted,
    left_out_words,
    missing_words,
    plate_cost,
    plate_doubt,
)
from builder.pages.values import capital
from builder.pages.view import SwapRow, View
from builder.pages.warned import plate_fault_words, plate_faults
from builder.records.chains import ORDER
from builder.records.kinds import Plate, Swap

NAV = "~/swaps.html"


def swap_pages(view: View) -> Iterator[Page]:
    """The list of swaps, then a page for each."""
    yield _list_page(view)
    for swap in view.costed.content.swaps.values():
        yield _swap_page(view, swap)


def pairs(view: View, swap: Swap) -> list[tuple[Plate, SwapRow]]:
    """Each challenger of a swap with its row."""
    plates = view.costed.content.plates
    return [(plates[name], view.swap(swap, name)) for name in swap.challengers]


def _swap_page(view: View, swap: Swap) -> Page:
    benchmark = view.costed.content.plates[swap.benchmark]
    found = pairs(view, swap)
    return Page(
        path=page_of(swap),
        title=swap.title,
        lead=" ".join(
            (
                *(verdict(view, plate, benchmark, row) for plate, row in found),
                swap_mouth(view, swap),
            )
        ),
        kind="Swap",
        crumbs=(Link("Swaps", NAV),),
        nav=NAV,
        contents=True,
        sections=present(
            view.notices(swap.path),
            tries(swap_tries(view, swap)),
            *(_challenger_part(view, plate, benchmark, row) for plate, row in found),
            swap_evidence(view, swap),
            swap_allergens(view, [plate for plate, _ in found], benchmark),
            part(
                "side-by-side",
                "Side by side",
                cost_stack(view, [benchmark, *(plate for plate, _ in found)]),
                _side_by_side(view, [benchmark, *(plate for plate, _ in found)]),
            ),
            note(view, swap.note),
            listing(view, swap),
        ),
    )


def verdict(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> str:
    """What fails in the challenger's cook, then what it saves or costs against the benchmark."""
    reported = _money_words(view, plate, benchmark, row)
    swapped = " ".join((*plate_faults(view, plate), reported))
    swapped += _saving_leaves_out(view, plate, benchmark, row) + _chances(
        view, plate, benchmark, row
    )
    fault = plate_fault_words(view, plate)
    if not fault or not cheaper(view, plate, benchmark, row):
        return swapped
    return f"{swapped} This saving is left out of every count of savings: {fault}."


def _chances(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> str:
    """How often the challenger earns more, and its food is cheaper, in one sentence."""
    if doubt_of(view, plate, benchmark) or not row.known("chance_earns_more"):
        return ""
    more, cheaper = row.texts("chance_earns_more", "chance_food_cheaper")
    return f" {capital(more)} it earns more; {cheaper} its food is cheaper."


def _saving_leaves_out(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> str:
    """What is not in the two costs that a saving compares; nothing where all of it is known."""
    reported = left_out_words(view, [plate, benchmark])
    finite = row.known("saving")
    if not reported or not finite or doubt_of(view, plate, benchmark):
        return ""
    return f" This leaves out what is not known in full: {reported}."


def _money_words(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> str:
    saving = row.as_read("saving")
    if doubt := doubt_of(view, plate, benchmark):
        return f"What {plate.title} saves against {benchmark.title} is in doubt: {doubt}."
    if not math.isfinite(saving):
        return f"What {plate.title} saves against {benchmark.title} is not known."
    amount = near(row, "saving").lstrip(MINUS)
    beyond = _at_its_price(row)
    if not saving:
        return f"{plate.title} costs as much a plate as {benchmark.title}{beyond}."
    if saving < 0:
        return f"{plate.title} costs {amount} a plate more than {benchmark.title}{beyond}."
    year = row.number("saving_a_year")
    yearly = (
        f", {near(row, 'saving_a_year')} a year at {_count_words(view, benchmark, row)}"
        if math.isfinite(year)
        else ""
    )
    return f"{plate.title} saves {amount} a plate against {benchmark.title}{yearly}{beyond}."


def _count_words(view: View, benchmark: Plate, row: SwapRow) -> str:
    """What a swap's weekly count is: its own forecast, its benchmark's, or a month's sales."""
    if row.known("swap_forecast"):
        return "the forecast count"
    return counts_of([benchmark], view.costed.menu_month).words(view.style)


def doubt_of(view: View, plate: Plate, benchmark: Plate) -> str:
    """Why what a challenger saves can't be trusted; empty where it can."""
    return plate_doubt(view, plate) or plate_doubt(view, benchmark)


def saves(view: View, swap: Swap, plate: Plate, row: SwapRow) -> bool:
    """Whether a challenger saves, to the coin, on costs and by a cook that can be trusted."""
    benchmark = view.costed.content.plates[swap.benchmark]
    return cheaper(view, plate, benchmark, row) and not plate_faults(view, plate)


def cheaper(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> bool:
    """Whether a challenger costs less, to the coin, on costs that can be trusted."""
    return not doubt_of(view, plate, benchmark) and row.as_read("saving") > 0


def left_out_savings(view: View) -> str:
    """Which savings do not count, for the challenger's cook is to be put right first."""
    found = [
        (plate, row, fault)
        for swap in view.costed.content.swaps.values()
        for plate, row in pairs(view, swap)
        if (fault := plate_fault_words(view, plate))
        and cheaper(view, plate, view.costed.content.plates[swap.benchmark], row)
    ]
    if len(found) > 1:
        return (
            f"{len(found)} savings are left out: what fails in the cooks is to be put right first."
        )
    return "".join(
        f"The saving of {row.text('saving')} a plate with {plate.title} is left out: {fault}."
        for plate, row, fault in found
    )


def _at_its_price(row: SwapRow) -> str:
    """What a challenger earns at its own menu price, where that runs against its cost."""
    saving, change = (row.as_read("saving"), row.as_read("margin_change"))
    if not change or saving * change > 0:
        return ""
    side = "more" if change > 0 else "less"
    amount = near(row, "margin_change").lstrip(MINUS)
    return f", but earns {amount} {side} a plate at its own menu price"


def _challenger_part(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Part:
    return part(
        plate.id,
        f"{plate.title} instead of {benchmark.title}",
        _key_figures(view, plate, benchmark, row),
        limits(view, plate, row, _limit_words(view, plate, benchmark)),
        crossover(view, plate, benchmark, row),
        how_sure_part(view, row, "margin_change", "the margin change", plate.id),
    )


def _limit_words(view: View, plate: Plate, benchmark: Plate) -> str:
    """What the break-evens rest on where a cost is in doubt or not known in full."""
    if doubt := doubt_of(view, plate, benchmark):
        return f" All of it is in doubt: {doubt}."
    reported = left_out_words(view, [plate, benchmark])
    return f" It leaves out what is not known in full: {reported}." if reported else ""


def _key_figures(view: View, challenger: Plate, benchmark: Plate, row: SwapRow) -> Figures:
    count = _count_words(view, benchmark, row)
    at = f"at {count}" if count else "no forecast is written and no sales are counted"
    fault = plate_fault_words(view, challenger)
    doubtful = bool(doubt_of(view, challenger, benchmark) or fault)
    saving: Tone = "" if doubtful else tone(row, "saving")
    change: Tone = "" if doubtful else tone(row, "margin_change")
    missing = missing_words(view, [benchmark, challenger])
    unknown = "; ".join(filter(None, (fault, f"{missing} not known in full" if missing else "")))
    tiles = [
        _sure(row, "saving", "Saving a plate", unknown, saving),
        _sure(row, "food_saving", "Food cost saved a plate", _chance(row, "chance_food_cheaper")),
        _sure(row, "saving_a_week", "Saving a week", "; ".join(filter(None, (at, unknown)))),
        _sure(row, "saving_a_year", "Saving a year", unknown),
        _sure(
            row,
            "margin_change",
            "Margin change a plate",
            "; ".join(filter(None, ("after full plate cost, at both menu prices", unknown))),
            change,
        ),
        _sure(
            row,
            "margin_change_a_year",
            "Margin change a year",
            unknown or _chance(row, "chance_earns_more"),
        ),
    ]
    if row.number("invested") > 0:
        paid = "Equipment paid back in"
        tiles.append(row.tile("payback", label=paid, note=unknown))
    return doubted(tiles, doubt_of(view, challenger, benchmark))


def _sure(row: SwapRow, figure: SwapFigure, label: str, note: Text, tone: Tone = "") -> FigureTile:
    return sure_tile(row, figure, row.tile(figure, label=label, note=note, tone=tone))


def _chance(row: SwapRow, figure: SwapFigure) -> Text:
    """A chance with the way to it; empty where it is not known."""
    above = "earns more" if figure == "chance_earns_more" else "cheaper"
    return Markup("{} {}").format(above, row.traced(figure)) if row.known(figure) else ""


def tone(row: SwapRow, figure: SwapFigure) -> Tone:
    """How an amount of a swap is coloured; one that reads as nothing has no colour."""
    amount = row.as_read(figure)
    return "gain" if amount > 0 else "loss" if amount < 0 else ""


_LINES: tuple[tuple[PlateFigure, str, RowKind], ...] = (
    ("ap_price", "AP price", ""),
    ("overall_yield", "EP / AP", ""),
    ("cost_per_servable_kg", "Cost of servable weight", ""),
    ("portion", "Portion", ""),
    ("ap_weight_per_portion", "AP weight a portion", ""),
    ("ap_cost_per_portion", "Meat as purchased, a portion", ""),
    ("credit_per_portion", "Less credits for by-products and what is left over", ""),
    ("protein_cost", "Protein", "subtotal"),
    ("portion_cost_by_weight", "Protein if costed by weight", ""),
    ("portion_cost_whole", "Protein if costed by whole portions", ""),
    ("accompaniments_food", "Accompaniments", ""),
    ("seasoning_cost", "Seasoning allowance", ""),
    ("food_cost", "Food cost", "subtotal"),
    ("labour_hours", "Active work", ""),
    ("labour_cost", "Direct labour", ""),
    ("prime_cost", "Prime cost", "subtotal"),
    ("energy_per_plate", "Energy", ""),
    ("consumables_per_plate", "Consumables", ""),
    ("equipment_per_plate", "Equipment charge", ""),
    ("accompaniments_known_process", "Process in the accompaniments", ""),
    ("full_cost", "Full plate cost", "subtotal"),
    ("price_ex_tax", "Price ex tax", ""),
    ("contribution_margin", "Contribution margin", ""),
    ("margin_after_full", "Margin after full plate cost", ""),
    ("food_cost_share", "Food cost %", ""),
)


def _side_by_side(view: View, plates: list[Plate]) -> Table:
    columns = (
        Column("what", "Stage"),
        *(Column(plate.id, plate.title, numeric=True) for plate in plates),
    )
    money = tuple(
        Row((Cell(label), *(plate_cost(view, figure, plate) for plate in plates)), kind)
        for figure, label, kind in _LINES
    )
    return Table(
        "side-by-side-table",
        "Every stage of weight and money, side by side",
        columns,
        (*_stage_rows(view, plates), *money),
        about=f"The benchmark stands first.{_left_out_words(view, plates)}",
    )


def _left_out_words(view: View, plates: list[Plate]) -> str:
    """What is not in the full costs, plate by plate, so that a saving is read with it."""
    reported = left_out_words(view, plates)
    rest = "left out of the full plate cost as far as not known"
    return f" Not known in full, and {rest}: {reported}." if reported else ""


def _stage_rows(view: View, plates: list[Plate]) -> Iterator[Row]:
    """The yield of each stage that any of the plates passes, in the order of the chain."""
    cooks = (view.costed.content.cooks[plate.cook] if plate.cook else None for plate in plates)
    steps = [{link.name: row for link, row in view.steps(cook)} if cook else {} for cook in cooks]
    for name in ORDER:
        if any(name in found for found in steps):
            cells = (
                found[name].cell("stage_yield") if name in found else Cell("–") for found in steps
            )
            yield Row((Cell(f"Yield: {name}"), *cells))


def _list_page(view: View) -> Page:
    columns = (
        Column("swap", "Swap"),
        Column("challenger", "Challenger"),
        Column("benchmark", "Benchmark"),
        Column("saving", "Saving a plate", numeric=True),
        Column("year", "Saving a year", numeric=True),
        Column("margin", "Margin change", numeric=True),
        Column("limit", "Break-even AP price", numeric=True),
    )
    swaps = list(view.costed.content.swaps.values())
    body = tuple(
        _list_row(view, swap, plate, row) for swap in swaps for plate, row in pairs(view, swap)
    )
    found = [(swap, plate, row) for swap in swaps for plate, row in pairs(view, swap)]
    counted = [row for swap, plate, row in found if saves(view, swap, plate, row)]
    less = sum(row.as_read("margin_change") < 0 for row in counted)
    unsettled = left_out_savings(view)
    first = ", with nothing in the cook to put right first" if unsettled else ""
    table: Section = Table(
        "swaps", "Swaps", columns, body, sortable=len(body) > 1, filterable=len(body) > 8
    )
    return Page(
        path="swaps.html",
        title="Swaps",
        lead=f"{len(counted)} of {number_of(len(body), 'challenger')} cost less a plate than the "
        f"benchmark they would replace{first}; {less or 'none'} of these "
        f"earn{'' if less > 1 else 's'} less, as priced on the menu. {unsettled}".rstrip(),
        nav=NAV,
        sections=(table,),
    )


def _list_row(view: View, swap: Swap, plate: Plate, row: SwapRow) -> Row:
    benchmark = view.costed.content.plates[swap.benchmark]
    doubt, fault = doubt_of(view, plate, benchmark), plate_fault_words(view, plate)
    saving: Tone = "" if doubt or fault else tone(row, "saving")
    change: Tone = "" if doubt or fault else tone(row, "margin_change")
    missing = missing_words(view, [plate, benchmark])
    unknown = f"{missing} not known in full" if missing else ""
    note = IN_DOUBT if doubt else unknown
    return Row(
        (
            Cell(swap.title, sort=swap.title.lower(), href=f"~/{page_of(swap)}"),
            record_cell(plate),
            record_cell(benchmark),
            row.cell("saving", tone=saving, note=note if doubt else fault or note),
            row.cell("saving_a_year", note=note),
            row.cell("margin_change", tone=change, note=note),
            row.cell("break_even_ap_price", note=note),
        )
    )
