"""The rows of the first page's list of what to do: one line each."""

from __future__ import annotations

import math

from builder.costing.actions import Action
from builder.costing.due import Due
from builder.display.chances import money_a_month, times_in_ten
from builder.display.numerals import MINUS
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.components import Cell, Row
from builder.pages.figure_rows import F
from builder.pages.how_sure import input_name
from builder.pages.parts import month_words, page_of
from builder.pages.swap_words import food_clause, takes_loss
from builder.pages.swaps import tone
from builder.pages.targets import asked_price
from builder.pages.tasting_evidence import lost_words
from builder.pages.view import FigureRow, PlateRow, View
from builder.pages.warned import faulty_cooks, pair_fault_words
from builder.pages.worth_doing import instead
from builder.records.kinds import Plate, Swap

EARNS_SELLS_LITTLE = Deferred("that it earns and sells little")
NEITHER = Deferred("that it neither sells nor earns")


def action_row(view: View, action: Action) -> Row:
    """One thing to do: what, money a month, how sure, why."""
    match action.kind:
        case "swap":
            return _swap_row(view, action)
        case "reprice":
            return _reprice_row(view, action)
        case "weigh":
            return _weigh_row(view, action)
        case "promote":
            return _promote_row(view, action)
        case "drop":
            return _drop_row(view, action)
        case "stop":
            return _stop_row(view, action)
        case "fix":
            return _fix_row(view, action)
        case "plan":
            return _plan_row(view, action)


def due_row(view: View, due: Due) -> Row:
    """A service that has to be ordered for and begun."""
    service = due.plan.service
    served, start = view.style.day_and_time(due.served), view.style.day_and_time(due.start)
    return Row(
        (
            Cell(
                tr("Order for {service}, served {served}", service=service.title, served=served),
                href=f"~/{page_of(service)}",
            ),
            Cell(tr("due")),
            Cell(""),
            Cell(tr("its first step starts {start}", start=start)),
        )
    )


def month_width(view: View, action: Action) -> float:
    """How wide the interval is of what an action brings a month; NaN without one.

    What the other plates of a section earn is an average of many: next to one plate's margin
    its own interval is left out.
    """
    if action.swap:
        pair = view.swap(action.swap, action.plate.id).row
        stops = action.kind == "stop"
        return view.width("swap", "stop_a_month" if stops else "margin_change_a_month", pair)
    if action.kind not in ("promote", "drop"):
        return math.nan
    row = view.plate(action.plate)
    margin, others = row.numbers("contribution_margin", "others_margin")
    plates = action.money / abs(margin - others)
    return view.width("plate", "contribution_margin", row.row) * plates


def _do(words: str, record: Plate | Swap) -> Cell:
    """What to do, and the page of the record that it is about."""
    return Cell(words, href=f"~/{page_of(record)}")


def _besides(view: View, action: Action) -> tuple[str, str]:
    """What speaks against a plate that a swap brings in: tasters, or what else it could bring."""
    assert action.swap is not None
    return lost_words(view, action.swap, action.plate), _instead_words(view, action)


_INSTEAD = {
    "drop": Deferred("to drop {plate} instead would bring {money} a month"),
    "promote": Deferred("to sell more of {plate} instead would bring {money} a month"),
    "swap": Deferred("the swap {swap} instead would bring {money} a month"),
    "plan": Deferred(
        "the swap {swap} instead would bring {money} a month, once a cook's plan is fixed"
    ),
    "stop": Deferred("to take the swap {swap} back instead would bring {money} a month"),
}


def _instead_words(view: View, action: Action) -> str:
    """What the best would bring of what an action leaves no room for."""
    other = instead(view, action)
    if other is None:
        return ""
    money = money_a_month(view.style, other.money, other.money + month_width(view, other))
    swap = other.swap.title if other.swap else ""
    return tr(_INSTEAD[other.kind], plate=other.plate.title, swap=swap, money=money)


def _gain(view: View, action: Action, href: str) -> Cell:
    """Money a month that no figure has by itself, no finer than its interval is wide."""
    text = money_a_month(view.style, action.money, action.money + month_width(view, action))
    return Cell(text, href=href, tone="gain")


