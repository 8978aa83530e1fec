"""Sentences say what their figure says: its sign, its number, nothing that nobody wrote."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.components import Table
from builder.pages.count_tables import Seen, cooks_table
from builder.pages.counts import count_pages
from builder.pages.cuts import cut_page
from builder.pages.home import home_page
from builder.pages.schedule import schedule_pages
from builder.pages.view import View
from tests.kitchens import write
from tests.live.test_recomputed import view_of
from tests.pages_data.kitchens import html_of, text_of

# Nothing is lost: 40 portions of 200 g ask for 8 kg of legs, at 10 a kilogram.
FILES = {
    "kitchen.yaml": (
        "name: K\ncurrency: CAD\nas of: 2026-10-01\ntargets: {food cost: 30 %}\n"
        "equipment:\n  a: {kind: oven, title: Big oven, holds: 9 kg}\n"
        "  b: {kind: oven, title: Small oven, holds: 9 kg}\n"
    ),
    "cuts/legs.yaml": "name: Duck legs\nspecies: poultry\nprice: 10/kg\n",
    "cooks/a.yaml": "cut: legs\nhow: oven\nequipment: a\nfor: 2 h\nload: 4 kg\nloss: 0 %\n",
    "cooks/b.yaml": "cut: legs\nhow: oven\nequipment: b\nfor: 2 h\nload: 4 kg\nloss: 0 %\n",
    "plates/a.yaml": "menu: mains\ncook: a\nportion: 200 g\nprice: 20\n",
    "plates/b.yaml": "menu: mains\ncook: b\nportion: 200 g\nprice: 20\n",
    "services/friday.yaml": "day: friday\nat: 18:00\nplates: {a: 10, b: 10}\n",
}
COUNT = (
    "name: A week\nfrom: 2026-09-14\nto: 2026-09-20\nplates: {{a: 40}}\n"
    "cuts: {{legs: {{used: {} kg}}}}\n"
)


@pytest.mark.parametrize(("used", "words"), [(6, "less"), (11, "more")])
def test_the_largest_part_says_which_way_it_goes(used: int, words: str, tmp_path: Path) -> None:
    view = view_of(write(tmp_path, {**FILES, "counts/w.yaml": COUNT.format(used)}))
    text = " ".join(text_of(html_of(list(count_pages(view))[-1])).split())
    amount = abs(used - 8) * 10
    assert f"${amount} {words} than the plates sold should cost" in text.replace(".00", "")
    assert f"The largest part: unexplained, ${amount} {words}." in text.replace(".00", "")


def test_what_a_count_says_nothing_of_is_no_nought(tmp_path: Path) -> None:
    silent = COUNT.format(8) + "cooks: {a: {used: 8 kg, made: 8 kg}}\n"
    said = (
        COUNT.format(8)
        + "cooks: {a: {used: 8 kg, made: 8 kg, left: 0 kg, thrown: {dropped: 1 kg}}}\n"
    )
    for name, text, shown in (("silent", silent, ["–", "–"]), ("said", said, ["0\xa0g", "1.00"])):
        view = view_of(write(tmp_path / name, {**FILES, "counts/w.yaml": text}))
        table = _cooks(view)
        keys = [column.key for column in table.columns]
        cells = [str(table.rows[0].cells[keys.index(key)].text) for key in ("left", "thrown")]
        assert all(cell.startswith(word) for cell, word in zip(cells, shown, strict=True)), cells


def _cooks(view: View) -> Table:
    count = view.costed.content.counts["w"]
    return cooks_table(Seen(view, count, view.costed.counts["w"]))


def test_a_title_of_several_takes_no_verb_of_one(tmp_path: Path) -> None:
    view = view_of(write(tmp_path, FILES))
    lead = cut_page(view, view.costed.content.cuts["legs"]).lead
    assert str(lead).startswith("Duck legs: $10.00/kg as purchased")


def test_a_heading_is_said_once_over_an_empty_table(tmp_path: Path) -> None:
    swap = {"swaps/s.yaml": "benchmark: a\nchallengers: [b]\n"}
    view = view_of(write(tmp_path, {**FILES, **swap}))
    text = " ".join(text_of(html_of(home_page(view))).split())
    assert "Swaps that earn more No swap earns more today." in text
    assert text.count("Swaps that earn more") == 1


def test_bookings_are_counted_together(tmp_path: Path) -> None:
    view = view_of(write(tmp_path, FILES))
    week = text_of(html_of(next(iter(schedule_pages(view)))))
    assert "2 bookings, on Big oven and Small oven" in " ".join(week.split())
