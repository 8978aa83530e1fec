"""A whole content folder as records: what the rest of the builder works from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import ClassVar, TypeVar, cast

from pydantic import Field

from builder.problems import Place, Problem, did_you_mean, in_order
from builder.reading.csv_text import parse_csv
from builder.reading.folder import CSV, YAML, ContentFile, read_folder
from builder.reading.prices import parse_prices
from builder.reading.tree import Branch, Node, Text
from builder.reading.yaml_text import parse_yaml
from builder.records.base import Record, Written, read_record
from builder.records.fields import Date, Id, PricePerUnit, Words
from builder.records.kinds import (
    RECORDS,
    Cook,
    Cut,
    Kitchen,
    PantryItem,
    Plate,
    Service,
    Swap,
    Tasting,
)

R = TypeVar("R", bound=Record)

FOLDERS = {
    **{kind.folder: YAML for kind in RECORDS},
    Tasting.folder: (*YAML, *CSV),
    "prices": CSV,
    "rules": YAML,
}


class PriceRow(Written):
    """prices/*.csv: one price of one item from a day on."""

    examples: ClassVar[Mapping[str, str]] = {
        "item": "beef-chuck-roll", "price": "7.90/kg",
    }  # fmt: skip

    date: Date = Field(description="the day from which the price holds")
    item: Id = Field(description="id of a cut or a pantry item")
    price: PricePerUnit = Field(description="as purchased")
    supplier: Words | None = Field(None, description="who sells it")
    note: Words | None = Field(None, description="a remark")


@dataclass(frozen=True, slots=True)
class Content:
    """Every record of a kitchen, by id, and the files that they were written in.

    `rules` holds the trees of the kitchen's own rule sets, and `ballots` the rows of each
    tasting's CSV by its id, as they are written, where it could be read; `refused` the
    paths of what was not read for an error, well named.
    """

    kitchen: Kitchen
    as_of: date
    cuts: Mapping[str, Cut]
    cooks: Mapping[str, Cook]
    pantry: Mapping[str, PantryItem]
    plates: Mapping[str, Plate]
    swaps: Mapping[str, Swap]
    services: Mapping[str, Service] = field(default_factory=dict)
    tastings: Mapping[str, Tasting] = field(default_factory=dict)
    ballots: Mapping[str, tuple[Branch, ...]] = field(default_factory=dict)
    rules: Mapping[str, Branch] = field(default_factory=dict)
    prices: tuple[PriceRow, ...] = ()
    files: Mapping[str, ContentFile] = field(default_factory=dict)
    refused: frozenset[str] = frozenset()

    def has_file(self, folder: str, record_id: str) -> bool:
        """Whether a record has a file, be it one that could not be read."""
        path = f"{folder}/{record_id}"
        refused = {folder, f"{path}{YAML[0]}"} & self.refused
        return bool(refused) or any(f"{path}{ending}" in self.files for ending in YAML)

    def records(self) -> Iterator[Record]:
        """Every record that has a page of its own, folder by folder."""
        for kind in (self.cuts, self.cooks, self.pantry, self.plates, self.swaps, self.services):
            yield from kind.values()
        yield from self.tastings.values()


def load(root: Path, as_of: date | None, today: date) -> tuple[Content | None, list[Problem]]:
    """Read a content folder into records; None where the kitchen itself can't be read.

    The site is computed for `as_of`, else for the kitchen's own `as of`, else for `today`.
    """
    folder = read_folder(root, FOLDERS)
    problems = list(folder.problems)
    kitchen, found = _kitchen(folder.within(""))
    problems += found
    context = {"currency": str(kitchen.currency)} if kitchen else {}
    loaded: dict[str, dict[str, Record]] = {}
    for kind in RECORDS:
        loaded[kind.folder], found = _load_kind(kind, folder.within(kind.folder), context)
        problems += found
    ballots, found = _load_ballots(folder.within(Tasting.folder))
    problems += found
    prices, found = _load_prices(folder.within("prices"), context)
    problems += found
    rules, found = _load_rules(folder.within("rules"))
    problems += found
    if kitchen is None:
        return None, in_order(problems)
    stated = kitchen.as_of.day if kitchen.as_of else today
    content = Content(
        kitchen=kitchen,
        as_of=as_of or stated,
        cuts=cast("dict[str, Cut]", loaded["cuts"]),
        cooks=cast("dict[str, Cook]", loaded["cooks"]),
        pantry=cast("dict[str, PantryItem]", loaded["pantry"]),
        plates=cast("dict[str, Plate]", loaded["plates"]),
        swaps=cast("dict[str, Swap]", loaded["swaps"]),
        services=cast("dict[str, Service]", loaded["services"]),
        tastings=cast("dict[str, Tasting]", loaded["tastings"]),
        ballots=ballots,
        rules=rules,
        prices=tuple(prices),
        files={file.path: file for file in folder.files},
        refused=folder.refused,
    )
    return content, in_order(problems)


def _kitchen(files: tuple[ContentFile, ...]) -> tuple[Kitchen | None, list[Problem]]:
    for file in files:
        if file.id == "kitchen":
            tree, problems = parse_yaml(file.path, file.data)
            if problems:
                return None, problems
            # The currency decides how money is read, so it is looked up in the raw tree.
            kitchen, found = read_record(Kitchen, tree, file.path, _currency(tree))
            return kitchen and kitchen.named("kitchen", file.path), found
    return None, []


def _currency(tree: Node | None) -> dict[str, str]:
    if isinstance(tree, Branch):
        for key, value in tree.items():
            if key.lower() == "currency" and isinstance(value, Text):
                return {"currency": str(value)}
    return {}


def _load_kind(
    kind: type[R], files: tuple[ContentFile, ...], context: Mapping[str, str]
) -> tuple[dict[str, R], list[Problem]]:
    records: dict[str, R] = {}
    problems: list[Problem] = []
    for file in files:
        if file.suffix in CSV:
            continue
        tree, found = parse_yaml(file.path, file.data)
        problems += found
        if not found and tree is None:
            problems.append(Problem(Place(file.path), "this file is empty", kind.keys_hint()))
        if found or tree is None:
            continue
        record, found = read_record(kind, tree, file.path, context)
        problems += found
        if record is not None:
            records[file.id] = record.named(file.id, file.path)
    return records, problems


def _load_ballots(
    files: tuple[ContentFile, ...],
) -> tuple[dict[str, tuple[Branch, ...]], list[Problem]]:
    """Read the rows of the tastings' CSV files; each belongs to the YAML file of its name."""
    ballots: dict[str, tuple[Branch, ...]] = {}
    problems: list[Problem] = []
    yaml = {file.id for file in files if file.suffix in YAML}
    for file in files:
        if file.suffix not in CSV:
            continue
        rows, found = parse_csv(file.path, file.data, ["taster"], None)
        problems += found
        if rows or not found:
            ballots[file.id] = tuple(rows)
        if file.id not in yaml:
            hint = did_you_mean(file.id, yaml) or f"write {Tasting.folder}/{file.id}.yaml"
            problems.append(Problem(Place(file.path), "answers without their tasting", hint))
    return ballots, problems


def _load_rules(files: tuple[ContentFile, ...]) -> tuple[dict[str, Branch], list[Problem]]:
    """Read the trees of the kitchen's own rule sets; what they say is checked elsewhere."""
    trees: dict[str, Branch] = {}
    problems: list[Problem] = []
    for file in files:
        tree, found = parse_yaml(file.path, file.data)
        problems += found
        if isinstance(tree, Branch):
            trees[file.id] = tree
        elif not found:
            problems.append(
                Problem(Place(file.path), "a rule set belongs here", "write title: ...")
            )
    return trees, problems


def _load_prices(
    files: tuple[ContentFile, ...], context: Mapping[str, str]
) -> tuple[list[PriceRow], list[Problem]]:
    prices: list[PriceRow] = []
    problems: list[Problem] = []
    for file in files:
        rows, found = parse_prices(file.path, file.data)
        problems += found
        for row in rows:
            filled = Branch(row.place)
            filled.update((key, value) for key, value in row.items() if value)
            price, found = read_record(PriceRow, filled, file.path, context)
            problems += found
            if price is not None:
                prices.append(price)
    return prices, problems
