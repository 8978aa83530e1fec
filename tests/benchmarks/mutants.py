"""Do the tests notice a changed operator? `python -m tests.benchmarks.mutants [room ...]`.

One operator of one function is changed at a time (+ - * /, comparisons, & |), by Cosmic
Ray's own rules; then the room's tests run until one fails (`mutant_runs.py`). What no test
notices is listed with its line. `without_effect.csv` lists the changes that no answer can
show, each with its reason; they are not run. `--sample` takes so many of each room, drawn
with `--seed`; without it every operator is changed once, which takes hours. Run by hand,
never a test; needs `pip install -e '.[mutants]'` and a system that can fork.
"""

from __future__ import annotations

import argparse
import ast
import csv
import importlib
import random
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from tests.benchmarks.mutant_runs import AT_IMPORT, SURVIVED, Change, Runs, changed_function

Place = tuple[int, int]
Key = tuple[str, str, int, str]

ROOT = Path(__file__).parents[2]
LISTED = Path(__file__).with_name("without_effect.csv")
# The tests of a room beside the examples in its docstrings.
ROOMS = {
    "yields": (
        "tests/yields",
        "tests/money/test_single_formulas.py",
        "tests/published",
        "tests/engine",
    ),
    "money": ("tests/money", "tests/counts", "tests/yields/test_chain.py", "tests/published"),
    "cooking": ("tests/cooking", "tests/cooks"),
    "tasting": ("tests/tasting", "tests/tastings"),
}
_BINARY = ("Add", "Sub", "Mul", "Div")
_FLAGS = ("BitAnd", "BitOr")
_ORDERS = ("Lt", "LtE", "Gt", "GtE", "Eq", "NotEq")
OPERATORS = (
    *(f"core/ReplaceBinaryOperator_{a}_{b}" for a in _BINARY for b in _BINARY if a != b),
    *(f"core/ReplaceBinaryOperator_{a}_{b}" for a in _FLAGS for b in _FLAGS if a != b),
    *(f"core/ReplaceComparisonOperator_{a}_{b}" for a in _ORDERS for b in _ORDERS if a != b),
)
QUIET = ("--quiet", "--capture=no", "-p", "no:cacheprovider", "-m", "not browser")


@dataclass(frozen=True, slots=True)
class Mutant:
    """One operator of a file, changed: which, and the n-th that it could be."""

    file: str
    operator: str
    occurrence: int
    line: int
    column: int

    @property
    def key(self) -> Key:
        """How the list of changes without effect writes it: by the text of its line."""
        text = (ROOT / self.file).read_text(encoding="utf-8").splitlines()[self.line - 1]
        indent = len(text) - len(text.lstrip())
        return self.file, text.strip(), self.column - indent, self.operator.partition("_")[2]

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column} {self.operator.partition('_')[2]}"


class CosmicRay:
    """The parts of the library that are used; imported here, so that other tests need it not."""

    def __init__(self) -> None:
        self._plugins: Any = importlib.import_module("cosmic_ray.plugins")
        self._mutating: Any = importlib.import_module("cosmic_ray.mutating")
        self._ast: Any = importlib.import_module("cosmic_ray.ast")

    def mutants(self, path: Path) -> Iterator[Mutant]:
        """Every mutant of a file."""
        tree = self._ast.get_ast_from_path(path)
        computed = list(operator_spans(path.read_text(encoding="utf-8")))
        for name in OPERATORS:
            found = self._positions(tree, self._plugins.get_operator(name)())
            for number, place in enumerate(found):
                if any(start <= place <= end for start, end in computed):
                    file = path.relative_to(ROOT).as_posix()
                    yield Mutant(file, name, number, place[0], place[1] + 1)

    def _positions(self, node: Any, operator: Any) -> Iterator[Place]:
        for start, _ in operator.mutation_positions(node):
            yield start
        for child in getattr(node, "children", ()):
            yield from self._positions(child, operator)

    def mutated(self, code: str, mutant: Mutant) -> str:
        """A file's text with one operator changed."""
        operator = self._plugins.get_operator(mutant.operator)()
        text: str | None = self._mutating.mutate_code(code, operator, mutant.occurrence)
        if text is None or text == code:
            raise ValueError(f"nothing changes at {mutant}")
        return text


