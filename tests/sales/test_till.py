"""A till's exports: counts and prices against Python's csv module and exact fractions."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from builder.build import build, compute_content
from builder.costing.costed import Costed
from builder.problems import Problem
from tests.kitchens import TODAY, write

DAY = date(2026, 10, 1)
FILES: Mapping[str, str] = {
    "kitchen.yaml": "name: Till\ncurrency: CAD\nlocale: en_CA\n"
    "till:\n  columns: {date: Day, plate: Item, count: Qty, price: Each}\n"
    "  plates: {CHK 200: chuck}\n  left out: [Coffee]\n",
    "pantry/beans.yaml": "price: 2/kg\n",
    "plates/chuck.yaml": "name: Chuck steak\nmenu: mains\nwith: {beans: 200 g}\nprice: 15\n"
    "sold: {2026-07: 6, 2026-08: 8}\n",
    "plates/stew.yaml": "name: Bean stew\nmenu: mains\nwith: {beans: 300 g}\nprice: 9.50\n",
    "sales/september.csv": "Day,Item,Qty,Each,Table\n"
    "2026-09-02,CHK 200,3,15.00,1\n"
    "2026-09-12 19:32,Bean Stew,2.00,9.50,2\n"
    "2026-09-12,chk 200,4,12.50,2\n"
    "2026-09-20,Coffee,200,2.50,3\n"
    "2026-09-28,chuck,-1,15.00,3\n"
    "2026-09-30,stew,5,9.50,3\n",
}


def on(
    root: Path, changes: Mapping[str, str] | None = None, day: date = DAY, today: date = TODAY
) -> tuple[Costed | None, list[Problem]]:
    return compute_content(write(root, {**FILES, **(changes or {})}), day, today)


def said(problems: list[Problem]) -> list[str]:
    return [f"{p.place}: {p.message}" for p in problems]


def value(costed: Costed | None, plate: str, figure: str, month: date) -> float:
    assert costed is not None
    return costed.figures.value("taking", figure, costed.rows.takings[plate, month])


def test_counts_and_prices_are_those_of_the_rows(tmp_path: Path) -> None:
    costed, problems = on(tmp_path)
    assert said(problems) == []
    assert costed is not None
    rows = [
        (Fraction(row["Qty"]), Fraction(row["Each"]))
        for row in csv.DictReader(io.StringIO(FILES["sales/september.csv"]))
        if row["Item"].lower() in {"chk 200", "chuck"}
    ]
    count = sum(qty for qty, _ in rows)
    taken = sum((qty * each for qty, each in rows), Fraction(0))
    month = date(2026, 9, 1)
    assert costed.menu_month == month
    plate = costed.rows.plates["chuck"]
    assert costed.figures.value("plate", "sold", plate) == count == 6
    assert costed.figures.value("plate", "days_in_month", plate) == 30
    assert value(costed, "chuck", "till_taken", month) == taken
    assert value(costed, "chuck", "price_taken", month) == pytest.approx(float(taken / count))
    assert value(costed, "chuck", "price_gap", month) == pytest.approx(float(taken / count - 15))
    assert value(costed, "stew", "price_gap", month) == 0
    origin = costed.figures.origin(("plate", "sold"), plate)
    assert str(origin.place) == "sales/september.csv:2:1"
    assert "3 rows" in origin.reason


def test_the_till_wins_over_the_plates_own_count_and_says_so(tmp_path: Path) -> None:
    own = FILES["plates/chuck.yaml"].replace("2026-08: 8", "2026-08: 8, 2026-09: 7")
    costed, problems = on(tmp_path, {"plates/chuck.yaml": own})
    assert costed is not None
    assert said(problems) == [
        "plates/chuck.yaml:5:41: Chuck steak: 7 are written for Sep 2026, but the till counts 6; "
        "the till counts"
    ]
    assert costed.figures.value("plate", "sold", costed.rows.plates["chuck"]) == 6


def test_where_both_agree_nothing_is_said(tmp_path: Path) -> None:
    own = FILES["plates/chuck.yaml"].replace("2026-08: 8", "2026-08: 8, 2026-09: 6")
    assert said(on(tmp_path, {"plates/chuck.yaml": own})[1]) == []


WRONG = {
    "2026-09-02,CHK 200,3": ("2026-09-02,CHK 20,3", "2:12", 'no plate is called "CHK 20"'),
    "2026-09-12,chk 200,4": ("12/09/2026,chk 200,4", "4:1", '"12/09/2026" is not a date'),
    "2026-09-30,stew,5": ("2026-09-30,stew,five", "7:17", '"five" is not a whole number'),
    "5,9.50,3": ("5,9.5O,3", "7:19", '"9.5O" has a letter where a digit belongs'),
    "2026-09-28,chuck,": ("2026-09-28,,", "6:12", "this row has no item"),
}


@pytest.mark.parametrize("old", WRONG)
def test_a_wrong_row_is_named_and_nothing_of_its_file_counts(tmp_path: Path, old: str) -> None:
    new, place, message = WRONG[old]
    text = FILES["sales/september.csv"]
    assert old in text
    # A plate's own count of the month would be contradicted, were any row of the file counted.
    own = FILES["plates/chuck.yaml"].replace("2026-08: 8", "2026-08: 8, 2026-09: 7")
    changes = {"sales/september.csv": text.replace(old, new, 1), "plates/chuck.yaml": own}
    costed, problems = on(tmp_path, changes)
    assert costed is None
    assert said(problems) == [f"sales/september.csv:{place}: {message}"]


def test_all_wrong_rows_come_at_once_an_unknown_name_once(tmp_path: Path) -> None:
    text = FILES["sales/september.csv"].replace("CHK 200", "CHK 20").replace("chk 200", "Chk 20")
    _, problems = on(tmp_path, {"sales/september.csv": text.replace("-1,15.00", "-1,free beer")})
    assert [str(p.place) for p in problems] == [
        "sales/september.csv:2:12",
        "sales/september.csv:6:21",
    ]
    assert problems[0].message == 'no plate is called "CHK 20", in 2 rows'
    assert problems[0].hint == (
        'did you mean "CHK 200"? write "CHK 20": chuck below till: plates: in kitchen.yaml, '
        "or CHK 20 below left out:"
    )


UNREADABLE = {
    "kitchen.yaml": FILES["kitchen.yaml"].replace("Item", "[Item, Dish]"),
    "plates/stew.yaml": FILES["plates/stew.yaml"].replace("9.50", "9.50\nnote: rest: one hour"),
    "plates/Stew.yaml": FILES["plates/stew.yaml"],
}


@pytest.mark.parametrize("file", UNREADABLE)
def test_what_can_not_be_read_elsewhere_makes_no_row_wrong(tmp_path: Path, file: str) -> None:
    changes = {"plates/stew.yaml": FILES["plates/stew.yaml"].replace("name: Bean stew\n", "")}
    sales = FILES["sales/september.csv"].replace("stew,5", "Bean stew,5")
    changes |= {file: UNREADABLE[file], "sales/september.csv": sales}
    root = write(tmp_path, {**FILES, **changes})
    if file == "plates/Stew.yaml":
        (root / "plates/stew.yaml").unlink()
    _, problems = compute_content(root, DAY, TODAY)
    assert any(p.is_error and p.place.file == file for p in problems), said(problems)
    found = [p for p in problems if p.place.file.startswith("sales")]
    assert found == [], said(problems)


@pytest.mark.parametrize(
    ("order", "written"), [("day/month/year", "12/09/2026"), ("month/day/year", "9/12/26 19:32")]
)
def test_dates_are_read_in_the_order_that_the_till_has(
    tmp_path: Path, order: str, written: str
) -> None:
    kitchen = FILES["kitchen.yaml"] + f"  dates: {order}\n"
    text = f"Day,Item,Qty,Each\n{written},stew,4,9.50\n"
    costed, problems = on(tmp_path, {"kitchen.yaml": kitchen, "sales/september.csv": text})
    assert costed is not None, said(problems)
    assert costed.content.sales[0].day == date(2026, 9, 12)


def test_amounts_of_a_row_and_decimal_commas(tmp_path: Path) -> None:
    kitchen = FILES["kitchen.yaml"] + "  price is: row\n  decimal comma: yes\n"
    text = "Day;Item;Qty;Each\n2026-09-02;stew;110;1.037,00\n2026-09-29;stew;-1;-9,50\n"
    costed, problems = on(tmp_path, {"kitchen.yaml": kitchen, "sales/september.csv": text})
    assert said(problems) == []
    assert value(costed, "stew", "till_taken", date(2026, 9, 1)) == 1037 - 9.5
    assert value(costed, "stew", "till_count", date(2026, 9, 1)) == 109


def test_a_heading_that_is_not_there_says_where_to_name_it(tmp_path: Path) -> None:
    text = FILES["sales/september.csv"].replace("Qty", "Sold")
    _, problems = on(tmp_path, {"sales/september.csv": text})
    assert said(problems) == ['sales/september.csv:1:1: the column "qty" is missing']
    assert problems[0].hint == (
        "add it to the first row, and its cell to every other; or name its heading in "
        "kitchen.yaml: till: {columns: {count: ...}}; headings here: day, item, sold, each, table"
    )


def test_a_day_in_another_order_is_quoted_as_the_till_wrote_it(tmp_path: Path) -> None:
    kitchen = FILES["kitchen.yaml"] + "  dates: month/day/year\n"
    text = "Day,Item,Qty,Each\n15/09/2026,stew,4,9.50\n"
    _, problems = on(tmp_path, {"kitchen.yaml": kitchen, "sales/september.csv": text})
    assert said(problems) == ['sales/september.csv:2:1: "15/09/2026" is not in the calendar']
    assert problems[0].hint.endswith("kitchen.yaml says dates: month/day/year")


def test_rows_after_the_day_are_left_out_with_the_usual_warning(tmp_path: Path) -> None:
    costed, problems = on(tmp_path, day=date(2026, 9, 25), today=DAY)
    assert costed is not None
    assert [text for text in said(problems) if "left out" in text] == [
        "sales/september.csv:6:1: sales/september.csv: the sales of Sep 28, 2026 to Sep 30, 2026 "
        "come after Sep 25, 2026, the day of the build, and are left out"
    ]
    # The month runs, and August was counted whole.
    assert costed.menu_month == date(2026, 8, 1)
    assert costed.content.till["chuck", date(2026, 9, 1)].count == 7


def test_a_day_later_than_today_is_an_error(tmp_path: Path) -> None:
    _, problems = on(tmp_path, day=date(2026, 9, 29), today=date(2026, 9, 29))
    errors = [p for p in problems if p.is_error]
    assert said(errors) == ["sales/september.csv:7:1: 2026-09-30 has not come by Sep 29, 2026"]


def test_a_part_of_a_month_counts_by_its_days_where_nothing_else_does(tmp_path: Path) -> None:
    text = "date,plate,count\n2026-09-01,stew,8\n2026-09-14,stew,6\n"
    kitchen = "name: Till\ncurrency: CAD\n"
    plate = FILES["plates/chuck.yaml"].partition("sold")[0]
    changes = {"kitchen.yaml": kitchen, "plates/chuck.yaml": plate, "sales/september.csv": text}
    costed, problems = on(tmp_path, changes)
    assert costed is not None
    assert "cover 14 of its 30 days" in said(problems)[0]
    # 14 plates in 14 days are 7 a week.
    row = costed.rows.plates["stew"]
    assert costed.figures.value("plate", "weekly_count", row) == pytest.approx(7)
    assert not costed.figures.value("taking", "price_taken", 0) >= 0


def test_two_exports_of_a_day_are_doubted(tmp_path: Path) -> None:
    again = "Day,Item,Qty,Each\n2026-09-12,stew,2,9.50\n"
    _, problems = on(tmp_path, {"sales/week-37.csv": again})
    assert said(problems) == [
        "sales/week-37.csv:2:1: sales/september.csv has rows of Sep 12, 2026, too, and both count"
    ]


def test_a_plate_that_the_till_names_must_be_there(tmp_path: Path) -> None:
    kitchen = FILES["kitchen.yaml"].replace("CHK 200: chuck", "CHK 200: chuk")
    _, problems = on(tmp_path, {"kitchen.yaml": kitchen})
    assert said(problems) == ['kitchen.yaml:6:21: there is no plate "chuk"']
    assert problems[0].hint == 'did you mean "chuck"?'


PAGES = ("menu.html", "plates/chuck.html", "plates/stew.html", "sales.html")


def test_pages_show_the_price_taken_where_it_differs(tmp_path: Path) -> None:
    root = write(tmp_path / "content", FILES)
    outcome = build(root, tmp_path / "site", DAY, TODAY)
    assert outcome.report is not None, outcome.problems
    site = tmp_path / "site"
    found = {name: (site / name).read_text() for name in PAGES}
    assert "another price than the menu&#39;s for 1 of " in found["menu.html"]
    assert "$13.33" in found["menu.html"]
    assert "$13.33" in found["plates/chuck.html"]
    assert "till-differs" not in found["plates/stew.html"]
    assert "id=sales-september-csv-L2" in found["sales.html"]
    data = (tmp_path / "site" / "data" / "sales.csv").read_text()
    rows = list(csv.DictReader(io.StringIO(data)))
    assert [(row["id"], float(row["till_count"])) for row in rows] == [
        ("chuck/2026-09", 6.0),
        ("stew/2026-09", 7.0),
    ]


def rows(days: str, plate: str = "chuck", each: int = 2) -> str:
    """An export with so many of a plate on each day of September."""
    lines = [f"2026-09-{day:0>2},{plate},{each},15.00" for day in days.split()]
    return "\n".join(["Day,Item,Qty,Each", *lines, ""])


DAILY, WEEKLY = " ".join(map(str, range(1, 31))), "6 13 20 27"
# From the 21st to the 27th: seven daily rows of 2, or one row of the week.
PERIODS = {
    "counted as the till does": ("21", "27", DAILY, 14, ""),
    "another number": ("21", "27", DAILY, 15, "15 are counted, but the till sold 14"),
    "another week": ("14", "20", WEEKLY, 5, "5 are counted, but the till sold 2"),
    "the week of a row": ("21", "27", WEEKLY, 2, ""),
    "part of a row's week": ("22", "27", WEEKLY, 5, ""),
    "the first row, of which the days are not known": ("1", "6", WEEKLY, 5, ""),
    "a day off": (
        "21",
        "27",
        DAILY.replace(" 23 ", " "),
        14,
        "14 are counted, but the till sold 12",
    ),
    "ten days that are not exported": ("8", "27", "7 8 9 20 21 22 23 24 25 26 27", 40, ""),
    "longer than the export": ("21", "30", "20 21 22 23 24 25", 40, ""),
}


@pytest.mark.parametrize("case", PERIODS)
def test_a_count_is_held_against_the_till(tmp_path: Path, case: str) -> None:
    first, last, days, counted, words = PERIODS[case]
    count = f"from: 2026-09-{first:0>2}\nto: 2026-09-{last:0>2}\nplates: {{chuck: {counted}}}\n"
    own = FILES["plates/chuck.yaml"].replace("sold: {2026-07: 6, 2026-08: 8}\n", "")
    changes = {
        "counts/week.yaml": count,
        "sales/september.csv": rows(days),
        "plates/chuck.yaml": own,
    }
    costed, problems = on(tmp_path, changes)
    assert costed is not None
    found = [p for p in problems if p.place.file == "counts/week.yaml"]
    assert [p.message.partition(" on these days")[0] for p in found] == [
        f"chuck: {words}" for words in [words] if words
    ]
    if words:
        assert not found[0].is_error
        assert found[0].record == "counts/week"


def test_a_plate_that_the_till_never_had_is_no_contradiction(tmp_path: Path) -> None:
    count = "from: 2026-09-21\nto: 2026-09-27\nplates: {stew: 9}\n"
    _, problems = on(tmp_path, {"counts/week.yaml": count, "sales/september.csv": rows(DAILY)})
    assert [p for p in problems if p.place.file == "counts/week.yaml"] == []


def test_a_plate_that_a_count_has_from_a_set_menu_only_is_not_held_against_the_till(
    tmp_path: Path,
) -> None:
    """What was sold of it on its own was not counted, so the till's number contradicts nothing."""
    menu = "name: Lunch\nprice: 30\nplates: [chuck]\n"
    count = "from: 2026-09-21\nto: 2026-09-27\nplates: {stew: 9}\nmenus: {lunch: 4}\n"
    changes = {"counts/week.yaml": count, "sales/september.csv": rows(DAILY)}
    costed, problems = on(tmp_path, {**changes, "menus/lunch.yaml": menu})
    assert costed is not None, problems
    assert "chuck" in costed.content.counts["week"].plates
    assert [p for p in problems if p.place.file == "counts/week.yaml"] == []
