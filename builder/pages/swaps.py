"""The pages of the swaps: challengers against a benchmark, and what would end the saving."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from builder.display.words import listed
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
    Section,
    Table,
    Text,
    Tone,
)
from builder.pages.cut_limits import cut_limits
from builder.pages.decided import decided_part, decided_words
from builder.pages.decision_sheets import TITLE as DECISION
from builder.pages.decision_sheets import sheet_path
from builder.pages.figure_names import SwapFigure
from builder.pages.how_sure import how_sure_part, sure_tile, yearly_count_words
from builder.pages.listings import listing
from builder.pages.menu import SURE
from builder.pages.parts import links, number_of, page_of, part, present
from builder.pages.remarks import remarks
from builder.pages.swap_charts import cost_stack, crossover
from builder.pages.swap_limits import limits
from builder.pages.swap_sides import side_by_side
from builder.pages.swap_words import (
    answer,
    cheaper,
    count_words,
    doubt_of,
    food_words,
    payback_tiles,
)
from builder.pages.tasting_evidence import swap_evidence, swap_mouth
from builder.pages.tries import swap_tries, tries
from builder.pages.unknown import (
    IN_DOUBT,
    doubted,
    left_out_words,
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


def pairs(view: View, swap: Swap) -> list[tuple[Plate, SwapRow]]:
    """Each challenger of a swap with its row."""
    plates = view.costed.content.plates
    return [(plates[name], view.swap(swap, name)) for name in swap.challengers]


def _swap_page(view: View, swap: Swap) -> Page:
    benchmark = view.costed.content.plates[swap.benchmark]
    found = pairs(view, swap)
    plates = [plate for plate, _ in found]
    faults = seen(_benchmark_faults, view, benchmark, plates) or []
    decided = filter(None, (decided_words(view, swap, plate, benchmark) for plate in plates))
    lead, *also = *faults, *(seen(answer, view, found, benchmark) or _is_for(found, benchmark))
    return Page(
        path=page_of(swap),
        title=swap.title,
        lead=lead,
        also=(*also, swap_mouth(view, swap), *decided),
        alarm=bool(faults or any(seen(plate_faults, view, plate) for plate in plates)),
        kind="Swap",
        crumbs=(Link("Swaps", NAV),),
        nav=NAV,
        sections=present(
            view.notices(swap.path),
            uncooked(view, plates),
            links("To print", [Link(DECISION, f"~/{sheet_path(swap)}", "one page, to sign")]),
            tries(swap_tries(view, swap)),
            *(_challenger_part(view, plate, benchmark, row) for plate, row in found),
            *(seen(decided_part, view, swap, plate, benchmark) for plate in plates),
            swap_evidence(view, swap),
            swap_allergens(view, plates, benchmark),
            part(
                "side-by-side",
                "Side by side",
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
    food = [f"{p.title}: {food_words(r).lower()}." for p, r in found if not r.hides("food_saving")]
    return [f"{named} instead of {benchmark.title}.", *food]


def _benchmark_faults(view: View, benchmark: Plate, challengers: list[Plate]) -> list[str]:
    """What fails in the benchmark's cook, where no challenger has the same one."""
    shared = any(set(benchmark.cooks) <= set(plate.cooks) for plate in challengers)
    return [] if shared else plate_faults(view, benchmark)


def saves(view: View, swap: Swap, plate: Plate, row: SwapRow) -> bool:
    """Whether a challenger saves, to the coin, on costs and by a cook that can be trusted."""
    benchmark = view.costed.content.plates[swap.benchmark]
    return cheaper(view, plate, benchmark, row) and not pair_fault_words(view, plate, benchmark)


def left_out_savings(view: View) -> str:
    """Which savings do not count: a cook of theirs is to be put right first, or one is in doubt."""
    return " ".join(filter(None, (_faulty_savings(view), _doubtful_savings(view))))


def _doubtful_savings(view: View) -> str:
    plates = view.costed.content.plates
    count = sum(
        bool(doubt_of(view, plate, plates[swap.benchmark]))
        for swap in view.costed.content.swaps.values()
        for plate, _ in pairs(view, swap)
    )
    verb = "saves" if count == 1 else "save"
    return f"What {number_of(count, 'challenger')} {verb} is in doubt." if count else ""


def _faulty_savings(view: View) -> str:
    plates = view.costed.content.plates
    found = [
        (plate, row, fault)
        for swap in view.costed.content.swaps.values()
        for plate, row in pairs(view, swap)
        if (fault := pair_fault_words(view, plate, plates[swap.benchmark]))
        and cheaper(view, plate, plates[swap.benchmark], row)
    ]
    if len(found) > 1:
        return (
            f"{len(found)} savings are left out: what fails in the cooks is to be put right first."
        )
    return "".join(
        f"The saving of {row.text('saving')} a plate with {plate.title} is left out: {fault}."
        for plate, row, fault in found
    )