def _sure(row: FigureRow[F], figure: F, *of_what: str) -> Cell:
    """A chance and what it is of; nothing where it is not known."""
    return row.cell(figure, note=", ".join(filter(None, of_what)) if row.known(figure) else "")


def _swap_row(view: View, action: Action) -> Row:
    assert action.swap is not None
    row = view.swap(action.swap, action.plate.id)
    benchmark = view.costed.content.plates[action.swap.benchmark]
    taken = takes_loss(view, action.swap, action.plate, row)
    return Row(
        (
            _do(
                tr(
                    "Swap {benchmark} for {plate}",
                    benchmark=benchmark.title,
                    plate=action.plate.title,
                ),
                action.swap,
            ),
            row.cell("margin_change_a_month", tone=tone(row, "margin_change")),
            _sure(row, "chance_earns_more", tr("that it earns more"), taken),
            Cell(
                clauses(
                    (
                        tr(
                            "{margin_change} more margin a plate; {food}",
                            margin_change=row.text("margin_change"),
                            food=food_clause(row),
                        ),
                        *_besides(view, action),
                    )
                )
            ),
        )
    )


def _reprice_row(view: View, action: Action) -> Row:
    row = view.plate(action.plate)
    now, share, target = row.texts("menu_price", "food_cost_share", "food_cost_target")
    asked = asked_price(view, action.plate)
    also = _pays_words(view, row) + _smaller_words(row)
    return Row(
        (
            _do(
                tr("Raise {plate} to {asked}", plate=action.plate.title, asked=asked), action.plate
            ),
            row.cell("reprice_a_month", tone="gain"),
            _sure(row, "chance_over_target", tr("that it is over the target")),
            Cell(
                tr(
                    "now {now}; food cost {share} against {target}{also}",
                    now=now,
                    share=share,
                    target=target,
                    also=also,
                )
            ),
        )
    )


def _pays_words(view: View, row: PlateRow) -> str:
    """How many plates fewer may be sold at the new price, in whole percents that still pay."""
    lost = row.number("reprice_lost_sales")
    if not math.isfinite(lost):
        return ""
    most = view.style.percent(math.floor(100 * lost) / 100, 0)
    return tr("; still pays if up to {most} fewer are sold", most=most)


# A portion of which less is left than this is another dish [our rule].
_SAME_DISH = 0.7


def _smaller_words(row: PlateRow) -> str:
    """The portion that would do instead, where it is still one."""
    less, now = row.numbers("portion_for_food_cost", "portion")
    if not now > less >= _SAME_DISH * now:
        return ""
    if row.known("portions_for_food_cost"):
        cut, before = row.texts("portions_for_food_cost", "portions_per_piece")
        return tr("; or cut a piece into {cut} portions, not {before}", cut=cut, before=before)
    smaller, portion = row.texts("portion_for_food_cost", "portion")
    return tr("; or a portion of {smaller}, not {portion}", smaller=smaller, portion=portion)


def _weigh_row(view: View, action: Action) -> Row:
    assert action.weigh is not None
    row = view.plate(action.plate)
    who = view.costed.figures.identity(action.weigh.node[0], action.weigh.row)
    # Both ends of what it narrows: an estimate, so written as coarsely as an interval.
    money = view.shown("money near", action.money, "kg", -action.money)
    low, high = row.texts("contribution_margin_low", "contribution_margin_high")
    span = low if low == high else tr("{low} to {high}", low=low, high=high)
    narrower = view.style.percent(action.narrower, 0)
    return Row(
        (
            Cell(
                tr("Weigh {input_name}", input_name=input_name(view, action.weigh)),
                href=f"~/{who.owner}.html",
            ),
            Cell(f"±{money}", href=row.href("contribution_margin_low")),
            Cell(tr("{narrower} narrower", narrower=narrower)),
            Cell(
                tr(
                    "one more test should narrow the margin of {plate}, now {span} a plate, by "
                    "about {narrower}",
                    plate=action.plate.title,
                    span=span,
                    narrower=narrower,
                )
            ),
        )
    )


