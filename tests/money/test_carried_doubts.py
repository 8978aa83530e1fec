"""A cost that can't be trusted is marked wherever it is read: too dear for its price, not weighed.

The shares are worked out by hand beside their checks.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from builder.pages.components import Chart, Page, Part, Table
from builder.pages.cooking_forms import cooking_losses
from builder.pages.cooks import cook_page
from builder.pages.counts import count_pages
from builder.pages.data import data_files
from builder.pages.menu import menu_page
from builder.pages.plates import plate_page
from builder.pages.swaps import swap_pages
from builder.pages.view import View
from tests.kitchens import read, write
from tests.money.test_doubtful_prices import DEAR as WORTH
from tests.money.test_doubtful_prices import FILES, site

# 200 g of what is left after 0.8 x 0.8 of a 10/kg shank cost 3.125; of a price of 0.96 that is
# 325.5 %, to a tenth.
DEAR = {"plates/one.yaml": FILES["plates/one.yaml"].replace("price: 15", "price: 0.96")}
WHY_DEAR = "the food on One costs 325.5% of what guests pay without tax"


def test_a_plate_that_costs_more_than_it_earns_is_in_doubt_wherever_it_is_read(
    tmp_path: Path,
) -> None:
    words, problems = site(tmp_path, DEAR)
    assert f"The cost of One is in doubt: {WHY_DEAR}." in words["plates/one.html"]
    assert "325.5% in doubt" in words["plates/one.html"]
    assert "325.5% over; in doubt" in words["menu.html"]
    assert "325.5% in doubt" in words["index.html"]
    assert f"against Two is in doubt: {WHY_DEAR}." in words["swaps/swap.html"]
    assert "325.5% in doubt" in words["swaps/swap.html"]
    assert "What 1 plate costs is in doubt." in words["menu.html"]
    # The price beside that of its benchmark is the sharper warning of the same line.
    (warned,) = [p for p in problems if p.place.file == "plates/one.yaml"]
    assert "0.96 is 1/15.6 of that of Two" in warned.message.replace("\N{NO-BREAK SPACE}", " ")


def test_a_plate_that_was_looked_over_or_costs_its_price_is_not_in_doubt(tmp_path: Path) -> None:
    text = DEAR["plates/one.yaml"]
    checked = {"plates/one.yaml": f"{text}checked: 2026-09-30\n"}
    even = {"plates/one.yaml": text.replace("0.96", "3.13")}
    for number, files in enumerate((checked, even)):
        words, _ = site(tmp_path / str(number), files)
        for page in ("plates/one.html", "menu.html", "index.html", "swaps/swap.html"):
            assert "in doubt" not in words[page], page


UNKNOWN = [
    ("cooks/a.yaml", "loss: 20 %\n", "", "cook of Braise"),
    ("cooks/a.yaml", "loss: 20 %\n", "loss: 20 %\ncarve: {how: off the bone}\n", "carve of Braise"),
    ("cuts/x.yaml", "{loss: 20 %}", "{how: boned}", "trim of Shank"),
]


@pytest.mark.parametrize(("file", "old", "new", "stage"), UNKNOWN)
def test_a_loss_that_nobody_knows_makes_every_cost_doubtful(
    file: str, old: str, new: str, stage: str, tmp_path: Path
) -> None:
    words, problems = site(tmp_path, {file: FILES[file].replace(old, new)})
    why = f"the loss at the {stage} is not known, so none is counted"
    assert f"What it costs is in doubt: {why}." in words["cooks/a.html"]
    assert f"The cost of One is in doubt: {why}." in words["plates/one.html"]
    assert f"against Two is in doubt: {why}." in words["swaps/swap.html"]
    assert "What 1 plate costs is in doubt." in words["menu.html"]
    assert "what it costs servable is in doubt" in words["cuts/x.html"]
    assert ("in doubt; parts credited" in words["cuts/x.html"]) is (file == "cuts/x.yaml")
    [warning] = [p for p in problems if "nothing weighed" in p.message]
    pages = {warning.record, *warning.also}
    assert pages >= {file.removesuffix(".yaml"), "plates/one", "swaps/swap", "menu"}
    assert "loss: 0 %" in warning.hint


def test_a_stage_that_says_it_loses_nothing_is_in_no_doubt(tmp_path: Path) -> None:
    cook = FILES["cooks/a.yaml"] + "rest: {for: 6 min, loss: 0 %}\n"
    words, _ = site(tmp_path, {"cooks/a.yaml": cook})
    for page in ("cooks/a.html", "plates/one.html", "menu.html", "swaps/swap.html", "cooks.html"):
        assert "in doubt" not in words[page], page


def test_a_stage_of_the_cook_s_own_stands_in_for_the_cut_s_unknown_one(tmp_path: Path) -> None:
    files = {
        "cuts/x.yaml": FILES["cuts/x.yaml"].replace("{loss: 20 %}", "{how: boned}"),
        "cooks/a.yaml": FILES["cooks/a.yaml"] + "trim: {loss: 20 %}\n",
    }
    words, _ = site(tmp_path, files)
    assert "in doubt" not in words["plates/one.html"]
    assert "in doubt; parts credited" in words["cuts/x.html"]


# The places beside the big figures: classes, pictures, stages, forms, counts

SOLD = {
    "plates/one.yaml": FILES["plates/one.yaml"] + "sold: {2026-09: 60}\n",
    "plates/two.yaml": FILES["plates/two.yaml"] + "sold: {2026-09: 50}\n",
    "counts/week.yaml": "from: 2026-09-21\nto: 2026-09-27\nplates: {one: 20}\n"
    "cuts: {x: {used: 7 kg}}\n",
}
LOST = {"cooks/a.yaml": FILES["cooks/a.yaml"].replace("loss: 20 %\n", "")}


def view_of(root: Path, files: Mapping[str, str]) -> View:
    costed, problems = read(write(root, {**FILES, **SOLD, **files}))
    assert costed is not None, problems
    return View.of(costed, problems)


def pictures(page: Page | Part) -> list[Chart]:
    found: list[Chart] = []
    for each in page.sections:
        found += (
            pictures(each) if isinstance(each, Part) else [each] if isinstance(each, Chart) else []
        )
    return found


def test_a_class_beside_a_doubtful_cost_is_in_doubt_and_asks_for_nothing(tmp_path: Path) -> None:
    """The line that divides is a mean over the section, so each of its classes rests on it."""
    words, _ = site(tmp_path, {**SOLD, **WORTH})
    for plate in ("One", "Two"):
        row = re.search(
            rf"{plate} \S+( in doubt)? .*? mains (.*?, in doubt)( |$)", words["menu.html"]
        )
        assert row, plate
    for todo in ("keep as it is", "cut its cost", "sell more of it", "rework or drop"):
        assert todo not in words["menu.html"]
    assert "of sales in Sep 2026, which is in doubt." in words["menu.html"]
    sure, _ = site(tmp_path / "sure", SOLD)
    assert "in doubt" not in sure["menu.html"]


@pytest.mark.parametrize("files", [WORTH, LOST])
def test_a_picture_of_a_doubtful_cost_says_so_in_title_sentence_and_names(
    files: Mapping[str, str], tmp_path: Path
) -> None:
    view = view_of(tmp_path, files)
    plates, swaps = view.costed.content.plates, list(swap_pages(view))
    seen = [
        *pictures(plate_page(view, plates["one"])),
        *pictures(menu_page(view)),
        *(p for page in swaps for p in pictures(page)),
        *(p for page in count_pages(view) for p in pictures(page)),
        *(
            p
            for p in pictures(cook_page(view, view.costed.content.cooks["a"]))
            if p.kind == "waterfall"
        ),
    ]
    assert {p.kind for p in seen} >= {"waterfall", "margin-scatter", "cost-stack"}
    for picture in seen:
        names = {str(row[key]) for row in picture.rows for key in ("plate", "name") if key in row}
        if any("One" in name for name in names):
            assert "One (in doubt)" in names
            assert "Two" in names
        if picture.kind != "cost-stack":
            assert f"{picture.title}".endswith("(in doubt)")
            assert "It is in doubt: " in picture.summary
        else:
            assert "One (in doubt)" in picture.summary


def test_a_worth_leaves_the_weights_and_a_loss_not_known_does_not(tmp_path: Path) -> None:
    """A by-product's worth moves no weight; a loss that nobody knows moves every one after it."""
    worth, _ = site(tmp_path / "worth", WORTH)
    lost, _ = site(tmp_path / "lost", LOST)
    for line in ("EP / AP – 64.0%", "AP weight a portion 0 g 313 g"):
        assert line in worth["swaps/swap.html"]
        assert f"{line} in doubt" not in worth["swaps/swap.html"]
    for line in ("EP / AP – 80.0% in doubt", "AP weight a portion 0 g 250 g in doubt"):
        assert line in lost["swaps/swap.html"]
    assert "100.0% in doubt" in lost["cuts/x.html"]
    assert re.search(r"Trim \S+/kg \S+ \S+ kg \S+ kg 0 g \S+ kg 80.0% ", lost["cooks/a.html"])


