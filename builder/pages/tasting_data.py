"""The tastings as open data: what each supports, and every answer under its private code."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from builder.costing.duration_words import unlike_words
from builder.costing.findings import BESIDE, Finding
from builder.costing.tasting_grades import Beside, beside_benchmark, few_words
from builder.costing.tasting_results import TastingResult
from builder.engine.methods import METHODS
from builder.language import Deferred, clauses
from builder.pages.marks import on_a_page
from builder.pages.resource import Field, Record, Resource, Texts
from builder.pages.tasting_pieces import challengers, session_is_over
from builder.pages.tastings import short_verdict
from builder.pages.view import View
from builder.tasting.findings import FINDING


def _tastings(view: View) -> Iterator[tuple[int, Texts]]:
    for row, result in enumerate(view.costed.tastings.values()):
        tasting = result.tasting
        yield (
            row,
            (
                tasting.id,
                tasting.title,
                str(tasting.test),
                tasting.date.day.isoformat() if tasting.date else None,
                "yes" if result.held else "no",
                str(result.count),
                str(tasting.benchmark) if tasting.benchmark else None,
                tasting.draws_from if session_is_over(view, result) else None,
                on_a_page(short_verdict(result), view.style),
            ),
        )


def _answers(view: View) -> Iterator[tuple[int, Texts]]:
    found = (
        texts
        for result in view.costed.tastings.values()
        for texts in (*_marks(result), *_choices(result))
    )
    yield from enumerate(found)


def _marks(result: TastingResult) -> Iterator[Texts]:
    columns = {sample.name: column for column, sample in enumerate(result.samples)}
    lines = {taster: line for line, taster in enumerate(result.tasters)}
    tables = {found.name: found.table for found in result.attributes if found.attribute}
    for mark in result.ballots.marks:
        sample = result.samples[columns[mark.sample]]
        table = tables.get(mark.attribute)
        value = np.nan if table is None else table[lines[mark.taster], columns[mark.sample]]
        yield (
            f"{result.tasting.id}/{mark.taster}/{mark.sample}/{mark.attribute}",
            result.tasting.id,
            mark.taster,
            mark.sample,
            sample.cook.id if sample.cook else None,
            None if sample.hours is None else repr(sample.hours),
            mark.attribute,
            mark.text,
            None if np.isnan(value) else repr(float(value)),
        )


def _choices(result: TastingResult) -> Iterator[Texts]:
    two_sided = result.choice is not None and result.choice.protocol.two_sided
    words = ("first", "second") if two_sided else ("correct", "wrong")
    for choice in result.ballots.choices:
        key = f"{result.tasting.id}/{choice.taster}"
        counted = words[0] if choice.hit else words[1]
        yield (key, result.tasting.id, choice.taster, None, None, None, counted, choice.text, None)


def _comparisons(view: View) -> Iterator[tuple[int, Texts]]:
    found = (
        (result, column, line)
        for result in view.costed.tastings.values()
        for column in challengers(result)
        for line in beside_benchmark(result, column)
    )
    for row, (result, column, line) in enumerate(found):
        yield row, _comparison(result, column, line)


def _comparison(result: TastingResult, column: int, line: Beside) -> Texts:
    sample, name = result.samples[column], line.attribute.name
    test, within = line.attribute.no_worse[column], line.within
    apart = line.attribute.differences
    chances = (
        d.adjusted_p_value for d in (apart.differences if apart else ()) if d.sample == column
    )
    return (
        f"{result.tasting.id}/{sample.name}/{name}",
        result.tasting.id,
        sample.name,
        name,
        str(test.tasters),
        *map(_number, (test.mean, test.spread, test.lower, test.upper, test.margin)),
        *map(_number, (next(chances, None), test.p_value, within.p_value)),
        str(line.standing),
        _yes(test.tasters >= result.fewest),
    )


def _findings(view: View) -> Iterator[tuple[int, Texts]]:
    for row, found in enumerate(view.costed.findings.rows):
        tasting, *parts = filter(None, found.key)
        about = found.about
        texts = (about.attribute, about.sample, about.against, about.taster, found.unit)
        method = METHODS[found.method].title
        said = (text or None for text in texts)
        enough = _enough(view.costed.tastings[tasting], found)
        yield row, ("/".join((tasting, *parts)), tasting, found.test, method, *said, enough)


def _enough(result: TastingResult, found: Finding) -> str | None:
    """Whether a claim beside the benchmark may rest on a test; none where it is about no such."""
    tasters = found.values.get("tasters")
    if found.test not in BESIDE or tasters is None:
        return None
    return _yes(tasters.value >= result.fewest)


def _yes(answer: bool) -> str:
    return "yes" if answer else "no"


def _number(value: float | None) -> str | None:
    return None if value is None else repr(value)


_ENOUGH = Deferred("yes, or no where so few tasters can't settle it, even if all agree")


def _tasting_doubt(view: View, row: Record) -> str:
    result = view.costed.tastings[str(row["id"])]
    beside = result.choice is None and result.benchmark is not None
    few = beside and result.count < result.fewest
    return clauses((unlike_words(result), few_words(result) if few else "")) if result.held else ""


TASTING_RESOURCES: tuple[Resource, ...] = (
    Resource(
        "tastings",
        Deferred("Tastings and what they support"),
        "",
        (
            Field("id", "Name of the tasting's file"),
            Field("name", "What it is called"),
            Field("test", "Kind of test"),
            Field("date", "Day on which it was held, or will be", "date"),
            Field("held", "yes, or no where it is planned"),
            Field("tasters", "Tasters who answered; planned: who are asked", "number"),
            Field("benchmark", "Sample that the others stand beside"),
            Field(
                "seed",
                "Word that codes and orders are drawn from, once the session is over",
                groups=("personal codes",),
            ),
            Field("verdict", "What the tasting supports, in words", said=True),
        ),
        _tastings,
        groups=("tasting answers",),
        doubt=_tasting_doubt,
    ),
    Resource(
        "scores",
        Deferred("Answers of tasters, under private codes"),
        "",
        (
            Field("id", "Tasting, taster, sample and attribute"),
            Field("tasting", "Tasting in which it was given", refers="tastings"),
            Field("taster", "Private code of the taster"),
            Field("sample", "Name of the sample; none where one of several cups was chosen"),
            Field("cook", "Cook that it was made by", refers="cooks"),
            Field("hours", "Time of that cook [h]", "number"),
            Field("attribute", "What was judged; in a choice, what the answer counts as"),
            Field("answer", "As it was written"),
            Field("points", "Score in points of 100 by its ballot's scale", "number"),
        ),
        _answers,
        groups=("tasting answers",),
    ),
    Resource(
        "comparisons",
        Deferred("Samples beside the benchmark of their tasting, attribute by attribute"),
        "",
        (
            Field("id", "Tasting, sample and attribute"),
            Field("tasting", "Tasting in which they were compared", refers="tastings"),
            Field("sample", "Name of the sample"),
            Field("attribute", "What was scored"),
            Field("tasters", "Tasters who scored both", "number"),
            Field("mean", "Mean of sample less benchmark [points of 100]", "number"),
            Field("spread", "Standard deviation of that difference [points of 100]", "number"),
            Field("at_least", "One-sided bound from below [points of 100]", "number"),
            Field("at_most", "One-sided bound from above [points of 100]", "number"),
            Field("margin", "Margin stated beforehand [points of 100]", "number"),
            Field("p_apart", "Chance of such a difference if none, all counted", "number"),
            Field("p_no_worse", "Chance of this if it were worse by the margin", "number"),
            Field("p_both_ways", "Chance of this if it lay outside the margin", "number"),
            Field("standing", "What the tests support, in words"),
            Field("tasters_enough", _ENOUGH),
        ),
        _comparisons,
        groups=("tasting answers",),
    ),
    Resource(
        "findings",
        Deferred("Statistical tests of tastings, one a row, and estimates with their limits"),
        FINDING.name,
        (
            Field("id", "Tasting, attribute, test, and what or whom it is about"),
            Field("tasting", "Tasting that was tested", refers="tastings"),
            Field("test", "What is asked"),
            Field("method", "Method by which it is answered"),
            Field("attribute", "What was scored, ranked or judged; none in a choice"),
            Field("sample", "Name of the sample that it is about, if it is about one"),
            Field("against", "Name of the sample that it stands beside"),
            Field("taster", "Private code of the taster that it is about"),
            Field("unit", "What estimate, limits and bounds are counted in; none: a number"),
            Field("tasters_enough", f"{_ENOUGH!s}; none where no benchmark is meant"),
        ),
        _findings,
        groups=("tasting answers",),
    ),
)
