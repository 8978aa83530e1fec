"""Schemas against the files that the command takes and refuses, by a reference library."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from jsonschema import Draft7Validator  # type: ignore[import-untyped]

from builder.reading.csv_text import parse_csv
from builder.reading.tree import Blank, Branch, Node, Row
from builder.reading.yaml_text import parse_yaml
from builder.starter.schemas import schemas, write_schemas
from tests.records.mistakes import EXTRA
from tests.site.sites import DEMO, ROOT

FOUND = schemas()
GOOD = [
    path
    for folder in (DEMO, ROOT / "builder/starter/kitchen", ROOT / "builder/starter/customary",
                   ROOT / "tests/golden/customary/content")
    for path in sorted(folder.rglob("*.yaml"))
    if path.parent.name != "rules"
]  # fmt: skip
_INT, _FLOAT = re.compile(r"[-+]?[0-9]+"), re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)")


def as_editors_read(node: Node | None) -> object:
    """A tree with the types of YAML 1.2's core schema (yaml.org/spec/1.2.2, 10.3) [from memory]."""
    match node:
        case Branch():
            return {str(key): as_editors_read(value) for key, value in node.items()}
        case Row():
            return [as_editors_read(value) for value in node]
        case None | Blank() | "~" | "null":
            return None
        case "true" | "false":
            return node == "true"
    if _INT.fullmatch(node):
        return int(node)
    return float(node) if _FLOAT.fullmatch(node) else str(node)


def complaints(name: str, text: str) -> list[str]:
    tree, problems = parse_yaml("a.yaml", text.encode())
    assert problems == []
    found = Draft7Validator(FOUND[name]).iter_errors(as_editors_read(tree))
    # A message quotes the whole value, and a list of patterns.
    return [f"{'.'.join(map(str, each.path))}: {each.message[:80]}" for each in found]


@pytest.mark.parametrize("name", FOUND)
def test_each_is_a_schema(name: str) -> None:
    Draft7Validator.check_schema(FOUND[name])


def test_no_file_that_the_command_takes_is_marked() -> None:
    assert len(GOOD) > 100
    marked = {}
    for path in GOOD:
        name = "kitchen" if path.stem == "kitchen" else path.parent.name
        if found := complaints(name, path.read_text(encoding="utf-8")):
            marked[str(path)] = found
    assert marked == {}


@pytest.mark.parametrize("file", [name for name in EXTRA if name.endswith(".yaml")])
def test_nor_any_of_another_kitchen(file: str) -> None:
    folder = file.partition("/")[0]
    if folder in FOUND:
        assert complaints(folder, EXTRA[file]) == []


SPELT = {
    "cuts": ["Species: BEEF\nPrice: 9/kg", "species: beef\nportion-cut: 5 %"],
    "kitchen": ["name: A\ncurrency: CAD\nUnits: US-Customary\nloaded_wage: 20/h"],
    "cooks": ["cut: a\nhow: oven\nform: [ground, stuffed]", "cut: a\nhow: b\nseared: true",
              "cut: a\nhow: oven\nform: tenderized"],
}  # fmt: skip
WRONG = {
    "cuts": ["species: beef\nprise: 9/kg", "species: beaf", "price: 9/kg", "species: [beef]"],
    "kitchen": ["name: A\ncurrency: CAD\nunits: metrik", "name: A\ncurrency: CAD\ntax: 5"],
    "cooks": ["cut: a\nhow: oven\nfor: 30", "cut: a\nhow: b\ntests: {in: 5 kg}"],
    "plates": ["menu: mains\nprice: 9\nportion: 180", "menu: mains\nprice: [9]"],
    "tastings": ["test: scores\nsamples: {a: b}\ntasters: 2\nattributes: 9-point"],
}  # fmt: skip


@pytest.mark.parametrize(("name", "text"), [(n, t) for n, texts in SPELT.items() for t in texts])
def test_other_spellings_are_not_marked(name: str, text: str) -> None:
    assert complaints(name, text) == []


@pytest.mark.parametrize(("name", "text"), [(n, t) for n, texts in WRONG.items() for t in texts])
def test_mistakes_are_marked(name: str, text: str) -> None:
    assert complaints(name, text)


def keys_of(schema: object) -> Iterator[tuple[str, dict[str, object]]]:
    if isinstance(schema, dict):
        yield from schema.get("properties", {}).items()
        for value in schema.values():
            yield from keys_of(value)


@pytest.mark.parametrize("name", FOUND)
def test_every_key_is_described_with_an_example(name: str) -> None:
    for key, found in keys_of(FOUND[name]):
        assert found["description"], key
        assert found["examples"], key


def test_rows_of_the_demos_lists_are_not_marked() -> None:
    path = next((DEMO / "prices").glob("*.csv"))
    rows, _ = parse_csv(path.name, path.read_bytes(), (), None)
    check = Draft7Validator(FOUND["prices-row"])
    assert rows
    assert [e.message for row in rows for e in check.iter_errors(as_text(row))] == []
    assert list(check.iter_errors({"item": "chuck", "price": "9/kg"}))


def as_text(row: Branch) -> dict[str, str]:
    return {str(key): str(value) for key, value in row.items()}


def test_what_is_written_is_what_was_made(tmp_path: Path) -> None:
    (tmp_path / "kitchen.yaml").write_text("name: A\ncurrency: CAD\n")
    written = write_schemas(tmp_path)
    assert {path.stem: json.loads(path.read_text()) for path in written} == FOUND
