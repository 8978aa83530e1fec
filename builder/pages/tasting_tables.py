"""The tables of a tasting: what each attribute shows, the panel, the answers themselves."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np

from builder.costing.decisions import main_study
from builder.costing.duration_words import study_words
from builder.costing.next_words import next_words
from builder.costing.tasting_grades import Beside, beside_benchmark
from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.costing.tasting_words import rank_sentence
from builder.display.words import listed
from builder.language import Deferred, tr, written
from builder.pages.components import Cell, Column, Definitions, Row, Section, Table, Term
from builder.pages.difference_charts import difference_intervals
from builder.pages.parts import part
from builder.pages.rank_charts import limit_words, rank_intervals
from builder.pages.tasting_charts import curve, score_dots
from builder.pages.tasting_pieces import (
    UNKNOWN,
    challengers,
    finding_cell,
    sample_cell,
    scale_words,
)
from builder.pages.values import capital
from builder.pages.view import View
from builder.reading.names import slug
from builder.tasting.panel_sentences import (
    anova_sentence,
    differences_sentence,
    repeats_sentence,
)
from builder.tasting.rank_verdicts import trend_sentence
from builder.tasting.wording import (
    chance_in_words,
    level_in_words,
    margin_in_words,
    tasters_in_words,
)


def attribute_part(view: View, result: TastingResult, found: AttributeResult) -> Section:
    """One attribute: pictures, the table, and what its tests support."""
    scored = found.attribute is not None
    table = _means_table(view, result, found) if scored else _ranks_table(view, result, found)
    return part(
        slug(found.name),
        found.name.capitalize(),
        score_dots(view, result, found),
        curve(view, result, found),
        difference_intervals(view, result, found),
        rank_intervals(result, found),
        table,
        Definitions(tuple(_findings(result, found))),
        about=_about(found)
        if scored
        else tr(
            "Each last place counts 1, so the highest came first. {limit}",
            limit=limit_words(result, found),
        ),
        pair=not scored and result.benchmark is None,
    )


def _about(found: AttributeResult) -> str:
    """How its points are made of the scale."""
    if found.attribute and found.attribute.best == "low":
        return tr(
            "Scale: {scale_words}, lowest is best: points are turned, so that 100 is best."
            " Compared within tasters.",
            scale_words=scale_words(found),
        )
    return tr(
        "Scale: {scale_words}. Compared within tasters, in points of 100.",
        scale_words=scale_words(found),
    )


def _without_label(sentence: str) -> str:
    """What follows a label and its colon, in whatever language; all of it where there is none.

    >>> _without_label("Next: cook 30 h."), _without_label("Ensuite : cuire 30 h.")
    ('cook 30 h.', 'cuire 30 h.')
    """
    label, _, rest = sentence.partition(": ")
    return rest or label


def _findings(result: TastingResult, found: AttributeResult) -> Iterator[Term]:
    """What each test of an attribute supports, in words."""
    names = [sample.words for sample in result.samples]
    if found.study is not None:
        yield Term(tr("Which duration"), study_words(result, found))
        if found is main_study(result):
            yield Term(tr("Worth cooking next"), capital(_without_label(next_words(result))))
    if found.trend is not None:
        trend = trend_sentence(found.trend, found.words, tr("cooking time"), result.alpha)
        yield Term(tr("Along the durations"), trend)
    if found.anova is not None:
        yield Term(tr("Means"), anova_sentence(found.anova, found.words, result.alpha))
    label = tr("Ranks") if found.ranks is not None else tr("All pairs of samples")
    yield Term(label, rank_sentence(result, found))
    if found.differences is not None:
        apart = differences_sentence(found.differences, names, found.words, result.alpha)
        yield Term(tr("Apart from the benchmark"), apart)
    for column in challengers(result):
        for line in _beside(result, found, column):
            yield Term(tr("{names} against the margin", names=names[column]), _margin_words(line))
    if found.repeats is not None:
        again = listed([names[column] for column in found.repeats.columns])
        words = repeats_sentence(found.repeats.anova, again, found.words, result.alpha)
        yield Term(tr("Served twice"), words)


def _beside(result: TastingResult, found: AttributeResult, column: int) -> list[Beside]:
    return [line for line in beside_benchmark(result, column) if line.attribute is found]


def _margin_words(line: Beside) -> str:
    """The verdict on no worse, and on both ways where that is shown as well."""
    if not line.both_ways:
        return line.verdict.sentence
    margin = margin_in_words(line.within.margin)
    chance = chance_in_words(line.within.p_value)
    return tr(
        "{sentence} It lies within {margin} points both ways ({chance}).",
        sentence=line.verdict.sentence,
        margin=margin,
        chance=chance,
    )


_OF_MEANS = Deferred(
    "as if every taster had scored every sample, what is missing worked out from the "
    "taster's other scores; so not the plain mean of those given"
)
_OF_RANKS = Deferred("1 for the last place; the first has the largest number")
_OF_SUMS = Deferred("of all tasters who ranked every sample, 1 for each last place")
_CHANCE = Deferred("of such a difference if there is none, all counted")
# Rank sums are rearranged within tasters as if all samples were alike, not only these two.
_CHANCE_OF_RANKS = Deferred("of such a difference if no two samples differ, all counted")


def _of_means(found: AttributeResult) -> str:
    """What a mean is of where somebody left a sample out; nothing where all were scored."""
    scored = found.table[~np.isnan(found.table).all(axis=1)]
    return tr(_OF_MEANS) if np.isnan(scored).any() else ""


def _means_table(view: View, result: TastingResult, found: AttributeResult) -> Table:
    risk = next((both.alpha for both in found.within.values()), result.alpha)
    bound = tr("one-sided bound at {level_in_words}", level_in_words=level_in_words(1 - risk))
    outside = tr(
        "chance of this if it lay outside the margin; up to {level_in_words} shows it",
        level_in_words=level_in_words(risk),
    )
    columns: tuple[Column, ...] = (
        Column("sample", tr("Sample")),
        Column("mean", tr("Mean"), numeric=True, about=_of_means(found)),
        Column("rank", tr("Mean rank"), numeric=True, about=tr(_OF_RANKS)),
    )
    if found.differences is not None:
        columns += (
            Column("difference", tr("Less the benchmark"), numeric=True),
            Column("chance", tr("Chance"), about=tr(_CHANCE)),
        )
    if found.no_worse:
        columns += (
            Column("bound", tr("At least"), numeric=True, about=bound),
            Column("most", tr("At most"), numeric=True, about=bound),
            Column("both", tr("Both ways"), about=outside),
            Column("grade", tr("What the tests support")),
        )
    rows = tuple(_mean_row(view, result, found, column) for column in range(len(result.samples)))
    return Table(
        f"means-{slug(found.name)}",
        tr(
            "{found} by sample, {tasters_in_words}",
            found=found.words.capitalize(),
            tasters_in_words=tasters_in_words(result.count),
        ),
        columns,
        rows,
    )


def _mean_row(view: View, result: TastingResult, found: AttributeResult, column: int) -> Row:
    cell = partial(
        finding_cell, view, result, attribute=found.name, about=result.samples[column].name
    )
    test = found.no_worse.get(column)
    enough = test is not None and test.tasters >= result.fewest
    lines = _beside(result, found, column)
    cells: tuple[Cell, ...] = (
        sample_cell(result, column),
        cell("estimate", "mean"),
        cell("estimate", "mean rank"),
    )
    if found.differences is not None:
        cells += (cell("estimate", "difference"), cell("adjusted_p_value", "difference"))
    if found.no_worse:
        cells += (
            *(
                (
                    cell("at_least", "no worse"),
                    cell("at_most", "no worse"),
                    cell("p_value", "within"),
                )
                if enough
                else (Cell(UNKNOWN),) * 3
            ),
            Cell(written(lines[0].standing) if lines else UNKNOWN),
        )
    return Row(cells)


def _ranks_table(view: View, result: TastingResult, found: AttributeResult) -> Table:
    """Where tasters put each sample, and how many put it above the benchmark."""
    columns: tuple[Column, ...] = (
        Column("sample", tr("Sample")),
        Column("sum", tr("Rank sum"), numeric=True, about=tr(_OF_SUMS)),
        Column("rank", tr("Mean rank"), numeric=True, about=tr(_OF_RANKS)),
    )
    if found.ranks is not None:
        columns += (
            Column("above", tr("Above the benchmark"), numeric=True, about=tr("tasters")),
            Column("alike", tr("Alike"), numeric=True, about=tr("tasters")),
            Column("below", tr("Below"), numeric=True, about=tr("tasters")),
            Column("chance", tr("Chance"), about=tr(_CHANCE_OF_RANKS)),
        )
    return Table(
        f"ranks-{slug(found.name)}",
        tr(
            "{found} by sample, {tasters_in_words}",
            found=found.words.capitalize(),
            tasters_in_words=tasters_in_words(result.count),
        ),
        columns,
        tuple(_rank_row(view, result, found, column) for column in range(len(result.samples))),
    )


def _rank_row(view: View, result: TastingResult, found: AttributeResult, column: int) -> Row:
    cell = partial(
        finding_cell, view, result, attribute=found.name, about=result.samples[column].name
    )
    cells = [sample_cell(result, column)]
    cells += [cell("estimate", test) for test in ("rank sum", "mean rank")]
    if found.ranks is not None:
        names = ("above", "alike", "below", "adjusted_p_value")
        cells += [cell(name, "ranks") for name in names]
    return Row(tuple(cells))
