"""Reading CSV: placed cells, the delimiter from the header, every refusal at its cell.

Outside checks: the quoting rules of RFC 4180 section 2 (its three-field examples, from
memory), and Python's csv module as writer and as reference reader.
"""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.problems import Place
from builder.reading.csv_text import parse_csv
from builder.reading.limits import LIMITS, Limits
from builder.reading.prices import parse_prices
from builder.reading.tree import Blank, Text, plain

GOOD = "date,item,price,supplier,note\n2026-09-01,chuck,13.60/kg,West,\n"


def spots(record: object) -> list[tuple[int, int]]:
    assert isinstance(record, dict)
    return [(cell.line, cell.column) for cell in record.values()]


def test_cells_are_text_with_places() -> None:
    [record], problems = parse_prices("prices/w.csv", GOOD.encode())
    assert problems == []
    assert list(record.values()) == ["2026-09-01", "chuck", "13.60/kg", "West", ""]
    assert spots(record) == [(2, 1), (2, 12), (2, 18), (2, 27), (2, 32)]
    assert record.place == Place("prices/w.csv", 2, 1)
    assert record.key("item").place == Place("prices/w.csv", 1, 6)
    assert isinstance(record["note"], Blank)
    assert isinstance(record["price"], Text)


# RFC 4180 section 2, rules 5 to 7: text, values, places
QUOTING = [
    ('"aaa","bbb","ccc"', ["aaa", "bbb", "ccc"], [(2, 1), (2, 7), (2, 13)]),
    ('"aaa","b\r\nbb","ccc"\r\n', ["aaa", "b\r\nbb", "ccc"], [(2, 1), (2, 7), (3, 5)]),
    ('"aaa","b""bb","ccc"', ["aaa", 'b"bb', "ccc"], [(2, 1), (2, 7), (2, 15)]),
    ("zzz,yyy,xxx", ["zzz", "yyy", "xxx"], [(2, 1), (2, 5), (2, 9)]),
    # beyond the RFC: spaces around a cell are dropped, quotes inside a bare cell are text
    ('  zzz , "y,y",x"x', ["zzz", "y,y", 'x"x'], [(2, 3), (2, 9), (2, 15)]),
    ('"a\n\nb",c,\n', ["a\n\nb", "c", ""], [(2, 1), (4, 4), (4, 6)]),
]


@pytest.mark.parametrize(("text", "values", "places"), QUOTING)
def test_quoting_as_the_rfc_has_it(
    text: str, values: list[str], places: list[tuple[int, int]]
) -> None:
    [record], problems = parse_csv("t.csv", f"a,b,c\n{text}".encode(), "abc")
    assert problems == []
    assert list(record.values()) == values
    assert spots(record) == places


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_forms_that_spreadsheets_write(delimiter: str, newline: str, mark: bytes) -> None:
    rows = [["Date", " ITEM", "price", ""], ["2026-09-01", "chuck", '"13,60/kg"', ""], ["", "", ""]]
    text = newline.join(delimiter.join(row) for row in rows)
    records, problems = parse_prices("p.csv", mark + text.encode())
    assert problems == []
    [record] = records
    assert plain(record) == {"date": "2026-09-01", "item": "chuck", "price": "13,60/kg"}
    assert spots(record) == [(2, 1), (2, 12), (2, 18)]


def test_a_decimal_comma_lives_with_semicolons() -> None:
    data = b"date;item;price;note\n2026-09-01;chuck;13,60/kg;rib, eye, and cap\n"
    [record], problems = parse_prices("p.csv", data)
    assert problems == []
    assert (record["price"], record["note"]) == ("13,60/kg", "rib, eye, and cap")


HEAD = "date,item,price\n"
# text, line, column, part of the message, part of the hint
REFUSED = [
    ("", 0, 0, "no header row", "date,item,price"),
    ("\n , \n", 0, 0, "no header row", "date,item,price"),
    ("2026-09-01,chuck,13.60/kg\n", 1, 1, "first row must name the columns", "date,item,price"),
    ("sep=,\ndate,item,price\n", 1, 1, "first row must name the columns", "date,item,price"),
    ("date,item,prise\n", 1, 11, 'unknown column "prise"', 'did you mean "price"?'),
    ("date,item,price,zzz\n", 1, 17, 'unknown column "zzz"', "allowed: candidate, date, deposit"),
    ("date,item,price,item\n", 1, 17, '"item" is given twice: first at p.csv:1:6', ""),
    ("date,,item,price\n", 1, 6, "a column without a name", "delete"),
    ("\ndate,item\n", 2, 1, 'the column "price" is missing', ""),
    (HEAD + "2026-09-01,chuck\n", 2, 1, "this row has 2 cells, the header 3", "date, item, price"),
    (HEAD + "2026-09-01,chuck,13,60\n", 2, 1, "4 cells, the header 3", "write 13.60"),
    (HEAD + "2026-09-01,a,b,1/kg\n", 2, 1, "4 cells, the header 3", "quotes around"),
    (HEAD + "2026-09-01,,1/kg\n", 2, 12, "this row has no item", ""),
    (HEAD + '2026-09-01,x, " "\n', 2, 14, "this row has no price", ""),
    (HEAD + '2026-09-01,"x,1/kg\n', 2, 1, "quote in this row is never closed", "closing"),
    (HEAD + 'a,b,c\na,"x"y,1/kg\n', 3, 1, "text or a space follows a closing quote", "twice"),
    (HEAD + 'a,"x" ,1/kg\n', 2, 1, "text or a space follows a closing quote", "twice"),
    (HEAD + f"a,b,{'x' * 200_000}\n", 2, 1, "too long", "never closed"),
    (HEAD + "a,b,\x00\n", 2, 5, "U+0000", "delete"),
]


