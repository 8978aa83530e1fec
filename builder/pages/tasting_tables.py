"""The tables of a tasting: what each attribute shows, the panel, the answers themselves."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.tasting_grades import Beside, beside_benchmark
from builder.costing.tasting_results import AttributeResult, TastingResult
from builder.costing.tasting_words import rank_sentence
from builder.pages.components import Cell, Column, Definitions, Row, Section, Table, Term
from builder.pages.parts import paragraph, part
from builder.pages.tasting_charts import curve, difference_intervals, score_dots
from builder.pages.tasting_pieces import (
    UNKNOWN,
    anchor,
    challengers,
    points_cell,
    sample_cell,
    scale_words,
)
from builder.pages.view import View
from builder.reading.names import slug
from builder.tasting.agreement import TasterAgreement
from builder.tasting.panel_sentences import (
    anova_sentence,
    concordance_sentence,
    differences_sentence,
    next_cook_sentence,
    repeats_sentence,
    standing_sentence,
    study_sentence,
)
from builder.tasting.scales import ScaleUse
from builder.tasting.verdicts import trend_sentence
from builder.tasting.wording import chance_in_words, listed, points_in_words


def attribute_part(result: TastingResult, found: AttributeResult) -> Section:
    """One attribute: pictures, the table, and what its tests support."""
    return part(
        slug(found.name),
        found.name.capitalize(),
        score_dots(result, found),
        curve(result, found),
        difference_intervals(result, found),
        _means_table(result, found),
        Definitions(tuple(_findings(result, found))),
        about=f"Scale: {scale_words(found)}. Compared within tasters, in points of 100."
        if found.attribute
        else "Ranks within tasters.",
    )


def _findings(result: TastingResult, found: AttributeResult) -> Iterator[Term]:
    """What each test of an attribute supports, in words."""
    names = [sample.words for sample in result.samples]
    if found.study is not None:
        yield Term("Which duration", study_sentence(found.study, found.name))
        following = next_cook_sentence(found.study.next_cook, found.study.tasters)
        yield Term("Worth cooking next", following)
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
            yield Term(f"{names[column]} within the margin", _margin_words(line))
    if found.repeats is not None:
        again = listed([names[column] for column in found.repeats.columns])
        words = repeats_sentence(found.repeats.anova, again, found.name, result.alpha)
        yield Term("Served twice", words)


def _beside(result: TastingResult, found: AttributeResult, column: int) -> list[Beside]:
    return [line for line in beside_benchmark(result, column) if line.attribute is found]


def _margin_words(line: Beside) -> str:
    """The verdict on no worse, and on both ways where that is shown as well."""
    if not line.within.equivalent:
        return line.verdict.sentence
    margin = points_in_words(line.within.margin).removesuffix(".0")
    chance = chance_in_words(line.within.p_value)
    return f"{line.verdict.sentence} It lies within {margin} points both ways ({chance})."


def _means_table(result: TastingResult, found: AttributeResult) -> Table:
    columns = (
        Column("sample", "Sample"),
        Column("mean", "Mean", numeric=True),
        Column("rank", "Mean rank", numeric=True, about="1 for the lowest"),
        Column("difference", "Less the benchmark", numeric=True),
        Column("bound", "At least", numeric=True, about="one-sided bound"),
        Column("most", "At most", numeric=True, about="one-sided bound"),
        Column("chance", "Chance", about="of such a difference if there is none, all counted"),
        Column("both", "Both ways", about="chance of this if it lay outside the margin"),
        Column("grade", "What the tests support"),
    )
    rows = tuple(_mean_row(result, found, column) for column in range(len(result.samples)))
    return Table(
        f"means-{slug(found.name)}",
        f"{found.name.capitalize()} by sample, {result.count} tasters",
        columns,
        rows,
    )


def _mean_row(result: TastingResult, found: AttributeResult, column: int) -> Row:
    mean = found.anova.adjusted_means[column] if found.anova else None
    rank = found.friedman.mean_ranks[column]
    test = found.no_worse.get(column)
    difference = next(
        (d for d in (found.differences.differences if found.differences else ())
         if d.sample == column), None,
    )  # fmt: skip
    lines = _beside(result, found, column)
    where = {name: f"#{anchor(found.name, name)}" for name in ("means", "ranks", "differences")}
    sample = result.samples[column].name
    bound_at = f"#{anchor(found.name, 'no-worse', sample)}"
    within_at = f"#{anchor(found.name, 'within', sample)}"
    return Row(
        (
            sample_cell(result, column),
            points_cell(mean, where["means"]),
            Cell(UNKNOWN if rank is None else f"{rank:.1f}", rank, where["ranks"]),
            points_cell(difference.mean if difference else None, where["differences"], True),
            points_cell(test.lower if test else None, bound_at, True),
            points_cell(test.upper if test else None, bound_at, True),
            _chance_cell(difference.adjusted_p_value if difference else None),
            _chance_cell(lines[0].within.p_value if lines else None, within_at),
            Cell(str(lines[0].standing) if lines else UNKNOWN),
        )
    )


def _chance_cell(p_value: float | None, href: str = "") -> Cell:
    if p_value is None:
        return Cell(UNKNOWN)
    return Cell(chance_in_words(p_value), p_value, href)


# The panel


def panel_part(result: TastingResult) -> Section:
    """Do tasters agree, who can't be told from chance, how is the scale used."""
    sentences = [
        sentence
        for found in result.attributes
        for sentence in (
            f"{found.name.capitalize()}: {concordance_sentence(found.agreement)}",
            standing_sentence(found.panel, result.tasters),
        )
    ]
    tables = [_panel_table(result, found) for found in result.attributes]
    return part(
        "panel",
        "The panel",
        paragraph(" ".join(sentences)),
        *tables,
        about="Nobody is left out for answering oddly; their answers count as they stand.",
    )