def test_a_stage_is_in_doubt_from_where_its_cost_is(tmp_path: Path) -> None:
    """Trim is weighed and sure; the cook that nobody weighed, and what it costs, is not."""
    words, _ = site(tmp_path, LOST)
    trim, cook = (
        re.search(
            rf"{name}.{{,12}}? \$[\d.]+/kg( in doubt)?",
            words["cooks/a.html"].partition("A kg out costs")[2],
        )
        for name in ("Trim", "Cook")
    )
    assert trim and not trim[1]
    assert cook and cook[1]
    assert "100.0% in doubt" in words["cooks/a.html"].partition(cook[0])[2][:90]


def test_forms_carry_the_mark(tmp_path: Path) -> None:
    view = view_of(tmp_path, WORTH)
    first, *_ = cooking_losses(view, view.costed.content.cooks["a"])
    printed = repr(first)
    assert printed.count("in doubt") == 3 + 2 + 3  # fields, the cost of two stages, a portion
    lost = view_of(tmp_path / "lost", LOST)
    first, *_ = cooking_losses(lost, lost.costed.content.cooks["a"])
    # Besides: what is cooked, lost and served with its share, and of the cook all but what goes in
    # and its by-products.
    assert repr(first).count("in doubt") == 3 + 3 + 2 * 3 + 4


