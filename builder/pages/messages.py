"""The kitchen's own numbers, units and days in the messages of a build; what a file says stays.

Checks write a point, metric units and ISO days, for most of them run before a style is known. A
message is brought to the kitchen's locale and units here, once, whether it is printed or stands
on a page.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date

from builder.costing.wording import style_of
from builder.display.marks import NUMBER, in_style
from builder.display.scales import UnitSystem
from builder.display.style import Style
from builder.pages.message_units import hint_in_units, holds_measure, in_kitchen_units
from builder.problems import Problem
from builder.records.content import Content
from builder.records.customary import in_customary
from builder.records.equipment import gear_title
from builder.records.kitchen import Kitchen

_QUOTED = re.compile(r'("[^"]*")')
LONG_FILE = 200
_NO_CURRENCY = "XXX"
# Not in the name of a file or an id.
_DAY = re.compile(
    r"(?<![\w./-])(?P<year>(?:19|20)\d\d)-(?P<month>0[1-9]|1[0-2])(?:-(?P<day>\d\d))?"
    r"(?![\w/-]|\.\w)"
)
# A message about a day as it is written, after its key or without it.
_STATED = re.compile(r"(?:[a-z ]+: )?(?P<value>\d{4}-\d\d(?:-\d\d)?)\b")
# A limit of what is read: bytes, rows, values.
_GROUPED = re.compile(r"(?<![\w.,/-])\d{1,3}(?:,\d{3})+(?![\w.,/-]*\d)")
_DECIMAL = re.compile(r"\d[.,]\d")
_UNIT = re.compile(r" ?[^\s,;:.()\d]+")


def in_kitchen_style(problems: Iterable[Problem], content: Content) -> Iterator[Problem]:
    """The problems in the kitchen's locale and units, or in the usual ones that can be read."""
    style, files = _readable_style(content.kitchen), content.files
    kept = _kept_whole(_names(content))
    lines: dict[str, list[str]] = {}
    for problem in problems:
        name = problem.place.file
        if name not in lines:
            data = files[name].data if name in files else b""
            lines[name] = data.decode("utf-8", "replace").splitlines()
        yield problem_in_style(problem, style, lines[name], kept)


def _names(content: Content) -> Iterator[str]:
    """What records and equipment are called, where people read."""
    equipment = content.kitchen.equipment
    yield from (gear_title(equipment, str(key)) for key in equipment)
    yield from (record.title for record in content.records())


def _kept_whole(names: Iterable[str]) -> re.Pattern[str]:
    """What of a message stays as it is: what is quoted, and names that hold a measure.

    >>> _kept_whole(["Bath of 20 L", "Oven", "Bath of 20 L, old"]).split("Bath of 20 L, old: 2 kg")
    ['', 'Bath of 20 L, old', ': 2 kg']
    """
    held = {name for name in names if _DECIMAL.search(name) or holds_measure(name)}
    longest_first = sorted(held, key=len, reverse=True)
    return re.compile("|".join(('("[^"]*"', *map(re.escape, longest_first))) + ")")


def _readable_style(kitchen: Kitchen) -> Style:
    """The kitchen's style; without its currency, which messages don't need, or what else of it
    can't be read.
    """
    usual = {"currency": _NO_CURRENCY, "locale": None, "units": None}
    for parts in ((), ("currency",), ("currency", "locale")):
        try:
            return style_of(kitchen.model_copy(update={part: usual[part] for part in parts}))
        except ValueError:
            continue
    return style_of(kitchen.model_copy(update=usual))


def problem_in_style(
    problem: Problem, style: Style, lines: Sequence[str] = (), kept_whole: re.Pattern[str] = _QUOTED
) -> Problem:
    """A message in the style; what is `kept_whole`, quoted from its file's `lines`, or made of it
    in a hint, stays.

    >>> from builder.problems import Place
    >>> german = Style.of("de_DE", "EUR")
    >>> words = 'Appendix A, 6.5-log: "0.5 kg" on 2026-01-14 is 5.59 times 13.50/kg, as in 2026-02'
    >>> problem_in_style(Problem(Place("a.yaml"), words, "write 1.2"), german, ["13.50/kg"]).message
    'Appendix A, 6.5-log: "0.5 kg" on 14 Jan 2026 is 5,59 times 13.50/kg, as in Feb 2026'
    >>> written = Problem(Place("a.yaml", 1, 7), "2026-12-24 lies after 2026-10-01")
    >>> problem_in_style(written, german, ["date: 2026-12-24"]).message
    '2026-12-24 lies after 1 Oct 2026'
    """
    message = problem.message
    stated = _STATED.match(message)
    here = _line(problem, lines)
    at = here[max(problem.place.column - 1, 0) :]
    kept = stated[0] if stated and at.startswith(stated["value"]) else ""
    # Of a long list the row alone: looking through all of it for each row would take long.
    source = here if len(lines) > LONG_FILE else "\n".join(lines)
    # Every second piece is one that was found.
    pieces = (
        piece if number % 2 else _in_style(piece, style, source)
        for number, piece in enumerate(kept_whole.split(message[len(kept) :]))
    )
    ours = in_customary(problem) if style.units is UnitSystem.US_CUSTOMARY else problem
    return replace(ours, message=kept + "".join(pieces), hint=hint_in_units(ours.hint, style))


def _line(problem: Problem, lines: Sequence[str]) -> str:
    number = problem.place.line
    return lines[number - 1] if 0 < number <= len(lines) else ""


def _in_style(text: str, style: Style, source: str) -> str:
    """A text with its days and numbers in the style, but for values as the source has them."""
    text = in_kitchen_units(text, style, lambda value: _is_in(value, source))
    done: list[str] = []
    end = 0
    for found in NUMBER.finditer(text):
        unit = _UNIT.match(text, found.end())
        value = found[0] + (unit[0] if unit else "")
        if _is_in(value, source):
            done += [_with_days(in_style(text[end : found.start()], style), style), value]
            end = found.start() + len(value)
    styled = "".join((*done, _with_days(in_style(text[end:], style), style)))
    return _GROUPED.sub(
        lambda found: found[0] if _is_in(found[0], source) else _regrouped(found[0], style), styled
    )


def _regrouped(number: str, style: Style) -> str:
    """A count in groups of thousands as checks write it, in the style's groups.

    >>> _regrouped("1,048,576", Style.of("de_DE", "EUR"))
    '1.048.576'
    """
    return style.count(float(number.replace(",", "")))


def _is_in(value: str, source: str) -> bool:
    found = value in source  # a pattern takes longer to read than to look for
    return found and re.search(rf"(?<![\w.]){re.escape(value)}(?![\w.])", source) is not None


def _with_days(text: str, style: Style) -> str:
    return _DAY.sub(lambda found: _day_or_month(found, style), text)


def _day_or_month(found: re.Match[str], style: Style) -> str:
    year, month = int(found["year"]), int(found["month"])
    if found["day"] is None:
        return style.month((year, month))
    try:
        return style.date(date(year, month, int(found["day"])))
    except ValueError:
        return found[0]
