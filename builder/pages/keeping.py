"""How long what is cooked or made is kept, at what temperature, and who says so."""

from __future__ import annotations

from collections.abc import Iterator

from builder.cooking.cooling import AfterCookVerdict
from builder.cooking.verdict import DECIDES, Outcome
from builder.display.rounded_sizes import lasting
from builder.language import Deferred, labelled, tr
from builder.pages.components import Cell, Column, Part, Row, Table
from builder.pages.parts import part, written_cell
from builder.pages.values import capital
from builder.pages.view import View
from builder.reading.tree import Text
from builder.records.fields import Measure
from builder.records.kinds import Cook, PantryItem

KITCHEN_STATES = Deferred("as the kitchen states")
_RULES = "~/rules.html#limits"
# Bread and the like are kept in the kitchen or a cellar, which nobody calls cold. Common practice,
# no published source.
WARMEST_COLD_C = 10.0


def keeping_part(view: View, item: PantryItem) -> Part | None:
    """How long an item is kept, as a part of its page."""
    table = keeping_table(view, item)
    return part("keeping", tr("Keeping"), table) if table else None


def keeping_table(view: View, record: Cook | PantryItem) -> Table | None:
    """Keeping in the cold and holding hot, as far as the file says anything of them."""
    rows = tuple(_rows(view, record))
    columns = (
        Column("how", tr("How")),
        Column("for", tr("At most"), numeric=True),
        Column("at", tr("At"), numeric=True),
        Column("source", tr("Who says so")),
        Column("rule", tr("Beside the rule")),
    )
    # A cook's page says among its cautions who decides.
    about = (
        tr("Label and date what is kept.")
        if isinstance(record, Cook)
        else tr("{decides}. Label and date what is kept.", decides=capital(tr(DECIDES)))
    )
    caption = tr("Keeping {record}", record=record.title)
    return Table("keeping-table", caption, columns, rows, about=about) if rows else None


def _rows(view: View, record: Cook | PantryItem) -> Iterator[Row]:
    heat = view.costed.heat
    if record.store is not None:
        cold = record.store
        if isinstance(record, Cook):
            verdict = heat.storing(record, view.costed.content.cuts[record.cut])
        else:
            verdict = heat.storing_made(record)
        opened = isinstance(record, PantryItem) and not record.of
        is_cold = cold.at.value <= WARMEST_COLD_C
        how = tr("Kept cold") if is_cold else tr("Kept")
        if opened:
            how = tr("Kept cold once opened") if is_cold else tr("Kept once opened")
        made = isinstance(record, PantryItem)
        yield _row(view, how, cold.for_, cold.at, cold.source, verdict, made=made)
    if isinstance(record, Cook) and record.hold_at is not None:
        lasts = record.hold.for_ if record.hold else None
        verdict = heat.hot_holding(record, view.costed.content.cuts[record.cut])
        yield _row(view, tr("Held hot"), lasts, record.hold_at, record.hold_source, verdict)


def _row(
    view: View,
    how: str,
    lasts: Measure | None,
    at: Measure,
    source: Text | None,
    verdict: AfterCookVerdict | None,
    *,
    made: bool = False,
) -> Row:
    style = view.style
    return Row(
        (
            Cell(how),
            written_cell(view, lasts, lasting(style, lasts.value) if lasts else ""),
            written_cell(view, at, style.temperature(at.value)),
            Cell(str(source) if source else tr(KITCHEN_STATES)),
            _rule_cell(verdict, made=made),
        )
    )


def _rule_cell(verdict: AfterCookVerdict | None, *, made: bool) -> Cell:
    """What the rule set says, with the way to its text where it has a clause.

    Of what is `made` nobody states whether it is food that the clause is for.
    """
    if verdict is None:
        return Cell(tr("no rule set is applied"))
    if not verdict.clause:
        return Cell(tr("not covered"))
    words = tr("can't be judged yet") if verdict.waits else tr(verdict.outcome.value)
    if made and verdict.outcome is Outcome.DOES_NOT_MEET:
        words = tr("longer or warmer, where it is food that has to be kept cold")
    return Cell(labelled(words, verdict.clause), href=_RULES)
