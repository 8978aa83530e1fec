"""What a plate, a cut or a pantry item contains, gathered from all that goes into it.

A record that is bought and states nothing is named, so that unknown never reads as none.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from babel import Locale, UnknownLocaleError

from builder.data.allergens import Law, laws, vocabulary
from builder.display.words import listed
from builder.language import tr
from builder.records.allergens import Stated, in_full, meaning_of
from builder.records.content import Content
from builder.records.covered import cover_items
from builder.records.kinds import Cut, PantryItem, Plate
from builder.records.kitchen import Kitchen
from builder.records.tree_paths import tidy_key

Holder: TypeAlias = Cut | PantryItem | Plate
"""A record that states allergens."""
Kind: TypeAlias = tuple[str, str]
"""An allergen and which of its kinds, empty where no kind is named."""
State: TypeAlias = Literal["contains", "may contain", "not stated", ""]
"""What is known of one allergen in a plate; empty where every part is stated and none names it."""


@dataclass(frozen=True, slots=True)
class Contained:
    """What is stated, with the records that state it, and the records that state nothing.

    `rows` are those of the kitchen's list, by whose names it is said.
    """

    contains: Mapping[Kind, tuple[Holder, ...]]
    may: Mapping[Kind, tuple[Holder, ...]]
    unstated: tuple[Holder, ...]
    rows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class KitchenList:
    """The allergens that pages list, in order; `why` says where the list is a default."""

    law: Law | None
    rows: tuple[str, ...]
    why: str = ""


def contained(content: Content, *roots: Holder) -> Contained:
    """Gather what some records and everything that goes into them contain."""
    contains: dict[Kind, list[Holder]] = {}
    may: dict[Kind, list[Holder]] = {}
    unstated: list[Holder] = []
    for record in reached(content, roots):
        for kind in own_kinds(record):
            contains.setdefault(kind, []).append(record)
        for kind in _kinds(record.may_contain):
            may.setdefault(kind, []).append(record)
        if _is_bought(record) and not (record.allergens and record.allergens.is_known):
            unstated.append(record)
    known = {*contains, *((name, "") for name, _ in contains)}
    traces = {kind: records for kind, records in may.items() if kind not in known}
    rows = list_of(content.kitchen).rows
    return Contained(_in_order(contains), _in_order(traces), tuple(unstated), rows)


def parts_of(content: Content, record: Holder) -> Iterator[Cut | PantryItem]:
    """What goes directly into a record: the cut and the pantry items of a plate, ingredients."""
    amounts = {**record.with_, **cover_items(content, record)} if isinstance(record, Plate) else {}
    for name in record.cooks if isinstance(record, Plate) else ():
        cook = content.cooks.get(name)
        if cook is not None and cook.cut in content.cuts:
            yield content.cuts[cook.cut]
    for name in record.raw_cuts if isinstance(record, Plate) else ():
        if name in content.cuts:
            yield content.cuts[name]
    if isinstance(record, PantryItem):
        amounts = record.of
    yield from (content.pantry[name] for name in amounts if name in content.pantry)


def reached(content: Content, roots: Iterable[Holder]) -> Iterator[Holder]:
    """The records and all that goes into them, each once, in the order written."""
    waiting, seen = list(roots)[::-1], set[str]()
    while waiting:
        record = waiting.pop()
        if record.path not in seen:
            seen.add(record.path)
            yield record
            waiting.extend(list(parts_of(content, record))[::-1])


def own_kinds(record: Holder) -> Iterator[Kind]:
    """What a record contains by itself; a cut of fish is fish, whether its file says so or not."""
    found = list(_kinds(record.allergens))
    if isinstance(record, Cut) and record.species == "fish":
        found += [("fish", "")] if not any(name == "fish" for name, _ in found) else []
    yield from dict.fromkeys(found)


def _kinds(stated: Stated | None) -> Iterator[Kind]:
    yield from ((each.name, each.kind) for each in (stated.allergens if stated else ()))


def _is_bought(record: Holder) -> bool:
    return isinstance(record, Cut) or (isinstance(record, PantryItem) and not record.of)


def _in_order(found: Mapping[Kind, list[Holder]]) -> dict[Kind, tuple[Holder, ...]]:
    """Sorted as the laws' allergens are, the kitchen's own last."""
    names = vocabulary().names

    def place(kind: Kind) -> tuple[int, str, str]:
        return (names.index(kind[0]) if kind[0] in names else len(names), *kind)

    return {kind: tuple(found[kind]) for kind in sorted(found, key=place)}


def in_words(kinds: Iterable[Kind], rows: Collection[str] = ()) -> str:
    """Allergens as a sentence lists them.

    A kind that is a row of the kitchen's list leads, as its row does; what it is a kind of stays
    beside it, so that no allergen's word is ever missing.

    >>> in_words([("gluten", ""), ("gluten", "rye"), ("tree nuts", "hazelnuts")])
    'gluten (rye among it) and tree nuts (hazelnuts)'
    >>> in_words([("gluten", "rye"), ("gluten", "wheat"), ("milk", "")], ["wheat", "milk"])
    'gluten (rye), wheat (gluten) and milk'
    """
    # By what leads: an allergen with its kinds, or a kind of its own row with its allergen.
    named: dict[Kind, list[str]] = {}
    for name, kind in kinds:
        own_row = bool(kind) and kind in rows
        named.setdefault((name, kind if own_row else ""), []).append(kind)
    return listed(
        [
            in_full(tr(kind), tr(name)) if kind else in_full(tr(name), _which(name, of))
            for (name, kind), of in named.items()
        ]
    )


def _which(name: str, kinds: list[str]) -> str:
    known = listed([tr(kind) for kind in kinds if kind])
    if not known or "" not in kinds:
        return known
    if name.endswith("s"):
        return tr("{known} among them", known=known)
    return tr("{known} among it", known=known)


def state_of(row: str, found: Contained) -> State:
    """What is known of an allergen of the kitchen's list.

    Where the list names a kind (wheat) and a file only its allergen (gluten), which kind it is is
    not stated.
    """
    if any(row in kind for kind in found.contains):
        return "contains"
    whole = whole_of(row)
    if (whole, "") in found.contains:
        return "not stated"
    if any(row in kind or kind == (whole, "") for kind in found.may):
        return "may contain"
    return "not stated" if found.unstated else ""


def whole_of(row: str) -> str:
    """The allergen that a row of a list is, or is a kind of.

    >>> whole_of("wheat"), whole_of("milk"), whole_of("buckwheat")
    ('gluten', 'milk', 'buckwheat')
    """
    return vocabulary().meanings.get(row.lower(), (row, ""))[0]


def list_of(kitchen: Kitchen) -> KitchenList:
    """The allergens that the kitchen's pages list, by its own choice or by default."""
    chosen = kitchen.allergens
    law, why = (laws().get(str(chosen.law)), "") if chosen and chosen.law else _default(kitchen)
    rows = [row.name for row in law.rows] if law else []
    own = [own_row(name) for name in (chosen.own if chosen else ())]
    return KitchenList(law, tuple(dict.fromkeys([*rows, *own])), why)


