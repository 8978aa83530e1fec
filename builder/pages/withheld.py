"""What a reader may not see is kept from the pages themselves: reading it ends their section.

A page is made of a kitchen in which figures, keys and records that are not granted are barred.
Whatever looks at one, be it only to decide which words to use, raises `WithheldError`, and the
section that it belongs to is left out (`seen`). Cells, tiles and texts of barred figures hold
`WITHHELD` instead, and what holds that goes when the page is finished (`pages/granted.py`).
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, NoReturn, ParamSpec, TypeVar, cast

from builder.costing.blind import has_own_seed, is_over
from builder.costing.candidates import Candidates
from builder.costing.costed import Costed
from builder.costing.doubts import Doubts
from builder.costing.findings import Findings
from builder.costing.history import History
from builder.costing.tasting_results import TastingResult
from builder.costing.uncertainty import Uncertainty
from builder.engine.arith import Column
from builder.engine.book import Origin
from builder.engine.figures import Figures
from builder.engine.model import Node
from builder.pages.reader import Reader, reads_files
from builder.pages.weight_doubts import NoDoubts, WeightDoubts
from builder.reading.folder import PICTURES
from builder.records.base import Written
from builder.records.content import Content
from builder.records.editions import KINDS
from builder.records.fields import Measure
from builder.records.kinds import Kitchen
from builder.records.pricing import CurrentPrice
from builder.records.sold_as import SoldAs

P = ParamSpec("P")
R = TypeVar("R")

WITHHELD = "\ufdd0"
"""Stands where a text is not granted; a noncharacter, so that no file can hold it by chance."""


NOT_HERE = "(not in this edition)"
"""Stands in a note for what its reader is not granted, or what is nowhere."""


class WithheldError(Exception):
    """A page looked at what its reader may not see."""


class Barred:
    """In place of a value that is not granted: any look at it raises."""

    def _refuse(self, *_: object, **__: object) -> NoReturn:
        raise WithheldError

    def __getattr__(self, name: str) -> NoReturn:
        # Python itself looks for names of its own kind, and takes their absence for an answer.
        raise AttributeError(name) if name.startswith("__") else WithheldError

    __bool__ = __iter__ = __len__ = __contains__ = __getitem__ = _refuse
    __str__ = __repr__ = __format__ = __float__ = __int__ = __index__ = __call__ = _refuse
    __add__ = __radd__ = __sub__ = __rsub__ = __mul__ = __rmul__ = __truediv__ = _refuse
    __lt__ = __gt__ = __le__ = __ge__ = __eq__ = __ne__ = __hash__ = _refuse


BARRED = Barred()


def seen(make: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R | None:
    """A piece of a page; None where it rests on what the reader may not see."""
    try:
        return make(*args, **kwargs)
    except WithheldError:
        return None


def each_seen(pieces: Iterable[R]) -> Iterator[R]:
    """Pieces of a page up to the first that rests on what the reader may not see."""
    try:
        yield from pieces
    except WithheldError:
        return


class SeenFigures(Figures):
    """Figures of which those of some names can't be read."""

    def __init__(self, figures: Figures, hidden: Container[Node]) -> None:
        self.__dict__.update(figures.__dict__)
        self._hidden = hidden

    def _look(self, node: Node) -> None:
        if node in self._hidden:
            raise WithheldError

    def column(self, table: str, figure: str) -> Column:
        """All values of a figure."""
        self._look((table, figure))
        return super().column(table, figure)

    def value(self, table: str, figure: str, row: int) -> float:
        """One value of the plain computation."""
        self._look((table, figure))
        return super().value(table, figure, row)

    def origin(self, node: Node, row: int) -> Origin:
        """Where an entered value comes from."""
        self._look(node)
        return super().origin(node, row)