def _promote_row(view: View, action: Action) -> Row:
    row = view.plate(action.plate)
    month = month_words(view)
    sold, line, earns, others = row.texts(
        "sold", "sold_at_the_line", "contribution_margin", "others_margin"
    )
    return Row(
        (
            _do(tr("Sell more of {plate}", plate=action.plate.title), action.plate),
            _gain(view, action, row.href("promote_a_month")),
            _sure(row, "class_chance", tr(EARNS_SELLS_LITTLE)),
            Cell(
                clauses(
                    (
                        tr(
                            "earns {earns} a plate, the others of its section {others}; sold "
                            "{sold} in {month}, where {line} would be its share",
                            earns=earns,
                            others=others,
                            sold=sold,
                            month=month,
                            line=line,
                        ),
                        _instead_words(view, action),
                    )
                )
            ),
        )
    )


def _drop_row(view: View, action: Action) -> Row:
    row = view.plate(action.plate)
    month, earns, others = row.texts("monthly_count", "contribution_margin", "others_margin")
    return Row(
        (
            _do(tr("Drop {plate}", plate=action.plate.title), action.plate),
            _gain(view, action, row.href("drop_a_month")),
            _sure(row, "class_chance", tr(NEITHER)),
            Cell(
                clauses(
                    (
                        tr(
                            "earns {earns} a plate; its {month} guests a month would take another "
                            "of its section, which earns {others}{on_menus}",
                            earns=earns,
                            month=month,
                            others=others,
                            on_menus=_on_menus(view, action.plate),
                        ),
                        _instead_words(view, action),
                    )
                )
            ),
        )
    )


def _on_menus(view: View, plate: Plate) -> str:
    """The set menus that would need another plate in its place."""
    menus = [menu for menu in view.costed.content.menus.values() if plate.id in menu.plate_ids]
    titles = listed([menu.title for menu in menus])
    return tr("; {titles} would need another plate in its place", titles=titles) if menus else ""


def _stop_row(view: View, action: Action) -> Row:
    assert action.swap is not None
    row = view.swap(action.swap, action.plate.id)
    benchmark = view.costed.content.plates[action.swap.benchmark]
    loses = times_in_ten(view.style, action.chance)
    return Row(
        (
            _do(
                tr(
                    "Stop {plate} in place of {benchmark}",
                    plate=action.plate.title,
                    benchmark=benchmark.title,
                ),
                action.swap,
            ),
            _gain(view, action, row.href("stop_a_month")),
            Cell(
                loses,
                href=row.href("chance_earns_more"),
                note=tr("that it loses") if row.known("chance_earns_more") else "",
            ),
            Cell(
                clauses(
                    (
                        tr(
                            "decided on, but it now earns {amount} less a plate than the benchmark",
                            amount=row.text("margin_change").lstrip(MINUS),
                        ),
                        _instead_words(view, action),
                    )
                )
            ),
        )
    )


def _fix_row(view: View, action: Action) -> Row:
    sales = money_a_month(view.style, action.money)
    return Row(
        (
            _do(tr("Fix what is written for {plate}", plate=action.plate.title), action.plate),
            Cell(sales, note=tr("of sales rest on it")),
            Cell(tr("in doubt")),
            Cell(action.doubt),
        )
    )


def _plan_row(view: View, action: Action) -> Row:
    """The cook's plan that a swap waits for, and what the swap would bring."""
    assert action.swap is not None
    row = view.swap(action.swap, action.plate.id)
    benchmark = view.costed.content.plates[action.swap.benchmark]
    cooks = faulty_cooks(view, action.plate, benchmark)
    return Row(
        (
            Cell(
                tr("Fix the plan of {cooks}", cooks=listed([cook.title for cook in cooks])),
                href=f"~/{page_of(cooks[0])}",
            ),
            row.cell("margin_change_a_month"),
            _sure(row, "chance_earns_more", tr("that the swap earns more")),
            Cell(
                clauses(
                    (
                        tr(
                            "{plate} instead of {benchmark} would earn {amount} more a plate; "
                            "{fault}",
                            plate=action.plate.title,
                            benchmark=benchmark.title,
                            amount=row.text("margin_change"),
                            fault=pair_fault_words(view, action.plate, benchmark),
                        ),
                        *_besides(view, action),
                    )
                )
            ),
        )
    )