@pytest.mark.parametrize(("text", "line", "column", "message", "hint"), REFUSED)
def test_what_is_wrong_is_reported_at_its_cell(
    text: str, line: int, column: int, message: str, hint: str
) -> None:
    _, problems = parse_prices("p.csv", text.encode())
    assert [problem.place for problem in problems] == [Place("p.csv", line, column)]
    assert message in problems[0].message
    assert hint in problems[0].hint


def test_a_bad_row_leaves_the_good_ones() -> None:
    data = (HEAD + "a,b\n2026-09-01,chuck,1/kg\n,,2/kg\n").encode()
    records, problems = parse_prices("p.csv", data)
    assert [record["item"] for record in records] == ["chuck"]
    assert [problem.place.line for problem in problems] == [2, 4, 4]


@pytest.mark.parametrize(
    ("data", "place", "message"),
    [
        (GOOD.encode("utf-16"), Place("p.csv"), "UTF-16"),
        ("date,item,price\n2026-09-01,crème,1\n".encode("latin-1"), Place("p.csv", 2, 14), "0xE8"),
        (b"x" * (LIMITS.csv_bytes + 1), Place("p.csv"), "8,388,609 bytes"),
    ],
)
def test_encodings_and_size(data: bytes, place: Place, message: str) -> None:
    records, problems = parse_prices("p.csv", data)
    assert records == []
    assert problems[0].place == place
    assert message in problems[0].message


def test_rows_and_problems_are_capped() -> None:
    records, problems = parse_csv("t.csv", b"a\n1\n2\n3\n", "a", limits=Limits(rows=2))
    assert [record["a"] for record in records] == ["1", "2"]
    assert [(p.place.line, p.message) for p in problems] == [(4, "more than 2 rows")]
    wide = b"a" + b"," * 1_000_000 + b"b\n"
    assert parse_csv("t.csv", wide, "a")[1][0].message == "more than 200 columns"
    _, problems = parse_csv("t.csv", b"a\n1\n2\n", "a", limits=Limits(cells=2))
    assert [(p.place.line, p.message) for p in problems] == [(3, "more than 2 cells")]
    _, problems = parse_csv("t.csv", b"a,b\n" + b"1\n" * 100, "ab", limits=Limits(problems=3))
    assert len(problems) == 4


def test_any_further_column_where_the_caller_allows_it() -> None:
    data = b"taster,481,926\nT1,4,5\n"
    [record], problems = parse_csv("t.csv", data, ["taster"], optional=None)
    assert problems == []
    assert plain(record) == {"taster": "T1", "481": "4", "926": "5"}
    assert parse_csv("t.csv", data, ["taster"])[1][0].message == 'unknown column "481"'


@settings(deadline=None)
@given(st.binary(max_size=200) | st.text('a,;\t"\n\r é', max_size=60).map(str.encode))
def test_any_bytes_give_records_or_problems(data: bytes) -> None:
    for records, problems in (
        parse_csv("t.csv", data, (), None),
        parse_csv("t.csv", b"a,b\n" + data, "ab"),
        parse_prices("t.csv", b"date,item,price\n" + data),
    ):
        lines = data.count(b"\n") + data.count(b"\r") + 3
        assert all(0 <= problem.place.line <= lines for problem in problems)
        assert all(len(record) == len(records[0]) for record in records)


CELLS = st.text('ab1,;é"\n. ', max_size=8)


@settings(deadline=None)
@given(st.lists(st.tuples(CELLS, CELLS, CELLS), max_size=8), st.sampled_from(",;\t"))
def test_what_the_csv_module_writes_is_read_back_in_place(
    rows: list[tuple[str, str, str]], delimiter: str
) -> None:
    written = io.StringIO()
    writer = csv.writer(written, delimiter=delimiter, quoting=csv.QUOTE_MINIMAL)
    writer.writerows([("a", "b", "c"), *rows])
    text = written.getvalue()
    records, problems = parse_csv("t.csv", text.encode(), "abc")
    assert problems == []
    stripped = [[cell.strip() for cell in row] for row in rows]
    assert [[str(cell) for cell in r.values()] for r in records] == [r for r in stripped if any(r)]
    lines = text.replace("\r\n", "\n").split("\n")
    for cell in (cell for record in records for cell in record.values() if cell):
        assert isinstance(cell, Text)
        at = lines[cell.line - 1][cell.column - 1 :]
        first = cell.split("\n")[0]
        assert at.startswith(('"', first))
