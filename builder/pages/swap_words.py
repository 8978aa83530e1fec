"""What a swap comes to, in the sentences that lead its page."""

from __future__ import annotations

import math

from builder.costing.spreads import SOLD
from builder.costing.weekly_counts import counts_of
from builder.display.numerals import MINUS
from builder.display.words import listed
from builder.engine.draws import Basis
from builder.language import clauses, tr
from builder.pages.behind_spreads import is_unproven
from builder.pages.components import FigureTile
from builder.pages.figure_names import SwapFigure
from builder.pages.interval_words import sure_words
from builder.pages.ranged import no_chance_words
from builder.pages.unknown import left_out_words, plate_doubt
from builder.pages.values import capital
from builder.pages.view import SwapRow, View
from builder.pages.warned import pair_fault_words, plate_faults
from builder.pages.withheld import seen
from builder.records.kinds import Cook, Plate, Swap


def verdict(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> list[str]:
    """What fails in the challenger's cook, then what the owner gets, then what food it saves.

    In sentences, the one that leads first.
    """
    fault = pair_fault_words(view, plate, benchmark)
    left_out = fault and gains(view, plate, benchmark, row)
    return [
        *plate_faults(view, plate),
        *_money_words(view, plate, benchmark, row),
        *filter(None, (_chances(view, plate, benchmark, row),)),
        *filter(None, (_as_written(view, plate, benchmark, row),)),
        *filter(None, (leaves_out(view, plate, benchmark, row),)),
        *(
            [tr("It is not counted among the swaps that earn more: {fault}.", fault=fault)]
            if left_out
            else []
        ),
    ]


def answer(view: View, found: list[tuple[Plate, SwapRow]], benchmark: Plate) -> list[str]:
    """What a swap comes to: a sentence that leads, then a paragraph for each challenger.

    What fails in its cook is a paragraph of its own, so that its money begins one. The challenger
    that fails leads, else the one that earns most of those without a doubt.
    """

    def first(each: tuple[Plate, SwapRow]) -> tuple[bool, bool, float]:
        plate, row = each
        change = row.as_read("margin_change")
        doubtful = bool(doubt_of(view, plate, benchmark))
        gain = -change if math.isfinite(change) else math.inf
        return not plate_faults(view, plate), doubtful, gain

    (lead, *rest), *others = (
        paragraph
        for plate, row in sorted(found, key=first)
        for paragraph in _paragraphs(view, plate, benchmark, row)
    )
    return [lead, *(" ".join(each) for each in (rest, *others) if each)]


def _paragraphs(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> list[list[str]]:
    """The sentences of a verdict: what fails, if anything does, then the money."""
    said, faults = verdict(view, plate, benchmark, row), len(plate_faults(view, plate))
    return [said[:faults], said[faults:]] if faults else [said]


def _chances(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> str:
    """How often the challenger earns more, and its food is cheaper, in one sentence."""
    if doubt_of(view, plate, benchmark):
        return ""
    if not row.known("chance_earns_more"):
        return _no_chance(view, row)
    more, cheaper_food = row.texts("chance_earns_more", "chance_food_cheaper")
    food = (
        tr("; {cheaper_food} its food costs less", cheaper_food=cheaper_food)
        if row.known("chance_food_cheaper")
        else ""
    )
    if any(map(math.isinf, row.numbers("margin_change_low", "margin_change_high"))):
        return tr(
            "Where a piece of both gives its portion, {more} it earns more than the "
            "benchmark{food}.",
            more=more,
            food=food,
        )
    return tr("{more} it earns more than the benchmark{food}.", more=capital(more), food=food)


def unproven_cooks(view: View, *plates: Plate) -> list[Cook]:
    """Cooks of the plates' portions whose loss nothing says how far off it may be.

    A portion of pieces costs the same whatever they lose.
    """
    if not view.grants("cooks", "weights"):
        return []
    portions = (portion for plate in plates for portion in plate.served if portion.cook)
    weighed = (portion for portion in portions if portion.pieces is None)
    cooks = dict.fromkeys(str(portion.cook) for portion in weighed)
    found = (view.costed.content.cooks[name] for name in cooks)
    return [cook for cook in found if is_unproven(view, cook)]


def takes_loss(view: View, swap: Swap, plate: Plate, row: SwapRow) -> str:
    """A word beside a chance that takes a cook's loss as it is written."""
    benchmark = view.costed.content.plates[swap.benchmark]
    taken = seen(_taken_as_written, view, plate, benchmark, row)
    return tr("a cook loss as written") if taken else ""


def _as_written(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> str:
    """Whose loss the chance takes as it is written."""
    cooks = seen(_taken_as_written, view, plate, benchmark, row)
    if not cooks:
        return ""
    return tr(
        "That takes the cook loss of {cooks} as written, for nothing says how far off it is.",
        cooks=listed([cook.title for cook in cooks]),
    )


def _taken_as_written(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> list[Cook]:
    """Cooks whose loss the chance takes as it is written; none where no chance is given."""
    if doubt_of(view, plate, benchmark) or not row.known("chance_earns_more"):
        return []
    return unproven_cooks(view, plate, benchmark)


def _no_chance(view: View, row: SwapRow) -> str:
    """Why nothing says how often the challenger earns more."""
    low = row.number("margin_change_low")
    if math.isnan(low):
        return no_chance_words(view, row)
    if not math.isinf(low):
        return ""
    return tr(
        "How often it earns more can't be said: too often one of the two plates would give no "
        "whole portion."
    )


def leaves_out(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> str:
    """What is not in the two costs that are compared; nothing where all of it is known."""
    reported = left_out_words(view, [plate, benchmark])
    if not reported or not row.known("saving") or doubt_of(view, plate, benchmark):
        return ""
    return tr("This leaves out what is not known in full: {reported}.", reported=reported)


def limit_words(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> str:
    """What the break-evens rest on, unless the lead says so, where a cost is in doubt or not
    known in full."""
    if doubt := doubt_of(view, plate, benchmark):
        return tr(" All of it is in doubt: {doubt}.", doubt=doubt)
    if leaves_out(view, plate, benchmark, row):
        return ""
    reported = left_out_words(view, [plate, benchmark])
    return (
        tr(" It leaves out what is not known in full: {reported}.", reported=reported)
        if reported
        else ""
    )


def _money_words(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> list[str]:
    if doubt := doubt_of(view, plate, benchmark):
        return [
            tr(
                "The margin of {plate} against {benchmark} is in doubt: {doubt}.",
                plate=plate.title,
                benchmark=benchmark.title,
                doubt=doubt,
            )
        ]
    change = row.as_read("margin_change")
    if not math.isfinite(change):
        return [
            tr(
                "The margin of {plate} against {benchmark} is not known.",
                plate=plate.title,
                benchmark=benchmark.title,
            )
        ]
    equal = _equal_words(row) if change < 0 < row.as_read("food_saving") else ""
    found = *_earns_words(view, plate, benchmark, row, change), f"{food_words(row)}.", equal
    return [each for each in found if each]


def _equal_words(row: SwapRow) -> str:
    """At which menu price the challenger would earn as much, with that price's interval."""
    if not row.known("price_for_equal_margin"):
        return ""
    equal, low, high = row.texts(
        "price_for_equal_margin", "price_for_equal_margin_low", "price_for_equal_margin_high"
    )
    least = row.known("price_for_equal_margin_low")
    most = row.known("price_for_equal_margin_high")
    sure = ""
    if least and most:
        sure = f" ({sure_words(low, high, alike=low == high)})"
    elif least:
        sure = tr(" (at least {low}, 19 times in 20)", low=low)
    elif most:
        sure = tr(" (at most {high}, 19 times in 20)", high=high)
    return tr("At a menu price of {equal}{sure} it would earn as much.", equal=equal, sure=sure)


def _earns_words(
    view: View, plate: Plate, benchmark: Plate, row: SwapRow, change: float
) -> tuple[str, ...]:
    """What the owner gets: the change of margin a plate and a year, at both menu prices.

    Where its interval holds the other side, too, the sentence that leads says that instead of
    the year, which follows.
    """
    if not change:
        return (
            tr(
                "{plate}: as much margin a plate as {benchmark}.",
                plate=plate.title,
                benchmark=benchmark.title,
            ),
            _coins_a_year(view, benchmark, row),
        )
    amount = row.text("margin_change").lstrip(MINUS)
    more = tr(
        "{plate}: {amount} more margin a plate than {benchmark}",
        plate=plate.title,
        amount=amount,
        benchmark=benchmark.title,
    )
    less = tr(
        "{plate}: {amount} less margin a plate than {benchmark}",
        plate=plate.title,
        amount=amount,
        benchmark=benchmark.title,
    )
    earns = more if change > 0 else less
    year = tr(
        "{margin_change_a_year} a year",
        margin_change_a_year=row.text("margin_change_a_year").lstrip(MINUS),
    )
    at = (
        tr(" at {count_words}", count_words=count_words(view, benchmark, row))
        if row.known("margin_change_a_year")
        else ""
    )
    if is_open(row):
        may = (
            tr("{earns}, but it may earn less.", earns=earns)
            if change > 0
            else tr("{earns}, but it may earn more.", earns=earns)
        )
        return may, tr("That is {year}{at}.", year=year, at=at) if at else ""
    return (f"{earns}, {year}{at}." if at else f"{earns}.",)


def _coins_a_year(view: View, benchmark: Plate, row: SwapRow) -> str:
    """What a change of less than a coin a plate comes to; nothing where it comes to none."""
    year = row.as_read("margin_change_a_year")
    if not year or not math.isfinite(year):
        return ""
    amount = row.text("margin_change_a_year").lstrip(MINUS)
    count = count_words(view, benchmark, row)
    if year > 0:
        return tr(
            "By less than a coin a plate it earns {amount} more a year at {count_words}.",
            amount=amount,
            count_words=count,
        )
    return tr(
        "By less than a coin a plate it earns {amount} less a year at {count_words}.",
        amount=amount,
        count_words=count,
    )


def is_open(row: SwapRow) -> bool:
    """Whether the interval of the margin change has both a gain and a loss in it."""
    low, high = row.numbers("margin_change_low", "margin_change_high")
    return low < 0 < high and math.isfinite(high - low)


def food_words(row: SwapRow) -> str:
    """What a challenger's food costs beside the benchmark's."""
    return capital(food_clause(row))


def food_clause(row: SwapRow) -> str:
    """The same within a sentence."""
    saving = row.as_read("food_saving")
    if not saving:
        return tr("its food costs as much")
    amount = row.text("food_saving").lstrip(MINUS)
    if saving > 0:
        return tr("its food costs {amount} less", amount=amount)
    return tr("its food costs {amount} more", amount=amount)


def count_words(view: View, benchmark: Plate, row: SwapRow) -> str:
    """What a swap's weekly count is: its own forecast, its benchmark's, or a month's sales."""
    if row.known("swap_forecast"):
        return tr("the forecast count")
    return counts_of([benchmark], view.costed.menu_month).words(view.style)


def doubt_of(view: View, plate: Plate, benchmark: Plate) -> str:
    """Why what a challenger saves can't be trusted; empty where it can."""
    return plate_doubt(view, plate) or plate_doubt(view, benchmark)


def gains(view: View, plate: Plate, benchmark: Plate, row: SwapRow) -> bool:
    """Whether a challenger earns more, to the coin, on costs that can be trusted."""
    return not doubt_of(view, plate, benchmark) and row.as_read("margin_change") > 0


def payback_tiles(row: SwapRow, unknown: str) -> list[FigureTile]:
    """When what a swap brings has paid for what it buys: the margin, where prices are known.

    None where nothing is bought, or the reader may not see it.
    """
    change = math.nan if row.hides("margin_change") else row.as_read("margin_change")
    figure: SwapFigure = "payback" if math.isnan(change) else "payback_by_margin"
    if row.hides(figure) or row.hides("invested") or not row.number("invested") > 0:
        return []
    if math.isnan(change):
        label = tr("The full plate cost saved pays for the equipment in")
    elif change <= 0:
        label, why = tr("The margin gained pays for the equipment"), tr("it earns no more")
        return [FigureTile(label, tr("not as priced"), note=clauses((why, unknown)))]
    else:
        label = tr("The margin gained pays for the equipment in")
    loses = row.known("margin_change_low") and row.as_read("margin_change_low") <= 0
    unsure = tr("as written: it may never pay for it") if change > 0 and loses else ""
    return [row.tile(figure, label=label, note=clauses((unsure, unknown)))]


def yearly_count_words(row: SwapRow) -> str:
    """That a swap's year rests on counts that were spread as one month's are."""
    known, figures = row.view.costed.uncertainty, row.view.costed.figures
    if known is None or row.known("swap_forecast"):
        return ""
    spread = known.spreads.get(SOLD, {}).get(figures.linked("swap", "benchmark", row.row))
    reaches = known.swaps.of(("swap", "saving_a_year"), row.row)
    if spread is None or spread.basis != Basis.MONTHS or all(r.node != SOLD for r in reaches):
        return ""
    return tr("its interval lets the whole year sell as far off as one month may")
