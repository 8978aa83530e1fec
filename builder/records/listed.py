"""The candidates of a kitchen: cuts on no plate, with a file or only in a price list."""

from __future__ import annotations

from collections.abc import Container, Mapping

from builder.data.muscles import SPECIES
from builder.reading.tree import Text
from builder.records.base import title_of
from builder.records.content import Content, PriceRow
from builder.records.kinds import Cut, PantryItem

TRY_NEXT = "try-next"
"""The path of the page that ranks the candidates; those without a file have no other."""


def page_of_item(content: Content, item: str, listed: Container[str]) -> str:
    """The path of the page that a price list's item belongs to; listed: `listed_candidates`."""
    if item in content.cuts:
        return f"{Cut.folder}/{item}"
    return TRY_NEXT if item in listed else f"{PantryItem.folder}/{item}"


def title_of_item(content: Content, item: str, listed: Mapping[str, Cut]) -> str:
    """What a price list's item is called where people read; listed: `listed_candidates`."""
    record = content.cuts.get(item) or content.pantry.get(item)
    named = record or listed.get(item)
    return named.title if named else title_of(item)


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
    cut = Cut.model_construct(
        species=species, muscle=row.muscle, candidate=row.candidate, supplier=row.supplier
    ).named(str(item), item.file)
    cut.__dict__["path"] = TRY_NEXT  # it has no page of its own
    return cut


def candidates_of(content: Content) -> Mapping[str, Cut]:
    """Every candidate by the cut's id: those with a file first, none that is on a plate."""
    served = served_cuts(content)
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


def served_cuts(content: Content) -> Mapping[str, str]:
    """The cuts that are on a plate, with the id of the first such plate."""
    found: dict[str, str] = {}
    for plate in content.plates.values():
        for name in plate.cooks:
            if (cook := content.cooks.get(name)) is not None:
                found.setdefault(str(cook.cut), plate.id)
        for name in plate.raw_cuts:
            found.setdefault(str(name), plate.id)
    return found
