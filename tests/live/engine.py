"""The page's own engine in a real browser, given a kitchen's formulas and rows."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Sequence
from typing import Any

from playwright.sync_api import Page

from builder.pages.live import live_assets
from builder.pages.rendering import TEMPLATES, script_words
from builder.pages.view import View

# What a page's script does with the shards, without the page.
COLLECT = """
globalThis.Live = {
  begin(model, index, style) {
    this.model = model;
    this.book = new Figures.Book(model, index);
    this.numbers = Numbers.make(style);
  },
  add(number, rows) { this.book.add(number, rows); },
};
"""
VALUES = """(nodes) => {
  const values = new Figures.Values(Live.book);
  return nodes.map(([table, figure, row]) => {
    const value = values.value(table, figure, row);
    const text = Intervals.shown(Live.numbers, values, table, figure, row);
    return [Number.isFinite(value) ? value : null, text];
  });
}"""
MOVED = """([moves, nodes]) => moves.map((move) => {
  const values = new Figures.Values(Live.book, new Map(move));
  return nodes.map(([table, figure, row]) => {
    const value = values.value(table, figure, row);
    return Number.isFinite(value) ? value : null;
  });
})"""

Node = tuple[str, str, int]


def load(page: Page, view: View) -> None:
    """Give an empty page the engine, the formulas and every row of a kitchen."""
    page.goto("about:blank")
    page.add_script_tag(content=script_words().decode("utf-8"))
    for name in ("numbers.js", "figures.js", "intervals.js"):
        page.add_script_tag(content=(TEMPLATES / "assets" / name).read_text(encoding="utf-8"))
    page.add_script_tag(content=COLLECT)
    for _, data in live_assets(view):
        page.add_script_tag(content=data.decode("utf-8"))


def every_figure(view: View) -> list[Node]:
    """Every figure of every row."""
    figures = view.costed.figures
    return [
        (table.name, name, row)
        for table in figures.model.tables.values()
        for name in table.figures
        for row in range(figures.size(table.name))
    ]


def computed(page: Page, nodes: Sequence[Node]) -> list[tuple[float | None, str]]:
    """The page's own value of each figure, and how it writes it."""
    found: list[Any] = page.evaluate(VALUES, list(nodes))
    return [(value, text) for value, text in found]


def moved(
    page: Page, moves: Sequence[Iterable[tuple[str, float]]], nodes: Sequence[Node]
) -> list[list[float | None]]:
    """The page's own values for several settings of inputs, each (table.figure.row, value)."""
    packed = json.loads(json.dumps([[list(pair) for pair in move] for move in moves]))
    found: list[list[float | None]] = page.evaluate(MOVED, [packed, list(nodes)])
    return found


def differs(one: float | None, other: float) -> bool:
    """Whether two values are further apart than 1e-9 of themselves; None is not known."""
    if one is None or not math.isfinite(other):
        return one is not None or math.isfinite(other)
    return abs(one - other) > 1e-9 * abs(other) + 1e-12
