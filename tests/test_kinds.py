"""A kind of record is declared in few places; nothing else in the builder lists the kinds."""

from __future__ import annotations

import ast
from importlib.resources import files

from builder.costing.kinds import KINDS as WITH_ROWS
from builder.pages.kinds import KINDS, PAGES
from builder.records.kinds import RECORDS
from tests.test_house import TREES

CLASSES = {record.__name__ for record in RECORDS}
FOLDERS = {record.folder for record in RECORDS}
MOST = 8
"""A module that names more of the ten kinds is about all of them: a new one would touch it, too."""
DECLARED = {"builder.records.kinds", "builder.pages.kinds"}
# By name as attributes of the content: those that others lean on. A new kind needs none (`of`).
LEANT_ON = {"builder.records.content"}


def test_the_kinds_are_listed_in_their_declarations_alone() -> None:
    found = {name for name, tree in TREES.items() if _most_named(tree) > MOST}
    assert found == DECLARED | LEANT_ON


def _most_named(tree: ast.Module) -> int:
    nodes = list(ast.walk(tree))
    classes = {node.id for node in nodes if isinstance(node, ast.Name)}
    folders = {str(node.value) for node in nodes if isinstance(node, ast.Constant)}
    return max(len(CLASSES & classes), len(FOLDERS & folders))


def test_every_kind_has_its_pages_and_its_list_page_a_place() -> None:
    assert sorted(kind.record.folder for kind in KINDS) == sorted(FOLDERS)
    paths = [kind.path for kind in KINDS if kind.path]
    assert set(paths) <= {path for _, path in PAGES}
    assert len(set(paths)) == len(paths) == len(RECORDS) - 1  # plates are on the menu's page


def test_what_a_kind_says_of_itself_is_there() -> None:
    examples = files("builder.starter").joinpath("records")
    tables = [table for record in RECORDS for table in record.kind.tables]
    assert len(tables) == len(set(tables))
    for kind in WITH_ROWS:
        assert {table.name for table in kind.tables} <= set(tables)
    for record in RECORDS:
        assert record.kind.noun
        assert all(record.kind.counted)
        assert set(record.kind.names) <= FOLDERS
        assert record.kind.worked
        assert all(examples.joinpath(f"{name}.yaml").is_file() for name in record.kind.worked)
