"""From the values of a rule set's file to a `RuleSet`, or the key path of what is wrong."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import TypeVar

from builder.cooking.foods import Cut, Form, Scope, Species
from builder.cooking.rule_fields import (
    Fields,
    Path,
    RuleSetError,
    seconds,
    temperature_c,
    words,
)
from builder.cooking.rules import (
    AsCooked,
    Clause,
    ComeUp,
    Cooling,
    CoolingStage,
    Forbidding,
    HoldRow,
    HoldTable,
    HotHolding,
    Keeping,
    Packaging,
    Reheating,
    RuleSet,
    StorageLimit,
    SurfaceRule,
)
from builder.display.words import listed
from builder.language import tr
from builder.quantities.prints import PRINTED_PAIR_C, lower_print, upper_print

T = TypeVar("T")

CITE = ("clause", "title", "status")
SCOPE = ("species", "forms", "cuts")
TOP = (
    "title", "authority", "jurisdiction", "edition", "status", "note", "holds", "surfaces",
    "come up", "cooling", "hot holding", "reheating", "packaging", "keeping", "forbids",
)  # fmt: skip


def parse_rule_set(data: Mapping[str, object], rule_set_id: str = "") -> RuleSet:
    """Build a rule set from the values of its file, or raise `RuleSetError`, a ValueError.

    Temperatures and durations are texts with their units ("130 °F", "112 min").
    """
    fields = Fields.of(data, (), TOP)
    rule_set = RuleSet(
        id=rule_set_id,
        title=fields.text("title"),
        authority=fields.text("authority"),
        jurisdiction=fields.text("jurisdiction"),
        edition=fields.text("edition"),
        status=fields.text("status"),
        note=fields.text("note", ""),
        holds=_each(fields, "holds", _hold_table),
        surfaces=_each(fields, "surfaces", _surface),
        come_up=_maybe(fields, "come up", _come_up),
        cooling=_maybe(fields, "cooling", _cooling),
        hot_holding=_each(fields, "hot holding", _hot_holding),
        reheating=_maybe(fields, "reheating", _reheating),
        packaging=_maybe(fields, "packaging", _packaging),
        keeping=_maybe(fields, "keeping", _keeping),
        forbids=_each(fields, "forbids", _forbidding),
    )
    if not (rule_set.holds or rule_set.forbids or rule_set.cooling):
        raise RuleSetError((), tr("it needs at least one of holds, forbids, cooling"))
    return rule_set


def _each(fields: Fields, key: str, build: Callable[[object, Path], T]) -> tuple[T, ...]:
    return tuple(build(item, path) for item, path in fields.items(key))


def _maybe(fields: Fields, key: str, build: Callable[[object, Path], T]) -> T | None:
    return build(fields.need(key), fields.at(key)) if fields.has(key) else None


def _clause(value: object, path: Path, keys: Sequence[str]) -> tuple[Fields, tuple[str, str, str]]:
    fields = Fields.of(value, path, (*CITE, *keys))
    return fields, (fields.text("clause"), fields.text("title"), fields.text("status"))


def _scope(fields: Fields) -> Scope:
    return Scope(
        fields.members("species", Species),
        fields.members("forms", Form),
        fields.members("cuts", Cut),
    )


def _hold_table(value: object, path: Path) -> HoldTable:
    keys = (*SCOPE, "sealed or humid", "asks", "rows", "lower needs", "taken as")
    fields, cite = _clause(value, path, keys)
    rows = _each(fields, "rows", _row)
    _check_rows(rows, fields.at("rows"))
    moist = fields.flag("sealed or humid", default=False)
    lower = fields.text("lower needs", "")
    taken = fields.text("taken as", "")
    return HoldTable(*cite, _scope(fields), moist, fields.texts("asks"), rows, lower, taken)


def _row(value: object, path: Path) -> HoldRow:
    if isinstance(value, str) or not isinstance(value, Sequence) or len(value) < 2:
        raise RuleSetError(
            path, tr("a row is a list: a temperature, once or in both units, a hold")
        )
    *temperatures, hold = value
    found = [temperature_c(t, (*path, i)) for i, t in enumerate(temperatures)]
    if max(found) - min(found) > PRINTED_PAIR_C:
        raise RuleSetError(
            path,
            tr(
                "{temperatures} are not the same temperature",
                temperatures=listed(temperatures),
            ),
        )
    last = (*path, len(temperatures))
    printed = tuple(words(t, path) for t in temperatures)
    return HoldRow(
        max(found), seconds(hold, last), printed, words(hold, last), lower_print(min(found))
    )


def _check_rows(rows: tuple[HoldRow, ...], path: Path) -> None:
    if not rows:
        raise RuleSetError(path, tr("it has no rows"))
    for index, (row, hotter) in enumerate(pairwise(rows), start=1):
        if hotter.at_c <= row.at_c:
            raise RuleSetError((*path, index), tr("each row is hotter than the one before"))
        if hotter.hold_s > row.hold_s:
            raise RuleSetError((*path, index), tr("a hotter row has no longer hold"))


def _surface(value: object, path: Path) -> SurfaceRule:
    fields, cite = _clause(value, path, (*SCOPE, "surface", "cook within", "asks"))
    asks = fields.texts("asks")
    longest = fields.minutes("cook within")
    surface = fields.celsius("surface") if fields.has("surface") else None
    return SurfaceRule(*cite, _scope(fields), surface, longest, asks)


def _rising(fields: Fields, low: str, high: str) -> tuple[float, float]:
    below, above = fields.celsius(low), fields.celsius(high)
    if not below < above:
        raise RuleSetError(fields.at(high), tr("{high} has to be above {low}", high=high, low=low))
    return below, above


def _come_up(value: object, path: Path) -> ComeUp:
    fields, cite = _clause(value, path, ("from", "to", "within", "binding"))
    low, high = _rising(fields, "from", "to")
    return ComeUp(*cite, low, high, fields.minutes("within"), fields.flag("binding", default=True))


def _cooling(value: object, path: Path) -> Cooling:
    fields, cite = _clause(value, path, ("stages",))
    stages = _each(fields, "stages", _stage)
    if not stages:
        raise RuleSetError(fields.at("stages"), tr("it has no stages"))
    return Cooling(*cite, stages)


def _stage(value: object, path: Path) -> CoolingStage:
    fields = Fields.of(value, path, ("from", "to", "within"))
    low, high = _rising(fields, "to", "from")
    return CoolingStage(high, low, fields.minutes("within"))


def _hot_holding(value: object, path: Path) -> HotHolding:
    fields, cite = _clause(value, path, (*SCOPE, "at"))
    prints = fields.prints_c("at")
    least = lower_print(min(prints))
    return HotHolding(*cite, _scope(fields), prints[0], least, fields.text("at"))


def _reheating(value: object, path: Path) -> Reheating:
    fields, cite = _clause(value, path, ("at", "for", "within", "as cooked", "to order"))
    within = fields.minutes("within") if fields.has("within") else None
    hold = seconds(fields.need("for"), fields.at("for"))
    as_cooked = _maybe(fields, "as cooked", _as_cooked)
    to_order = _maybe(fields, "to order", lambda value, path: Clause(*_clause(value, path, ())[1]))
    return Reheating(*cite, fields.celsius("at"), hold, within, as_cooked, to_order)


def _as_cooked(value: object, path: Path) -> AsCooked:
    fields, cite = _clause(value, path, ("table",))
    return AsCooked(*cite, fields.text("table"))


def _keeping(value: object, path: Path) -> Keeping:
    fields, cite = _clause(value, path, ("limits", "first day counts"))
    counts = fields.flag("first day counts", default=False)
    return Keeping(*cite, _each(fields, "limits", _storage), counts)


def _packaging(value: object, path: Path) -> Packaging:
    keys = ("needs", "limits", "first day counts", "cooked by", "cooled by")
    fields, cite = _clause(value, path, keys)
    counts = fields.flag("first day counts", default=False)
    cooked, cooled = fields.text("cooked by", ""), fields.text("cooled by", "")
    limits = _each(fields, "limits", _storage)
    return Packaging(*cite, limits, counts, fields.texts("needs"), cooked, cooled)


def _storage(value: object, path: Path) -> StorageLimit:
    fields = Fields.of(value, path, ("at", "for", "status", "note", "cooled to", "cooled within"))
    days = fields.minutes("for") / (24 * 60)
    prints = fields.prints_c("at")
    note = fields.text("note", "")
    return StorageLimit(
        prints[0],
        round(days, 6),
        fields.text("status"),
        note,
        upper_print(max(prints)),
        upper_print(max(fields.prints_c("cooled to"))) if fields.has("cooled to") else None,
        fields.minutes("cooled within") if fields.has("cooled within") else None,
    )


def _forbidding(value: object, path: Path) -> Forbidding:
    fields, cite = _clause(value, path, ("from", "to", "in all"))
    low, high = _rising(fields, "from", "to")
    return Forbidding(*cite, low, high, fields.minutes("in all"))
