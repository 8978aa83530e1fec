"""The kitchen's page and the page of prices: what they say, and that every way leads there."""

from __future__ import annotations

from builder.pages.components import SourceListing, Table, walk
from builder.pages.equipment import equipment_page
from builder.pages.kitchen_page import kitchen_page, prices_page
from tests.pages_data.kitchens import hrefs_of, html_of, ids_of, small, text_of, view_of


def test_the_kitchen_says_its_terms() -> None:
    text = text_of(html_of(kitchen_page(small())))
    assert "Work costs $24.50/h with all dues; menu prices include 5.0% sales tax." in text
    assert "The aim is a food cost of 30.0% and a margin of $16.00 a plate." in text
    # 1150.00 over 14,000 hours.
    assert "$0.0821/h" in text
    assert "$0.14/kWh" in text
    assert "$0.052/kWh" in text


def test_a_kitchen_that_states_nothing_says_so() -> None:
    view = view_of({"kitchen.yaml": "name: Bare\ncurrency: EUR\nlocale: de_DE\n"})
    page = kitchen_page(view)
    html_of(page)
    assert page.answer == "No wage is stated; menu prices carry no sales tax."
    assert "as there is no price list" in html_of(prices_page(view))


def test_no_anchor_on_the_kitchen_page_is_missing() -> None:
    html = html_of(kitchen_page(small()))
    ids = ids_of(html)
    assert len(set(ids)) == len(ids)
    inside = [href[1:] for href in hrefs_of(html) if href.startswith("#")]
    assert len(inside) >= 3
    assert set(inside) <= set(ids)


def test_equipment_leads_to_its_week() -> None:
    found = hrefs_of(html_of(kitchen_page(small())))
    ids = ids_of(html_of(equipment_page(small())))
    ways = [href for href in found if href.startswith("equipment.html")]
    assert len(ways) > 1
    assert {way.partition("#")[2] for way in ways} <= {"", *ids}


def test_the_note_links_records() -> None:
    assert "href=cuts/chuck-roll.html" in html_of(kitchen_page(small()))


def test_prices_are_those_that_count() -> None:
    page = prices_page(small())
    table = next(s for s in walk(page.sections) if isinstance(s, Table))
    rows = {str(row.cells[0].text): [str(c.text) for c in row.cells[2:]] for row in table.rows}
    # 18.40 a pound is 40.565 a kilogram; the list of 7 September wins over the file.
    assert rows["Ribeye"] == ["$40.57/kg", "18.40/lb", "South Yard", "Sep 7, 2026"]
    assert rows["Bones"][:2] == ["$2.90/kg", "2.90/kg"]
    assert rows['Chuck roll, "neck off" & tied'][3] == "–"
    assert "Stock" not in rows


def test_every_price_leads_to_its_line() -> None:
    view = small()
    html = html_of(prices_page(view))
    ids = set(ids_of(html))
    place = view.costed.prices["ribeye"].price.place
    assert view.where.line_href(place.file, place.line) == "~/prices.html#prices-south-yard-csv-L3"
    assert "prices-south-yard-csv-L3" in ids
    inside = {href[1:] for href in hrefs_of(html) if href.startswith("#")}
    assert inside <= ids


def test_lines_that_count_carry_a_mark() -> None:
    listed = [s for s in walk(prices_page(small()).sections) if isinstance(s, SourceListing)]
    assert [(source.file, sorted(source.used)) for source in listed] == [
        ("prices/south-yard.csv", [2, 3])
    ]
