"""The house rules that a machine can hold: sizes, directions, words."""

from __future__ import annotations

import ast
import csv
import re
import statistics
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
BUILDER = sorted((ROOT / "builder").rglob("*.py"))
WRITTEN = [
    *BUILDER,
    *sorted((ROOT / "tests").rglob("*.py")),
    *sorted((ROOT / "site_templates").rglob("*.*")),
    *sorted((ROOT / "content").rglob("*.*")),
    *ROOT.glob("*.md"),
    ROOT / "pyproject.toml",
]
# Further left may never import from further right.
ORDER = (
    "rounding",
    "frozen", "elision", "spelling", "language", "refusals", "problems", "progress", "forking",
    "engine", "quantities", "display", "data", "reading", "cooking", "tasting", "yields", "money",
    "records", "costing", "pages", "publish", "preview", "starter", "printing", "allocator",
    "build", "editions",
    "arguments", "cli", "__main__",
)  # fmt: skip


def name_of(path: Path) -> str:
    """The module's dotted name."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {name_of(path): path for path in BUILDER}
TREES = {name: ast.parse(path.read_text(encoding="utf-8")) for name, path in MODULES.items()}


def imported(tree: ast.Module, *, inside: bool) -> Iterator[tuple[str, int]]:
    """What a module imports of the builder: at its top, or inside functions."""
    top = set(map(id, tree.body))
    for node in ast.walk(tree):
        if not isinstance(node, ast.ImportFrom) or (id(node) in top) is inside:
            continue
        for alias in node.names if (node.module or "").startswith("builder") else ():
            full = f"{node.module}.{alias.name}"
            yield (full if full in MODULES else str(node.module)), node.lineno


def room(module: str) -> str:
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else ""


def test_no_file_is_longer_than_400_lines() -> None:
    long = {
        str(path.relative_to(ROOT)): count
        for path in WRITTEN
        if path.suffix in {".py", ".js", ".css", ".html"}
        and (count := path.read_text(encoding="utf-8").count("\n")) > 400
    }
    assert long == {}


def test_functions_are_short() -> None:
    lengths = [
        (node.end_lineno or node.lineno) - _first_line(node) + 1
        for tree in TREES.values()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef)
    ]
    assert statistics.median(lengths) < 8
    assert statistics.quantiles(lengths, n=20)[-1] < 35


def _first_line(node: ast.FunctionDef) -> int:
    """The first line of the body, its docstring left out."""
    body = node.body
    if len(body) > 1 and ast.get_docstring(node) is not None:
        return body[1].lineno
    return body[0].lineno


def test_imports_run_in_no_circle() -> None:
    graph = {
        name: {target for target, _ in imported(tree, inside=False)} - {name}
        for name, tree in TREES.items()
    }
    assert len(list(TopologicalSorter(graph).static_order())) >= len(MODULES)


@pytest.mark.parametrize("module", sorted(MODULES))
def test_imports_point_one_way(module: str) -> None:
    mine = room(module)
    if not mine:
        return
    wrong = [
        target
        for target, _ in imported(TREES[module], inside=False)
        if room(target) and ORDER.index(room(target)) > ORDER.index(mine)
    ]
    assert wrong == []


def test_imports_inside_functions_say_why() -> None:
    silent = [
        f"{name}:{line}"
        for name, tree in TREES.items()
        for _, line in imported(tree, inside=True)
        if "PLC0415" not in MODULES[name].read_text(encoding="utf-8").splitlines()[line - 1]
        and name != "builder.cli"
    ]
    assert silent == []


FORBIDDEN = {
    # The tool compares with published rules and never calls food by this word.
    "safe": re.compile(r"(?<![-\w.])(un)?safe(ly|ty-approved)?(?![-\w(])", re.IGNORECASE),
    "a machine's path": re.compile(r"/(?:home|root|work|Users)/\w"),
    "a registry's host": re.compile(r"\b(?:pypi|npmjs|debian|pythonhosted)\.(?:org|com)\b"),
}
# This file has to name what is forbidden; tests may speak of a parser's own loader.
ALLOWED = {
    "safe": "tests/",
    "a machine's path": "tests/test_house",
    "a registry's host": "tests/test_h",
}


@pytest.mark.parametrize("what", FORBIDDEN)
def test_what_is_never_written(what: str) -> None:
    found = [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:90]}"
        for path in WRITTEN
        if path.suffix in {".py", ".js", ".css", ".html", ".md", ".yaml", ".csv", ".toml"}
        and not str(path.relative_to(ROOT)).startswith(ALLOWED[what])
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1)
        if FORBIDDEN[what].search(line)
    ]
    assert found == []


def test_every_change_listed_as_without_effect_is_of_a_line_that_there_is() -> None:
    path = ROOT / "tests" / "benchmarks" / "without_effect.csv"
    with path.open(encoding="utf-8", newline="") as file:
        listed = [(row["file"], row["line"]) for row in csv.DictReader(file)]
    lines = {
        file: {line.strip() for line in (ROOT / file).read_text(encoding="utf-8").splitlines()}
        for file, _ in listed
    }
    assert len(listed) > 40
    assert [each for each in listed if each[1] not in lines[each[0]]] == []