# Keys of free words, in whatever record they are; each needs notes.
_REMARKS = ("note", "log", "decided")
# Keys that whoever is granted a kind of record may read, by type; the others are barred. Beside
# a key the group of figures, or the part, that has to be granted as well.
_FREE = ""
_STAGE: dict[str, str] = {
    "how": _FREE, "leave": _FREE, "for_": "cooking", "tests": "weights", "loss": "weights",
    "gain": "weights", "yield_": "weights", "published": "weights", "parts": "weights",
    "give_or_take": "weights",
}  # fmt: skip
_CUT_CHAIN = dict.fromkeys(("purge", "trim", "portion_cut"), "weights")
_COOK_CHAIN = dict.fromkeys(("cure", "finish", "rest", "carve", "hold"), "weights")
_ALLERGENS = dict.fromkeys(("allergens", "may_contain"), "allergens")
KEYS: Mapping[str, Mapping[str, str]] = {
    "Kitchen": {  # what holds for every page
        **dict.fromkeys(
            ("name", "about", "currency", "locale", "units", "as_of", "time_zone", "authority",
             "sections", "equipment"), _FREE),
        "cover_cost": "plates", "garnish": "prices",
        "allergens": "allergens", "portions": "weights", "covers": "work", "staffed": "work",
        "room": "cooking", "fill_water": "cooking", "running_hours": "cooking",
    },
    "Equipment": {
        "title": _FREE, "kind": _FREE,
        **dict.fromkeys(
            ("how_many", "volume", "holds", "cover", "covered", "measured_standby", "fuel",
             "turn_round", "pans"), "cooking"),
        "cleaning": "work", "price": "prices", "charge": "prices",
    },
    "AllergenList": {"law": _FREE, "own": _FREE},
    "Cut": {
        **dict.fromkeys(("name", "imps", "species", "muscle"), _FREE), "supplier": "suppliers",
        "price": "prices", "each": "weights", "slices": "weights", **_CUT_CHAIN, **_ALLERGENS,
    },
    "Cook": {
        **_STAGE, **_CUT_CHAIN, **_COOK_CHAIN, **dict.fromkeys(("name", "cut", "equipment"), _FREE),
        **dict.fromkeys(
            ("at", "core", "form", "counts_as", "seared", "sealed", "piece", "energy",
             "gas", "hold_at", "hold_source", "cool", "store", "reheat"), "cooking"),
        "load": "weights", "slices": "weights", "hands_on": "work", "consumables": "prices",
        "remainder": "prices", "steps": "steps",
    },
    "PantryItem": {
        "name": _FREE, "supplier": "suppliers", "price": "prices", "of": _FREE,
        **dict.fromkeys(("makes", "yield_", "each", "litre", "quart"), "weights"),
        **dict.fromkeys(("energy", "fuel", "store"), "cooking"), "hands_on": "work",
        **_ALLERGENS, "steps": "steps",
    },
    "Plate": {
        **dict.fromkeys(("name", "menu", "cook", "cut", "with_", "portions"), _FREE),
        "portion": "weights", "price": "menu prices", "hands_on": "work", "sold": "sales",
        "forecast": "sales", "weighed_portions": "weights", **_ALLERGENS,
        "seasoning": "weights", "garnish": "prices", "cover_cost": "prices", "steps": "steps",
    },
    "SetMenu": {
        **dict.fromkeys(("name", "plates", "courses"), _FREE), "price": "menu prices",
        "guests": "sales", "cover_cost": "prices",
    },
    "Choice": {"share": "sales", "supplement": "menu prices"},
    "Buffet": {
        **dict.fromkeys(("name", "cooks", "items"), _FREE), "price": "menu prices",
        "left": "weights", "left_worth": "prices", "sells": "sales", "guests": "sales",
    },
    "Cover": {"money": "prices", "of": _FREE, "on": _FREE},
    "Step": {
        **dict.fromkeys(("what", "amounts", "caution", "picture"), _FREE),
        "for_": "cooking", "at": "cooking",
    },
    "Picture": {"file": _FREE, "shows": _FREE},
    "Portion": {"cook": _FREE, "cut": _FREE, "portion": "weights"},
    "Service": {**dict.fromkeys(("name", "day", "at", "plates", "steps"), _FREE)},
    "LogEntry": dict.fromkeys(("date", "who", "what", "why"), _FREE),
    "Serving": {"covers": "work", "ahead": "cooking"},
    "StaffStep": {"what": _FREE, "for_": _FREE},
    "Stage": _STAGE,
    "StageTolerance": {"loss": _FREE},
    "CookTolerance": {"loss": _FREE, "hands_on": "work", "energy": "cooking"},
    "WeighingTest": {
        "date": _FREE, "in_": _FREE, "out": _FREE, "parts": _FREE, "loss": _FREE,
    },
    "WeighedPart": {"weight": _FREE, "worth": "prices"},
    "StatedPart": {"share": _FREE, "worth": "prices"},
    "PublishedYield": {"table": _FREE, "yield_": _FREE, "source": _FREE},
    "Piece": dict.fromkeys(
        ("shape", "shape_factor", "thickness", "spread", "starts_at", "weight"), _FREE),
    "Cooling": {"to": _FREE, "within": _FREE, "in_": _FREE},
    "Reheating": {"at": _FREE, "for_": _FREE, "in_": _FREE},
    "Storing": {"at": _FREE, "for_": _FREE, "source": _FREE},
}  # fmt: skip
# Amounts in a mapping whose names are free.
_AMOUNTS = dict.fromkeys(
    (
        ("PantryItem", "of"), ("Plate", "with_"), ("Cover", "of"), ("Step", "amounts"),
        ("Buffet", "cooks"), ("Buffet", "items"),
    ),
    "weights",
)  # fmt: skip
# Values of which all may see that they are there, and what they measure: they say what is on a
# plate, or how something is sold.
_THERE = frozenset(
    (
        ("Kitchen", "garnish"), ("Plate", "garnish"), ("Plate", "seasoning"),
        ("Plate", "cover_cost"), ("SetMenu", "cover_cost"), ("Buffet", "price"),
    )
)  # fmt: skip
# What claims nothing where it is absent; of the rest absence would be a statement.
_ABSENT: Mapping[str, object] = {
    "note": None, "log": (), "decided": None, "evidence": None, "candidate": None, "steps": []
}  # fmt: skip
_OWN_NAMES = ("id", "file", "unread", "path", "listed_by")


