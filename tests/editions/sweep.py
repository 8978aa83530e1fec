"""Editions by chance, each searched and held to the byte: `python -m tests.editions.sweep 300`.

Longer than a test may take. Each seed makes a kitchen, a reader and a second kitchen in which all
that is withheld is another; whatever is found is printed with its seed, and fails the command.
"""

from __future__ import annotations

import argparse
import re
import sys
import traceback
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import numpy as np

from builder.build import compute_content
from builder.engine.arith import Column
from builder.engine.figures import Figures
from builder.engine.model import Node
from builder.engine.tables import Given
from builder.pages.reader import Reader
from builder.pages.view import View
from builder.publish.links import broken_links
from builder.records.notes import web_links
from tests.editions.generated import kitchen, reader
from tests.editions.made import TODAY, Kitchen, another, files_of
from tests.editions.proved import of_scripts, searched
from tests.editions.searched import forms_of, numbers
from tests.editions.small import written

# Scripts that a kitchen's content is in, and the points of a heating curve, which whoever is
# granted cooks and cooking sees.
_OF_KITCHEN = ("assets/live/", "assets/search-data")
_CURVE = re.compile(rb'\["core",[^\]]*\]')
# A kitchen that chance has made wrong is made again, so many times at most.
TRIES = 12


@dataclass(frozen=True, slots=True)
class Case:
    """A kitchen, its reader, and the kitchen in which all that the reader may not see differs."""

    one: Kitchen
    other: Kitchen
    reader: Reader


def case_of(seed: int, folder: Path) -> Case | None:
    """The case of a seed; None where all that chance made was wrong."""
    dice = Random(seed)
    for number in range(TRIES):
        files, who = kitchen(dice, slips=dice.random() < 0.5 and number < TRIES // 2), reader(dice)
        factor = dice.choice((dice.uniform(1.05, 1.6), dice.uniform(1.05, 1.6), 11.0))
        if who.is_owner:
            continue
        root = written(files, folder / f"{number}-written")
        pair = [_computed(_other(root, folder, number, who, by)) for by in (1.0, factor)]
        one, other = pair
        if one is not None and other is not None:
            return Case(one, other, who)
    return None


def _other(root: Path, folder: Path, number: int, who: Reader, by: float) -> Path:
    to = folder / f"{number}-by-{by}"
    to.mkdir()
    return another(root, to, who, by)


def _computed(root: Path) -> Kitchen | None:
    costed, problems = compute_content(root, None, TODAY)
    return (costed, problems) if costed and not any(p.is_error for p in problems) else None


def found_in(case: Case, seed: int, scripts: set[bytes], cache: Path) -> Iterator[str]:
    """Everything that an edition says of what is withheld."""
    files = files_of(case.one, case.reader, cache)
    if broken := broken_links(files, web_links(case.one[0].content)):
        yield f"links that lead nowhere: {broken}"
    again = files_of(case.other, case.reader, cache)
    hits = searched(case.one, case.reader, files, scripts)
    if told := dict(_told(hits, case, files, again)):
        yield f"withheld, and there: {told}"
    if moved := [path for path in {**files, **again} if files.get(path) != again.get(path)]:
        yield f"moved by what is withheld: {moved}"
    if solved := list(_solved(case.one[0].figures, case.reader, seed)):
        yield f"withheld inputs that move what is shown: {solved}"


def _told(
    hits: Mapping[str, Collection[str | bytes]],
    case: Case,
    files: Mapping[str, bytes],
    again: Mapping[str, bytes],
) -> Iterator[tuple[str, list[str | bytes]]]:
    """What is found, but for numbers that something granted happens to have, too.

    A file that is the same although the number behind what is withheld is another tells of none,
    nor does a script that is the same in every site, or a point of a heating curve.
    """
    others = numbers(forms_of(View.of(*case.other), case.reader))
    for path, found in hits.items():
        free = set(re.findall(rb"[0-9.]+", b"".join(_CURVE.findall(files[path]))))
        if files[path] == again.get(path):
            free |= {each for each in found if isinstance(each, bytes) and each not in others}
        is_fixed = path.startswith("assets/") and not path.startswith(_OF_KITCHEN)
        kept = [each for each in found
                if isinstance(each, str) or not (is_fixed or each in free)]  # fmt: skip
        if kept:
            yield path, kept


def _solved(figures: Figures, who: Reader, seed: int) -> Iterator[Node]:
    """Shown figures that move with withheld inputs, so that these could be solved for."""
    hidden, dice = who.hidden(figures.model), np.random.default_rng(seed)
    inputs: dict[Node, Column] = {}
    for node in sorted(hidden):
        if isinstance(figures.model.definition(node).how, Given):
            column = figures.column(*node)
            if np.isfinite(column).any():
                inputs[node] = column * dice.uniform(0.7, 1.3, column.shape)
    after = figures.moved(inputs)
    for node in figures.model.needs:
        # What is of a kind of record that is not there is not shown either, whatever it is of.
        if node not in hidden and not np.array_equal(
            figures.column(*node), after.column(*node), equal_nan=True
        ):
            yield node


def main() -> int:
    """Go through the seeds; 1 where anything was found."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int, nargs="?", default=300)
    parser.add_argument("--first", type=int, default=1, help="the first seed")
    options = parser.parse_args()
    counts: Counter[str] = Counter()
    with TemporaryDirectory() as place:
        scripts, cache = of_scripts(Path(place), Path(place) / "cache"), Path(place) / "cache"
        for seed in range(options.first, options.first + options.count):
            for said in _looked_at(seed, scripts, cache, counts):
                counts["found"] += 1
                sys.stdout.write(f"seed {seed}: {said}\n")
            if seed % 10 == 0:
                sys.stdout.write(f"to seed {seed}: {dict(counts)}\n")
            sys.stdout.flush()
    sys.stdout.write(f"{counts['editions']} editions, {counts['found']} found\n")
    return int(counts["found"] > 0)


def _looked_at(seed: int, scripts: set[bytes], cache: Path, counts: Counter[str]) -> Iterator[str]:
    with TemporaryDirectory() as folder:
        case = case_of(seed, Path(folder))
    if case is None:
        counts["without a kitchen"] += 1
        return
    counts["editions"] += 1
    try:
        yield from found_in(case, seed, scripts, cache)
    except Exception:
        yield traceback.format_exc()


if __name__ == "__main__":
    raise SystemExit(main())
