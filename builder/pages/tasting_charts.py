"""The pictures of tastings: dots by taster, texture bars, the curve, the share who can tell."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from builder.costing.duration_words import study_words
from builder.costing.findings import RIGHT
from builder.costing.tasting_results import (
    AttributeResult,
    ChoiceResult,
    RightResult,
    TastingResult,
    margin_of,
)
from builder.language import Deferred, labelled, tr
from builder.pages.components import Cell, Chart, Column, Row, Table, Value
from builder.pages.tasting_pieces import (
    UNKNOWN,
    choice_cell,
    finding_cell,
    points,
    sample_cell,
    share_cells,
    share_title,
)
from builder.pages.view import View
from builder.problems import Place
from builder.reading.names import slug
from builder.tasting.durations import DurationCurve, Shape, near_best_window
from builder.tasting.panel_sentences import right_sentence
from builder.tasting.verdicts import share_sentence
from builder.tasting.wording import (
    hours_about,
    hours_in_words,
    hours_step,
    percent_in_words,
    tasters_in_words,
)

Rows = Iterator[Mapping[str, Value]]
HOURS = Deferred("cooking time, h")


def score_dots(view: View, result: TastingResult, found: AttributeResult) -> Chart | None:
    """Each taster's score over duration, the benchmark's band behind."""
    if not result.series or found.attribute is None:
        return None
    name, by_taster = f"dots-{slug(found.name)}", view.grants("personal codes")
    dots = _dots(result, found) if by_taster else ()
    return Chart(
        name,
        "score-dots",
        tr("{found} by taster over cooking time", found=found.words.capitalize())
        if by_taster
        else tr("{found} over cooking time", found=found.words.capitalize()),
        _dots_summary(result, found),
        (*_band(result, found), *dots, *_means(result, found)),
        _dots_table(view, result, found, f"{name}-rows") if by_taster else None,
        units={"duration": tr(HOURS), "score": tr("{found}, points of 100", found=found.words)},
    )


def _dots_summary(result: TastingResult, found: AttributeResult) -> str:
    means = found.anova.adjusted_means if found.anova else ()
    parts = [f"{result.samples[c].words} {points(means[c])}" for c in range(len(means))]
    return tr(
        "{tasters_in_words}, mean points of 100: {parts}.",
        tasters_in_words=tasters_in_words(result.count),
        parts=", ".join(parts),
    )


def _band(result: TastingResult, found: AttributeResult) -> Rows:
    benchmark = result.benchmark
    mean = found.anova.adjusted_means[benchmark] if found.anova and benchmark is not None else None
    if mean is None or benchmark is None:
        return
    words = result.samples[benchmark].words
    margin = margin_of(result.tasting, found.attribute)
    if margin is not None:
        low, high = mean - margin, mean + margin
        text = tr("{words} {points}, within the margin", words=words, points=points(mean))
    else:
        column = found.table[:, benchmark]
        low, high = map(float, np.nanpercentile(column, [25, 75]))
        text = tr("{words}, middle half of tasters", words=words)
    yield {"role": "band", "low": max(low, 0.0), "high": min(high, 100.0), "text": text}


def _dots(result: TastingResult, found: AttributeResult) -> Rows:
    for row, taster in enumerate(result.tasters):
        for column in result.series:
            value = float(found.table[row, column])
            if not np.isnan(value):
                hours = result.samples[column].hours
                yield {"role": "dot", "duration": hours, "score": value, "taster": taster}


def _means(result: TastingResult, found: AttributeResult) -> Rows:
    for column in result.series:
        mean = found.anova.adjusted_means[column] if found.anova else None
        if mean is not None:
            yield {"role": "mean", "duration": result.samples[column].hours, "score": mean}


def _dots_table(view: View, result: TastingResult, found: AttributeResult, table_id: str) -> Table:
    columns = (
        Column("taster", tr("Taster")),
        *(Column(s.name, s.words, numeric=True) for s in result.samples),
    )
    places = {
        (mark.taster, mark.sample): mark.place
        for mark in result.ballots.marks
        if mark.attribute == found.name
    }
    rows = tuple(
        Row(
            (
                Cell(taster),
                *(
                    _point(view, value, places.get((taster, sample.name)))
                    for value, sample in zip(line.tolist(), result.samples, strict=True)
                ),
            )
        )
        for taster, line in zip(result.tasters, found.table, strict=True)
    )
    return Table(
        table_id, tr("{found}, points of 100", found=found.words.capitalize()), columns, rows
    )


def _point(view: View, value: float, place: Place | None) -> Cell:
    """One answer in points of 100, with the way to the line where it was written."""
    if np.isnan(value) or place is None:
        return Cell(UNKNOWN)
    return Cell(points(value), value, view.where.line_href(place.file, place.line))


# The curve


def curve(view: View, result: TastingResult, found: AttributeResult) -> Chart | None:
    """The fitted curve with its band, no further than what was tried."""
    fitted = found.study.curve if found.study else None
    if fitted is None or found.study is None:
        return None
    name = f"curve-{slug(found.name)}"
    columns = (
        Column("hours", tr("Cooking time"), numeric=True),
        Column("mean", tr("Curve"), numeric=True),
        Column("low", tr("Low"), numeric=True),
        Column("high", tr("High"), numeric=True),
    )
    table = Table(
        f"{name}-rows",
        tr("Curve of {found}, points of 100", found=found.words),
        columns,
        tuple(_curve_row(view, result, found, column) for column in result.series),
    )
    return Chart(
        name,
        "duration-curve",
        tr("{found} over cooking time, as far as it was tried", found=found.words.capitalize()),
        study_words(result, found),
        tuple(_curve_rows(result, found, fitted)),
        table,
        units={"duration": tr(HOURS), "score": tr("{found}, points of 100", found=found.words)},
    )


def _curve_row(view: View, result: TastingResult, found: AttributeResult, column: int) -> Row:
    sample = result.samples[column]
    time = sample.cook.for_ if sample.cook else None
    href = view.where.line_href(time.place.file, time.place.line) if time else ""
    values = (
        finding_cell(view, result, name, "curve", found.name, sample.name)
        for name in ("estimate", "lower", "upper")
    )
    return Row((Cell(hours_in_words(sample.hours or 0.0), sample.hours, href), *values))


def _curve_rows(result: TastingResult, found: AttributeResult, fitted: DurationCurve) -> Rows:
    yield from _windows(result, found, fitted)
    for point in fitted.band():
        yield {
            "role": "curve",
            "duration": point.hours,
            "low": point.lower,
            "mid": point.mean,
            "high": point.upper,
        }
    for row in _means(result, found):
        yield {**row, "role": "tried"}
    if fitted.shape is Shape.PEAK and fitted.best is not None and fitted.best_inside:
        yield {
            "role": "best",
            "duration": fitted.best,
            "score": fitted.at(fitted.best).mean,
            "text": tr("best near {hours_in_words}", hours_in_words=_near(result, fitted.best)),
        }


def _near(result: TastingResult, hours: float) -> str:
    """Hours between those tried, as the sentence beside the picture says them."""
    tried = [result.samples[column].hours or 0.0 for column in result.series]
    return hours_about(hours, hours_step(tried))


def _windows(result: TastingResult, found: AttributeResult, fitted: DurationCurve) -> Rows:
    """Where texture is right; without such an attribute, where the curve is near its best."""
    for right in result.rights:
        window = right.window
        if window is not None and window.exists:
            start = window.tried[0] if window.start.hours is None else window.start.hours
            end = window.tried[1] if window.end.hours is None else window.end.hours
            yield {
                "role": "window",
                "start": start,
                "end": end,
                "text": tr("{right} right", right=right.name),
            }
            return
    margin = margin_of(result.tasting, found.attribute)
    near = near_best_window(fitted, margin) if margin else None
    if near is not None:
        text = tr("within the margin of the best")
        yield {"role": "window", "start": near.start, "end": near.end, "text": text}


# Texture


def right_bars(
    view: View, result: TastingResult, found: RightResult, only: Collection[int] | None = None
) -> Chart:
    """Shares below, at and above just right, a bar for each sample, or for `only` some of them."""
    name = f"right-{slug(found.name)}"
    shown = [c for c in _order(result) if only is None or c in {*only, result.benchmark}]
    return Chart(
        name,
        "right-bars",
        tr("How many find {found} right", found=found.name),
        " ".join(
            labelled(result.samples[shares.sample].words, right_sentence(shares, *found.ends))
            for shares in found.shares
            if shares.sample in shown
        ),
        tuple(_bar_rows(result, found, shown)),
        _right_table(view, result, found, f"{name}-rows"),
        units={"share": tr("share of tasters")},
    )


def _order(result: TastingResult) -> list[int]:
    """The benchmark first, then by rising duration, then the rest."""
    first = [result.benchmark] if result.benchmark is not None else []
    rest = [c for c in range(len(result.samples)) if c not in {*first, *result.series}]
    return [*first, *result.series, *rest]


def _bar_rows(result: TastingResult, found: RightResult, shown: Sequence[int]) -> Rows:
    low, high = found.ends
    for order, column in enumerate(shown):
        shares = found.shares[column]
        for side, answer, part in (
            ("below", low, shares.below),
            ("right", "right", shares.right),
            ("above", high, shares.above),
        ):
            yield {
                "sample": result.samples[column].words,
                "order": order,
                "side": side,
                "answer": answer,
                "share": part.share or 0.0,
                "text": tr("{count} of {answers}", count=part.count, answers=shares.answers),
            }


def _right_table(view: View, result: TastingResult, found: RightResult, table_id: str) -> Table:
    low, high = found.ends
    columns = (
        Column("sample", tr("Sample")),
        Column("tasters", tr("Tasters"), numeric=True),
        Column("below", low, numeric=True),
        Column("right", tr("right"), numeric=True),
        Column("above", high, numeric=True),
        Column(
            "limits", tr("Share that found it right"), numeric=True, about=tr("with exact limits")
        ),
    )
    rows = tuple(_right_row(view, result, found, column) for column in _order(result))
    return Table(table_id, tr("{found}: answers", found=found.name.capitalize()), columns, rows)


def _right_row(view: View, result: TastingResult, found: RightResult, column: int) -> Row:
    right = found.shares[column].right
    limits = UNKNOWN
    if right.share is not None and right.lower is not None and right.upper is not None:
        low, high = percent_in_words(right.lower), percent_in_words(right.upper)
        limits = tr(
            "{percent_in_words} ({low} to {high})",
            percent_in_words=percent_in_words(right.share),
            low=low,
            high=high,
        )
    cell = partial(
        finding_cell, view, result, attribute=found.name, about=result.samples[column].name
    )
    return Row(
        (
            sample_cell(result, column),
            cell("tasters", RIGHT),
            *(cell("answers", side) for side in (found.ends[0], RIGHT, found.ends[1])),
            replace(cell("estimate", RIGHT), text=limits),
        )
    )


# Intervals


def share_interval(view: View, result: TastingResult, choice: ChoiceResult) -> Chart | None:
    """The share who can tell with its limits, against the kitchen's own limit.

    None where fewer are correct than guessing brings, which shows nothing of who can tell.
    """
    if choice.share.below_chance:
        return None
    title, limit = share_title(result, choice), result.can_tell
    cells = share_cells(view, result, choice)
    low, mid, high = (float(cell.sort or 0.0) for cell in cells)
    names = result.words_of(choice.first), result.words_of(choice.second)
    columns = (
        Column("what", tr("What")),
        Column("low", tr("Low"), numeric=True),
        Column("mid", tr("Estimate"), numeric=True),
        Column("high", tr("High"), numeric=True),
        Column("limit", tr("The kitchen's limit"), numeric=True),
    )
    matters = choice_cell(view, result, choice, "limit", "share")
    row = Row((Cell(title), *cells, replace(matters, text=percent_in_words(limit))))
    two_sided = choice.protocol.two_sided
    return Chart(
        "share",
        "interval",
        tr(
            "{title}, against the {percent_in_words} that matter",
            title=title,
            percent_in_words=percent_in_words(limit),
        ),
        share_sentence(choice.share, choice.protocol, names),
        (
            {
                "name": tr("lead") if two_sided else tr("who can tell"),
                "low": low,
                "mid": mid,
                "high": high,
                "limit": limit,
                "text": percent_in_words(mid),
            },
        ),
        Table("share-rows", title, columns, (row,)),
        units={
            "share": tr("lead, share of choices")
            if two_sided
            else tr("share of people who can tell")
        },
    )
