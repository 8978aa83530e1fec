"""The tables as data: the same numbers, and a descriptor by the published standard.

Rules of the descriptor: Data Package standard 2.0 (datapackage.org, 2024) and its JSON
profiles for package, resource and table schema [read]: which properties are required, the
types of a field, keys as lists of names, a path relative to the descriptor, and a hash
with its algorithm.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import math
import re
from collections.abc import Callable
from datetime import date, datetime
from fractions import Fraction
from typing import Any

import pytest

from builder.pages.data import RESOURCES, data_files, data_page
from tests.pages_data.kitchens import SMALL, html_of, ids_of, text_of, view_of

FIELD_TYPES = {
    "string", "number", "integer", "boolean", "object", "array", "list", "datetime", "date",
    "time", "year", "yearmonth", "duration", "geopoint", "geojson", "any",
}  # fmt: skip
COOLED = "piece: {thickness: 60 mm}\ncool: {in: ice bath, to: 5 °C, within: 6 h}\n"
SERVED = {
    **SMALL,
    "kitchen.yaml": SMALL["kitchen.yaml"]
    + "authority: us-food-code-2017\ncover cost: {of: {bones: 20 g}, on: [starters]}\n",
    "menus/set.yaml": "price: 60\ncourses: {first: {broth: 50 %}, main: {chuck-steak: equal}}\n",
    "buffets/counter.yaml": "price: 60/kg\ncooks: {chuck-30h: 1 kg}\nitems: {bones: 50 g}\n",
    "cooks/chuck-30h.yaml": SMALL["cooks/chuck-30h.yaml"] + COOLED,
    "plates/chuck-steak.yaml": SMALL["plates/chuck-steak.yaml"].replace(
        "cook: chuck-30h\nportion: 180 g\n",
        "portions: [[chuck-30h, 180 g], {cut: ribeye, portion: 30 g}]\n",
    ),
    "services/friday.yaml": "day: friday\nat: 18:00\nplates: {chuck-steak: 30}\n",
    "counts/week.yaml": "from: 2026-09-21\nto: 2026-09-27\nplates: {chuck-steak: 30, broth: 4}\n"
    "menus: {set: 10}\n"
    "cuts: {chuck-roll: {used: 9 kg}, ribeye: {used: 1 kg, thrown: {gone off: 300 g}}}\n"
    "cooks: {chuck-30h: {used: 7 kg, made: 5.5 kg, thrown: {dropped: 180 g}}}\n",
    "sales/august.csv": "date,plate,count,price\n2026-08-01,chuck-steak,300,27.00\n"
    "2026-08-31,chuck-steak,112,26.50\n",
    "prices/south-yard.csv": SMALL["prices/south-yard.csv"]
    + "2026-05-04,ribeye,18.10/lb,South Yard\n2026-06-01,ribeye,17.60/lb,South Yard\n"
    + "2026-08-03,ribeye,17.90/lb,South Yard\n",
    "prices/other-cuts.csv": "date,item,price,candidate,muscle\n"
    "2026-09-07,under-blade,18.10/kg,ribeye-steak,serratus ventralis\n",
}
VIEW = view_of(SERVED)
FILES = dict(data_files(VIEW))
PACKAGE: dict[str, Any] = json.loads(FILES["data/datapackage.json"])
NAMES = [resource.name for resource in RESOURCES]


def rows_of(name: str) -> list[dict[str, str]]:
    """A table as another program reads it."""
    return list(csv.DictReader(io.StringIO(FILES[f"data/{name}.csv"].decode("utf-8"), newline="")))


def resource_of(name: str) -> dict[str, Any]:
    """A table's part of the descriptor."""
    found: dict[str, Any] = next(r for r in PACKAGE["resources"] if r["name"] == name)
    return found


