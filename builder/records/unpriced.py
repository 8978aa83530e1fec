"""What a day long past leaves out: items whose first listed price is still to come.

A kitchen computed for a day before one cut was first bought has everything else to say. The
cut is left out, and with it whatever can't be costed without it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from builder.display.words import listed
from builder.language import ntr, tr
from builder.problems import Problem, Severity
from builder.records.base import Record
from builder.records.content import Content, PriceRow
from builder.records.editions import KINDS
from builder.records.guests import with_guests
from builder.records.kinds import (
    Cook,
    Cut,
    PantryItem,
    Plate,
    Service,
    SetMenu,
    Swap,
    Tasting,
)
from builder.records.pricing import first_to_come
from builder.records.uses import MENU, Uses, swaps_of

R = TypeVar("R", bound=Record)
PAGES = (MENU, "prices")


def without_unpriced(content: Content) -> tuple[Content, list[Problem]]:
    """The content without what has no price yet, and a warning of each such item.

    An error, where neither a cut nor a plate remains of those that were there.
    """
    first = first_to_come(content)
    if not first:
        return content, []
    uses = Uses.of(content)
    resting = {path: set(resting_on(uses, record)) for path, (record, _) in first.items()}
    kept = without_records(content, set().union(*resting.values()))
    if not kept.cuts and not kept.plates:
        return kept, [_nothing_left(content, [row for _, row in first.values()])]
    return kept, [
        _left_out(content, kept, record, row, resting[path])
        for path, (record, row) in first.items()
    ]


def resting_on(uses: Uses, record: Cut | Cook | PantryItem) -> Iterator[str]:
    """The paths of a record and of all that can't be costed without it, each once."""
    queue: list[Cut | Cook | PantryItem | Plate] = [record]
    seen = {record.path}
    while queue:
        found = queue.pop()
        yield found.path
        new = [each for each in _leaning_on(uses, found) if each.path not in seen]
        seen.update(each.path for each in new)
        queue += new


def also_on(content: Content, uses: Uses, record: Cut | Cook) -> tuple[str, ...]:
    """The pages beside a record's own whose costs rest on it: cooks, plates, swaps, the menu."""
    resting = list(resting_on(uses, record))
    plates = [each for path in resting if isinstance(each := content.record(path), Plate)]
    also = tuple(path for path in resting if path != record.path)
    return (*also, *swaps_of(content, plates), *((MENU,) if plates else ()))


def _leaning_on(
    uses: Uses, record: Cut | Cook | PantryItem | Plate
) -> list[Cut | Cook | PantryItem | Plate]:
    match record:
        case Cut():
            return [*uses.cooks_of_cut.get(record.id, ()), *uses.plates_of_cut.get(record.id, ())]
        case Cook():
            return [*uses.plates_of_cook.get(record.id, ())]
        case PantryItem():
            recipes = uses.recipes_with_item.get(record.id, ())
            return [*recipes, *uses.plates_with_item.get(record.id, ())]
        case _:
            return []


def without_records(content: Content, gone: set[str]) -> Content:
    """The content without the records of some paths, and without what then has no sense."""
    kinds = {
        folder: {name: each for name, each in records.items() if _is_kept(each, gone)}
        for folder, records in content.kinds.items()
    }
    tastings, menus = kinds[Tasting.folder], kinds[SetMenu.folder]
    kinds[Plate.folder] = {
        name: _unlinked(plate, "evidence", content, tastings)
        for name, plate in kinds[Plate.folder].items()
    }
    kinds[Swap.folder] = {
        name: _unlinked(swap, "tasting", content, tastings)
        for name, found in content.swaps.items()
        if (swap := _swap_of(found, gone))
    }
    kinds[Service.folder] = {
        name: service
        for name, found in content.services.items()
        if (service := _service_of(found, gone, menus))
    }
    kept = content.with_records(**kinds)
    left = {record.path for record in kept.records()}
    titles = {r.path: str(getattr(r, "title", r.id)) for r in content.records()}
    lost = {path: title for path, title in titles.items() if path not in left}
    return replace(kept, left_out={**content.left_out, **lost})


def _is_kept(record: Record, gone: set[str]) -> bool:
    """Whether neither a record nor anything that it names is gone."""
    return gone.isdisjoint((record.path, *record.named_paths))


def _unlinked(record: R, key: str, content: Content, tastings: Mapping[str, Tasting]) -> R:
    """The record without its link to a tasting that is left out."""
    named = getattr(record, key)
    lost = named in content.tastings and named not in tastings
    return record.model_copy(update={key: None}) if lost else record


def _swap_of(swap: Swap, gone: set[str]) -> Swap | None:
    """A swap with the challengers that remain; None without its benchmark or any of them."""
    left = [name for name in swap.challengers if f"plates/{name}" not in gone]
    if f"plates/{swap.benchmark}" in gone or not left:
        return None
    return swap.model_copy(update={"challengers": left})


def _service_of(service: Service, gone: set[str], menus: Mapping[str, SetMenu]) -> Service | None:
    """A service with the plates and set menus that remain; None without any plate."""
    kept = {name: guests for name, guests in service.menus.items() if name in menus}
    served = with_guests(service.model_copy(update={"menus": kept}), menus)
    left = {name: serving for name, serving in served.items() if f"plates/{name}" not in gone}
    return service.model_copy(update={"plates": left, "menus": kept}) if left else None


def _left_out(
    content: Content, kept: Content, record: Cut | PantryItem, row: PriceRow, resting: set[str]
) -> Problem:
    for other in content.records():
        if other.path in kept.left_out and not resting.isdisjoint(other.named_paths):
            resting = resting | {other.path}
    also = resting - {record.path}
    found = Counter(type(each) for each in content.records() if each.path in also)
    counts = [ntr(*kind.kind.counted, count) for kind, count in found.items()]
    rest = (
        tr(", with {counts} that can't be costed without it", counts=listed(counts))
        if counts
        else ""
    )
    message = tr(
        "{record} has no price before {day} and is left out{rest}",
        record=record.title,
        day=row.date.day,
        rest=rest,
    )
    hint = tr(
        "compute for {day} or later, or add the price of {as_of}",
        day=row.date.day,
        as_of=content.as_of,
    )
    needs = (*KINDS, "prices")
    return Problem(row.price.place, message, hint, Severity.WARNING, "", PAGES, needs)


def _nothing_left(content: Content, rows: list[PriceRow]) -> Problem:
    first, last = (end(rows, key=lambda row: row.date.day) for end in (min, max))
    return Problem(
        first.price.place,
        tr(
            "no plate can be costed by {as_of}: the first price is of {day}",
            as_of=content.as_of,
            day=first.date.day,
        ),
        tr(
            "from {day} on everything has a price; compute for that day or later", day=last.date.day
        ),
    )