def redacted(value: R, reader: Reader) -> R:
    """A value of a file in which every key that is not granted is barred."""
    return cast(R, _redacted(value, reader))


def _redacted(value: object, reader: Reader) -> object:
    if isinstance(value, Written):
        return _record(value, reader)
    if isinstance(value, dict):
        return {key: _redacted(each, reader) for key, each in value.items()}
    if isinstance(value, list | tuple) and any(isinstance(each, Written) for each in value):
        return type(value)(_redacted(each, reader) for each in value)
    return value


def _record(record: Written, reader: Reader) -> Written:
    kind = type(record).__name__
    keys = KEYS.get(kind, {})
    twin = record.model_copy()
    kept = {name: record.__dict__[name] for name in _OWN_NAMES if name in record.__dict__}
    for name in type(record).model_fields:
        grant = "notes" if name in _REMARKS else keys.get(name)
        if grant is None and reader.sees_records:
            grant = _FREE
        if grant is None or not _granted(grant, reader):
            kept[name] = _barred(record.__dict__[name], kind, name)
        elif (kind, name) in _AMOUNTS and not _granted(_AMOUNTS[kind, name], reader):
            kept[name] = dict.fromkeys(record.__dict__[name], BARRED)
        else:
            kept[name] = _redacted(record.__dict__[name], reader)
    twin.__dict__.clear()
    twin.__dict__.update(kept)
    return twin


def _barred(value: object, kind: str, name: str) -> object:
    """In place of a key's value that is not granted."""
    if (kind, name) not in _THERE:
        return _ABSENT.get(name, BARRED)
    barred: Any = BARRED
    if not isinstance(value, Measure):
        return None
    return replace(value, value=barred, text=barred, resolution=barred)


