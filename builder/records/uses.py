"""Who uses what: the ids of the content turned round, each looked up once."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from builder.records.buffets import Buffet
from builder.records.content import Content
from builder.records.covered import cover_items
from builder.records.kinds import Cook, PantryItem, Plate

R = TypeVar("R")
# The path of the page that lists every plate, as in `Problem.also`.
MENU = "menu"


@dataclass(frozen=True, slots=True)
class Uses:
    """For an id the records that name it, in the order of the content.

    `plates_of_cut` are those that serve the cut without a cook.
    """

    cooks_of_cut: Mapping[str, Sequence[Cook]]
    cooks_on_equipment: Mapping[str, Sequence[Cook]]
    plates_of_cook: Mapping[str, Sequence[Plate]]
    plates_of_cut: Mapping[str, Sequence[Plate]]
    plates_with_item: Mapping[str, Sequence[Plate]]
    recipes_with_item: Mapping[str, Sequence[PantryItem]]
    buffets_of_cook: Mapping[str, Sequence[Buffet]]
    buffets_with_item: Mapping[str, Sequence[Buffet]]

    @classmethod
    def of(cls, content: Content) -> Uses:
        """Turn a content's ids round."""
        cooks, plates = list(content.cooks.values()), list(content.plates.values())
        buffets = list(content.buffets.values())
        return cls(
            grouped((str(cook.cut), cook) for cook in cooks),
            grouped((str(cook.equipment), cook) for cook in cooks if cook.equipment),
            grouped((str(cook), plate) for plate in plates for cook in plate.cooks),
            grouped((str(cut), plate) for plate in plates for cut in plate.raw_cuts),
            grouped(
                (str(name), plate)
                for plate in plates
                for name in {**plate.with_, **cover_items(content, plate)}
            ),
            grouped((str(name), item) for item in content.pantry.values() for name in item.of),
            grouped((str(name), buffet) for buffet in buffets for name in buffet.cooks),
            grouped((str(name), buffet) for buffet in buffets for name in buffet.items),
        )


def grouped(pairs: Iterable[tuple[str, R]]) -> Mapping[str, Sequence[R]]:
    """Gather what shares a key, in the order given."""
    groups: dict[str, list[R]] = {}
    for key, record in pairs:
        groups.setdefault(key, []).append(record)
    return groups


def swaps_of(content: Content, plates: Collection[Plate]) -> list[str]:
    """The paths of the swaps in which any of the plates stands."""
    ids = {plate.id for plate in plates}
    return [
        swap.path
        for swap in content.swaps.values()
        if not ids.isdisjoint(map(str, (swap.benchmark, *swap.challengers)))
    ]