def own_row(name: str) -> str:
    """The row of the kitchen's list that an entry of its own makes.

    >>> own_row("Prawn"), own_row("dairy"), own_row("Buckwheat")
    ('prawns', 'milk', 'buckwheat')
    """
    whole, kind = meaning_of(tidy_key(name), {}) or (tidy_key(name), "")
    return kind or whole


def _default(kitchen: Kitchen) -> tuple[Law, str]:
    found = next((law for law in laws().values() if kitchen.authority in law.authorities), None)
    if found:
        return found, tr("as it is the law where the kitchen's authority is")
    place = _territory(kitchen)
    found = next((law for law in laws().values() if place in law.territories), None)
    if found:
        return found, tr("as the kitchen's locale is {locale}", locale=kitchen.locale)
    longest = max(laws().values(), key=lambda law: len(law.rows))
    return longest, tr("the longest list held here, as no list is held for this kitchen's place")


def _territory(kitchen: Kitchen) -> str:
    try:
        return str(Locale.parse(kitchen.locale).territory or "") if kitchen.locale else ""
    except (UnknownLocaleError, ValueError):
        return ""


def beyond(rows: Iterable[str], found: Iterable[Contained]) -> list[str]:
    """Allergens that files state and the list does not name, in order."""
    listed_names = set(rows)
    named: dict[str, None] = {}
    for each in found:
        for kind in (*each.contains, *each.may):
            if listed_names.isdisjoint(kind):
                named[kind[0]] = None
    return list(named)
