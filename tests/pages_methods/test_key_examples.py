"""Every example in a table of keys is one that the key takes, and none is canned."""

from __future__ import annotations

import re

import pytest

from builder.display.scales import UnitSystem
from builder.language import written_in
from builder.pages.example_units import example_in
from builder.pages.reference import _kinds
from builder.pages.shapes import keys_of, models_within
from builder.reading.yaml_text import parse_yaml
from builder.records.base import LogEntry, Written, read_record
from builder.records.tastings import Tasting

TYPES = list({m: None for k in _kinds() for m in (k.model, *models_within(k.model))})


@pytest.mark.parametrize("units", list(UnitSystem))
@pytest.mark.parametrize("kind", TYPES, ids=lambda kind: kind.__name__)
def test_an_example_is_taken_by_its_key_in_the_kitchens_units(
    kind: type[Written], units: UnitSystem
) -> None:
    """Those that a kind of value has, too; a cook reads no kilogram where pounds are written."""
    for key in keys_of(kind):
        example = example_in(key.shape.example, units)
        if example == "a few words":
            continue
        tree, problems = parse_yaml("a.yaml", f"{key.name}: {example}\n".encode())
        assert not problems
        found = read_record(kind, tree, "a.yaml", {"currency": "CAD"})[1]
        assert not [p for p in found if p.place.column > 1], (key.name, example)
        if units is UnitSystem.US_CUSTOMARY:
            said = f"{example} {example_in(key.about, units)}"
            assert not re.search(r"\d ?(kg|g|L|ml|mm|°C)\b|/(kg|L)\b", said), (key.name, said)


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


def test_keys_are_said_in_the_language_that_asks_though_another_asked_before() -> None:
    said: dict[str, list[str]] = {}
    for language in ("en", "fr", "en"):
        with written_in(language):
            said.setdefault(language, []).append(keys_of(TYPES[0])[0].shape.words)
    assert said["en"][0] == said["en"][1] != said["fr"][0]


def test_what_an_example_says_in_words_is_in_the_language_of_the_pages() -> None:
    """What a reader has to type, such as a key or "right", is the same in every language."""
    with written_in("fr"):
        said = {(kind, key.name): key.shape.example for kind in TYPES for key in keys_of(kind)}
    assert said[LogEntry, "what"] == "Cuit 30 h au lieu de 42 h"
    assert said[Tasting, "attributes"].endswith("texture: [trop ferme, right, se défait]}")
    assert not [example for example in said.values() if "‹" in example]
