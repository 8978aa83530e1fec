"""Pages of tastings: verdict first, links that lead somewhere, no names, no claim too many."""

from __future__ import annotations

import csv
import io
import re
from functools import cache

import pytest

from builder.display.style import NBSP
from builder.language import written_in
from builder.pages.charts.fields import lacking
from builder.pages.components import Chart, Notice, Page, Part, walk
from builder.pages.data import data_files
from builder.pages.difference_charts import difference_intervals
from builder.pages.methods import method_pages
from builder.pages.search import search_records
from builder.pages.site import site_pages
from builder.pages.tasting_evidence import other_duration
from builder.pages.tastings import between, tasting_pages
from builder.pages.view import View
from tests.pages_data.kitchens import by_path, hrefs_of, html_of, ids_of, text_of
from tests.tastings.kitchens import KITCHEN, ROOT, SCORES, computed, demo, trial

NAMES = list(demo().costed.tastings)
BARRED = re.compile(r"\bsafe\b", re.IGNORECASE)
CLAIMS = re.compile(r"\b(the same as|identical|tastes? the same|just as good as)\b", re.IGNORECASE)


@cache
def pages() -> dict[str, Page]:
    """Every page of a tasting and its sheets."""
    return by_path(tasting_pages(demo()))


@cache
def site() -> dict[str, Page]:
    """Every page of the demo."""
    return by_path(site_pages(demo()))


@cache
def html(path: str) -> str:
    """A page as it is published."""
    return html_of(pages()[path])


@pytest.mark.parametrize("path", list(pages()))
def test_every_page_is_valid_and_links_within_itself(path: str) -> None:
    found = html(path)
    ids = ids_of(found)
    assert len(set(ids)) == len(ids)
    own = [href[1:] for href in hrefs_of(found) if href.startswith("#") and len(href) > 1]
    assert [anchor for anchor in own if anchor not in ids] == []


@pytest.mark.parametrize("path", list(pages()))
def test_words_that_no_page_says(path: str) -> None:
    words = text_of(html(path))
    assert not BARRED.search(words)
    assert not CLAIMS.search(words)
    assert not re.search(r"\bnan\b|\bNone\b|\binf\b", words)


@pytest.mark.parametrize("name", NAMES)
def test_the_lead_is_the_verdict(name: str) -> None:
    page, result = pages()[f"tastings/{name}.html"], demo().costed.tastings[name]
    assert f"{result.count} tasters" in page.answer


@pytest.mark.parametrize("name", NAMES)
def test_every_chart_has_what_its_kind_needs(name: str) -> None:
    charts = [s for s in walk(pages()[f"tastings/{name}.html"].sections) if isinstance(s, Chart)]
    for chart in charts:
        assert chart.rows
        assert [lacking(chart.kind, row) for row in chart.rows if lacking(chart.kind, row)] == []
    kinds = {chart.kind for chart in charts}
    expected = {
        "chuck-durations": {"score-dots", "right-bars", "interval", "duration-curve"},
        "short-rib-triangle": {"interval"},
        "lamb-first-try": {"right-bars", "interval"},
        "lamb-second-try": set(),
    }
    assert kinds == expected.get(name, {"interval"})


def test_the_curve_is_drawn_no_further_than_what_was_tried() -> None:
    charts = [
        s
        for s in walk(pages()["tastings/chuck-durations.html"].sections)
        if isinstance(s, Chart) and s.kind == "duration-curve"
    ]
    hours = [row["duration"] for chart in charts for row in chart.rows if row["role"] == "curve"]
    assert (min(hours), max(hours)) == (18, 60)  # type: ignore[type-var]


def test_every_figure_leads_to_a_method_and_every_score_to_its_line() -> None:
    methods = {page.path for page in method_pages(demo())}
    found = html("tastings/chuck-durations.html")
    asked = {h.removeprefix("../").partition("#")[0] for h in hrefs_of(found) if "methods/" in h}
    assert {"methods/finding-p-value.html", "methods/finding-at-least.html"} <= asked
    assert asked <= methods
    assert "href=#tastings-chuck-durations-csv-L2" in found


def test_no_names_and_no_personal_data_anywhere() -> None:
    """Every taster in files, pages and data is a letter and a number."""
    for result in demo().costed.tastings.values():
        for taster in (*map(str, result.tasting.tasters), *result.tasters):
            assert re.fullmatch(r"[A-Z][0-9]{1,3}", taster)
    rows = dict(data_files(demo()))["data/scores.csv"].decode().splitlines()
    places = rows[0].split(",")
    assert {re.fullmatch(r"T\d+", row.split(",")[places.index("taster")]) for row in rows[1:]} != {
        None
    }


def test_the_list_names_every_tasting() -> None:
    words = text_of(html("tastings.html"))
    assert all(r.tasting.title in words for r in demo().costed.tastings.values())
    assert "5 tastings held, 1 planned" in words


def test_search_finds_a_tasting_by_what_was_served() -> None:
    found = {path: words for _, kind, path, words in search_records(demo()) if kind == "tasting"}
    assert len(found) == len(NAMES)
    assert "Ribeye from the grill" in found["tastings/chuck-durations.html"]


# Swaps and plates


def test_a_swap_leads_with_money_and_mouth() -> None:
    page = site()["swaps/pork-butt-for-loin.html"]
    assert "more margin a plate than" in page.answer
    assert "10 tasters, butt against loin: above it in tenderness" in page.answer
    assert "tasters" in [s.id for s in page.sections if isinstance(s, Part)]


