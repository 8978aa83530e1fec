"""Candidates that can't be any: benchmarks that are not there, muscles of another species."""

from __future__ import annotations

from collections.abc import Iterator

from builder.data.muscles import SPECIES
from builder.language import tr
from builder.problems import Place, Problem, Severity, did_you_mean
from builder.quantities import Dimension
from builder.records.candidates import Candidate
from builder.records.content import Content, PriceRow
from builder.records.kinds import Cut
from builder.records.listed import served_cuts
from builder.records.weights import check_published


def check_candidates(content: Content) -> Iterator[Problem]:
    """Benchmarks that are not there or have no cook, muscles of another species, and the like."""
    served = served_cuts(content)
    for cut in content.cuts.values():
        if cut.muscle is not None and cut.species != SPECIES and "species" not in cut.unread:
            yield Problem(
                cut.muscle.place,
                tr(
                    "the published muscles are of {species}, and this is {species2}",
                    species=SPECIES,
                    species2=cut.species,
                ),
                tr("take muscle: out; a published yield goes under candidate:"),
            )
        if cut.candidate is not None:
            yield from _check_benchmark(content, cut.candidate)
            yield from check_published(cut.candidate.published)
            if cut.id in served:
                yield _on_a_plate(content, cut, served[cut.id])
    for row in content.prices:
        if row.item not in content.cuts:
            yield from _check_row(content, row)


def _check_row(content: Content, row: PriceRow) -> Iterator[Problem]:
    if row.candidate is None:
        return
    yield from _check_benchmark(content, row.candidate)
    if row.item in content.pantry:
        message = tr("{item} is a pantry item, and a candidate is a cut", item=row.item)
        yield Problem(row.candidate.for_.place, message, tr("leave the column empty in this row"))
    elif row.muscle is None:
        yield Problem(
            row.candidate.for_.place,
            tr("{item} has no file, so the row must say which muscle it is", item=row.item),
            tr("fill in the column muscle, or write cuts/{item}.yaml", item=row.item),
        )
    if row.price.dimension is not Dimension.MASS:
        yield Problem(
            row.price.place,
            tr("a candidate without a file is priced by weight"),
            tr("by weight, such as 13.60/kg, or write cuts/{item}.yaml with each:", item=row.item),
        )


def _check_benchmark(content: Content, candidate: Candidate) -> Iterator[Problem]:
    name = candidate.for_
    plate = content.plates.get(name)
    if plate is None and not content.has_file("plates", name):
        hint = did_you_mean(name, content.plates) or tr(
            "make the file plates/{name}.yaml", name=name
        )
        yield Problem(name.place, tr('there is no plate "{name}"', name=name), hint)
    elif plate is not None and plate.cook is None and "cook" not in plate.unread:
        with_cook = [each.id for each in content.plates.values() if each.cook]
        yield Problem(
            name.place,
            tr("no cook is on {plate}, so no cut can take its place", plate=plate.title),
            tr("plates with a cook: {with_cook}", with_cook=", ".join(with_cook))
            if with_cook
            else "",
        )


def _on_a_plate(content: Content, cut: Cut, plate: str) -> Problem:
    return Problem(
        Place(cut.file) if cut.candidate is None else cut.candidate.for_.place,
        tr(
            "{cut}: on {plates} already, so no candidate",
            cut=cut.title,
            plates=content.plates[plate].title,
        ),
        tr("take candidate: out, or name the swap in swaps/"),
        Severity.WARNING,
        cut.path,
        needs=None,  # candidates weigh every cost against the others
    )