def test_every_number_reads_back_as_the_figure_itself() -> None:
    view, compared = VIEW, 0
    for resource in (resource for resource in RESOURCES if resource.table):
        table = view.costed.figures.model.tables[resource.table]
        texts = {field.name for field in resource.fields}
        numbers = {
            row: record
            for (row, _), record in zip(resource.rows(view), rows_of(resource.name), strict=True)
        }
        for row, record in numbers.items():
            for name in table.figures.keys() - texts:
                value = view.number(resource.table, name, row)
                known = math.isfinite(value)
                assert (float(record[name]) == value) if known else record[name] == ""
                compared += known
    assert compared > 300


def test_a_price_a_pound_keeps_all_its_digits() -> None:
    # 18.40 a pound over 0.45359237 kg exactly (NIST Handbook 44, Appendix C).
    ribeye = next(row for row in rows_of("cuts") if row["id"] == "ribeye")
    assert ribeye["ap_price"] == repr(float(Fraction("18.40") / Fraction("0.45359237")))
    assert (ribeye["supplier"], ribeye["price_since"]) == ("South Yard", "2026-09-07")


def test_quotes_commas_and_accents_survive() -> None:
    names = {row["id"]: row["name"] for row in rows_of("cuts")}
    assert names["chuck-roll"] == 'Chuck roll, "neck off" & tied'
    assert b"\r" not in FILES["data/cuts.csv"]


HOSTILE = ("=1+1", "+1 kg", "-cmd", "@SUM(A1)", "＝1+1", "\tbeef", "\u00a0=1+1")


@pytest.mark.parametrize("text", HOSTILE)
def test_no_text_is_a_formula_to_a_spreadsheet(text: str) -> None:
    """A cell is computed when it begins with one of these (common practice, from memory)."""
    view = view_of({**SMALL, "pantry/herb.yaml": f"name: {json.dumps(text)}\nprice: 9/kg\n"})
    cells = [
        cell
        for path, data in data_files(view)
        if path.endswith(".csv")
        for row in csv.reader(io.StringIO(data.decode("utf-8"), newline=""))
        for cell in row
    ]
    assert any(text.strip() in cell for cell in cells)
    assert not [cell for cell in cells if re.match(r"[=+@\s＝-](?![\d.,]+$)", cell)]


@pytest.mark.parametrize("name", NAMES)
def test_columns_are_the_schema_in_order_ids_first(name: str) -> None:
    header = FILES[f"data/{name}.csv"].decode().partition("\n")[0].split(",")
    fields = [field["name"] for field in resource_of(name)["schema"]["fields"]]
    assert header == fields
    assert header[0] == "id"
    assert len(set(header)) == len(header)
    assert {row["as_of"] for row in rows_of(name)} == {"2026-10-01"}


def test_package_has_what_the_standard_requires() -> None:
    assert PACKAGE["$schema"] == "https://datapackage.org/profiles/2.0/datapackage.json"
    assert PACKAGE["resources"]
    assert [r["name"] for r in PACKAGE["resources"]] == NAMES
    assert (PACKAGE["as_of"], PACKAGE["currency"]) == ("2026-10-01", "CAD")


@pytest.mark.parametrize("name", NAMES)
def test_resource_has_what_the_standard_requires(name: str) -> None:
    resource = resource_of(name)
    data = FILES[f"data/{name}.csv"]
    assert resource["type"] == "table"
    assert re.fullmatch(r"[a-z0-9._-]+", resource["name"])
    assert resource["path"] == f"{name}.csv"
    assert resource["encoding"] == "utf-8"
    assert resource["bytes"] == len(data)
    assert resource["hash"] == f"sha256:{hashlib.sha256(data).hexdigest()}"
    for field in resource["schema"]["fields"]:
        assert field["type"] in FIELD_TYPES
        assert field["description"]


@pytest.mark.parametrize("name", NAMES)
def test_values_have_the_type_that_the_schema_states(name: str) -> None:
    schema = resource_of(name)["schema"]
    assert schema["missingValues"] == [""]
    read: dict[str, Callable[[str], object]] = {"string": str, "number": float}
    read |= {"date": date.fromisoformat, "datetime": datetime.fromisoformat}
    for row in rows_of(name):
        for field in schema["fields"]:
            if row[field["name"]]:
                read[field["type"]](row[field["name"]])


