"""Spreads that a kitchen writes, beside tests and price lists of its own that say otherwise."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping
from datetime import timedelta
from statistics import fmean, stdev

from scipy.special import chdtr

from builder.costing.filled_rows import Rows
from builder.costing.price_moves import FEWEST_CHANGES, PriceMoves, price_spread
from builder.costing.spreads import YIELD, months_spread, weighed_spread
from builder.costing.wording import style_of
from builder.display.style import Style
from builder.engine.draws import Z_90, Basis, Spread, Spreads, quantile
from builder.engine.methods import method
from builder.language import Deferred, tr
from builder.problems import Place, Problem, Severity
from builder.quantities import Dimension
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut, PantryItem, Plate
from builder.records.pricing import CurrentPrice
from builder.records.written import Value, is_far, warning

# A stated spread is in doubt where chance alone would so seldom make what was weighed or listed
# of it, and it lies so many times apart. Common practice, no published source.
SELDOM, APART = 0.025, 2.0
# Portions whose mean lies nearer than this share to what is written are written truly enough.
_NEAR = 0.02
_LONG_GAP_DAYS = 360
# What is behind a yield before what is given or taken, and what counts then.
BEHIND = {
    Basis.TESTS: (Deferred("its {number} tests"), Deferred("the tests count")),
    Basis.POOLED: (
        Deferred("its {number} tests and like stages in this kitchen"),
        Deferred("they count"),
    ),
    Basis.LIKE: (Deferred("like stages in this kitchen"), Deferred("they count")),
}


@method(
    unit="1",
    source="chi-square test of one standard deviation, NIST/SEMATECH e-Handbook of Statistical "
    "Methods, 1.3.5.8 [from memory]",
    title="how seldom chance makes a spread so far from the stated one",
)
def chance_of_spread(found: float, stated: float, freedom: float) -> float:
    """Probability of a standard deviation as far from a stated one as that which was found.

    Formula: twice the smaller tail of chi-square at freedom x (found / stated) squared.

    Parameters: both standard deviations in one unit, the stated one above nothing; degrees of
    freedom of the one that was found.

    >>> round(chance_of_spread(1.5, 1.0, 10.0), 3), chance_of_spread(1.0, 1.0, 10.0) > 0.8
    (0.026, True)
    """
    below = float(chdtr(freedom, freedom * (found / stated) ** 2))
    return 2 * min(below, 1 - below)


def check_spreads(
    content: Content,
    rows: Rows,
    prices: Mapping[str, CurrentPrice],
    spreads: Spreads,
    reported: Collection[Place],
) -> Iterator[Problem]:
    """Warn of stated spreads that tests, weighed portions, months or lists contradict, of gaps
    and of lone portions.

    What is `reported` already is not doubted twice.
    """
    found = _all(content, rows, prices, spreads)
    yield from (problem for problem in found if problem.place not in reported)


def _all(
    content: Content,
    rows: Rows,
    prices: Mapping[str, CurrentPrice],
    spreads: Spreads,
) -> Iterator[Problem]:
    say, moves = style_of(content.kitchen), PriceMoves(content, prices)
    for owner in content.weighed:
        yield from _stages(owner, rows, spreads.get(YIELD, {}), say)
    items: list[Cut | PantryItem] = [*content.cuts.values(), *content.pantry.values()]
    for item in items:
        yield from _price(item, moves, say)
        yield from _gaps(content, item, moves, say)
    for plate in content.plates.values():
        yield from _portions(plate, say)
        yield from _portion_given(plate, say)
        yield from _count_given(plate, say)
    yield from _more_than_all(content)


def _contradicted(found: Spread, stated: float) -> bool:
    """Whether a spread, or a scale as a share, denies a stated reach of nine times in ten."""
    given = stated / Z_90
    return (
        is_far(found.scale, given, APART)
        and chance_of_spread(found.scale, given, found.freedom) < SELDOM
    )


def _reach(found: Spread) -> float:
    return quantile(0.95, found.freedom) * found.scale


def _stages(
    owner: Cut | Cook, rows: Rows, spreads: Mapping[int, Spread], say: Style
) -> Iterator[Problem]:
    for name, stage in stages_of(owner):
        found = spreads.get(rows.stages.get((owner.path, name), -1))
        stated = stage.give_or_take.loss if stage.give_or_take else None
        if found is None or stated is None or found.basis not in BEHIND:
            continue
        if _contradicted(found, stated.value):
            behind, count = BEHIND[found.basis]
            yield from warning(
                Value("cooks.give or take.loss", stated, owner, owner.path),
                tr(
                    "{name}: {stated} is given or taken, but {behind} leave {reach} either "
                    "way; {count}",
                    name=name,
                    stated=stated.text,
                    behind=tr(behind, number=say.count(found.count)),
                    reach=say.percent(_reach(found)),
                    count=count,
                ),
                tr("leave it out, or weigh again"),
            )


def _price(item: Cut | PantryItem, moves: PriceMoves, say: Style) -> Iterator[Problem]:
    stated = item.give_or_take.price if item.give_or_take else None
    changes = moves.changes(item.id)
    if stated is None or len(changes) < FEWEST_CHANGES:
        return
    scale = price_spread(changes, moves.days)
    listed = Spread(1.0, scale, Basis.LIST, float(len(changes)))
    if _contradicted(listed, stated.value):
        reach = say.percent(math.expm1(_reach(listed)), 0)
        yield from warning(
            Value(f"{item.folder}.give or take.price", stated, item, item.path),
            tr(
                "{stated} is given or taken, but {changes} changes of its price list "
                "lead to {reach} over the planning horizon; what is written counts",
                stated=stated.text,
                changes=say.count(len(changes)),
                reach=reach,
            ),
            tr("leave it out, so that the list counts"),
        )


def _gaps(
    content: Content, item: Cut | PantryItem, moves: PriceMoves, say: Style
) -> Iterator[Problem]:
    """A list that says nothing for a year or so, whose changes are used all the same."""
    changes = moves.changes(item.id)
    stated = item.give_or_take.price if item.give_or_take else None
    if stated is not None or len(changes) < FEWEST_CHANGES:
        return
    for change in changes:
        if change.days < _LONG_GAP_DAYS:
            continue
        before = change.listed - timedelta(days=change.days)
        row = next(
            row for row in content.prices if row.item == item.id and row.date.day == change.listed
        )
        yield Problem(
            row.date.place,
            tr(
                "{item}: no price between {before} and {listed}: what it did in between "
                "is not known, and its interval counts one change",
                item=item.title,
                before=say.date(before),
                listed=say.date(change.listed),
            ),
            tr("add prices in between, or write give or take: {price: ...} with what it may move"),
            Severity.WARNING,
            item.path,
            needs=(item.folder, "prices", "weights"),
        )


def _more_than_all(content: Content) -> Iterator[Problem]:
    """Work and portions of which as much is given or taken as there is: they may be nothing."""
    for cook in content.cooks.values():
        if cook.give_or_take:
            given = cook.give_or_take.hands_on
            yield from _may_be_nothing(cook, "hands on", cook.hands_on, given)
    for item in content.pantry.values():
        if item.give_or_take:
            given = item.give_or_take.hands_on
            yield from _may_be_nothing(item, "hands on", item.hands_on, given)
    for plate in content.plates.values():
        if own := plate.give_or_take:
            yield from _may_be_nothing(plate, "hands on", plate.hands_on, own.hands_on)
            yield from _may_be_nothing(plate, "portion", plate.portion, own.portion)


def _may_be_nothing(
    owner: Cook | PantryItem | Plate, key: str, written: Measure | None, given: Measure | None
) -> Iterator[Problem]:
    if written is None or given is None:
        return
    share = given.dimension is Dimension.RATIO
    if (given.value if share else given.value / written.value) < 1:
        return
    yield from warning(
        Value(
            f"{owner.folder}.give or take.{key}",
            given,
            owner,
            owner.path,
        ),
        tr(
            "{given} is given or taken of {key}: {written}, so it may be nothing",
            given=given.text,
            key=key,
            written=written.text,
        ),
        tr("write how far off it is 9 times in 10"),
    )


def _portions(plate: Plate, say: Style) -> Iterator[Problem]:
    weights = [portion.value for portion in plate.weighed_portions]
    if plate.portion is None or not weights:
        return
    n, written = len(weights), plate.portion.value
    if n == 1:
        message = tr(
            "{weighed_portions}: one weighed portion gives no spread",
            weighed_portions=plate.weighed_portions[0].text,
        )
        place = plate.weighed_portions[0].place
        hint, needs = tr("weigh two or more"), ("plates", "weights")
        yield Problem(place, message, hint, Severity.WARNING, plate.path, needs=needs)
        return
    mean = fmean(weights)
    reach = quantile(0.975, n - 1) * stdev(weights) / math.sqrt(n)
    if abs(mean - written) > max(reach, _NEAR * written):
        yield from warning(
            Value("plates.portion", plate.portion, plate, plate.path),
            tr(
                "{portion} is written, but {n} weighed portions weigh {mean} in the "
                "mean; costs rest on what is written",
                portion=plate.portion.text,
                n=say.count(n),
                mean=say.weight(mean),
            ),
            tr("write portion: {mean}, or serve less", mean=say.weight(mean))
            if mean > written
            else tr("write portion: {mean}, or serve more", mean=say.weight(mean)),
        )


def _portion_given(plate: Plate, say: Style) -> Iterator[Problem]:
    """What is given or taken of a portion, beside the portions that were weighed."""
    stated = plate.give_or_take.portion if plate.give_or_take else None
    if plate.portion is None or stated is None:
        return
    written = plate.portion.value
    found = weighed_spread(written, [portion.value for portion in plate.weighed_portions])
    share = stated.dimension is Dimension.RATIO
    if found and _contradicted(found, stated.value * (written if share else 1.0)):
        yield from warning(
            Value("plates.give or take.portion", stated, plate, plate.path),
            tr(
                "{stated} is given or taken, but {count} weighed portions leave {reach} "
                "either way; the weighed portions count",
                stated=stated.text,
                count=say.count(found.count),
                reach=say.weight(_reach(found)),
            ),
            tr("leave it out, or weigh more of them"),
        )


def _count_given(plate: Plate, say: Style) -> Iterator[Problem]:
    """What is given or taken of the plates sold, beside the months that were counted."""
    stated = plate.give_or_take.count if plate.give_or_take else None
    found = months_spread(1.0, plate)
    if stated and found and _contradicted(found, stated.value):
        yield from warning(
            Value("plates.give or take.count", stated, plate, plate.path),
            tr(
                "{stated} is given or taken, but {count} months leave {reach} either "
                "way; what is written counts",
                stated=stated.text,
                count=say.count(found.count),
                reach=say.percent(_reach(found), 0),
            ),
            tr("leave it out, so that the months count"),
        )
