"""Differences to the benchmark with their bounds."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from builder.costing.tasting_results import (
    AttributeResult,
    TastingResult,
    margin_of,
)
from builder.display.words import listed
from builder.language import tr
from builder.pages.components import Cell, Chart, Column, Row, Table, Value
from builder.pages.tasting_pieces import (
    UNKNOWN,
    finding_cell,
    points,
    sample_cell,
)
from builder.pages.view import View
from builder.reading.names import slug
from builder.tasting.comparisons import NoWorse
from builder.tasting.wording import (
    level_in_words,
    margin_in_words,
    tasters_in_words,
)


def difference_intervals(
    view: View, result: TastingResult, found: AttributeResult, only: Collection[int] | None = None
) -> Chart | None:
    """Challengers less the benchmark with their bounds, against the margin; `only` some of them."""
    margin = margin_of(result.tasting, found.attribute)
    tests = {
        c: t
        for c, t in found.no_worse.items()
        if t.lower is not None and t.mean is not None and (only is None or c in only)
    }
    if margin is None or not tests or result.benchmark is None:
        return None
    words = result.samples[result.benchmark].words
    enough = {column for column, test in tests.items() if test.tasters >= result.fewest}
    name = f"differences-{slug(found.name)}"
    columns = (
        Column("sample", tr("Sample")),
        Column("low", tr("At least"), numeric=True),
        Column("mid", tr("Mean"), numeric=True),
        Column("high", tr("At most"), numeric=True),
    )
    rows = tuple(
        Row(
            (
                sample_cell(result, column),
                *(
                    finding_cell(
                        view, result, name, "no worse", found.name, result.samples[column].name
                    )
                    if column in enough or name == "estimate"
                    else Cell(UNKNOWN)
                    for name in ("at_least", "estimate", "at_most")
                ),
            )
        )
        for column in tests
    )
    level = level_in_words(next(iter(tests.values())).confidence)
    marks: tuple[Mapping[str, Value], ...] = tuple(
        {
            "name": result.samples[column].words,
            "low": low / 100,
            "mid": (test.mean or 0.0) / 100,
            "high": high / 100,
            "limit": -margin / 100,
            "text": points(test.mean, signed=True),
        }
        for column, test in tests.items()
        for low, high in (_drawn_bounds(test, drawn=column in enough),)
    )
    bounds = tr(" with one-sided bounds at {level}", level=level) if enough else ""
    bare = [result.samples[column].words for column in tests if column not in enough]
    return Chart(
        name,
        "interval",
        tr(
            "{found} less that of {words}, against the {points} points allowed",
            found=found.name.capitalize(),
            words=words,
            points=margin_in_words(margin),
        ),
        tr(
            "{tasters_in_words}: differences to {words} in points of 100{bounds}; "
            "the line is at −{points}.{without_bounds}",
            tasters_in_words=tasters_in_words(max(t.tasters for t in tests.values())),
            words=words,
            bounds=bounds,
            points=margin_in_words(margin),
            without_bounds=_without_bounds(bare, result.fewest),
        ),
        marks,
        Table(
            f"{name}-rows",
            tr("{found} less that of {words}", found=found.name.capitalize(), words=words),
            columns,
            rows,
        ),
        units={"share": tr("difference to {words}, points of 100 (% of the scale)", words=words)},
    )


def _drawn_bounds(test: NoWorse, *, drawn: bool) -> tuple[float, float]:
    """Both ends of a bar [points of 100]; of the point alone where too few tasters scored."""
    mean = test.mean or 0.0
    return (test.lower or 0.0, test.upper or 0.0) if drawn else (mean, mean)


def _without_bounds(names: Sequence[str], fewest: int) -> str:
    if not names:
        return ""
    return tr(
        " No bounds of {names}: fewer than {fewest} tasters can't settle it.",
        names=listed(names),
        fewest=fewest,
    )