def test_a_count_over_a_doubtful_cost_says_so_first(tmp_path: Path) -> None:
    words, _ = site(tmp_path, {**SOLD, **LOST})
    reason = "the loss at the cook of Braise is not known, so none is counted"
    lead = f"What the plates sold should cost is in doubt: {reason}."
    assert lead in words["counts/week.html"]
    assert lead in words["counts.html"]
    sure, _ = site(tmp_path / "sure", SOLD)
    assert "in doubt" not in sure["counts/week.html"]


def tables_of(page: Page | Part) -> Iterator[Table]:
    for each in page.sections:
        if isinstance(each, Part):
            yield from tables_of(each)
        elif isinstance(each, Table):
            yield each


def doubts_in(view: View, table: str) -> dict[str, str]:
    """The reasons in the last column of a table of data, by the row's id."""
    text = dict(data_files(view))[f"data/{table}.csv"]
    rows = csv.DictReader(io.StringIO(text.decode() if isinstance(text, bytes) else text))
    return {row["id"]: row["in_doubt"] for row in rows}


def test_every_row_of_a_count_that_rests_on_a_doubtful_cost_is_marked(tmp_path: Path) -> None:
    """One cut's by-products are worth more than it costs; another's cut is sure."""
    files = {
        **SOLD,
        **WORTH,
        "cuts/y.yaml": "name: Loin\nspecies: beef\nprice: 20/kg\ntrim: {loss: 5 %}\n",
        "cooks/b.yaml": "name: Roast\ncut: y\nhow: oven\nload: 4 kg\nloss: 20 %\n",
        "plates/three.yaml": "name: Three\nmenu: mains\ncook: b\nportion: 200 g\nprice: 30\n",
        "counts/week.yaml": "from: 2026-09-21\nto: 2026-09-27\nplates: {one: 20, three: 10}\n"
        "cuts: {x: {used: 7 kg}, y: {used: 3 kg}}\n"
        "cooks: {a: {thrown: {dropped: 0.2 kg}}, b: {thrown: {dropped: 0.1 kg}}}\n",
    }
    view = view_of(tmp_path, files)
    page = next(p for p in count_pages(view) if p.path == "counts/week.html")
    tables = {each.id: each for each in tables_of(page)}
    for table, doubtful, sure, amounts in (
        ("by-cut", "Shank", "Loin", 8),
        ("by-plate", "One", "Three", 3),
        ("thrown-rows", "Braise", "Roast", 1),
    ):
        notes = {
            str(row.cells[0].text): [str(cell.note) for cell in row.cells].count("in doubt")
            for row in tables[table].rows
        }
        assert notes == {doubtful: amounts, sure: 0}, table
    why = "the by-products of Braise are counted as worth more than its meat costs"
    trim = "the by-products of its trim are worth more than the cut costs"
    assert doubts_in(view, "count_cuts") == {"week/x": trim, "week/y": ""}
    assert doubts_in(view, "count_cooks") == {"week/a": why, "week/b": ""}
    assert doubts_in(view, "count_thrown") == {"week/1": why, "week/2": ""}