@pytest.mark.parametrize("name", NAMES)
def test_primary_keys_are_unique_and_foreign_keys_lead_somewhere(name: str) -> None:
    schema = resource_of(name)["schema"]
    rows = rows_of(name)
    assert schema["primaryKey"] == ["id"]
    ids = [row["id"] for row in rows]
    assert all(ids)
    assert len(set(ids)) == len(ids)
    for key in schema["foreignKeys"]:
        (field,), reference = key["fields"], key["reference"]
        known = {row[reference["fields"][0]] for row in rows_of(reference["resource"])}
        assert {row[field] for row in rows} - {""} <= known


def test_every_record_has_its_row() -> None:
    counts = {name: len(rows_of(name)) for name in NAMES}
    assert counts == {
        "cuts": 2, "stages": 5, "tests": 3, "parts": 5, "equipment": 1, "cooks": 2, "steps": 5,
        # One cooled cook: in ice and in moving air, each to both temperatures of 3-501.14(A).
        "cooling": 4,
        "pantry": 3, "ingredients": 2, "plates": 3, "accompaniments": 2, "swaps": 1, "kitchen": 1,
        "menu_sections": 2, "portions": 1, "orders": 6, "swap_limits": 3, "schedule_steps": 2,
        "service_orders": 1, "order_lines": 3, "service_recipes": 2,
        "tastings": 1, "comparisons": 1, "scores": 6,
        # Two samples, three tasters, one attribute: ANOVA 2, Friedman, agreement; by sample mean
        # and mean rank; by taster agreement and scale; the challenger five ways.
        "findings": 4 + 2 * 2 + 2 * 3 + 5,
        # The US nine, by the authority, for each of the three plates.
        "plate_allergens": 3 * 9, "allergens": 9,
        # Trim of the chuck, energy of its cook, the ribeye's price by three changes; and
        # the published yield of the candidate.
        "spreads": 4, "spread_factors": 3, "candidates": 1, "sales": 1,
        "cover_items": 1, "set_menus": 1, "set_menu_courses": 2, "set_menu_plates": 2,
        "buffets": 1, "buffet_dishes": 2,
        # Of two cooks three amounts and the portions of a plate, of two recipes what they make and
        # an ingredient; of three plates the portions, with three cuts and two sides; and a step's.
        "recipe_steps": 2, "keeping": 1, "scaled": 2 * (3 + 1) + 2 * 2 + (3 + 3 + 2) + 1,
        "counts": 1, "count_cuts": 2, "count_cooks": 1, "count_plates": 2, "count_thrown": 2,
        "count_menus": 1, "swap_cut_limits": 1,
    }  # fmt: skip


def test_the_same_kitchen_gives_the_same_bytes() -> None:
    assert dict(data_files(view_of(SERVED))) == FILES


def test_a_kitchen_with_one_cut_has_every_table() -> None:
    files = dict(
        data_files(
            view_of(
                {
                    "kitchen.yaml": "name: Small\ncurrency: CAD\n",
                    "cuts/a.yaml": "species: pork\nprice: 9/kg\n",
                }
            )
        )
    )
    assert files["data/swaps.csv"].startswith(b"id,swap,name")
    assert files["data/swaps.csv"].count(b"\n") == 1


def test_the_page_links_every_file_and_names_every_column() -> None:
    html = html_of(data_page(VIEW))
    for path in FILES:
        assert f"href={path}" in html
    text = text_of(html)
    for name in NAMES:
        assert name in ids_of(html)
        for field in resource_of(name)["schema"]["fields"]:
            assert field["name"] in text


def test_the_reference_reader_finds_no_fault(tmp_path: Any) -> None:
    frictionless = pytest.importorskip("frictionless", reason="the reference reader is optional")
    for path, data in FILES.items():
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_bytes(data)
    report = frictionless.validate(str(tmp_path / "data/datapackage.json"))
    assert report.valid, report.flatten(["type", "message"])
