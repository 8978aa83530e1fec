"""One written number of a kitchen changed at a time: which slips nothing reports.

`python -m tests.records.sweep FOLDER` prints, by key and by kind of slip, those after which `check`
and the computing report nothing that they did not report before. No test: most of what is silent
may be right (a portion of twice the weight, a dearer lemon), and whoever reads the list decides.
"""

from __future__ import annotations

import argparse
import re
import shutil
import sys
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from builder.build import checked_content, compute_content
from builder.language import written_in
from builder.pages.messages import in_kitchen_style
from builder.problems import Problem
from builder.records.content import load
from builder.records.kitchen_head import language_in
from builder.records.written import Value, general_key, values_of

# A point that slipped, and a number read in another unit (lb for kg, g for oz, L for gal).
FACTORS = {
    "x10": 10.0, "/10": 0.1, "x2.2": 2.2046, "/2.2": 1 / 2.2046, "x28": 28.35, "x3.8": 3.785,
}  # fmt: skip
# A unit written for another one.
UNITS = {
    "kg": "g", "g": "kg", "lb": "oz", "oz": "lb", "L": "ml", "ml": "L", "qt": "fl oz",
    "fl oz": "qt", "h": "min", "min": "h", "mm": "cm", "in": "ft", "°C": "°F", "°F": "°C",
}  # fmt: skip
_NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?")
Found = frozenset[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class Slip:
    """A value with another number or unit in its place."""

    key: str
    kind: str
    place: str
    was: str
    line: str


def slips_of(value: Value, line: str) -> Iterator[Slip]:
    """The line of a value as each kind of slip would leave it."""
    measure = value.measure
    at = line.find(measure.text, measure.place.column - 1)
    number = _NUMBER.match(measure.text)
    if at < 0 or number is None or not measure.value:
        return
    key, place = general_key(value.key), str(measure.place)
    before, after = line[:at], line[at + len(measure.text) :]
    for kind, factor in FACTORS.items():
        text = written(float(number[0].replace(",", "")) * factor) + measure.text[number.end() :]
        yield Slip(key, kind, place, measure.text, before + text + after)
    unit = re.search(r"(?<=[\d /])(fl oz|[a-zA-Z°]+)$", measure.text)
    if unit is not None and unit[0] in UNITS:
        other = UNITS[unit[0]]
        text = measure.text[: unit.start()] + other
        yield Slip(key, f"{unit[0]} -> {other}", place, measure.text, before + text + after)


def written(number: float) -> str:
    """A number as a person would write it.

    >>> written(36.0), written(1.3608), written(56700.0), written(0.00066)
    ('36', '1.361', '56700', '0.00066')
    """
    if number < 0.01:
        return f"{number:.6f}".rstrip("0").rstrip(".")
    return f"{float(f'{number:.4g}'):.15g}"


def problems_of(folder: Path, today: date) -> Found:
    return found_in(compute_content(folder, None, today)[1])


def found_in(problems: Iterable[Problem]) -> Found:
    return frozenset((str(p.place), p.message) for p in problems)


def is_silent(folder: Path, today: date, known: Found) -> bool:
    """Whether nothing is reported that is not known; only then figures are computed too."""
    with written_in(language_in(folder)):
        content, problems = checked_content(folder, None, today)
        found = found_in(in_kitchen_style(problems, content))
    return found <= known and problems_of(folder, today) <= known


def swept(content: Path, today: date) -> Iterator[tuple[Slip, bool]]:
    """Every slip of a kitchen, and whether it stays silent."""
    with TemporaryDirectory() as made:
        folder = Path(shutil.copytree(content, Path(made) / "kitchen"))
        read, problems = load(folder, None, today)
        if any(problem.is_error for problem in problems):
            sys.exit(f"{content} has errors")
        known = problems_of(folder, today)
        for value in values_of(read):
            path = folder / value.measure.place.file
            text = path.read_text(encoding="utf-8")
            lines, number = text.split("\n"), value.measure.place.line - 1
            for slip in slips_of(value, lines[number]):
                changed = [*lines[:number], slip.line, *lines[number + 1 :]]
                path.write_text("\n".join(changed), encoding="utf-8")
                yield slip, is_silent(folder, today, known)
            path.write_text(text, encoding="utf-8")


def main(arguments: Sequence[str] | None = None) -> None:
    """Sweep a content folder and print what stays silent."""
    parser = argparse.ArgumentParser(prog="tests.records.sweep", description=__doc__)
    parser.add_argument("content", type=Path)
    parser.add_argument("--today", type=date.fromisoformat, default=date(2026, 9, 30))
    given = parser.parse_args(arguments)
    silent: dict[str, list[Slip]] = defaultdict(list)
    tried = 0
    for slip, unnoticed in swept(given.content, given.today):
        tried += 1
        if unnoticed:
            silent[slip.key].append(slip)
    for key, slips in sorted(silent.items()):
        print(f"{key}: {len(slips)}")
        for slip in slips:
            print(f"    {slip.kind:10} {slip.place:40} {slip.was} | {slip.line.strip()}")
    print(f"{sum(map(len, silent.values()))} of {tried} slips are silent")


if __name__ == "__main__":
    main()
