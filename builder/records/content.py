"""A whole content folder as records: what the rest of the builder works from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Any, ClassVar, Generic, TypeVar, cast

from babel.numbers import is_currency
from pydantic import Field

from builder.language import tr
from builder.problems import Gathered, Place, Problem, bounded, in_order
from builder.quantities import UNKNOWN_CURRENCY, Dimension, is_free
from builder.reading.folder import (
    CSV,
    PAGE,
    PAGES,
    PICTURE,
    PICTURES,
    YAML,
    ContentFile,
    read_folder,
)
from builder.reading.prices import parse_prices
from builder.reading.salvage import parse_or_salvage
from builder.reading.tree import Branch, Node, Text
from builder.reading.yaml_text import parse_yaml
from builder.records.allergens import context_of
from builder.records.ballot_files import load_ballots
from builder.records.base import Record, Written, read_record
from builder.records.by_count import settle_counts
from builder.records.candidates import Candidate, MuscleName
from builder.records.fields import Date, Id, Money, Words
from builder.records.free_pages import FreePage, load_pages
from builder.records.guests import settle_guests
from builder.records.kinds import (
    RECORDS,
    Buffet,
    Cook,
    Count,
    Cut,
    Equipment,
    PantryItem,
    Plate,
    Service,
    SetMenu,
    Swap,
    Tasting,
)
from builder.records.kitchen import Kitchen
from builder.records.kitchen_head import written_for
from builder.records.looked_over import check_looked_over
from builder.records.own_words import PIECE_NAMES
from builder.records.pack_prices import sized_prices
from builder.records.partial import partial_record
from builder.records.sales import FOLDER as SALES
from builder.records.sales import MonthSold, Sale, load_sales
from builder.records.sold_as import Least, PurchasePrice, Sold, SoldAs
from builder.records.till import NO_TILL
from builder.records.tree_paths import tidy_key
from builder.records.ways import with_usual_kinds, with_usual_ways

R = TypeVar("R", bound=Record)

FOLDERS = {
    **{kind.folder: YAML for kind in RECORDS},
    Tasting.folder: (*YAML, *CSV),
    "prices": CSV,
    SALES: CSV,
    "rules": YAML,
    PICTURES: PICTURE,
    PAGES: PAGE,
}


class PriceRow(Written):
    """prices/*.csv: a row for each price of an item, from its day on."""

    examples: ClassVar[Mapping[str, str]] = {
        "item": "beef-chuck-roll", "price": "7.90/kg", "candidate": "ribeye-steak",
        "sold as": "case of 10 kg", "minimum": "2 cases", "deposit": "3.00",
    }  # fmt: skip

    date: Date = Field(description="the day from which the price holds")
    item: Id = Field(description="id of a cut or a pantry item")
    price: PurchasePrice = Field(description="as purchased, or free; 0.00 does not count")
    supplier: Words | None = Field(None, description="who sells it")
    sold_as: Sold | None = Field(
        None, description="case of 10 kg, piece of about 1.8 kg or steps of 500 g, over the file's"
    )
    minimum: Least | None = Field(None, description="smallest order, such as 5 kg or 2 cases")
    deposit: Money | None = Field(None, description="for each pack, given back with the empty")
    candidate: Candidate | None = Field(
        None, description="of a cut without a file: id of the plate that it might replace"
    )
    muscle: MuscleName | None = Field(
        None, description="of a cut without a file: beef muscle that most of it is"
    )
    note: Words | None = Field(None, description="a remark")

    @property
    def sold(self) -> SoldAs | None:
        """How the row says that the item is sold, as far as it does."""
        own = {"minimum": self.minimum, "deposit": self.deposit}
        kept = {key: each for key, each in own.items() if each}
        said = self.sold_as or (SoldAs.model_construct(None) if kept else None)
        return said.model_copy(update=kept) if said and kept else said


class _Of(Generic[R]):
    """The records of a kind, as an attribute of the content."""

    def __init__(self, kind: type[R]) -> None:
        self.kind = kind

    def __get__(self, content: Content, _: object = None) -> Mapping[str, R]:
        return content.of(self.kind)


@dataclass(frozen=True, slots=True)
class Content:
    """Every record of a kitchen, by id, and the files that they were written in.

    `kinds` holds the records by their folder (`of`; those that much leans on by name, as `cuts`).
    `left_out` holds the titles of records that have no price yet on the day, by path, and
    `unweighed` the stages of cuts and cooks that were not weighed by the day, by path.
    `rules` holds the trees of the kitchen's own rule sets, and `ballots` the rows of each
    tasting's CSV by its id, as they are written, where it could be read; `refused` the
    paths of what was not read for an error, well named; `doubtful` the files with an
    error, whose records are partial. `sales` holds the rows of the till's exports, `till` what
    they come to by plate and month, once they are counted (`with_till_counts`).
    """

    kitchen: Kitchen
    as_of: date
    kinds: Mapping[str, Mapping[str, Any]]
    pages: Mapping[str, FreePage] = field(default_factory=dict)
    ballots: Mapping[str, tuple[Branch, ...]] = field(default_factory=dict)
    rules: Mapping[str, Branch] = field(default_factory=dict)
    prices: tuple[PriceRow, ...] = ()
    sales: tuple[Sale, ...] = ()
    till: Mapping[tuple[str, date], MonthSold] = field(default_factory=dict)
    files: Mapping[str, ContentFile] = field(default_factory=dict)
    refused: frozenset[str] = frozenset()
    left_out: Mapping[str, str] = field(default_factory=dict)
    unweighed: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    doubtful: frozenset[str] = frozenset()

    cuts = _Of(Cut)
    cooks = _Of(Cook)
    pantry = _Of(PantryItem)
    plates = _Of(Plate)
    menus = _Of(SetMenu)
    buffets = _Of(Buffet)
    swaps = _Of(Swap)
    services = _Of(Service)
    tastings = _Of(Tasting)
    counts = _Of(Count)

    def has_file(self, folder: str, record_id: str) -> bool:
        """Whether a record has a file, be it one that could not be read."""
        path = f"{folder}/{record_id}"
        refused = {folder, f"{path}{YAML[0]}"} & self.refused
        return bool(refused) or any(f"{path}{ending}" in self.files for ending in YAML)

    def record(self, path: str) -> Record | None:
        """The record of a path such as "cuts/beef-chuck-roll", where there is one."""
        folder, _, record_id = path.partition("/")
        return self.kinds.get(folder, {}).get(record_id)

    def of(self, kind: type[R]) -> Mapping[str, R]:
        """The records of a kind by id."""
        return self.kinds[kind.folder]

    def with_records(self, **changed: Mapping[str, Record]) -> Content:
        """The content with other records in some folders."""
        return replace(self, kinds={**self.kinds, **changed})

    @property
    def weighed(self) -> list[Cut | Cook]:
        """The records that have stages of weight, cuts first."""
        return [*self.cuts.values(), *self.cooks.values()]

    def records(self) -> Iterator[Record]:
        """Every record that has a page of its own, folder by folder, what sells plates last."""
        for kind in sorted(RECORDS, key=lambda kind: kind in (SetMenu, Buffet)):
            yield from self.of(kind).values()


def load(root: Path, as_of: date | None, today: date) -> tuple[Content, list[Problem]]:
    """Read a content folder into records.

    A record with an error is there, too, with what could be read of it (`partial_record`), so
    that the rest can be checked. The site is computed for `as_of`, else for the kitchen's own
    `as of`, else for `today`.
    """
    folder = read_folder(root, FOLDERS)
    problems = Gathered()
    problems.add(folder.problems)
    kitchen, found = _kitchen(folder.within(""))
    problems.add(found)
    unread = "allergens" in kitchen.unread
    context = {
        "currency": _known_currency(kitchen),
        **context_of(kitchen.allergens, unread=unread),
    }
    loaded: dict[str, dict[str, Record]] = {}
    for kind in RECORDS:
        files = folder.within(kind.folder)
        loaded[kind.folder] = _load_kind(kind, files, context, problems)
        if kind is Cook:
            context[PIECE_NAMES] = _names_of_pieces(loaded[kind.folder])
    cuts, cooks = (cast("dict[str, Cut]", loaded["cuts"]), cast("dict[str, Cook]", loaded["cooks"]))
    plates = cast("dict[str, Plate]", loaded["plates"])
    problems.add(settle_counts(cuts, cooks, plates))
    menus = cast("dict[str, SetMenu]", loaded["menus"])
    services = cast("dict[str, Service]", loaded["services"])
    counts = cast("dict[str, Count]", loaded["counts"])
    settle_guests(services, counts, menus, plates)
    ballots, found = load_ballots(folder.within(Tasting.folder))
    problems.add(found)
    prices = _load_prices(folder.within("prices"), context, problems)
    bought = {**cuts, **loaded["pantry"]}
    prices, found = sized_prices(cast("dict[str, Cut | PantryItem]", bought), prices)
    problems.add(found)
    names_known = not any(path.startswith("plates") for path in folder.refused)
    # How the till writes is half of what its exports say.
    exports = () if "till" in kitchen.unread else folder.within(SALES)
    till = kitchen.till or NO_TILL
    sales, found = load_sales(exports, till, plates, context, names_known=names_known)
    problems.add(found)
    rules, found = _load_rules(folder.within("rules"))
    problems.add(found)
    pages, found = load_pages(folder.files)
    problems.add(found)
    _name_listed_units(cast("dict[str, PantryItem]", loaded["pantry"]), prices)
    kitchen = with_usual_kinds(kitchen)
    content = Content(
        kitchen=kitchen,
        as_of=as_of or _day_of(kitchen, today),
        kinds={**loaded, Cook.folder: with_usual_ways(cooks)},
        pages=pages,
        ballots=ballots,
        rules=rules,
        prices=tuple(prices),
        sales=tuple(sales),
        files={file.path: file for file in folder.files},
        refused=folder.refused,
        doubtful=folder.refused | {each.place.file for each in problems if each.is_error},
    )
    owners: tuple[Record | Equipment, ...] = (
        kitchen,
        *kitchen.equipment.values(),
        *content.records(),
    )
    problems.add(check_looked_over(owners, max(today, content.as_of)))
    return content, in_order(problems)


def _name_listed_units(pantry: Mapping[str, PantryItem], prices: Iterable[PriceRow]) -> None:
    """Let each item know what the lists count it in, where their rows agree."""
    found: dict[str, set[Dimension]] = {}
    for row in prices:
        if row.price.dimension is not None and not is_free(row.price.text):
            found.setdefault(str(row.item), set()).add(row.price.dimension)
    for name, item in pantry.items():
        if len(units := found.get(name, set())) == 1:
            item.__dict__.update(listed_by=next(iter(units)))


def _day_of(kitchen: Kitchen, today: date) -> date:
    """The day that the kitchen names; the last of days where that can't be read."""
    if kitchen.as_of:
        return kitchen.as_of.day
    return date.max if "as_of" in kitchen.unread else today


def _kitchen(files: tuple[ContentFile, ...]) -> tuple[Kitchen, list[Problem]]:
    for file in files:
        if file.id == "kitchen":
            tree, problems = parse_or_salvage(file.path, file.data)
            # The currency decides how money is read, so it is looked up in the raw tree.
            kitchen, found = _record(Kitchen, tree, file, {"currency": _currency(tree)}, problems)
            return kitchen.named("kitchen", file.path), [*problems, *found]
    return partial_record(Kitchen, None, {}, cut_short=True).named("kitchen", "kitchen.yaml"), []


def _currency(tree: Node | None) -> str:
    """The kitchen's currency, where it is one."""
    written = written_for(tree, "currency")
    return written if is_currency(written) else UNKNOWN_CURRENCY


def _known_currency(kitchen: Kitchen) -> str:
    """The currency that the kitchen names, where it could be read."""
    known = is_currency(kitchen.currency) and "currency" not in kitchen.unread
    return str(kitchen.currency) if known else UNKNOWN_CURRENCY


def _record(
    kind: type[R],
    tree: Node | None,
    file: ContentFile,
    context: Mapping[str, str],
    reported: list[Problem],
) -> tuple[R, list[Problem]]:
    """A file's record, or what can be read of it, and what is wrong beside `reported`."""
    if tree is None and reported:
        return partial_record(kind, tree, context, cut_short=True), []
    record, found = read_record(kind, tree, file.path, context, reported)
    if record is None or reported:
        record = partial_record(kind, tree, context, cut_short=bool(reported))
    return record, found


def _load_kind(
    kind: type[R],
    files: tuple[ContentFile, ...],
    context: Mapping[str, str],
    problems: Gathered,
) -> dict[str, R]:
    """The records of a kind by id; what is wrong with them goes to `problems`."""
    records: dict[str, R] = {}
    for file in files:
        if file.suffix in CSV:
            continue
        tree, reported = parse_or_salvage(file.path, file.data)
        own = {**context, PIECE_NAMES: _name_of_piece(tree)} if kind is Cook else context
        record, found = _record(kind, tree, file, own, reported)
        problems.add((*reported, *found))
        records[file.id] = record.named(file.id, file.path)
    return records


def _name_of_piece(tree: Node | None) -> str:
    """What a cook's file calls its piece, looked up in the raw tree: tests come before it."""
    for step in ("piece", "name"):
        keys = tree if isinstance(tree, Branch) else Branch(Place(""))
        tree = next((value for key, value in keys.items() if tidy_key(key) == step), None)
    return str(tree) if isinstance(tree, Text) else ""


def _names_of_pieces(cooks: Mapping[str, Record]) -> str:
    pieces = (cook.piece for cook in cooks.values() if isinstance(cook, Cook))
    return "\n".join(str(piece.name) for piece in pieces if piece and piece.name)


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
                Problem(Place(file.path), tr("a rule set belongs here"), tr("write title: ..."))
            )
    return trees, problems


def _load_prices(
    files: tuple[ContentFile, ...], context: Mapping[str, str], problems: Gathered
) -> list[PriceRow]:
    prices: list[PriceRow] = []
    for file in files:
        rows, found = parse_prices(file.path, file.data)
        problems.add(found)
        problems.add(bounded(_price_rows(file, rows, context, prices)))
    return prices


def _price_rows(
    file: ContentFile, rows: list[Branch], context: Mapping[str, str], prices: list[PriceRow]
) -> Iterator[Problem]:
    """Read the rows of a price list into `prices`, one by one, and yield what is wrong."""
    for row in rows:
        filled = Branch(row.place)
        filled.update((key, value) for key, value in row.items() if value)
        price, found = read_record(PriceRow, filled, file.path, context)
        yield from found
        if price is not None:
            prices.append(price)
