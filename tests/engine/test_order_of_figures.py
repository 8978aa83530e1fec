"""Columns of data follow the order in which figures are declared, so no import may change it."""

import subprocess
import sys
from pathlib import Path

import pytest

from builder import money
from builder.costing.model import MODEL

_ASK = """
import importlib, sys
importlib.import_module(sys.argv[1])
from builder.costing.model import MODEL
print(*(f"{name} {' '.join(table.figures)}" for name, table in MODEL.tables.items()), sep="\\n")
"""


@pytest.mark.parametrize(
    "first",
    ["builder.money.capacity", "builder.money.ordering", "builder.yields.means",
     "builder.costing.heat_table", "builder.records.kinds"],
)  # fmt: skip
def test_the_order_is_the_same_whichever_module_is_imported_first(first: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", _ASK, first], capture_output=True, text=True, check=True
    )
    found = {line.split()[0]: line.split()[1:] for line in done.stdout.splitlines()}
    assert found == {name: list(table.figures) for name, table in MODEL.tables.items()}


def test_every_module_of_the_room_has_its_place_in_the_order() -> None:
    written = {path.stem for path in Path(money.__path__[0]).glob("*.py")} - {"__init__"}
    assert written == set(money.__all__)
