"""The sheet on which a swap is decided: what an owner and a chef put their names under."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from builder.engine.model import Node
from builder.language import Deferred, labelled, tr
from builder.pages.allergens import change_words
from builder.pages.components import (
    Cell,
    Chart,
    Column,
    Form,
    FormBlock,
    FormField,
    FormFields,
    FormGrid,
    FormLines,
    FormNote,
    FormTicks,
    Link,
    Page,
    Row,
)
from builder.pages.decided import decided_in_full
from builder.pages.equipment import is_counted
from builder.pages.figure_names import PlateFigure, SwapFigure
from builder.pages.form_pieces import line, noted_row, sheet_title
from builder.pages.interval_words import LOST, between
from builder.pages.parts import ALLERGENS, form_path, gear_name, page_of
from builder.pages.portions import portion_note
from builder.pages.stages import basis
from builder.pages.swap_limits import Limit, limit_cell, limits_of, margin_cell
from builder.pages.swap_words import count_words, doubt_of, gains, verdict
from builder.pages.tasting_evidence import swap_mouth, swap_pictures
from builder.pages.unknown import IN_DOUBT, doubt_note
from builder.pages.values import capital
from builder.pages.view import SwapRow, View
from builder.pages.warned import benchmark_fault, plate_faults, uncooked_words
from builder.records.chains import Phase, stages_of
from builder.records.kinds import Cook, Cut, Plate, Swap
from builder.records.portions import cut_of
from builder.records.stages import Stage

TITLE = Deferred("Decision sheet")
_LINES: tuple[tuple[PlateFigure, str], ...] = (
    ("ap_price", Deferred("AP price")),
    ("overall_yield", Deferred("EP / AP")),
    ("portion", Deferred("Portion")),
    ("ap_weight_per_portion", Deferred("AP weight a portion")),
    ("further_food", Deferred("Further portions")),
    ("food_cost", Deferred("Food cost")),
    ("labour_cost", Deferred("Direct labour")),
    ("full_cost", Deferred("Full plate cost")),
    ("price_ex_tax", Deferred("Price ex tax")),
    ("contribution_margin", Deferred("Contribution margin")),
    ("margin_after_full", Deferred("Margin after full plate cost")),
    ("food_cost_share", Deferred("Food cost %")),
)
_LANE = 18
"""Height of a lane of a picture [px]."""


def sheet_path(swap: Swap) -> str:
    """The page of a swap's decision sheets."""
    return form_path(swap.id, "decision")


def sheets_words(swap: Swap) -> str:
    """How many sheets a swap prints, beside the way to them."""
    count = len(swap.challengers)
    return (
        tr("one page, to sign")
        if count == 1
        else tr("{count} pages, one a challenger, each to sign", count=count)
    )


def decision_page(view: View, swap: Swap) -> Page:
    """A sheet for each challenger of a swap."""
    forms = tuple(
        _sheet(view, swap, str(name), number)
        for number, name in enumerate(swap.challengers, start=1)
    )
    lead = (
        tr("One sheet a challenger on A4 or Letter: what the swap comes to, and room to sign.")
        if len(forms) > 1
        else tr("One sheet of A4 or Letter: what the swap comes to, and room to sign.")
    )
    return Page(
        path=sheet_path(swap),
        title=labelled(tr(TITLE), swap.title),
        lead=lead,
        kind=tr("Form"),
        crumbs=(Link(tr("Swaps"), "~/swaps.html"), Link(swap.title, f"~/{page_of(swap)}")),
        nav="~/swaps.html",
        sections=forms,
        sheet=True,
    )


def _sheet(view: View, swap: Swap, name: str, number: int) -> Form:
    plates = view.costed.content.plates
    benchmark, plate = plates[swap.benchmark], plates[name]
    row = view.swap(swap, name)
    both = [benchmark, plate]
    blocks: tuple[FormBlock, ...] = (
        *_lead(view, plate, benchmark, row),
        _money(view, plate, benchmark, row),
        _side_by_side(view, both),
        _limits(view, plate, row),
        FormNote(tr("What tasters found: {swap_mouth}", swap_mouth=swap_mouth(view, swap, plate))),
        *(_on_paper(chart, name) for chart in swap_pictures(view, swap, plate)[:1]),
        FormNote(f"{change_words(view, plate, benchmark)} {tr(ALLERGENS)}"),
        *(FormNote(text, strong=True) for text in uncooked_words(view, [plate])),
        _grounds(view, both),
        *([FormNote(capacity)] if (capacity := _capacity(view, plate)) else []),
        *_decision(view, swap, plate, benchmark),
    )
    title = tr(
        "{title}: {plate} instead of {benchmark}",
        title=TITLE,
        plate=plate.title,
        benchmark=benchmark.title,
    )
    reference = sheet_title(swap.file, number, len(swap.challengers))
    return Form(f"decide-{plate.id}", title, blocks, reference=reference, close=True)


