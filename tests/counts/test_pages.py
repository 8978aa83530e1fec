"""Pages of the counts: what is printed adds up, and every number leads to its figure."""

from __future__ import annotations

import re
from pathlib import Path

from builder.build import compute_content
from builder.display.chances import interval_places
from builder.pages.components import Chart, Page, Table, walk
from builder.pages.count_tables import PARTS
from builder.pages.counts import count_pages
from builder.pages.home import home_page
from builder.pages.search import search_records
from builder.pages.view import View
from tests.kitchens import TODAY, write
from tests.kitchens.small import SMALL
from tests.pages_data.kitchens import html_of, text_of

COUNT = """\
name: A week
from: 2026-09-14
to: 2026-09-20
plates:
  chuck-steak: {sold: 98, weighed portions: [190 g, 194 g]}
  braise: 40
  ribeye-steak: 12
cuts:
  chuck: {opening: 6 kg, bought: 60 kg, paid: 840, closing: 9 kg, thrown: {past its day: 1.1 kg}}
cooks:
  chuck-30h: {used: 26 kg, made: 19 kg, left: 1.2 kg, thrown: {dropped: 0.8 kg}}
"""


def view(root: Path, count: str | None = COUNT) -> View:
    files = {**SMALL, **({"counts/w.yaml": count} if count else {})}
    costed, problems = compute_content(write(root, files), None, TODAY)
    assert costed is not None, problems
    return View.of(costed, problems)


def table(page: Page, name: str) -> Table:
    [found] = [s for s in walk(page.sections) if isinstance(s, Table) and s.id == name]
    return found


def dollars(text: str) -> float:
    sign = -1 if re.search("[-−]", text) else 1
    return sign * float(re.sub(r"[^\d.]", "", text))


def rounding(found: View, table: str, row: int, *figures: str) -> float:
    """How far printed amounts may be from a sum: half of the last place of each."""
    widths = (found.width(table, figure, row) for figure in figures)
    return sum(0.5 * 10.0 ** -interval_places(width, 2) for width in widths) + 1e-9


PARTED = [each[0] for each in PARTS]


def test_the_parts_as_printed_lead_from_theoretical_to_actual(tmp_path: Path) -> None:
    found = view(tmp_path)
    _, page = count_pages(found)
    amounts = [dollars(row.cells[1].text) for row in table(page, "parts").rows]
    row = found.costed.counts["w"].row
    near = rounding(found, "count", row, "theoretical_food", *PARTED, "actual_food")
    assert abs(sum(amounts[:-1]) - amounts[-1]) < near < 0.03 * amounts[-1]
    assert all(row.cells[1].href for row in table(page, "parts").rows)


def test_each_cut_adds_up_and_the_cuts_add_up_to_the_count(tmp_path: Path) -> None:
    found = view(tmp_path)
    _, page = count_pages(found)
    total, count = 0.0, found.costed.counts["w"].row
    usages = found.costed.counts["w"].usages.values()
    for row, usage in zip(table(page, "by-cut").rows, usages, strict=True):
        # After the difference come two weights, which no part of the sum is.
        difference, theoretical, *parts, actual = (
            dollars(cell.text) if re.search(r"\d", cell.text) else 0.0
            for cell in (row.cells[1], *row.cells[4:])
        )
        assert abs(sum(parts) - difference) < rounding(found, "usage", usage, *PARTED, "difference")
        assert abs(theoretical + difference - actual) < rounding(
            found, "usage", usage, "theoretical_protein", "difference", "actual_protein"
        )
        total += found.number("usage", "difference", usage)
    assert abs(total - found.number("count", "difference", count)) < 1e-9


def test_the_picture_ends_at_the_difference(tmp_path: Path) -> None:
    _, page = count_pages(view(tmp_path))
    [chart] = [s for s in walk(page.sections) if isinstance(s, Chart)]
    *steps, last = chart.rows
    assert last["kind"] == "total"
    ends = [row["end"] for row in steps]
    assert [row["start"] for row in steps] == [0.0, *ends[:-1]]
    assert isinstance(last["end"], float)
    assert isinstance(ends[-1], float)
    assert abs(ends[-1] - last["end"]) < 1e-9


def test_pages_say_it_in_words(tmp_path: Path) -> None:
    found = view(tmp_path)
    every, page = count_pages(found)
    words = text_of(html_of(page))
    assert "more than the plates sold should cost" in words
    assert "past its day" in words
    assert "dropped" in words
    assert "not counted" in words
    assert not re.search(r"\bnan\b|\bNone\b|\binf\b", words)
    assert all(sentence in str(every.answer) for sentence in (page.lead, *page.also))
    home = text_of(html_of(home_page(found)))
    assert "The last count" in home
    assert "more than the plates sold should cost" in home
    assert ("A week", "count", "counts/w.html") in [each[:3] for each in search_records(found)]


def test_what_is_unexplained_may_be_below_nothing(tmp_path: Path) -> None:
    """Words beside a number of either sign hold for both."""
    _, page = count_pages(view(tmp_path))
    text = text_of(html_of(page))
    assert "Used, less what was sold, kept or thrown away." in text
    assert "Below zero, more went out than is known to have been there." in text


def test_a_kitchen_that_counts_nothing_is_shown_how(tmp_path: Path) -> None:
    found = view(tmp_path, None)
    [page] = count_pages(found)
    assert "counts/" in page.answer
    assert "The last count" not in text_of(html_of(home_page(found)))


def test_a_difference_that_the_yields_leave_open_may_be_chance(tmp_path: Path) -> None:
    """As much is used as paper asks for, to a few grams: the interval holds both signs."""
    plain = "name: A week\nfrom: 2026-09-14\nto: 2026-09-20\nplates: {braise: 40}\ncuts: {}\n"
    seen = set[bool]()
    for used in range(6, 16):
        found = view(tmp_path / str(used), plain.replace("{}", f"{{chuck: {{used: {used} kg}}}}"))
        row = found.costed.counts["w"].row
        low, high = (found.number("count", f"difference_{end}", row) for end in ("low", "high"))
        lead = {page.path: page for page in count_pages(found)}["counts/w.html"].lead
        assert ("that may be chance" in lead) == (low < 0 < high), (used, low, high, lead)
        seen.add(low < 0 < high)
    assert seen == {True, False}


def test_a_counter_that_serves_what_is_counted_is_named(tmp_path: Path) -> None:
    """What it sold is in no count, so it is in what nothing explains."""
    words = "What is served at By weight is not counted"
    counter = "name: By weight\nprice: 44.00/kg\ncooks: {chuck-30h: 1 kg}\nleft: 5 %\nsells: 9 kg\n"
    files = {**SMALL, "counts/w.yaml": COUNT, "buffets/by-weight.yaml": counter}
    costed, problems = compute_content(write(tmp_path / "a", files), None, TODAY)
    assert costed is not None, problems
    [_, page] = count_pages(View.of(costed, problems))
    assert words in text_of(html_of(page))
    [_, page] = count_pages(view(tmp_path / "b"))
    assert words not in text_of(html_of(page))


def test_a_count_of_which_nothing_was_sold_has_no_share_of_sales(tmp_path: Path) -> None:
    none = "date: 2026-09-14\nplates: {chuck-steak: 0}\ncuts: {chuck: {used: 2 kg}}\n"
    counted = view(tmp_path, none)
    listed, page = count_pages(counted)
    for said in (text_of(html_of(each)) for each in (listed, page, home_page(counted))):
        words = " ".join(said.split())
        assert re.search(r"No sales; food cost \$[\d.]+ more than the plates counted should", words)
        assert "of sales against" not in words and "– of sales" not in words
