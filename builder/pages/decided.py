"""What was decided on a swap: when, by whom, why, and what became of what it promised."""

from __future__ import annotations

from markupsafe import Markup

from builder.costing.decision_rows import sold_since
from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Part, Prose, Row, Table, Text
from builder.pages.figure_names import SwapFigure
from builder.pages.parts import paragraph, part
from builder.pages.swap_words import doubt_of
from builder.pages.view import SwapRow, View
from builder.records.decisions import Decision
from builder.records.kinds import Plate, Swap

_LINES: tuple[tuple[str, SwapFigure, SwapFigure], ...] = (
    (Deferred("Margin change a plate"), "decided_margin_change", "margin_change"),
    (Deferred("Food cost saved a plate"), "decided_food_saving", "food_saving"),
    (Deferred("Plates a week"), "decided_forecast", "sold_a_week_since"),
    (Deferred("Margin change of all plates since"), "promised_since", "earned_since"),
)


def decided_part(view: View, swap: Swap, plate: Plate, benchmark: Plate) -> Part | None:
    """The decision on a challenger, planned against actual; None where there is none yet."""
    words = decided_in_full(view, swap, plate, benchmark)
    if not words:
        return None
    doubt = doubt_of(view, plate, benchmark)
    compared = _compared(view.swap(swap, plate.id), plate, doubt)
    return part("decided", tr("Decided"), paragraph(words), compared)


def decided_in_full(view: View, swap: Swap, plate: Plate, benchmark: Plate) -> str:
    """Who decided on a challenger, when, what and why; empty where there is no decision yet."""
    decision = swap.decision(plate.id, view.costed.content.as_of)
    if decision is None:
        return ""
    said = tr(
        "{who} decided on {day}: {outcome}",
        who=decision.who,
        day=view.style.date(decision.date.day),
        outcome=_outcome(decision, plate, benchmark),
    )
    why = tr("Why: {why}.", why=decision.why.rstrip("."))
    still = _still_sold(view, view.swap(swap, plate.id), decision, benchmark)
    return " ".join(filter(None, (said, why, still)))


def decided_words(view: View, swap: Swap, plate: Plate, benchmark: Plate) -> str:
    """A sentence that says the decision on a challenger; empty where there is none yet."""
    decision = swap.decision(plate.id, view.costed.content.as_of)
    if decision is None:
        return ""
    day = view.style.date(decision.date.day)
    still = _still_sold(view, view.swap(swap, plate.id), decision, benchmark)
    return tr(
        "Decided on {day}: {outcome} {still}",
        day=day,
        outcome=_outcome(decision, plate, benchmark),
        still=still,
    ).rstrip()


def _outcome(decision: Decision, plate: Plate, benchmark: Plate) -> str:
    if decision.taken:
        return tr("{plate} instead of {benchmark}.", plate=plate.title, benchmark=benchmark.title)
    return tr(
        "keep {benchmark}; no swap for {plate}.",
        benchmark=benchmark.title,
        plate=plate.title,
    )


def _still_sold(view: View, row: SwapRow, decision: Decision, benchmark: Plate) -> str:
    """That a benchmark sells on though its place is taken; what it sold before says nothing."""
    if not decision.taken or row.hides("sold_since"):
        return ""
    found = sold_since(view.costed.content, benchmark, decision.date.day)
    if not (count := sum(each[0] for each in found)):
        return ""
    plates = view.style.number(count, 0)
    return tr(
        "Still served: {benchmark}, {plates} sold since.",
        benchmark=benchmark.title,
        plates=plates,
    )


def _compared(row: SwapRow, plate: Plate, doubt: str) -> Table | Prose | None:
    """Each figure of the decision beside the one of today; what it does not state is left out."""
    lines = [line for line in _LINES if not row.hides(line[1]) and row.known(line[1])]
    if not lines:
        if any(row.hides(figure) for _, figure, _ in _LINES):
            return None
        return paragraph(tr("The decision states no figure to compare with today's."))
    columns = (
        Column("what", tr("Figure")),
        Column("planned", tr("When decided"), numeric=True),
        Column("now", tr("Now"), numeric=True),
    )
    rows = tuple(_row(row, *line) for line in lines)
    caption = tr("{plate}, planned and actual", plate=plate.title)
    return Table("decided-table", caption, columns, rows, about=_about(row, plate, doubt))


def _row(row: SwapRow, label: str, planned: SwapFigure, now: SwapFigure) -> Row:
    cells = (
        row.cell(each) if row.hides(each) or row.known(each) else Cell("–")
        for each in (planned, now)
    )
    return Row((Cell(label), *cells))


def _about(row: SwapRow, plate: Plate, doubt: str) -> Text:
    """What was counted since, and whether what is known today is in doubt."""
    doubtful = tr(" What is said of today is in doubt: {doubt}.", doubt=doubt) if doubt else ""
    if row.hides("sold_since") or row.hides("weeks_since"):
        return doubtful.strip()
    if not row.known("sold_since"):
        return tr(
            "No whole month, and no counted period, since then counts {plate}.{doubtful}",
            plate=plate.title,
            doubtful=doubtful,
        )
    count, weeks = row.traced("sold_since"), row.traced("weeks_since")
    return Markup(
        tr(
            "Sold since: {} plates in {}. The last line takes all of them at today's "
            "costs and prices.{}"
        )
    ).format(count, weeks, doubtful)
