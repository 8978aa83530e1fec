"""Rows of the swaps, and of the further portions that their limits move."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.costing.decision_rows import decision_values
from builder.costing.entries import entry, noted
from builder.costing.portion_rows import Further
from builder.display.words import listed
from builder.engine.book import Book, Entry, Identity
from builder.language import tr
from builder.money.swap_portions import MOVED, MOVED_CUT
from builder.money.swaps import SWAP
from builder.problems import Place
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.equipment import gear_title
from builder.records.kinds import Equipment, Plate, Swap
from builder.records.plates import Portion
from builder.records.portions import cut_of, source_of


def swap_rows(
    book: Book,
    content: Content,
    plates: Mapping[str, int],
    further: Mapping[str, Sequence[Further]],
    cuts: Mapping[str, int],
    moved_cuts: dict[tuple[str, str, str], int],
) -> dict[tuple[str, str], int]:
    """Add a row for each challenger of each swap, by both their ids.

    A row for each cut of a challenger beside its main one goes into `moved_cuts`, by these ids
    and its own.
    """
    found: dict[tuple[str, str], int] = {}
    for swap in content.swaps.values():
        benchmark = content.plates[swap.benchmark]
        for name in swap.challengers:
            challenger = content.plates[name]
            links = {
                "challenger": plates[name],
                "benchmark": plates[swap.benchmark],
                "kitchen": 0,
            }
            values = _values(content, swap, name, challenger, benchmark)
            values |= decision_values(content, swap, challenger)
            who = Identity(swap.path, str(name), challenger.title)
            row = found[swap.id, str(name)] = book.add(SWAP, links, values, who)
            sides = challenger, benchmark
            _moved_rows(book, content, swap, sides, row, further)
            for cut in _other_cuts(content, challenger):
                title = content.cuts[cut].title
                who = Identity(swap.path, f"{name}.{cut}", f"{challenger.title}, {title}")
                moved = book.add(MOVED_CUT, {"swap": row, "cut": cuts[cut]}, who=who)
                moved_cuts[swap.id, str(name), cut] = moved
                _cut_rows(book, content, swap, sides, (cut, moved), plates, further)
    return found


def _values(
    content: Content, swap: Swap, name: Text, challenger: Plate, benchmark: Plate
) -> dict[str, Entry | None]:
    gear = content.kitchen.equipment
    bought = sum(
        price.value * _number_of(gear[each])
        for each in swap.buys
        if (price := gear[each].price) is not None
    )
    cut = _main_cut(content, challenger)
    names = listed([gear_title(gear, each) for each in swap.buys])
    same_cut = cut is not None and cut == _main_cut(content, benchmark)
    same_cook = challenger.cook is not None and challenger.cook == benchmark.cook
    raw = challenger.cut is not None
    return {
        "swap_forecast": entry(swap.forecast),
        "invested": noted(bought, swap.buys[0].place, tr("bought: {names}", names=names))
        if swap.buys
        else None,
        "same_cut": noted(float(same_cut), name.place, tr("whether both plates use one cut")),
        "same_cook": noted(float(same_cook), name.place, tr("whether both plates use one cook")),
        "uncooked": noted(1.0, name.place, tr("its main portion has no cook")) if raw else None,
    }


def _number_of(gear: Equipment) -> float:
    """How many there are, all of which a swap that names them buys."""
    return gear.how_many.value if gear.how_many else 1.0


def _main_cut(content: Content, plate: Plate) -> str | None:
    return cut_of(content, plate.served[0]).id if plate.served else None


def _moved_rows(
    book: Book,
    content: Content,
    swap: Swap,
    sides: tuple[Plate, Plate],
    swap_row: int,
    further: Mapping[str, Sequence[Further]],
) -> None:
    """Add the further portions of challenger and benchmark that are of the cut that is moved."""
    challenger, _ = sides
    cut = _main_cut(content, challenger)
    for plate in sides:
        for number, portion, row in _of_cut(content, cut, further[plate.id]):
            same = portion.cook is not None and portion.cook == challenger.cook
            own = plate is challenger
            flags = {
                "on_challenger": _flag(swap, own, tr("whose plate it is on")),
                "moved_cook": _flag(swap, same, tr("whether it is of the main cook")),
            }
            key = f"{challenger.id}.{plate.id}.portion.{number}"
            who = Identity(swap.path, key, f"{plate.title}, {source_of(content, portion).title}")
            book.add(MOVED, {"swap": swap_row, "portion": row}, flags, who)


def _other_cuts(content: Content, plate: Plate) -> Iterable[str]:
    """The cuts of a plate's further portions, each once, without its main one."""
    found = dict.fromkeys(cut_of(content, portion).id for portion in plate.further)
    return [cut for cut in found if cut != _main_cut(content, plate)]


def _cut_rows(
    book: Book,
    content: Content,
    swap: Swap,
    sides: tuple[Plate, Plate],
    moved: tuple[str, int],
    plates: Mapping[str, int],
    further: Mapping[str, Sequence[Further]],
) -> None:
    """Add every portion, the main ones too, of a cut that is not the challenger's main one."""
    cut, row = moved
    challenger, _ = sides
    for plate in sides:
        flags = {"on_challenger": _flag(swap, plate is challenger, tr("whose plate it is on"))}
        portions = [("portion", each, n) for n, _, each in _of_cut(content, cut, further[plate.id])]
        if _main_cut(content, plate) == cut:
            portions.insert(0, ("plate", plates[plate.id], 1))
        for link, at, number in portions:
            key = f"{challenger.id}.{cut}.{plate.id}.portion.{number}"
            who = Identity(swap.path, key, f"{plate.title}, {content.cuts[cut].title}")
            book.add(MOVED, {"moved_cut": row, link: at}, flags, who)


def _of_cut(
    content: Content, cut: str | None, further: Sequence[Further]
) -> Iterator[tuple[int, Portion, int]]:
    for number, each in enumerate(further, start=2):
        if cut_of(content, each.portion).id == cut:
            yield number, each.portion, each.row


def _flag(swap: Swap, value: bool, what: str) -> Entry:
    return noted(float(value), Place(swap.file), what)
