"""Columns of data follow the order in which figures are declared, so no import may change it."""

import re
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
    """All but those of a kind's own tables that declare nothing on another."""
    paths = {path.stem: path for path in Path(money.__path__[0]).glob("*.py")}
    assert set(money.__all__) <= set(paths)
    for name in paths.keys() - money.__all__ - {"__init__"}:
        text = paths[name].read_text()
        own = set(re.findall(r"(?m)^([A-Z_]+) = Table\(", text))
        assert own
        declared_on = re.findall(r"(?m)^(?:@formula\()?([A-Z_]+)[.,]", text)
        assert own.issuperset(declared_on), name
