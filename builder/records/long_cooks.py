"""A long cook in a bath whose time is a small part of what the same cut takes there elsewhere."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from builder.language import tr
from builder.problems import Problem
from builder.records.content import Content
from builder.records.kinds import Cook
from builder.records.slips import slip
from builder.records.ways import BATH
from builder.records.written import Doubted, Value, is_far, middle_of, warning

# Collagen takes most of a day to give way at such temperatures: where the others of a cut go on
# for so long [h], several of them, a fifth of the shortest leaves it as tough as it was. A thin
# piece of the cut may be another dish. Common practice, no published source.
LONG, SEVERAL, PART, AS_THICK = 12.0, 2, 0.2, 1.6


def check_long_cooks(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a cook that is far shorter than every other of its cut and way."""
    alike: dict[tuple[str, ...], list[Cook]] = defaultdict(list)
    for cook in content.cooks.values():
        if cook.how == BATH and cook.for_ and cook.for_.place not in reported:
            alike[str(cook.cut), *(cook.form or ())].append(cook)
    for cooks in alike.values():
        ordered = sorted(cooks, key=_hours)
        others = [_hours(cook) for cook in ordered[1:]]
        short = len(others) >= SEVERAL and others[0] >= LONG
        if short and _hours(ordered[0]) < PART * others[0] and _as_thick(ordered[0], ordered[1]):
            yield from _short(ordered[0], middle_of(others))


def _hours(cook: Cook) -> float:
    return cook.for_.value if cook.for_ else 0.0


def _as_thick(one: Cook, other: Cook) -> bool:
    """Whether two pieces are about as thick, as far as is known."""
    found = [cook.piece.thickness for cook in (one, other) if cook.piece]
    thick = [each.value for each in found if each]
    return len(thick) < len((one, other)) or not is_far(thick[0], thick[1], AS_THICK)


def _short(cook: Cook, middle: float) -> Iterator[Problem]:
    time = cook.for_
    if time is not None and time.value > 0:
        value = Value("cooks.for", time, cook, cook.path)
        message = tr(
            "{time} is short: the other cooks of the cut in a water bath go on for {middle:.0f} h",
            time=time.text,
            middle=middle,
        )
        yield from warning(value, message, slip(time, middle / time.value))