def _challenger_part(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Part:
    return part(
        plate.id,
        f"{plate.title} instead of {benchmark.title}",
        seen(_key_figures, view, plate, benchmark, row),
        seen(_limits, view, plate, benchmark, row),
        seen(_cut_limits, view, plate, benchmark, row),
        seen(crossover, view, plate, benchmark, row),
        seen(_sure_part, view, plate, benchmark, row),
    )


def _limits(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Table:
    return limits(view, plate, row, _limit_words(view, plate, benchmark))


def _cut_limits(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Table | None:
    return cut_limits(view, plate, row, _limit_words(view, plate, benchmark))


def _sure_part(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Part | None:
    doubt = doubt_of(view, plate, benchmark)
    return how_sure_part(view, row, "margin_change", "the margin change", plate, doubt=doubt)


def _limit_words(view: View, plate: Plate, benchmark: Plate) -> str:
    """What the break-evens rest on where a cost is in doubt or not known in full."""
    if doubt := doubt_of(view, plate, benchmark):
        return f" All of it is in doubt: {doubt}."
    reported = left_out_words(view, [plate, benchmark])
    return f" It leaves out what is not known in full: {reported}." if reported else ""


def _key_figures(view: View, challenger: Plate, benchmark: Plate, row: SwapRow) -> Figures:
    count = seen(count_words, view, benchmark, row)
    at = f"at {count}" if count else "no forecast is written and no sales are counted"
    spread_as = seen(yearly_count_words, row) or ""
    year = "; ".join(filter(None, (at, spread_as)))
    fault = seen(pair_fault_words, view, challenger, benchmark) or ""
    doubtful = bool(doubt_of(view, challenger, benchmark) or fault)
    change: Tone = "" if doubtful else tone(row, "margin_change")
    missing = seen(missing_words, view, [benchmark, challenger]) or ""
    unknown = "; ".join(filter(None, (fault, f"{missing} not known in full" if missing else "")))
    tiles = [
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
            Markup("; ").join(filter(None, (year, _chance(row, "chance_earns_more"), unknown))),
        ),
        _sure(row, "food_saving", "Food cost saved a plate", _chance(row, "chance_food_cheaper")),
        _sure(row, "saving", "Full plate cost saved", unknown),
        _sure(
            row,
            "saving_a_year",
            "Saved a year",
            "; ".join(filter(None, (spread_as, unknown))),
        ),
    ]
    tiles += payback_tiles(row, unknown)
    return doubted(tiles, doubt_of(view, challenger, benchmark))


def _sure(row: SwapRow, figure: SwapFigure, label: str, note: Text, tone: Tone = "") -> FigureTile:
    tile = row.tile(figure, label=label, note=note, tone=tone)
    return tile if row.hides(figure) else seen(sure_tile, row, figure, tile) or tile


def _chance(row: SwapRow, figure: SwapFigure) -> Text:
    """A chance with the way to it; empty where it is not known."""
    above = "it earns more" if figure == "chance_earns_more" else "it is cheaper"
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
        Column("swap", "Swap"),
        Column("margin", "Margin change", numeric=True),
        Column("year", "Margin change a year", numeric=True),
        Column("chance", "Earns more", numeric=True),
        Column("food", "Food saved a plate", numeric=True),
        Column("saving", "Full cost saved", numeric=True),
        Column("limit", "Break-even AP price", numeric=True),
    )
    swaps, plates = list(view.costed.content.swaps.values()), view.costed.content.plates
    found = [(swap, plate, row) for swap in swaps for plate, row in pairs(view, swap)]
    both = [(plates[swap.benchmark], plate) for swap, plate, _ in found]
    shared = seen(_missing_everywhere, view, both) or ""
    body = tuple(_list_row(view, swap, plate, row, shared) for swap, plate, row in found)
    about = f"All of it leaves out what is not known in full: {shared}." if shared else ""
    unsettled = seen(left_out_savings, view)
    table: Section = Table(
        "swaps",
        "Swaps",
        columns,
        body,
        sortable=len(body) > 1,
        filterable=len(body) > 8,
        about=about,
    )
    return Page(
        path="swaps.html",
        title="Swaps",
        lead=seen(_list_lead, view, found)
        or f"{number_of(len(body), 'challenger')}, each beside the plate that it might replace.",
        also=(unsettled,) if unsettled else (),
        nav=NAV,
        sections=(table,),
    )


def _list_lead(view: View, found: list[tuple[Swap, Plate, SwapRow]]) -> str:
    """How many challengers save, and how many of these earn less."""
    if not found:
        return "No challenger is held against a benchmark yet."
    counted = [row for swap, plate, row in found if saves(view, swap, plate, row)]
    cost, whose = ("costs", "it") if len(found) == 1 else ("cost", "they")
    lead = (
        f"{len(counted)} of {number_of(len(found), 'challenger')} {cost} less a plate than the "
        f"benchmark {whose} would replace"
    )
    return lead + (f"; {_earning_words(counted)}, as priced on the menu." if counted else ".")


def _earning_words(counted: list[SwapRow]) -> str:
    """How many of the challengers that save earn less."""
    less = sum(row.as_read("margin_change") < 0 for row in counted)
    if len(counted) == 1:
        return f"it earns {'less' if less else 'no less'}"
    return f"{less or 'none'} of these earn{'' if less > 1 else 's'} less"


def pair_cell(swap: Swap, plate: Plate, benchmark: Plate) -> Cell:
    """The way to a swap, with the plates that it is about: a phone has no room for three names."""
    note = f"{plate.title} instead of {benchmark.title}"
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
    unknown = f"{missing} not known in full" if missing and not shared else ""
    doubtful = IN_DOUBT if doubt else ""
    note = doubtful or unknown
    return Row(
        (
            pair_cell(swap, plate, benchmark),
            row.cell("margin_change", tone=change, note=note),
            row.cell("margin_change_a_year", note=note),
            row.cell("chance_earns_more", note=doubtful),
            row.cell("food_saving", note=doubtful),
            row.cell("saving", note=note if doubt else fault or note),
            row.cell("break_even_ap_price", note=note),
        )
    )
