"""The hours of a cook in a bath against the kind of its cut, where nothing else tells of them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator

from builder.data.bath_hours import BathHours, bath_hours
from builder.language import Deferred, tr
from builder.problems import Problem
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut
from builder.records.slips import slip
from builder.records.ways import BATH
from builder.records.written import Doubted, Value, warning

_WHOLE = "intact"
# Cuts that less than this [h] is enough for are tender: their row's reason is of long cooks.
_TENDER_H = 1.0
_SHORT = Deferred("{time} is short for {cut} in a water bath: {reason}")
_LONG = Deferred("{time} is long for {cut} in a water bath: {reason}")


def check_bath_hours(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a bath cook that is far shorter, or longer, than cuts of its kind are cooked."""
    for cook in content.cooks.values():
        cut = content.cuts.get(cook.cut)
        if cut is None or cook.for_ is None or cook.for_.place in reported:
            continue
        if cook.how == BATH and not {*(cook.form or ())} - {_WHOLE}:
            for row in bath_hours():
                if _is_of(row, cook, cut):
                    yield from _outside(row, cook, cut, cook.for_)


def _is_of(row: BathHours, cook: Cook, cut: Cut) -> bool:
    thick = cook.piece.thickness if cook.piece else None
    words = f"{cut.id.replace('-', ' ')} {cut.title}".lower()
    return (
        cut.species in row.species
        and (cook.at is None or cook.at.value <= row.up_to_c)
        and (thick is None or thick.value > row.thicker_mm)
        and _names(words, row.words)
        and not _names(f"{words} {cook.title.lower()}", row.but)
    )


def _names(text: str, words: Iterable[str]) -> bool:
    return any(re.search(rf"\b{re.escape(word)}\b", text) for word in words)


def _reason(row: BathHours, short: bool) -> str:
    """Why hours are too few or too many: the row's reason is that of its own end."""
    if short and row.low < _TENDER_H:
        return tr("its middle takes longer than that to warm; common practice, no published source")
    if short or row.low < _TENDER_H:
        return tr(row.reason)
    return tr("its collagen gave way long before; common practice, no published source")


def _outside(row: BathHours, cook: Cook, cut: Cut, time: Measure) -> Iterator[Problem]:
    if row.low <= time.value <= row.high or time.value <= 0:
        return
    short = time.value < row.low
    reason, name = _reason(row, short), cut.title
    message = tr(_SHORT if short else _LONG, time=time.text, cut=name, reason=reason)
    value = Value("cooks.for", time, cook, cook.path)
    hint = slip(time, math.sqrt(row.low * row.high) / time.value)
    yield from warning(value, message, hint, "cuts")
