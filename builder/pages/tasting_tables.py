"""The tables of a tasting: what each attribute shows, the panel, the answers themselves."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.decisions import main_study
from builder.costing.duration_words import next_words, study_words
from builder.costing.tasting_grades import Beside, beside_benchmark
from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.costing.tasting_words import rank_sentence
from builder.pages.components import Cell, Column, Definitions, Row, Section, Table, Term
from builder.pages.parts import part
from builder.pages.tasting_charts import curve, difference_intervals, score_dots
from builder.pages.tasting_pieces import (
    UNKNOWN,
    anchor,
    challengers,
    points_cell,
    sample_cell,
    scale_words,
)
from builder.reading.names import slug
from builder.tasting.panel_sentences import (
    anova_sentence,
    differences_sentence,
    repeats_sentence,
)
from builder.tasting.verdicts import trend_sentence
from builder.tasting.wording import (
    chance_in_words,
    level_in_words,
    listed,
    points_in_words,
    tasters_in_words,
)


def attribute_part(result: TastingResult, found: AttributeResult) -> Section:
    """One attribute: pictures, the table, and what its tests support."""
    return part(
        slug(found.name),
        found.name.capitalize(),
        score_dots(result, found),
        curve(result, found),
        difference_intervals(result, found),
        _means_table(result, found) if found.attribute else _ranks_table(result, found),
        Definitions(tuple(_findings(result, found))),
        about=f"Scale: {scale_words(found)}. Compared within tasters, in points of 100."
        if found.attribute
        else "Ranks within tasters.",
    )


def _findings(result: TastingResult, found: AttributeResult) -> Iterator[Term]:
    """What each test of an attribute supports, in words."""
    names = [sample.words for sample in result.samples]
    if found.study is not None:
        yield Term("Which duration", study_words(result, found))
        if found is main_study(result):
            following = next_words(result).removeprefix("Next: ")
            yield Term("Worth cooking next", following[:1].upper() + following[1:])
    if found.trend is not None:
        trend = trend_sentence(found.trend, found.name, "cooking time", result.alpha)
        yield Term("Along the durations", trend)
    if found.anova is not None:
        yield Term("Means", anova_sentence(found.anova, found.name, result.alpha))
    yield Term("Ranks", rank_sentence(result, found))
    if found.differences is not None:
        apart = differences_sentence(found.differences, names, found.name, result.alpha)
        yield Term("Apart from the benchmark", apart)
    for column in challengers(result):
        for line in _beside(result, found, column):
            yield Term(f"{names[column]} against the margin", _margin_words(line))
    if found.repeats is not None:
        again = listed([names[column] for column in found.repeats.columns])
        words = repeats_sentence(found.repeats.anova, again, found.name, result.alpha)
        yield Term("Served twice", words)


def _beside(result: TastingResult, found: AttributeResult, column: int) -> list[Beside]:
    return [line for line in beside_benchmark(result, column) if line.attribute is found]


def _margin_words(line: Beside) -> str:
    """The verdict on no worse, and on both ways where that is shown as well."""
    if not line.both_ways:
        return line.verdict.sentence
    margin = points_in_words(line.within.margin).removesuffix(".0")
    chance = chance_in_words(line.within.p_value)
    return f"{line.verdict.sentence} It lies within {margin} points both ways ({chance})."


_CHANCE = "of such a difference if there is none, all counted"


def _means_table(result: TastingResult, found: AttributeResult) -> Table:
    risk = next((both.alpha for both in found.within.values()), result.alpha)
    bound = f"one-sided bound at {level_in_words(1 - risk)}"
    outside = f"chance of this if it lay outside the margin; up to {level_in_words(risk)} shows it"
    columns: tuple[Column, ...] = (
        Column("sample", "Sample"),
        Column("mean", "Mean", numeric=True),
        Column("rank", "Mean rank", numeric=True, about="1 for the lowest"),
    )
    if found.differences is not None:
        columns += (
            Column("difference", "Less the benchmark", numeric=True),
            Column("chance", "Chance", about=_CHANCE),
        )
    if found.no_worse:
        columns += (
            Column("bound", "At least", numeric=True, about=bound),
            Column("most", "At most", numeric=True, about=bound),
            Column("both", "Both ways", about=outside),
            Column("grade", "What the tests support"),
        )
    rows = tuple(_mean_row(result, found, column) for column in range(len(result.samples)))
    return Table(
        f"means-{slug(found.name)}",
        f"{found.name.capitalize()} by sample, {tasters_in_words(result.count)}",
        columns,
        rows,
    )


def _mean_row(result: TastingResult, found: AttributeResult, column: int) -> Row:
    mean = found.anova.adjusted_means[column] if found.anova else None
    rank = found.friedman.mean_ranks[column]
    test = found.no_worse.get(column)
    test = test if test and test.tasters >= result.fewest else None
    difference = next(
        (d for d in (found.differences.differences if found.differences else ())
         if d.sample == column), None,
    )  # fmt: skip
    lines = _beside(result, found, column)
    where = {name: f"#{anchor(found.name, name)}" for name in ("means", "ranks", "differences")}
    sample = result.samples[column].name
    bound_at = f"#{anchor(found.name, 'no-worse', sample)}"
    within_at = f"#{anchor(found.name, 'within', sample)}"
    cells: tuple[Cell, ...] = (
        sample_cell(result, column),
        points_cell(mean, where["means"]),
        Cell(UNKNOWN if rank is None else f"{rank:.1f}", rank, where["ranks"]),
    )
    if found.differences is not None:
        cells += (
            points_cell(difference.mean if difference else None, where["differences"], True),
            chance_cell(difference.adjusted_p_value if difference else None),
        )
    if found.no_worse:
        cells += (
            points_cell(test.lower if test else None, bound_at, True),
            points_cell(test.upper if test else None, bound_at, True),
            chance_cell(lines[0].within.p_value if lines and test else None, within_at),
            Cell(str(lines[0].standing) if lines else UNKNOWN),
        )
    return Row(cells)


def _ranks_table(result: TastingResult, found: AttributeResult) -> Table:
    """Where tasters put each sample, and how many put it above the benchmark."""
    columns: tuple[Column, ...] = (
        Column("sample", "Sample"),
        Column("rank", "Mean rank", numeric=True, about="1 for the lowest"),
    )
    if found.ranks is not None:
        columns += (
            Column("above", "Above the benchmark", numeric=True, about="tasters"),
            Column("alike", "Alike", numeric=True, about="tasters"),
            Column("below", "Below", numeric=True, about="tasters"),
            Column("chance", "Chance", about=_CHANCE),
        )
    return Table(
        f"ranks-{slug(found.name)}",
        f"{found.name.capitalize()} by sample, {tasters_in_words(result.count)}",
        columns,
        tuple(_rank_row(result, found, column) for column in range(len(result.samples))),
    )


def _rank_row(result: TastingResult, found: AttributeResult, column: int) -> Row:
    rank, href = found.friedman.mean_ranks[column], f"#{anchor(found.name, 'ranks')}"
    cells = [
        sample_cell(result, column),
        Cell(UNKNOWN if rank is None else f"{rank:.1f}", rank, href),
    ]
    if found.ranks is not None:
        line = next((c for c in found.ranks.comparisons if c.sample == column), None)
        counts = (line.above, line.alike, line.below) if line else (None,) * 3
        cells += [Cell(UNKNOWN if n is None else str(n), n) for n in counts]
        cells.append(chance_cell(line.adjusted_p_value if line else None))
    return Row(tuple(cells))


def chance_cell(p_value: float | None, href: str = "") -> Cell:
    """A chance in words with the way to its trace, or a dash."""
    if p_value is None:
        return Cell(UNKNOWN)
    return Cell(chance_in_words(p_value), p_value, href)
