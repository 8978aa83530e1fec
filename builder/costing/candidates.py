"""Candidates as rows of figures: what is published of them, and how far each input may lie off."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from builder.cooking.pieces import core_times
from builder.costing.entries import entry, noted
from builder.costing.filled_rows import Rows
from builder.costing.heat import Heat
from builder.costing.plans import heating_of, nearly_there_c
from builder.costing.price_moves import PriceMoves
from builder.costing.tasting_results import TastingAnalysis
from builder.costing.trial_files import cook_record
from builder.costing.trials import Published, Trial, long_enough, trials_of
from builder.engine.book import Book, Entry, Identity, Origin
from builder.engine.draws import Basis, Spread
from builder.engine.figures import Figures
from builder.engine.model import Node
from builder.language import labelled, tr
from builder.money.candidates import CANDIDATE
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.listed import TRY_NEXT
from builder.records.pricing import CurrentPrice

COOK_YIELD: Node = ("candidate", "published_cook_yield")
TRIM: Node = ("candidate", "stand_in_trim")
LISTED_PRICE: Node = ("candidate", "listed_price")
# A yield is drawn down to a tenth of its plain value.
_LEAST_YIELD = 0.1


@dataclass(frozen=True, slots=True)
class Candidates:
    """The trials of a kitchen, with the row of figures of each by the id of its cut."""

    trials: tuple[Trial, ...] = ()
    rows: Mapping[str, int] = field(default_factory=dict)


def add_candidates(
    book: Book,
    content: Content,
    rows: Rows,
    prices: Mapping[str, CurrentPrice],
    analyses: Mapping[str, TastingAnalysis],
    heat: Heat,
) -> Candidates:
    """Add a row for every candidate."""
    found, numbers = [], {}
    for planned in trials_of(content, analyses, heat):
        core_h = _core_hours(planned)
        trial = replace(planned, hours=long_enough(planned.hours, core_h))
        numbers[trial.cut.id] = book.add(
            CANDIDATE,
            _links(rows, trial),
            _values(trial, prices.get(trial.cut.id), core_h),
            Identity(TRY_NEXT, trial.cut.id, trial.cut.title),
        )
        found.append(trial)
    return Candidates(tuple(found), numbers)


def _core_hours(trial: Trial) -> float:
    """Hours until the core is near the bath, at the slow end; NaN where it is not modelled."""
    cook = cook_record(trial)
    heating = heating_of(cook) if cook else None
    if cook is None or heating is None:
        return math.nan
    times = core_times(heating, nearly_there_c(cook, heating))
    return times.high / 60 if times else math.nan


def _links(rows: Rows, trial: Trial) -> dict[str, int]:
    stages = [name for name, _ in stages_of(trial.cut)] if trial.has_file else []
    last = rows.stages[trial.cut.path, stages[-1]] if stages else -1
    return {
        "cut": rows.cuts[trial.cut.id] if trial.has_file else -1,
        "trimmed": last,
        "like": rows.cooks[trial.like.id] if trial.like else -1,
        "finish": rows.stages.get((trial.like.path, "finish"), -1) if trial.like else -1,
        "benchmark": rows.plates[trial.benchmark.id],
    }


def _values(trial: Trial, price: CurrentPrice | None, core_h: float) -> dict[str, Entry | None]:
    candidate, published, trim = trial.cut.candidate, trial.published, trial.trim
    known = not math.isnan(core_h)
    return {
        "listed_price": entry(price.price) if price and not trial.has_file else None,
        "stand_in_trim": noted(trim.mean, None, trim_words(trial)) if trim else None,
        "published_cook_yield": noted(published.value, published.place, published_words(published))
        if published
        else None,
        "trial_hours": noted(trial.middle, None, tr("the middle one of the durations to be tried")),
        "thickness": entry(candidate.thickness) if candidate else None,
        "time_to_core": Entry(core_h, Origin()) if known else None,
    }


def trim_words(trial: Trial) -> str:
    """What stands in for a trim that nobody weighed."""
    count = trial.trim.count if trial.trim else 0
    return tr(
        "mean of what trimming leaves of the kitchen's {count} other {species} cuts",
        count=count,
        species=trial.cut.species,
    )


def published_words(published: Published) -> str:
    """A published yield with its source and how many samples are behind it."""
    n = f" (n = {published.samples})" if published.samples else ""
    return (
        labelled(published.words, f"{published.source}{n}") if published.table else published.words
    )


def candidate_spreads(
    content: Content,
    figures: Figures,
    candidates: Candidates,
    prices: Mapping[str, CurrentPrice],
) -> dict[Node, dict[int, Spread]]:
    """How far the inputs of candidates alone may lie off; their cuts' own are with the cuts."""
    found: dict[Node, dict[int, Spread]] = defaultdict(dict)
    moves = PriceMoves(content, prices) if candidates.trials else None
    for trial in candidates.trials:
        row = candidates.rows[trial.cut.id]
        for node, spread in _spreads(trial):
            found[node][row] = spread
        price = figures.value(*LISTED_PRICE, row)
        if moves and (move := moves.spread(trial.cut.id, price)):
            found[LISTED_PRICE][row] = move
    return dict(found)


def _spreads(trial: Trial) -> Iterator[tuple[Node, Spread]]:
    """Of published yields the samples' own spread; of a stand-in trim that of one more cut."""
    published, trim = trial.published, trial.trim
    if published and published.deviation > 0:
        yield (
            COOK_YIELD,
            _yield(published.value, published.deviation, Basis.PUBLISHED, published.samples),
        )
    if trim and trim.deviation > 0:
        one_more = trim.deviation * math.sqrt(1 + 1 / trim.count)
        yield TRIM, _yield(trim.mean, one_more, Basis.LIKE_CUTS, trim.count)


def _yield(mean: float, deviation: float, basis: Basis, count: int) -> Spread:
    freedom, low = max(count - 1.0, 1.0), mean * _LEAST_YIELD
    return Spread(mean, deviation, basis, freedom, low=low, high=1.0, count=count)
