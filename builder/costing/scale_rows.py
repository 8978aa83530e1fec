"""Rows of what can be made to size: every amount of a cook, a sub-recipe and a plate."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from builder.costing.entries import entry, noted
from builder.engine.book import Book, Entry, Identity
from builder.language import tr
from builder.money.scaling import SCALE, SCALED
from builder.problems import Place
from builder.quantities import Dimension
from builder.reading.tree import Text
from builder.records.amounts import base_dimension
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, PantryItem, Plate
from builder.records.plates import Portion
from builder.records.portions import source_of
from builder.records.step_checks import Stepped, parts_of_recipe

UNITS = {Dimension.MASS: "kg", Dimension.VOLUME: "L", Dimension.COUNT: "each"}
PORTIONS = "portions"
# Of a plate that counts by whole portions: written rounded down.
WHOLE_PORTIONS = "whole portions"


class KnownRows(Protocol):
    """The rows of the records, by id, that amounts are looked up in."""

    cooks: dict[str, int]
    pantry: dict[str, int]
    lines: dict[str, dict[str, int]]
    sides: dict[str, dict[str, int]]

    def portions(self, plate: Plate) -> Iterator[tuple[Portion, str, int]]:
        """Every portion of a plate with its table and row."""


@dataclass(frozen=True, slots=True)
class ScaledRow:
    """One amount: what it is of, its row, and whether a step names it."""

    label: str
    row: int
    record: str = ""


@dataclass(slots=True)
class ScaleRows:
    """By the path of a record its row and those of its amounts; of steps by number and id.

    `units` holds what each row of `scaled` is counted in.
    """

    scales: dict[str, int] = field(default_factory=dict)
    amounts: dict[str, list[ScaledRow]] = field(default_factory=dict)
    in_steps: dict[tuple[str, int, str], int] = field(default_factory=dict)
    units: list[str] = field(default_factory=list)


def scale_rows(book: Book, content: Content, rows: KnownRows) -> ScaleRows:
    """Add the rows of every cook, sub-recipe and plate."""
    filler = _Filler(book, content, rows)
    for cook in content.cooks.values():
        filler.add(cook, filler.of_cook)
    for item in content.pantry.values():
        if item.of:
            filler.add(item, filler.of_recipe)
    for plate in content.plates.values():
        filler.add(plate, filler.of_plate)
    return filler.found


def _dimension(item: PantryItem, amount: Measure) -> Dimension:
    """What an amount is scaled in: as it is written.

    90 g of a cabbage that is bought by the piece are no tenth of one: a part of it is cut away.
    """
    return amount.dimension or base_dimension(item)


class _Filler:
    def __init__(self, book: Book, content: Content, rows: KnownRows) -> None:
        self.book, self.content, self.rows = book, content, rows
        self.found = ScaleRows()
        self.portions_of: dict[str, list[tuple[Plate, str, int]]] = defaultdict(list)
        for plate in content.plates.values():
            for portion, table, row in rows.portions(plate):
                self.portions_of[str(portion.cook)].append((plate, table, row))

    def add(self, record: Stepped, amounts: Callable[..., Iterator[ScaledRow]]) -> None:
        """One record: its amounts, then those of its steps."""
        scale = self.book.add(SCALE, who=Identity(record.path, "made", tr("made to size")))
        self.found.scales[record.path] = scale
        self.found.amounts[record.path] = list(amounts(record, scale))
        parts = parts_of_recipe(self.content, record)
        for number, step in enumerate(record.steps, start=1):
            for name, amount in step.amounts.items():
                part, _ = parts[str(name)]
                key, label = (
                    f"made.step.{number}.{name}",
                    tr("{part}, step {number}", part=part.title, number=number),
                )
                unit = UNITS[_dimension(part, amount)] if isinstance(part, PantryItem) else "kg"
                row = self._row(record, scale, key, label, unit, entry(amount))
                self.found.in_steps[record.path, number, str(name)] = row

    def of_cook(self, cook: Cook, scale: int) -> Iterator[ScaledRow]:
        """What is bought, goes in and is served, and the portions of each plate."""
        cut, batch = self.content.cuts[cook.cut], self.rows.cooks[cook.id]
        for link, words in (
            ("raw", tr("{cut}, as purchased", cut=cut.title)),
            ("loaded", tr("{cut}, into the cook", cut=cut.title)),
            ("served", tr("To serve")),
        ):
            yield self._part(cook, scale, link, words, "kg", {link: batch})
        for plate, table, row in self.portions_of[cook.id]:
            link = "main_portion" if table == "plate" else "further_portion"
            words, key = tr("Portions of {plate}", plate=plate.title), f"{link}.{plate.id}"
            unit = self._portions(cook)
            yield self._part(cook, scale, key, words, unit, {link: row}, plate.path)

    def _portions(self, cook: Cook) -> str:
        whole = self.content.kitchen.counts_whole and cook.piece and cook.piece.weight
        return WHOLE_PORTIONS if whole else PORTIONS

    def of_recipe(self, item: PantryItem, scale: int) -> Iterator[ScaledRow]:
        """What it makes, and every ingredient."""
        row, unit = self.rows.pantry[item.id], UNITS[base_dimension(item)]
        yield self._part(item, scale, "makes", tr("Makes"), unit, {"recipe": row})
        yield from self._of_items(item, scale, "line", item.of, self.rows.lines[item.id])

    def of_plate(self, plate: Plate, scale: int) -> Iterator[ScaledRow]:
        """Portions, what is bought for each portion, and the pantry items."""
        one = noted(1.0, Place(plate.file), tr("the recipe is for one plate"))
        main = source_of(self.content, plate.served[0]) if plate.served else None
        unit = self._portions(main) if isinstance(main, Cook) else PORTIONS
        row = self._row(plate, scale, "made.covers", tr("Portions"), unit, one)
        yield ScaledRow(tr("Portions"), row)
        for portion, table, at in self.rows.portions(plate):
            source = source_of(self.content, portion)
            cut = self.content.cuts[source.cut] if isinstance(source, Cook) else source
            link = "raw_main" if table == "plate" else "raw_further"
            words, key = tr("{cut}, as purchased", cut=cut.title), f"{link}.{source.id}"
            yield self._part(plate, scale, key, words, "kg", {link: at}, cut.path)
        yield from self._of_items(plate, scale, "side", plate.with_, self.rows.sides[plate.id])

    def _of_items(
        self,
        record: Stepped,
        scale: int,
        link: str,
        written: Mapping[Text, Measure],
        rows: Mapping[str, int],
    ) -> Iterator[ScaledRow]:
        for name, amount in written.items():
            item, key = self.content.pantry[name], f"{link}.{name}"
            counted_in = _dimension(item, amount)
            if counted_in is base_dimension(item):
                links = {link: rows[str(name)]}
                yield self._part(
                    record, scale, key, item.title, UNITS[counted_in], links, item.path
                )
                continue
            who = f"made.{key}"
            row = self._row(record, scale, who, item.title, UNITS[counted_in], entry(amount))
            yield ScaledRow(item.title, row, item.path)

    def _part(
        self,
        record: Stepped,
        scale: int,
        key: str,
        label: str,
        unit: str,
        links: Mapping[str, int],
        of: str = "",
    ) -> ScaledRow:
        return ScaledRow(
            label, self._row(record, scale, f"made.{key}", label, unit, None, links), of
        )

    def _row(
        self,
        record: Stepped,
        scale: int,
        key: str,
        label: str,
        unit: str,
        stated: Entry | None,
        links: Mapping[str, int] | None = None,
    ) -> int:
        who = Identity(record.path, key, label)
        every = {"scale": scale, **(links or {})}
        self.found.units.append(unit)
        return self.book.add(SCALED, every, {"stated_amount": stated}, who)