def operator_spans(code: str) -> Iterator[tuple[Place, Place]]:
    """Where operators are computed: between two operands, and not in an annotation."""
    waiting: list[ast.AST] = [ast.parse(code)]
    while waiting:
        node = waiting.pop()
        operands: list[ast.expr] = []
        if isinstance(node, ast.BinOp):
            operands = [node.left, node.right]
        if isinstance(node, ast.Compare):
            operands = [node.left, *node.comparators]
        for left, right in pairwise(operands):
            end = (left.end_lineno or 0, left.end_col_offset or 0)
            yield end, (right.lineno, right.col_offset)
        for name, value in ast.iter_fields(node):
            if name not in {"annotation", "returns", "decorator_list"}:
                waiting += [
                    v for v in (value if isinstance(value, list) else [value]) if _is_node(v)
                ]


def _is_node(value: object) -> bool:
    return isinstance(value, ast.AST)


def one_of_each(mutants: Iterator[Mutant], dice: random.Random) -> list[Mutant]:
    """For every operator of a file one of its changes."""
    places: dict[tuple[str, int, int], list[Mutant]] = {}
    for mutant in mutants:
        places.setdefault((mutant.file, mutant.line, mutant.column), []).append(mutant)
    return [dice.choice(found) for found in places.values()]


def drawn(found: list[Mutant], sample: int | None) -> Iterator[tuple[Mutant, Change]]:
    """So many of the changes, those that lie in a function."""
    library, left = CosmicRay(), len(found) if sample is None else sample
    for mutant in found:
        before = (ROOT / mutant.file).read_text(encoding="utf-8")
        change = changed_function(ROOT / mutant.file, before, library.mutated(before, mutant))
        if change and left:
            left -= 1
            yield mutant, change
        if not left:
            return


def run(room: str, sample: int | None, seed: int, kept: Path) -> list[Mutant]:
    """Change the operators of a room and return the changes that no test noticed."""
    library, dice = CosmicRay(), random.Random(f"{seed}/{room}")
    files = sorted((ROOT / "builder" / room).glob("*.py"))
    found = [m for path in files for m in one_of_each(library.mutants(path), dice)]
    dice.shuffle(found)
    chosen, cannot = list(drawn(found, sample)), cannot_matter()
    equal = [mutant for mutant, _ in chosen if mutant.key in cannot]
    runs = Runs(kept, [(str(m), change) for m, change in chosen if m.key not in cannot])
    pytest.main([*QUIET, *ROOMS[room], f"builder/{room}"], plugins=[runs])
    left = [m for m, _ in chosen if runs.noticed.get(str(m)) == SURVIVED]
    tried = sum(outcome != AT_IMPORT for outcome in runs.noticed.values())
    print(
        f"{room}, seed {seed}: of {len(found)} operators {len(chosen)} drawn, {len(equal)} listed"
        f" as without effect, {tried - len(left)} of {tried} noticed"
    )
    return left


def cannot_matter() -> set[Key]:
    """The changes that are listed, with a reason, as such that no answer shows."""
    with LISTED.open(encoding="utf-8", newline="") as rows:
        return {(r["file"], r["line"], int(r["column"]), r["change"]) for r in csv.DictReader(rows)}


def main() -> None:
    """Run the rooms that are named, all of them where none is."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rooms", nargs="*", default=list(ROOMS), choices=list(ROOMS))
    parser.add_argument("--sample", type=int, help="so many of each room, not all")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument(
        "--kept", type=Path, help="where what each test calls is kept for a next run"
    )
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        kept = options.kept or Path(folder)
        kept.mkdir(parents=True, exist_ok=True)
        left = [m for room in options.rooms for m in run(room, options.sample, options.seed, kept)]
    for mutant in left:
        print("not noticed:", *mutant.key, sep=" | ")


if __name__ == "__main__":
    main()
