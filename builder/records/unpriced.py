"""What a day long past leaves out: items whose first listed price is still to come.

A kitchen computed for a day before one cut was first bought has everything else to say. The
cut is left out, and with it whatever can't be costed without it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from builder.display.words import listed
from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.base import Record
from builder.records.content import Content, PriceRow
from builder.records.editions import KINDS
from builder.records.guests import with_guests
from builder.records.kinds import (
    Buffet,
    Cook,
    Count,
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
_COUNTED = (
    ("cooks", "cook"), ("pantry", "pantry item"), ("plates", "plate"), ("swaps", "swap"),
    ("services", "service"), ("tastings", "tasting"), ("counts", "count"),
    ("menus", "set menu"), ("buffets", "buffet"),
)  # fmt: skip


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
    tastings = {
        name: tasting
        for name, tasting in content.tastings.items()
        if gone.isdisjoint((tasting.path, *_served_in(tasting)))
    }
    menus = {
        name: menu
        for name, menu in _without(content.menus, gone).items()
        if gone.isdisjoint(f"plates/{plate}" for plate in menu.plate_ids)
    }
    kept = replace(
        content,
        cuts=_without(content.cuts, gone),
        cooks=_without(content.cooks, gone),
        pantry=_without(content.pantry, gone),
        plates={
            name: _unlinked(plate, "evidence", content, tastings)
            for name, plate in _without(content.plates, gone).items()
        },
        swaps={
            name: _unlinked(swap, "tasting", content, tastings)
            for name, found in content.swaps.items()
            if (swap := _swap_of(found, gone))
        },
        services={
            name: service
            for name, found in content.services.items()
            if (service := _service_of(found, gone, menus))
        },
        tastings=tastings,
        counts={
            name: count
            for name, count in _without(content.counts, gone).items()
            if gone.isdisjoint(count.named_paths)
        },
        menus=menus,
        buffets={
            name: buffet
            for name, buffet in _without(content.buffets, gone).items()
            if gone.isdisjoint(buffet.named_paths)
        },
    )
    left = {record.path for record in kept.records()}
    titles = {r.path: str(getattr(r, "title", r.id)) for r in content.records()}
    lost = {path: title for path, title in titles.items() if path not in left}
    return replace(kept, left_out={**content.left_out, **lost})


def _without(records: Mapping[str, R], gone: set[str]) -> dict[str, R]:
    return {name: record for name, record in records.items() if record.path not in gone}


def _served_in(tasting: Tasting) -> set[str]:
    """What a tasting serves: a panel's answers mean nothing without one of its samples."""
    samples = tasting.samples.values()
    return {f"{('cooks' if sample.cook else 'plates')}/{sample.of}" for sample in samples}


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
    plates = {path for path in resting if path.startswith("plates/")}
    for group in (
        content.swaps,
        content.services,
        content.tastings,
        content.counts,
        content.menus,
        content.buffets,
    ):
        for other in group.values():
            if other.path in kept.left_out and _names_any(other, resting, plates):
                resting = resting | {other.path}
    counts = [
        f"{count} {word}{'' if count == 1 else 's'}"
        for folder, word in _COUNTED
        if (count := sum(p.startswith(f"{folder}/") for p in resting - {record.path}))
    ]
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


def _names_any(record: Record, resting: set[str], plates: set[str]) -> bool:
    match record:
        case Tasting():
            return not resting.isdisjoint(_served_in(record))
        case Swap():
            return not plates.isdisjoint(
                f"plates/{name}" for name in (record.benchmark, *record.challengers)
            )
        case Count() | Buffet():
            return not resting.isdisjoint(record.named_paths)
        case SetMenu():
            return not plates.isdisjoint(f"plates/{name}" for name in record.plate_ids)
        case Service():
            return not plates.isdisjoint(f"plates/{name}" for name in record.plates)
        case _:
            return False


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
