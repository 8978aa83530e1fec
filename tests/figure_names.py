"""The names of all figures as types, for the type check: `python -m tests.figure_names`.

A page asks a row for a figure by name, and a name that the row's table does not have
fails in the type check. This writes the names down, of the tables that a page asks; a test holds
them to the model.
"""

from __future__ import annotations

import textwrap
from pathlib import Path

from builder.costing.model import MODEL
from builder.engine.tables import Table

FILE = Path(__file__).parents[1] / "builder" / "pages" / "figure_names.py"
_HEAD = '''"""The names of every table's figures; written by `python -m tests.figure_names`."""

from typing import Literal, TypeAlias

# fmt: off
'''


def source() -> str:
    """The whole module as it should be."""
    pages = "".join(path.read_text() for path in sorted(FILE.parent.rglob("*.py")) if path != FILE)
    asked = (table for table in MODEL.tables.values() if _name(table) in pages)
    return _HEAD + "".join(map(_alias, asked))


def _name(table: Table) -> str:
    return f"{table.name.title().replace('_', '')}Figure"


def _alias(table: Table) -> str:
    # By name: a table takes its figures in the order in which their modules are imported first.
    names = ", ".join(f'"{name}"' for name in sorted(table.figures))
    lines = textwrap.fill(names, 96, initial_indent="    ", subsequent_indent="    ")
    return f"\n{_name(table)}: TypeAlias = Literal[\n{lines}]\n"


if __name__ == "__main__":
    FILE.write_text(source())
