"""Every example in a table of keys is one that the key takes, and none is canned."""

from __future__ import annotations

import pytest

from builder.pages.reference import _kinds
from builder.pages.shapes import keys_of, models_within
from builder.reading.yaml_text import parse_yaml
from builder.records.base import Written, read_record

TYPES = list({m: None for k in _kinds() for m in (k.model, *models_within(k.model))})


@pytest.mark.parametrize("kind", TYPES, ids=lambda kind: kind.__name__)
def test_an_own_example_is_taken_by_its_key(kind: type[Written]) -> None:
    assert kind.examples.keys() <= {key.name for key in keys_of(kind)}
    for key, example in kind.examples.items():
        tree, problems = parse_yaml("a.yaml", f"{key}: {example}\n".encode())
        assert not problems
        found = read_record(kind, tree, "a.yaml", {"currency": "CAD"})[1]
        assert not [p for p in found if p.place.column > 1]


def test_each_whole_number_has_an_example_of_its_own() -> None:
    canned = [
        f"{kind.__name__}.{key.name}"
        for kind in TYPES
        for key in keys_of(kind)
        if "a whole number" in key.shape.words and key.name not in kind.examples
    ]
    assert not canned
    assert not [key for kind in TYPES for key in keys_of(kind) if "412" in key.shape.example]
