"""The candidates of a kitchen: cuts on no plate, with a file or only in a price list."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.data.muscles import SPECIES
from builder.problems import Place, Problem, Severity, did_you_mean
from builder.quantities import Dimension
from builder.reading.tree import Text
from builder.records.candidates import Candidate
from builder.records.content import Content, PriceRow
from builder.records.kinds import Cut, PantryItem

TRY_NEXT = "try-next"
"""The path of the page that ranks the candidates; those without a file have no other."""


def page_of_item(content: Content, item: str) -> str:
    """The path of the page that a price list's item belongs to."""
    if item in content.cuts:
        return f"{Cut.folder}/{item}"
    return TRY_NEXT if item in listed_candidates(content) else f"{PantryItem.folder}/{item}"


def listed_candidates(content: Content) -> Mapping[str, Cut]:
    """Cuts that only the rows of a price list name, by item, as records without a file.

    Of an item's rows the newest on the day that names a candidate counts, else the first to come.
    """
    rows: dict[str, PriceRow] = {}
    for row in content.prices:
        if row.candidate is None or row.item in content.cuts or row.item in content.pantry:
            continue
        held = rows.get(str(row.item))
        if held is None or _counts_before(content, row, held):
            rows[str(row.item)] = row
    return {item: _as_cut(row) for item, row in rows.items()}


def _counts_before(content: Content, row: PriceRow, held: PriceRow) -> bool:
    new, old = row.date.day, held.date.day
    if new <= content.as_of:
        return old > content.as_of or new > old
    return old > new


def _as_cut(row: PriceRow) -> Cut:
    """The cut that a row stands for; the table of muscles is of one species."""
    item = row.item
    species = Text(SPECIES, item.file, item.line, item.column)
    return Cut.model_construct(
        species=species, muscle=row.muscle, candidate=row.candidate, supplier=row.supplier
    ).named(str(item), item.file)


def candidates_of(content: Content) -> Mapping[str, Cut]:
    """Every candidate by the cut's id: those with a file first, none that is on a plate."""
    served = _served(content)
    own = {cut.id: cut for cut in content.cuts.values() if cut.candidate and cut.id not in served}
    found = {**own, **listed_candidates(content)}
    return {name: cut for name, cut in found.items() if _benchmark_is_there(content, cut)}


def benchmark_of(cut: Cut) -> Text:
    """The id of the plate that a candidate might replace."""
    assert cut.candidate is not None
    return cut.candidate.for_


def _benchmark_is_there(content: Content, cut: Cut) -> bool:
    plate = content.plates.get(benchmark_of(cut))
    return plate is not None and plate.cook in content.cooks


def _served(content: Content) -> Mapping[str, str]:
    """The cuts that are on a plate, with the id of the first such plate."""
    found: dict[str, str] = {}
    for plate in content.plates.values():
        cook = content.cooks.get(plate.cook) if plate.cook else None
        if cook is not None:
            found.setdefault(str(cook.cut), plate.id)
    return found


def check_candidates(content: Content) -> Iterator[Problem]:
    """Benchmarks that are not there or have no cook, muscles of another species, and the like."""
    served = _served(content)
    for cut in content.cuts.values():
        if cut.muscle is not None and cut.species != SPECIES and "species" not in cut.unread:
            yield Problem(
                cut.muscle.place,
                f"the published muscles are of {SPECIES}, and this is {cut.species}",
                "take muscle: out; a published yield goes under candidate:",
            )
        if cut.candidate is not None:
            yield from _check_benchmark(content, cut.candidate)
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
        message = f"{row.item} is a pantry item, and a candidate is a cut"
        yield Problem(row.candidate.for_.place, message, "leave the column empty in this row")
    elif row.muscle is None:
        yield Problem(
            row.candidate.for_.place,
            f"{row.item} has no file, so the row must say which muscle it is",
            f"fill in the column muscle, or write cuts/{row.item}.yaml",
        )
    if row.price.dimension is not Dimension.MASS:
        yield Problem(
            row.price.place,
            "a candidate without a file is priced by weight",
            f"by weight, such as 13.60/kg, or write cuts/{row.item}.yaml with each:",
        )


def _check_benchmark(content: Content, candidate: Candidate) -> Iterator[Problem]:
    name = candidate.for_
    plate = content.plates.get(name)
    if plate is None and not content.has_file("plates", name):
        hint = did_you_mean(name, content.plates) or f"make the file plates/{name}.yaml"
        yield Problem(name.place, f'there is no plate "{name}"', hint)
    elif plate is not None and plate.cook is None and "cook" not in plate.unread:
        with_cook = [each.id for each in content.plates.values() if each.cook]
        yield Problem(
            name.place,
            f"{plate.title} has no cook, so no cut can take its place",
            f"plates with a cook: {', '.join(with_cook)}" if with_cook else "",
        )


def _on_a_plate(content: Content, cut: Cut, plate: str) -> Problem:
    return Problem(
        Place(cut.file) if cut.candidate is None else cut.candidate.for_.place,
        f"{cut.title} is on {content.plates[plate].title} already, so it is no candidate",
        "take candidate: out, or name the swap in swaps/",
        Severity.WARNING,
        cut.path,
    )
