"""The reference of the files: complete, and every example on it is read by the readers."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
import yaml

from builder.costing.entries import published_yield
from builder.pages.reference import reference_pages
from builder.pages.shapes import Key, keys_of, models_within, shape_of, shortest
from builder.pages.units_page import exact_text, in_base
from builder.pages.yaml_page import AS_WRITTEN
from builder.quantities import UNITS
from builder.reading.prices import parse_prices
from builder.reading.yaml_text import parse_yaml
from builder.records.base import Record, Written, read_record
from builder.records.content import PriceRow
from builder.records.kinds import RECORDS
from builder.records.kitchen import Kitchen
from builder.records.stages import PublishedYield, Stage, WeighedPart
from tests.pages_data.kitchens import by_path, hrefs_of, html_of, ids_of, small, text_of

PAGES = by_path(reference_pages(small()))
FILES: tuple[type[Written], ...] = (Kitchen, *RECORDS)
MODELS = tuple(dict.fromkeys(m for kind in FILES for m in (kind, *models_within(kind))))
KEYS = [(model, key) for model in MODELS for key in keys_of(model)]
# Keys that a record wants together, or not beside those of its shortest form.
TOGETHER: dict[tuple[str, str], dict[str, str] | None] = {
    ("Plate", "cook"): {"portion": "180 g"},
    ("Plate", "cut"): {"portion": "180 g"},
    ("Plate", "portion"): {"cook": "some-id"},
    ("Portion", "cut"): {"portion": "180 g"},
    ("PantryItem", "of"): None,
    ("PublishedYield", "yield"): {"source": "a book"},
    ("PublishedYield", "source"): {"yield": "69 %"},
    ("Count", "from"): {"to": "2026-09-13"},
    ("Count", "to"): {"from": "2026-09-07"},
    ("CountedCut", "opening"): {"closing": "1 kg"},
    ("CountedCut", "closing"): {"opening": "20 kg"},
    ("CountedCut", "paid"): {"bought": "52.4 kg"},
    ("Buffet", "guests"): {"price": "24.00"},
    ("CountedCook", "used"): {"made": "31.6 kg"},
    ("CountedCook", "made"): {"used": "42.0 kg"},
}
INSTEAD = {
    ("Sample", "plate"), ("Portion", "cut"), ("Attribute", "words"),
    ("Cover", "of"), ("SoldAs", "piece"), ("SoldAs", "steps"),
    ("Count", "from"), ("Count", "to"), ("CountedCut", "opening"), ("CountedCut", "closing"),
}  # fmt: skip
"""Keys that stand instead of the ones in the shortest file."""


def problems_of(model: type[Written], values: dict[str, str]) -> list[str]:
    """What the readers say about a file with these keys."""
    text = "\n".join(f"{key}: {value}" for key, value in values.items())
    tree, problems = parse_yaml("example.yaml", f"{text}\n".encode())
    _, found = read_record(model, tree, "example.yaml", {"currency": "CAD"})
    return [problem.message for problem in (*problems, *found)]


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_the_shortest_file_is_read(model: type[Written]) -> None:
    assert problems_of(model, shortest(model)) == []


@pytest.mark.parametrize("model", FILES, ids=lambda model: model.__name__)
def test_no_file_can_be_shorter(model: type[Written]) -> None:
    needed = [key.name for key in keys_of(model) if key.needed]
    for name in needed:
        left = {key: value for key, value in shortest(model).items() if key != name}
        assert problems_of(model, left or {"note": "x"})


@pytest.mark.parametrize(
    ("model", "key"), KEYS, ids=[f"{model.__name__}-{key.name}" for model, key in KEYS]
)
def test_every_example_is_read(model: type[Written], key: Key) -> None:
    with_it = TOGETHER.get((model.__name__, key.name), {})
    base = {} if with_it is None else {**shortest(model), **with_it}
    if with_it is None:
        base = {"makes": "60 ml"}
    if (model.__name__, key.name) in INSTEAD:
        base = dict(with_it or {})
    if model is PublishedYield and key.name in {"yield", "source"}:
        base.pop("table", None)
    if issubclass(model, Stage) and key.name in {"gain", "yield", "loss"}:
        for other in {"loss", "gain", "yield"} - {key.name}:
            base.pop(other, None)
    assert problems_of(model, {**base, key.name: key.shape.example}) == []


def test_every_key_stands_on_the_page_of_its_file() -> None:
    kinds: tuple[type[Record], ...] = (Kitchen, *RECORDS)
    for kind in kinds:
        text = text_of(html_of(PAGES[f"writing/{kind.folder or 'kitchen'}.html"]))
        for model in (kind, *models_within(kind)):
            for key in keys_of(model):
                assert key.name in text
                assert " ".join(key.about.split()) in text


def test_the_price_list_that_is_shown_is_read() -> None:
    values = shortest(PriceRow)
    data = f"{','.join(values)}\n{','.join(values.values())}\n".encode()
    rows, problems = parse_prices("prices/x.csv", data)
    assert problems == []
    price, found = read_record(PriceRow, rows[0], "prices/x.csv", {"currency": "CAD"})
    assert found == []
    assert price is not None


def test_short_forms_are_shown_as_a_person_writes_them() -> None:
    assert shape_of(Stage).example == "22 %"
    assert shape_of(WeighedPart).example == "[0.74 kg, 7.90/kg]"


@pytest.mark.parametrize("path", PAGES)
def test_pages_are_valid_and_their_ways_inside_lead_somewhere(path: str) -> None:
    html = html_of(PAGES[path])
    ids = ids_of(html)
    assert len(set(ids)) == len(ids)
    assert {href[1:] for href in hrefs_of(html) if href.startswith("#")} <= set(ids)
    root = "../" * path.count("/")
    for href in hrefs_of(html):
        if href.startswith(f"{root}writing"):
            assert href.removeprefix(root) in PAGES


# YAML: PyYAML is the reader of YAML 1.1 that the page compares with.

MEANING: dict[str, object] = {
    "false": False,
    "true": True,
    "a date object": date(2026, 9, 3),
    "nothing": None,
    "116A": "116A",
}


@pytest.mark.parametrize(("written", "elsewhere"), AS_WRITTEN)
def test_what_another_reader_makes_of_a_value(written: str, elsewhere: str) -> None:
    meaning = yaml.safe_load(f"key: {written}")["key"]
    assert meaning == MEANING.get(elsewhere, None if elsewhere == "nothing" else _number(elsewhere))


def _number(text: str) -> float | str:
    return float(text) if text.replace(".", "").isdigit() else text


@pytest.mark.parametrize(("written", "_"), AS_WRITTEN)
def test_here_it_stays_as_it_is(written: str, _: str) -> None:
    rows = text_of(html_of(PAGES["writing/yaml.html"]))
    assert f"{written} {written} " in rows


def test_refusals_are_those_of_the_readers() -> None:
    text = text_of(html_of(PAGES["writing/yaml.html"]))
    assert '"12" has no unit units that fit: kg, g, lb, oz' in text
    assert "a tab indents this line" in text
    assert '"tax" is given twice' in text


# Units: exact factors, NIST Handbook 44 Appendix C and SP 811 Appendix B.

PUBLISHED = {
    "lb": "0.45359237 kg",
    "oz": "0.028349523125 kg",
    "gal": "3.785411784 L",
    "imp gal": "4.54609 L",
    "in": "25.4 mm",
    "°F": "(value − 32) × 5/9 °C",
}


@pytest.mark.parametrize(("name", "factor"), PUBLISHED.items())
def test_units_show_the_published_factor(name: str, factor: str) -> None:
    unit = next(unit for unit in UNITS if unit.name == name)
    assert in_base(unit) == factor
    assert f"{name} " in text_of(html_of(PAGES["writing/units.html"]))


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.name)
def test_no_factor_is_rounded(unit: object) -> None:
    factor = next(other.factor for other in UNITS if other is unit)
    assert Fraction(exact_text(factor)) == factor


@pytest.mark.parametrize(
    ("entry", "samples"),
    [("usda 13806", "(n = 20)"), ("usda lamb-roasts-all-samples-baked", "")],
)
def test_a_published_yield_without_a_number_of_samples_names_none(entry: str, samples: str) -> None:
    """The first has 20 in Release 2, 2014; Handbook 102 of 1975 gives none [mirror, read]."""
    tree, _ = parse_yaml("example.yaml", f"published: {entry}\n".encode())
    stage, found = read_record(Stage, tree, "example.yaml", {"currency": "CAD"})
    assert (found, stage is None) == ([], False)
    stands_in = published_yield(stage) if stage else None
    assert stands_in is not None
    assert stands_in.origin.reason.endswith(samples)
    assert ("(n = " in stands_in.origin.reason) == bool(samples)


def test_published_yields_are_listed_with_their_source() -> None:
    text = text_of(html_of(PAGES["writing/published-yields.html"]))
    # Release 2, 2014: brisket, flat half, braised [read in a mirror transcription].
    assert (
        "usda 13806 Beef, brisket, flat half, sep lean+fat, 1/8in trim, all grades braised" in text
    )
    # Agriculture Handbook 102 of 1975 gives no number of samples, which is not a number of 0.
    assert "Lamb, retail cuts, roasts, all samples baked or roasted 74.0% not stated" in text
    assert "69.0%" in text
