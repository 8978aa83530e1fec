"""The page What changed and its feed, held to RFC 4287 [from memory]."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree as ET

from builder.costing.costed import Costed
from builder.pages.changes import NOTHING_YET, changes_page
from builder.pages.components import Part, Table
from builder.pages.feed import feed
from builder.pages.reader import Reader
from builder.pages.view import View
from tests.changes.kitchens import BEFORE, PLATE, built, edited, pair

ATOM = "{http://www.w3.org/2005/Atom}"
# RFC 3339, as section 3.3 requires.
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(Z|[+-]\d\d:\d\d)")
EDITS = (
    ("cuts/x.yaml", "10/kg", "12/kg"),
    ("cooks/a.yaml", "20 %", "36 %"),
    ("kitchen.yaml", "20/h", "20.07/h"),
)


def view_of(costed: Costed) -> View:
    return View.of(costed, ())


def tables(view: View) -> list[Table]:
    parts = [each for each in changes_page(view).sections if isinstance(each, Part)]
    return [each for part in parts for each in part.sections if isinstance(each, Table)]


def cents(text: str) -> int:
    """Money as it is printed, in cents.

    >>> cents("−0.50"), cents("$3.10"), cents("–")
    (-50, 310, 0)
    """
    digits = re.sub(r"\D", "", text)
    return (-1 if "−" in text else 1) * int(digits or "0")


def test_printed_parts_add_up_to_the_cent(tmp_path: Path) -> None:
    for portion in range(151, 160):
        more = ("plates/dear.yaml", "200 g", f"{portion} g")
        view = view_of(pair(tmp_path / str(portion), edited(*EDITS, more)))
        rows = tables(view)[0].rows
        assert len(rows) == 6
        for row in rows:
            _, _, before, *parts, after = (str(cell.text) for cell in row.cells)
            assert cents(before) + sum(map(cents, parts)) == cents(after)


def test_the_first_build_has_nothing_to_compare(tmp_path: Path) -> None:
    view = view_of(built(tmp_path, BEFORE))
    assert changes_page(view).lead == NOTHING_YET
    root = ET.fromstring(feed(view))
    assert root.findall(f"{ATOM}entry") == []
    assert root.find(f"{ATOM}author/{ATOM}name") is not None


def test_a_move_below_a_coin_is_only_counted(tmp_path: Path) -> None:
    view = view_of(pair(tmp_path, edited(("kitchen.yaml", "20/h", "20.02/h"))))
    # 0.02 an hour over 20 portions are a tenth of a cent.
    assert tables(view) == []
    assert "no plate moved" in changes_page(view).lead
    assert b"2 plates moved by less than a coin." in feed(view)


def test_a_removed_plate_has_no_link(tmp_path: Path) -> None:
    after = {path: text for path, text in BEFORE.items() if path != "plates/other.yaml"}
    (table,) = (t for t in tables(view_of(pair(tmp_path, after))) if t.id.endswith("records"))
    (row,) = table.rows
    assert [cell.text for cell in row.cells] == ["Other", "Removed", "–"]
    assert row.cells[0].href == ""


def test_nobody_but_the_owner_reads_of_costs(tmp_path: Path) -> None:
    costed = pair(tmp_path, edited(*EDITS))
    cook = View.of(costed, (), Reader("cook", frozenset({"weights", "cooking"})))
    assert tables(view_of(costed)) and not tables(cook)
    assert b"<entry>" not in feed(cook) and b"<entry>" in feed(view_of(costed))


def test_the_feed_has_what_the_standard_requires(tmp_path: Path) -> None:
    odd = {**BEFORE, "plates/odd.yaml": f'name: "Salt & <pepper>"\n{PLATE}'}
    view = view_of(pair(tmp_path, edited(*EDITS, files=odd), odd))
    root = ET.fromstring(feed(view))
    assert root.tag == f"{ATOM}feed"
    entries = root.findall(f"{ATOM}entry")
    assert len(entries) == 1
    names = set()
    for element in (root, *entries):
        for required in ("id", "title", "updated"):
            assert len(element.findall(f"{ATOM}{required}")) == 1
        assert MOMENT.fullmatch(element.findtext(f"{ATOM}updated") or "")
        name = element.findtext(f"{ATOM}id") or ""
        assert re.fullmatch(r"urn:uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", name)
        names.add(name)
        alternate = [e for e in element.findall(f"{ATOM}link") if e.get("rel") == "alternate"]
        assert len(alternate) == 1
    assert len(names) == 2
    assert "Salt & <pepper>, Food cost" in (entries[0].findtext(f"{ATOM}content") or "")


def test_a_file_with_another_name_is_not_another_name_of_its_record(tmp_path: Path) -> None:
    named = {**BEFORE, "plates/dear.yaml": f"name: Dear\n{BEFORE['plates/dear.yaml']}"}
    after = {path: text for path, text in named.items() if path != "plates/dear.yaml"}
    after["plates/dearer.yaml"] = named["plates/dear.yaml"]
    view = view_of(pair(tmp_path, after, named))
    (table,) = (each for each in tables(view) if each.caption.startswith("Records"))
    assert [str(cell.text) for cell in table.rows[0].cells] == ["Dear", "File renamed", "–"]
    assert b"File renamed: Dear." in feed(view)