def _granted(grant: str, reader: Reader) -> bool:
    return not grant or grant in reader.groups or grant in reader.parts or grant in reader.kinds


def content_for(content: Content, reader: Reader) -> Content:
    """The records of the kinds that are granted, with the keys that are."""
    kinds: dict[str, Any] = {
        kind: {name: redacted(record, reader) for name, record in getattr(content, kind).items()}
        if kind in reader.kinds
        else {}
        for kind in KINDS
    }
    kitchen: Kitchen = redacted(content.kitchen, reader)
    lists = reads_files(reader)
    files = {
        path: file for path, file in content.files.items() if lists or path.startswith(PICTURES)
    }
    later = {
        path: title
        for path, title in content.left_out.items()
        if path.partition("/")[0] in reader.kinds
    }
    pages = content.pages if "notes" in reader.parts else {}
    kept = replace(content, kitchen=kitchen, files=files, left_out=later, pages=pages, **kinds)
    if reader.sees_records:
        return kept
    return replace(kept, ballots={}, prices=(), sales=(), till={})


def costed_for(costed: Costed, reader: Reader) -> Costed:
    """A computed kitchen of which the reader's pages are made."""
    figures = costed.figures
    content = content_for(costed.content, reader)
    hidden = reader.hidden(figures.model)
    barred: Any = BARRED
    return replace(
        costed,
        content=content,
        figures=SeenFigures(figures, hidden),
        prices={name: _price(price, reader) for name, price in costed.prices.items()},
        heat=costed.heat if "cooking" in reader.groups else barred,
        doubts=costed.doubts if reader.sees_figures else _doubts(costed, content, reader),
        services={
            name: replace(costed.services[name], service=service)
            for name, service in content.services.items()
        },
        tastings=_tastings(costed, reader),
        findings=costed.findings if "tasting answers" in reader.groups else Findings((), {}),
        uncertainty=costed.uncertainty if reader.sees_records else _uncertainty(costed, hidden),
        counts=costed.counts if "counts" in reader.kinds else {},
        candidates=costed.candidates if reader.sees_figures else Candidates(),
        # What changed says every cost and why it moved: for the owner alone.
        history=History(),
    )


def _price(current: CurrentPrice, reader: Reader) -> CurrentPrice:
    barred: Any = BARRED
    prices, suppliers = ("prices" in reader.groups), ("suppliers" in reader.groups)
    return CurrentPrice(
        current.price if prices else barred,
        current.supplier if suppliers else barred,
        current.since if prices else barred,
        _sold_as(current.sold_as, reader),
    )


def _sold_as(sold: SoldAs | None, reader: Reader) -> SoldAs | None:
    """How an item is sold: sizes are weights, a deposit is a price."""
    if sold is None or "weights" not in reader.groups:
        return None
    return sold if "prices" in reader.groups else sold.model_copy(update={"deposit": None})


def _tastings(costed: Costed, reader: Reader) -> Mapping[str, TastingResult]:
    """All, or those ahead whose ballots are printed, for whoever hands these out."""
    if reader.sees_records:
        return costed.tastings
    if "tasting sheets" not in reader.parts:
        return {}
    content = costed.content
    return {
        name: result
        for name, result in costed.tastings.items()
        if not is_over(content, result.tasting, result.held)
        and has_own_seed(content, result.tasting)
    }


def _doubts(costed: Costed, content: Content, reader: Reader) -> Doubts:
    if "weights" not in reader.groups:
        return NoDoubts(content)
    return WeightDoubts(content, costed.figures, costed.rows)


def _uncertainty(costed: Costed, hidden: Container[Node]) -> Uncertainty | None:
    if costed.uncertainty is None:
        return None
    spreads = {
        node: {row: replace(spread, shared=()) for row, spread in rows.items()}
        for node, rows in costed.uncertainty.spreads.items()
        if node not in hidden
    }
    barred: Any = BARRED
    return Uncertainty(spreads, *(barred,) * 7, {})
