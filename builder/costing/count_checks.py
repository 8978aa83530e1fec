"""What one count can't know: ids that lead nowhere, days to come, weights that can't be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.costing.count_rows import CountRows
from builder.engine.figures import Figures
from builder.language import tr
from builder.problems import Problem, Severity
from builder.quantities import written_like
from builder.records.content import Content
from builder.records.counts import Count, CountedCook

# Used more or less than the plates take by this factor is a slip sooner than a loss.
OUT_OF_PROPORTION = 3.0


def check_counts(content: Content) -> Iterator[Problem]:
    """Every problem of the counts that needs the other records, none of the figures."""
    for count in content.counts.values():
        end = count.end
        if end is not None and end.day > content.as_of:
            yield Problem(
                end.place,
                tr(
                    "{day} comes after {as_of}, the day of the build",
                    day=end.day,
                    as_of=content.as_of,
                ),
            )
        for name, cook in count.cooks.items():
            yield from _check_cook(content, name, cook)


def _check_cook(content: Content, name: str, counted: CountedCook) -> Iterator[Problem]:
    used, made = counted.used, counted.made
    cook = content.cooks.get(name)
    if used and made and made.value > used.value and not (cook and cook.cure):
        hint = tr("look at used and made; only a cook with a cure may gain weight")
        yield Problem(made.place, tr("more came out than went in ({used})", used=used.text), hint)
        return
    gone = [each for each in (counted.left, *counted.thrown.values()) if each]
    there = (made.value if made else 0.0) + (counted.opening.value if counted.opening else 0.0)
    if made and sum(each.value for each in gone) > there + 1e-9:
        total = written_like(gone[-1].text, there)
        yield Problem(
            gone[-1].place, tr("more is left and thrown than there was ({total})", total=total)
        )


def check_count_figures(
    content: Content, figures: Figures, rows: Mapping[str, CountRows]
) -> Iterator[Problem]:
    """Portions that no piece gives; a use that is out of all proportion to what was sold."""
    for count in content.counts.values():
        yield from _check_portions(count, figures, rows[count.id])
        yield from _check_use(count, figures, rows[count.id])


def _check_portions(count: Count, figures: Figures, rows: CountRows) -> Iterator[Problem]:
    for name, plate in count.plates.items():
        row = rows.sales[name]
        made, costed = (
            figures.value("sale", figure, row) for figure in ("portions_as_made", "whole_portions")
        )
        # What the plate itself states is reported there.
        if made < 1 - 1e-9 and not costed < 1:
            weighed = plate.weighed_portions
            place = weighed[0].place if weighed else plate.sold.place
            mean = written_like(
                weighed[0].text if weighed else "1 kg",
                figures.value("sale", "counted_portion", row),
            )
            yield Problem(
                place,
                tr("a portion of {mean} is more than one piece gave", mean=mean),
                tr("look at the portions of {name}, and at used and made of its cook", name=name),
            )


def _check_use(count: Count, figures: Figures, rows: CountRows) -> Iterator[Problem]:
    for name, cut in count.cuts.items():
        used, explained = (
            figures.value("usage", figure, rows.usages[name])
            for figure in ("used", "explained_use")
        )
        written = cut.used or cut.closing
        if written is None or not explained > 0:
            continue
        if not explained / OUT_OF_PROPORTION <= used <= explained * OUT_OF_PROPORTION:
            takes = written_like(written.text, explained, places=2)
            yield Problem(
                written.place,
                tr(
                    "{name}: {written_like} was used, but what was sold, thrown and kept "
                    "takes {takes}",
                    name=name,
                    written_like=written_like(written.text, used, places=2),
                    takes=takes,
                ),
                tr("look at the units, and at plates that are not listed here"),
                Severity.WARNING,
                count.path,
                needs=("counts", "cuts", "weights", "sales"),
            )