@pytest.mark.parametrize("path", [f"swaps/{n}.html" for n in demo().costed.content.swaps])
def test_links_on_a_swap_s_page_lead_somewhere(path: str) -> None:
    found = html_of(site()[path])
    ids = ids_of(found)
    assert [h for h in hrefs_of(found) if h.startswith("#") and h[1:] not in ids] == []


def test_a_swap_without_a_tasting_says_so() -> None:
    page = site()["swaps/turkey-for-chicken.html"]
    assert page.answer.endswith("No tasting yet.")


def test_a_plate_says_which_duration_the_evidence_supports() -> None:
    found = site()
    assert "30 h came out best; this plate is cooked so" in text_of(
        html_of(found["plates/chuck-steak.html"])
    )
    notices = [
        s.text
        for s in walk(found["plates/chuck-sandwich.html"].sections)
        if isinstance(s, Notice) and "came out best" in s.text
    ]
    assert len(notices) == 1
    assert "30 h came out best" in notices[0]
    assert "24 h, the time of Warm chuck sandwich, is out" in notices[0]


def test_a_plate_of_an_untasted_cook_hears_it_too() -> None:
    content, result = demo().costed.content, demo().costed.tastings["chuck-durations"]
    notice = other_duration(result, content.plates["pot-roast"])
    assert notice is not None
    assert " was not tasted" in notice.text


def test_the_demo_s_files_hold_no_claim_either() -> None:
    for path in (ROOT / "tastings").iterdir():
        assert not BARRED.search(path.read_text(encoding="utf-8"))


def few_and_enough(tasters: int) -> View:
    """Scores of a panel that agrees, beside a benchmark, with a margin."""
    lines = "".join(
        f"  T{n}: {{ribeye: [{6 + n % 2}, right], short: [5, right], "
        f"long: [{7 + n % 3 % 2}, right]}}\n"
        for n in range(1, tasters + 1)
    )
    head = SCORES.partition("scores:\n")[0].replace("[T1, T2, T3]", str(tasters))
    view, _ = trial(f"{head}scores:\n{lines}")
    assert view is not None
    return view


@pytest.mark.parametrize(("tasters", "enough"), [(3, False), (12, True)])
def test_bounds_that_so_few_cannot_settle_are_neither_drawn_nor_printed(
    tasters: int, enough: bool
) -> None:
    view = few_and_enough(tasters)
    result = view.costed.tastings["trial"]
    assert (tasters >= result.fewest) is enough
    chart = difference_intervals(view, result, result.attributes[0])
    assert chart is not None
    assert chart.table is not None
    for row in chart.rows:
        assert (row["low"] < row["mid"] < row["high"]) is enough  # type: ignore[operator]
        assert (row["low"] == row["mid"] == row["high"]) is not enough
    for line in chart.table.rows:
        assert [cell.text == "–" for cell in line.cells[1:]] == [not enough, False, not enough]
    fewer = f"No bounds of 24 h and 36 h: fewer than {result.fewest} tasters can't settle it."
    assert (fewer in chart.summary) is not enough
    said = {"yes" if enough else "no"}
    files = dict(data_files(view))
    comparisons, findings = (
        list(csv.DictReader(io.StringIO(files[f"data/{name}.csv"].decode())))
        for name in ("comparisons", "findings")
    )
    assert {line["tasters_enough"] for line in comparisons} == said
    beside = {"difference", "ranks", "no worse", "worse", "within"}
    assert {line["tasters_enough"] for line in findings if line["test"] in beside} == said
    assert {line["tasters_enough"] for line in findings if line["test"] not in beside} == {""}


@pytest.mark.parametrize("words", ["en", "fr"])
def test_differences_are_in_the_table_beside_their_picture(words: str) -> None:
    """The tests behind them are found by their names in the source, whatever is written."""
    with written_in(words):
        view = few_and_enough(12)
        result = view.costed.tastings["trial"]
        chart = difference_intervals(view, result, result.attributes[0])
    assert chart is not None
    assert chart.table is not None
    cells = [str(cell.text) for line in chart.table.rows for cell in line.cells[1:]]
    assert len(cells) == 6
    assert all(re.search(r"\d", cell) for cell in cells), cells


def test_the_search_finds_a_temperature_as_pages_write_it_and_as_the_file_does() -> None:
    cook = {"cooks/chuck-24h.yaml": KITCHEN["cooks/chuck-24h.yaml"].replace("57 °C", "135 °F")}
    view, _ = computed(cook)
    assert view is not None
    found = {path: words for _, kind, path, words in search_records(view) if kind == "cook"}
    words = {path: text.replace(NBSP, " ") for path, text in found.items()}
    assert "57.2 °C 135 °F" in words["cooks/chuck-24h.html"]
    assert "bath 57 °C" in words["cooks/chuck-36h.html"]


def test_one_tasting_is_counted_in_the_singular() -> None:
    view, _ = trial(SCORES)
    assert view is not None
    words = text_of(html_of(by_path(tasting_pages(view))["tastings.html"]))
    assert "1 tasting held, 0 planned; 3 ballots" in words


@pytest.mark.parametrize(("least", "most", "said"), [(7, 7, "7"), (5, 8, "5 to 8")])
def test_one_number_is_no_range(least: int, most: int, said: str) -> None:
    """Of 20 tasters, 7 correct are what guessing brings, and the most that show a likeness."""
    assert between(least, most) == said


def test_a_cook_that_fails_its_rules_is_warned_of_where_tasters_are_served() -> None:
    butt, chuck = (
        text_of(html(f"tastings/{name}.html")) for name in ("pork-butt-or-loin", "chuck-durations")
    )
    assert butt.count("Pork butt 30h: cooling in the ice bath does not meet") == 1
    assert "does not meet" not in chuck