def test_only_the_portion_whose_cost_is_in_doubt_is_marked(tmp_path: Path) -> None:
    files = {
        **WORTH,
        "cuts/y.yaml": "name: Loin\nspecies: beef\nprice: 20/kg\ntrim: {loss: 5 %}\n",
        "cooks/b.yaml": "name: Roast\ncut: y\nhow: oven\nload: 4 kg\nloss: 20 %\n",
        "plates/three.yaml": "name: Three\nmenu: mains\nprice: 30\nportions:\n"
        "  - {cook: b, portion: 200 g}\n  - {cook: a, portion: 50 g}\n",
        "plates/four.yaml": "name: Four\nmenu: mains\nprice: 30\nportions:\n"
        "  - {cook: a, portion: 50 g}\n  - {cook: b, portion: 200 g}\n",
    }
    view = view_of(tmp_path, files)
    for name, doubtful, sure in (
        ("three", "Further portions", "Protein"),
        ("four", "Protein", "Further portions"),
    ):
        page = plate_page(view, view.costed.content.plates[name])
        [lines] = [each for each in tables_of(page) if each.id == "cost-lines"]
        notes = {str(row.cells[0].text): str(row.cells[1].note) for row in lines.rows}
        assert (notes[doubtful], notes[sure], notes["Food cost"]) == ("in doubt", "", "in doubt")
    assert {row: bool(why) for row, why in doubts_in(view, "portions").items()} == {
        "three/2": True,
        "four/2": False,
    }


def test_a_cut_served_without_a_cook_marks_the_plates_whose_cost_is_in_doubt(
    tmp_path: Path,
) -> None:
    """Oysters are in no doubt, and the plate that they share with a doubtful braise is."""
    files = {
        **WORTH,
        "cuts/o.yaml": "name: Oyster\nspecies: other\nprice: 1.60/each\neach: 90 g\n"
        "trim: {loss: 80 %}\n",
        "plates/three.yaml": "name: Three\nmenu: mains\ncut: o\nportion: 6 pieces\nprice: 40\n",
        "plates/four.yaml": "name: Four\nmenu: mains\nprice: 30\nportions:\n"
        "  - {cook: a, portion: 200 g}\n  - {cut: o, portion: 1 piece}\n",
    }
    words, _ = site(tmp_path, files)
    plates = words["cuts/o.html"].split("Served without a cook", 1)[1]
    assert re.search(r"Four \S+, in doubt", plates)
    assert not re.search(r"Three \S+, in doubt", plates)


def test_savings_that_are_in_doubt_are_counted_where_savings_are(tmp_path: Path) -> None:
    words, _ = site(tmp_path, WORTH)
    assert "No swap earns more today. What 1 challenger earns is in doubt." in words["index.html"]
    assert "What 1 challenger earns is in doubt." in words["swaps.html"]
    sure, _ = site(tmp_path / "sure", {})
    assert "is in doubt" not in sure["swaps.html"]


def test_no_page_prints_the_marks_of_a_link(tmp_path: Path) -> None:
    """A figure's interval beside its doubt stays a link."""
    tests = "\n".join(f"  - {{date: 2026-09-0{n}, in: 4 kg, out: 3.{n} kg}}" for n in (1, 2, 3))
    cook = FILES["cooks/a.yaml"].replace("loss: 20 %", f"tests:\n{tests}")
    words, _ = site(tmp_path, {**WORTH, "cooks/a.yaml": cook})
    assert "9 times in 10" in words["plates/one.html"]
    for page, text in words.items():
        assert "<a " not in text, page