_OWN = "chance that samples differ so among this taster's own repeated judgements if none differ"


def _panel_table(result: TastingResult, found: AttributeResult) -> Table:
    columns = (
        Column("taster", "Taster"),
        Column("agrees", "Agreement with the rest", numeric=True, about="−1 to 1"),
        Column("chance", "Chance", about="of agreeing as well at random"),
        Column("standing", "Standing"),
        Column("level", "Mean given", numeric=True),
        Column("lowest", "Lowest", numeric=True),
        Column("highest", "Highest", numeric=True),
        Column("spread", "Spread", numeric=True),
        *([Column("repeats", "Beyond own scatter", about=_OWN)] if found.repeats else []),
    )
    uses = found.use or (None,) * len(result.tasters)
    rows = tuple(
        _panel_row(result, found, line, use) for line, use in zip(found.panel, uses, strict=True)
    )
    caption = f"{found.name.capitalize()}: each taster, and how the scale is used"
    return Table(f"panel-{slug(found.name)}", caption, columns, rows, sortable=True)


def _panel_row(
    result: TastingResult, found: AttributeResult, line: TasterAgreement, use: ScaleUse | None
) -> Row:
    href = f"#{anchor(found.name, 'tasters')}"
    known = line.correlation is not None
    return Row(
        (
            Cell(result.tasters[line.taster]),
            Cell(
                f"{line.correlation:.2f}".replace("-", "−") if known else UNKNOWN,
                line.correlation,
                href if known else "",
            ),
            Cell(UNKNOWN if line.p_value is None else chance_in_words(line.p_value), line.p_value),
            Cell(str(line.standing), note=_use_words(use)),
            points_cell(use.mean if use else None),
            points_cell(use.lowest if use else None),
            points_cell(use.highest if use else None),
            points_cell(use.spread if use else None),
            *_own_cells(found, line.taster),
        )
    )


def _own_cells(found: AttributeResult, taster: int) -> Iterator[Cell]:
    """Whether a taster tells samples apart beyond the scatter of own repeated judgements."""
    if found.repeats is not None:
        own = found.repeats.panel[taster].p_value
        yield _chance_cell(own, f"#{anchor(found.name, 'repeats')}")


def _use_words(use: ScaleUse | None) -> str:
    """What is odd about how a taster uses the scale."""
    return "only the ends of the scale" if use is not None and use.only_ends else ""


# The answers


def answers_part(view: View, result: TastingResult, here: str) -> Section:
    """Every answer as it was written, each with the way to its line."""
    rows = _choice_rows(view, result, here) if result.choice else _mark_rows(view, result, here)
    names = [] if result.choice else list(dict.fromkeys(m.attribute for m in result.ballots.marks))
    columns = (
        Column("taster", "Taster"),
        *([] if result.choice else [Column("sample", "Sample")]),
        *(Column(slug(name), name.capitalize()) for name in names),
        *([Column("answer", "Answer"), Column("counts", "Counts as")] if result.choice else []),
    )
    body = tuple(rows)
    empty = "Only the number of correct answers was written down."
    table = Table(
        "answers-table", "Answers", columns, body, sortable=bool(body), filterable=len(body) > 12,
        empty=empty,
    )  # fmt: skip
    about = "By private code; each answer leads to its line."
    return part("answers", "The answers", table, about=about)


def _mark_rows(view: View, result: TastingResult, here: str) -> Iterator[Row]:
    names = list(dict.fromkeys(mark.attribute for mark in result.ballots.marks))
    marks = {(m.taster, m.sample, m.attribute): m for m in result.ballots.marks}
    for number, taster in enumerate(result.tasters):
        for column, sample in enumerate(result.samples):
            found = [marks.get((taster, sample.name, name)) for name in names]
            if not any(found):
                continue
            cells = (
                Cell(
                    mark.text,
                    mark.value,
                    view.where.line_href(mark.place.file, mark.place.line, here),
                )
                if mark
                else Cell(UNKNOWN)
                for mark in found
            )
            yield Row((Cell(taster, number), sample_cell(result, column), *cells))


def _choice_rows(view: View, result: TastingResult, here: str) -> Iterator[Row]:
    choice = result.choice
    assert choice is not None
    first = choice.first.replace("-", " ")
    second = choice.second.replace("-", " ")
    two_sided = choice.protocol.two_sided
    words = (first, second) if two_sided else ("correct", "wrong")
    order = {str(taster): number for number, taster in enumerate(result.tasting.tasters)}
    for answer in result.ballots.choices:
        href = view.where.line_href(answer.place.file, answer.place.line, here)
        yield Row(
            (
                Cell(answer.taster, order[answer.taster]),
                Cell(answer.text, href=href),
                Cell(words[0] if answer.hit else words[1]),
            )
        )