def _decision(view: View, swap: Swap, plate: Plate, benchmark: Plate) -> Iterator[FormBlock]:
    """Room to decide and to sign; where it is decided already, the decision and room to sign."""
    if decided := decided_in_full(view, swap, plate, benchmark):
        yield FormNote(decided, strong=True)
        yield FormFields(
            (
                FormField(tr("Signed by"), width="half"),
                FormField(tr("Date"), width="quarter"),
                FormField(tr("Look again on"), width="quarter"),
            )
        )
        return
    yield FormTicks(tr("Decision"), (tr("go"), tr("trial"), tr("no")))
    yield FormFields(
        (
            FormField(tr("Decided by"), width="quarter"),
            FormField(tr("Date"), width="quarter"),
            FormField(tr("Cooked by"), width="quarter"),
            FormField(tr("Look again on"), width="quarter"),
        )
    )
    yield FormLines(tr("Why, and what has to be watched"), 1)


def _lead(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> Iterator[FormNote]:
    """What fails in the cook and what the owner gets in bold, then how sure that is."""
    words = verdict(view, plate, benchmark, row)
    bold = max(1, len(plate_faults(view, plate)))
    yield FormNote(" ".join(words[:bold]), strong=True)
    fault = benchmark_fault(view, plate, benchmark)
    # Of a gain that does not count the sentences say why.
    if fault and not gains(view, plate, benchmark, row):
        yield FormNote(f"{capital(fault)}.", strong=True)
    if rest := words[bold:]:
        yield FormNote(" ".join(rest))


def _on_paper(chart: Chart, plate: str) -> Chart:
    """A picture with lanes just high enough to be read on paper, without its rows.

    plate: the challenger's id, for each has a picture of the same attribute on the page.
    """
    lanes = {row["name"] for row in chart.rows if "name" in row}
    height = {"height": _LANE * len(lanes)} if lanes else {}
    options = {**chart.options, **height}
    return replace(chart, id=f"{chart.id}-{plate}", table=None, options=options)


def _money(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> FormGrid:
    """What the owner gets and what the food saves, with how sure that is."""
    at = count_words(view, benchmark, row)
    doubt = doubt_of(view, plate, benchmark)
    rows: tuple[tuple[str, SwapFigure, SwapFigure | None, str], ...] = (
        (
            tr("Margin change a plate, after full plate cost"),
            "margin_change",
            "chance_earns_more",
            tr("earns more"),
        ),
        (tr("Margin change a month"), "margin_change_a_month", None, ""),
        (
            tr("Margin change a year, at {at}", at=at) if at else tr("Margin change a year"),
            "margin_change_a_year",
            None,
            "",
        ),
        (
            tr("Food cost saved a plate"),
            "food_saving",
            "chance_food_cheaper",
            tr("food is cheaper"),
        ),
        (tr("Full plate cost saved"), "saving", None, ""),
    )
    return FormGrid(
        tr("What it brings"),
        (
            Column("what", tr("Figure")),
            Column("value", tr("As written"), True),
            Column("between", tr("Between")),
            Column("chance", tr("How often")),
        ),
        tuple(
            Row(
                (
                    Cell(label),
                    row.cell(figure, note=tr(IN_DOUBT) if doubt else ""),
                    Cell(between(row, figure)),
                    Cell(f"{row.text(chance)} {words}" if chance and row.known(chance) else ""),
                )
            )
            for label, figure, chance, words in rows
        ),
        small="print",
    )


def _side_by_side(view: View, plates: list[Plate]) -> FormGrid:
    columns = (
        Column("what", tr("Weight and money, a plate")),
        *(Column(plate.id, plate.title, numeric=True) for plate in plates),
    )
    rows = view.costed.rows.plates
    body = (
        noted_row(
            line(view, label, *(("plate", figure, rows[plate.id]) for plate in plates)),
            *(_line_note(view, plate, figure) for plate in plates),
        )
        for figure, label in _LINES
        if figure != "further_food" or any(plate.further for plate in plates)
    )
    return FormGrid(tr("Side by side"), columns, tuple(body), small="print")


def _line_note(view: View, plate: Plate, figure: PlateFigure) -> str:
    return portion_note(view, plate) if figure == "portion" else doubt_note(view, plate, figure)


def _limits(view: View, plate: Plate, row: SwapRow) -> FormGrid:
    priced = row.known("margin_change")
    columns = (
        Column("what", tr("One input moved")),
        Column("now", tr("Now"), True),
        *([Column("margin", tr("Margins are equal at"), True)] if priced else []),
        Column("limit", tr("Saving is zero at"), True),
    )
    body = (
        Row(
            (
                Cell(limit.label),
                row.cell(limit.now),
                *([_point(margin_cell(row, limit, limit.words))] if priced else []),
                _point(limit_cell(row, limit, limit.limit, _why(row, limit))),
            )
        )
        for limit in (replace(limit, tries="") for limit in limits_of(view, plate, row))
    )
    return FormGrid(tr("Break-evens"), columns, tuple(body), small="print")


def _why(row: SwapRow, limit: Limit) -> str:
    """Why nothing ends the saving; a sheet has no room to say how far off it is where it does."""
    return "" if row.known(limit.limit) else limit.words


def _point(cell: Cell) -> Cell:
    """A limit for paper, or why there is none or no interval; this is on the swap's page."""
    if cell.text == "–" and cell.note:
        return replace(cell, text=cell.note, note="")
    return cell if cell.note in (LOST, tr(LOST)) else replace(cell, note="")


def _capacity(view: View, plate: Plate) -> str:
    """What a week's plates ask of the equipment of a challenger's cooks."""
    cooks = (view.costed.content.cooks[name] for name in plate.cooks)
    gear = dict.fromkeys(cook.equipment for cook in cooks if cook.equipment)
    return " ".join(_use(view, name) for name in gear)


def _use(view: View, gear: str) -> str:
    row, name = view.equipment(gear), gear_name(view, gear)
    if not (row.known("use") and is_counted(view, gear)):
        return tr("{name}: no count says how much it is used.", name=name)
    if not row.number("hours_booked"):
        return tr(
            "{name}: no plate that uses it has a forecast or a count, so no hours are booked.",
            name=name,
        )
    use, available, there = row.texts("use", "available_hours", "how_many")
    of_what = tr("the {available} that each of the {there} has", available=available, there=there)
    if row.number("how_many") == 1:
        of_what = tr("its {available}", available=available)
    return tr(
        "{name}: a week's plates, as forecast or counted, book {use} of {of_what}; "
        "what the swap moves is not counted.",
        name=name,
        use=use,
        of_what=of_what,
    )


def _grounds(view: View, plates: list[Plate]) -> FormGrid:
    """The inputs behind the figures, each with what it rests on."""
    columns = (
        Column("what", tr("What it rests on")),
        Column("value", tr("Value"), True),
        Column("source", tr("From")),
    )
    wage = (
        Cell(tr("Loaded wage")),
        view.kitchen.cell("loaded_wage"),
        _from_file(view, ("kitchen", "loaded_wage"), 0, tr("the kitchen's file")),
    )
    cuts = view.costed.content.cuts
    found = (row for cut in _cuts(view, plates) for row in _grounds_of_cut(view, cuts[cut], plates))
    return FormGrid(tr("Sources"), columns, (*found, Row(wage)), small="print")


def _from_file(view: View, node: Node, row: int, file: str) -> Cell:
    """Whose file a value stands in: on the screen a way to its line, which no paper needs."""
    words, href = view.origin(node, row)
    return Cell(file, href=href) if href else Cell(words)


def _cuts(view: View, plates: list[Plate]) -> Iterable[str]:
    """The cuts of every portion of some plates, each once."""
    content = view.costed.content
    portions = (portion for plate in plates for portion in plate.served)
    return dict.fromkeys(cut_of(content, portion).id for portion in portions)


def _grounds_of_cut(view: View, cut: Cut, plates: list[Plate]) -> Iterator[Row]:
    """The price of a cut, and what its trim and its cooks on some plates leave, each once."""
    current = view.costed.prices.get(cut.id)
    since = (
        tr("since {since}", since=view.style.date(current.since))
        if current and current.since
        else ""
    )
    found = ", ".join(filter(None, (current.supplier if current else "", since)))
    from_file = _from_file(view, ("cut", "ap_price"), view.cut(cut).row, tr("the cut's file"))
    source = Cell(found) if found else from_file
    yield Row((Cell(tr("{cut}: AP price", cut=cut.title)), view.cut(cut).cell("ap_price"), source))
    yield from dict(_stages(view, cut, plates)).values()


def _stages(view: View, cut: Cut, plates: list[Plate]) -> Iterator[tuple[tuple[str, str], Row]]:
    """The trim and the cooks that a cut passes on its way to some plates, by where each is."""
    if any(cut.id in plate.raw_cuts for plate in plates):
        for name, stage in stages_of(cut):
            if name == "trim":
                yield (cut.path, name), _ground(view, cut, name, stage)
    cooks = view.costed.content.cooks
    used = dict.fromkeys(name for plate in plates for name in plate.cooks)
    for cook in (cooks[name] for name in used if cooks[name].cut == cut.id):
        for link, _ in view.steps(cook):
            if link.phase is Phase.COOK or link.name == "trim":
                key = link.owner.path, link.name
                yield key, _ground(view, link.owner, link.name, link.stage)


def _ground(view: View, owner: Cut | Cook, name: str, stage: Stage) -> Row:
    """The yield of a stage, with what it rests on."""
    row = view.stage(owner.path, name)
    # The first clause: a sheet has room for a line, the record's page says the rest.
    words = capital(basis(view, row, stage)).partition(";")[0].rstrip()
    what = tr("{owner}: yield of {name}", owner=owner.title, name=name)
    return Row((Cell(what), row.cell("stage_yield"), Cell(words)))
