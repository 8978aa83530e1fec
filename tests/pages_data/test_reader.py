"""What is packed for the pages and goes out as data leaves out what a reader may not see."""

from __future__ import annotations

import csv
import json
import re
from dataclasses import replace

import pytest

from builder.costing.model import MODEL
from builder.engine.tables import Entered
from builder.pages.data import RESOURCES, data_files
from builder.pages.live import live_assets
from builder.pages.reader import _GROUP_OF_INPUT, OWNER, Reader
from builder.pages.reader import MONEY as MONEY_GROUPS
from builder.pages.view import View
from builder.records.editions import Group
from tests.pages_data.kitchens import SMALL, view_of

ALL = view_of(SMALL)
MONEY = [
    (table.name, figure.name)
    for table in MODEL.tables.values()
    for figure in table.figures.values()
    if isinstance(figure.how, Entered) and "money" in figure.unit
]
# Prices, wages and tariffs just as the kitchen's files write them, and as numbers of a table.
AMOUNTS = (
    "13.60", "13.6,", "18.40", "2.90", "24.50", "24.5,", "27.00", "27.0,", "37.0",
    "0.14", "0.052", "1150.0", "8/kg", "0.60/kg", "16.0",
)  # fmt: skip


def seen_without(*hidden: Group) -> View:
    return replace(ALL, reader=Reader("edition", OWNER.groups - set(hidden)))


def packed(view: View) -> set[tuple[str, str]]:
    """Every figure of which the shards hold values or origins."""
    found = set()
    for path, data in live_assets(view):
        if "rows-" in path:
            shard = json.loads(re.sub(r"^Live\.add\(\d+,|\);\n$", "", data.decode()))
            for table, rows in shard["rows"].items():
                found |= {(table, name) for name in (*rows["given"], *rows["origins"])}
    return found


def columns(view: View) -> dict[str, list[str]]:
    return {
        path: next(csv.reader([data.decode().partition("\n")[0]]))
        for path, data in data_files(view)
        if path.endswith(".csv")
    }


def test_without_money_no_input_of_money_is_packed() -> None:
    assert packed(ALL) & set(MONEY)
    left = packed(seen_without(*MONEY_GROUPS))
    assert not left & set(MONEY)
    assert ("test", "weight_in") in left
    assert ("plate", "sold") in left


def test_without_money_no_amount_is_in_any_byte() -> None:
    def texts(view: View) -> str:
        rows = (data for path, data in live_assets(view) if "rows-" in path)
        return b"".join((*rows, *(data for _, data in data_files(view)))).decode()

    whole, left = texts(ALL), texts(seen_without(*MONEY_GROUPS, "suppliers"))
    assert [amount for amount in AMOUNTS if amount not in whole] == []
    assert [amount for amount in (*AMOUNTS, "South Yard") if amount in left] == []


def test_without_money_no_column_follows_from_money() -> None:
    follow = MODEL.downstream(MONEY) | set(MONEY)
    left = columns(seen_without(*MONEY_GROUPS))
    for resource in RESOURCES:
        names = left.get(f"data/{resource.name}.csv", [])
        assert not {(resource.table, name) for name in names} & follow
    assert "overall_yield" in left["data/cooks.csv"]
    assert "food_cost_share" not in left["data/plates.csv"]
    assert "supplier" in left["data/cuts.csv"]


@pytest.mark.parametrize("hidden", sorted(OWNER.groups))
def test_each_group_hides_something(hidden: Group) -> None:
    assert columns(seen_without(hidden)) != columns(ALL)


def test_every_input_with_a_group_of_its_own_is_there() -> None:
    assert set(_GROUP_OF_INPUT) <= set(MODEL.needs)


def test_a_reader_of_nothing_gets_no_input() -> None:
    assert packed(replace(ALL, reader=Reader("nobody", frozenset()))) == set()
