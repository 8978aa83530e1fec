"""Names and figures in pictures: whole, inside, whatever the width they were drawn at."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.pages.components import Chart
from builder.pages.components import Page as View
from builder.pages.rendering import render
from tests.pages.chart_examples import CHARTS
from tests.pages.gallery import SITE
from tests.site.opened import opened

pytestmark = pytest.mark.browser

LONG = "Braised shoulder with pepper sauce, roast roots and mash"
OUTSIDE = """(svg) => [...svg.querySelectorAll('text')]
    .filter((e) => e.textContent && e.getAttribute('visibility') !== 'hidden')
    .filter((e) => e.getAttribute('opacity') !== '0')
    .map((e) => [e.textContent, e.getBoundingClientRect(), svg.getBoundingClientRect()])
    .filter(([_, b, s]) => b.right > s.right + 1 || b.left < s.left - 1)
    .map(([words]) => words)"""


def example(kind: str) -> Chart:
    return next(chart for chart in CHARTS if chart.kind == kind)


def renamed(kind: str, field: str) -> Chart:
    """An example of a kind with long names in a field."""
    chart = example(kind)
    rows = tuple(
        {**row, field: f"{LONG} {row[field]}"} if field in row else row for row in chart.rows
    )
    return replace(chart, rows=rows)


def written(site: Path, chart: Chart) -> str:
    path = f"{chart.kind}-alone.html"
    (site / path).write_bytes(render(View(path, "One picture", "Lead.", (chart,)), SITE))
    return path


def outside(page: Page) -> list[str]:
    found: list[str] = page.locator(".plot svg").evaluate(OUTSIDE)
    return found


@pytest.mark.parametrize(("first", "then"), [(1280, 688), (360, 688), (700, 360), (360, 360)])
@pytest.mark.parametrize("kind", ["cost-stack", "waterfall"])
def test_the_words_behind_the_longest_bar_stay_in_the_picture(
    browser: Browser, site: Path, kind: str, first: int, then: int
) -> None:
    """688 px at 96 to the inch are what the margins leave of A4, 182 mm."""
    with opened(browser, site.as_uri(), written(site, example(kind)), width=first) as page:
        page.emulate_media(media="print")
        page.set_viewport_size({"width": then, "height": 900})
        page.wait_for_timeout(300)
        assert outside(page) == []
        page.evaluate("new Promise(requestAnimationFrame)")
        assert page.evaluate("document.documentElement.scrollWidth") == then


@pytest.mark.parametrize("width", [360, 1920])
def test_a_picture_is_as_wide_on_paper_whatever_the_screen(
    browser: Browser, site: Path, width: int
) -> None:
    """A browser tells a page that it is about to be printed, and prints what the page then is."""
    wide = "(svg) => Number(svg.getAttribute('width'))"
    with opened(browser, site.as_uri(), written(site, example("cost-stack")), width=width) as page:
        before = page.locator(".plot svg").evaluate(wide)
        page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
        assert page.locator(".plot svg").evaluate(wide) == pytest.approx(688, abs=1)
        page.evaluate("window.dispatchEvent(new Event('afterprint'))")
        assert page.locator(".plot svg").evaluate(wide) == before


@pytest.mark.parametrize(
    ("kind", "field"), [("cost-stack", "plate"), ("waterfall", "step"), ("timeline", "lane")]
)
@pytest.mark.parametrize("width", [360, 1280])
def test_long_names_of_lanes_take_lines_and_are_not_cut(
    browser: Browser, site: Path, kind: str, field: str, width: int
) -> None:
    with opened(browser, site.as_uri(), written(site, renamed(kind, field)), width=width) as page:
        labels = page.locator(".plot .role-axis-label text").all_text_contents()
        names = [words.replace(" ", "") for words in labels if words.startswith("Braised")]
        assert sorted(names) == sorted(
            {f"{LONG} {row[field]}".replace(" ", "") for row in example(kind).rows}
        )
        assert outside(page) == []


@pytest.mark.parametrize(("kind", "field"), [("crossover", "name"), ("line-months", "series")])
@pytest.mark.parametrize("width", [360, 1280])
def test_long_names_in_the_legend_are_not_cut(
    browser: Browser, site: Path, kind: str, field: str, width: int
) -> None:
    chart = example(kind)
    more = " with pepper sauce"
    rows = tuple({**r, field: f"{r[field]}{more}"} if field in r else r for r in chart.rows)
    chart = replace(chart, rows=rows)
    with opened(browser, site.as_uri(), written(site, chart), width=width) as page:
        names = page.locator(".plot .role-legend-label text").all_text_contents()
        assert sorted(set(names)) == sorted({str(row[field]) for row in rows if field in row})
        assert outside(page) == []


@pytest.mark.parametrize("width", [360, 1280])
def test_no_label_of_a_point_leaves_the_picture_or_covers_its_axis(
    browser: Browser, site: Path, width: int
) -> None:
    chart = renamed("margin-scatter", "plate")
    script = """() => {
        const left = document.querySelector('.role-frame .background').getBoundingClientRect().left;
        return [...document.querySelectorAll('.role-mark text')]
            .filter((e) => e.getAttribute('visibility') !== 'hidden')
            .map((e) => e.getBoundingClientRect())
            .filter((b) => b.left < left - 1 || b.right > innerWidth).length;
    }"""
    with opened(browser, site.as_uri(), written(site, chart), width=width) as page:
        assert page.evaluate(script) == 0


def without_a_role() -> list[Chart]:
    """Each example whose rows have roles, once without the rows of each of these."""
    return [
        replace(chart, id=f"{chart.id}-{role}", rows=tuple(rest))
        for chart in CHARTS
        for role in sorted({str(row["role"]) for row in chart.rows if "role" in row})
        if (rest := [row for row in chart.rows if row["role"] != role])
    ]


@pytest.mark.parametrize("chart", without_a_role(), ids=lambda chart: chart.id)
def test_a_picture_without_the_rows_of_a_role_is_drawn(
    browser: Browser, site: Path, chart: Chart
) -> None:
    """It has its height, and nothing complains on the console."""
    with opened(browser, site.as_uri(), written(site, chart)) as page:
        assert 60 < page.locator(".plot svg").evaluate("(svg) => svg.clientHeight") < 900


@pytest.mark.parametrize("width", [360, 1280])
def test_words_that_are_not_shown_ask_for_no_room(browser: Browser, site: Path, width: int) -> None:
    """The last step is short and its words long: the bars still reach the picture's end."""
    chart = example("timeline")
    rows = tuple({**row, "task": LONG} if row["task"] == "Sear" else row for row in chart.rows)
    path = written(site, replace(chart, rows=rows))
    with opened(browser, site.as_uri(), path, width=width) as page:
        ends = page.locator(".plot svg").evaluate(
            "(svg) => [...svg.querySelectorAll('.mark-rect path')].map((bar) => "
            "svg.getBoundingClientRect().right - bar.getBoundingClientRect().right)"
        )
        assert min(ends) < 40
        assert outside(page) == []


COVERED = """(svg) => {
  const band = svg.querySelector('.mark-area path');
  const inside = (x, y) => {
    const at = new DOMPoint(x, y).matrixTransform(band.getScreenCTM().inverse());
    return band.isPointInFill(at);
  };
  return [...svg.querySelectorAll('.mark-text.role-mark text')].filter((words) => {
    const box = words.getBoundingClientRect();
    for (let x = box.left; x <= box.right; x += 3)
      for (let y = box.top + 2; y <= box.bottom - 2; y += 3) if (inside(x, y)) return true;
    return false;
  }).map((words) => words.textContent);
}"""


@pytest.mark.parametrize("width", [360, 1280])
def test_no_words_lie_on_the_cores_band(browser: Browser, site: Path, width: int) -> None:
    with opened(browser, site.as_uri(), written(site, example("core-curve")), width=width) as page:
        assert page.locator(".plot .mark-text.role-mark text").count() == 2
        assert page.locator(".plot svg").evaluate(COVERED) == []
        assert outside(page) == []


@pytest.mark.parametrize(
    ("start", "end", "price", "cost"),
    [
        pytest.param(7.9, 10.7, 9.9, 9.615, id="a cost past the crossing"),
        pytest.param(7.9, 10.7, 7.4, 8.74, id="a cost before it"),
        pytest.param(10.1, 7.3, 7.4, 9.26, id="a margin before it"),
        pytest.param(10.1, 7.3, 9.0, 8.7, id="a margin past it"),
    ],
)
def test_no_line_runs_through_what_is_said_of_todays_price(
    browser: Browser, site: Path, start: float, end: float, price: float, cost: float
) -> None:
    """The benchmark's line is just below or above the point, its own rises or falls through it."""
    ends = (("A", 5, start), ("A", 13, end), ("B", 5, 9.0), ("B", 13, 9.0))
    rows: list[dict[str, str | float | int | bool | None]] = [
        {"role": "today", "name": "A", "price": price, "cost": cost, "text": "today $9.90/kg"},
        {"role": "break-even", "price": 8.14, "cost": 9.0, "text": "break-even $8.14/kg"},
    ]
    for name, x, y in ends:
        rows.append({"role": "line", "name": name, "price": x, "cost": y})
    script = """() => {
        const texts = [...document.querySelectorAll('.role-mark text')];
        const said = texts.find((e) => e.textContent.startsWith('today')).getBoundingClientRect();
        const inside = (x, y) => x > said.left && x < said.right && y > said.top && y < said.bottom;
        const through = (path) => {
            const frame = path.getScreenCTM(), long = path.getTotalLength();
            const at = (i) => path.getPointAtLength(long * i / 399).matrixTransform(frame);
            return Array.from({ length: 400 }, (_, i) => at(i)).some(({ x, y }) => inside(x, y));
        };
        return [...document.querySelectorAll('.mark-line path')].filter(through).length;
    }"""
    with opened(
        browser,
        site.as_uri(),
        written(site, replace(example("crossover"), rows=tuple(rows), live={})),
    ) as page:
        assert page.locator(".mark-line path").count() == 2
        assert page.evaluate(script) == 0


def test_plates_are_marked_by_their_class_in_any_language(browser: Browser, site: Path) -> None:
    """The words of the classes are the page's own; a class that a picture lacks has no mark."""
    chart = example("margin-scatter")
    words = {
        word: word.upper() for name, word in chart.units.items() if name not in ("sold", "margin")
    }
    rows = [
        {**row, "class": words[str(row["class"])]} if row["role"] == "plate" else row
        for row in chart.rows
    ]
    units = {name: words.get(word, word) for name, word in chart.units.items()}
    name = written(site, replace(chart, rows=tuple(rows), units=units))
    with opened(browser, site.as_uri(), name) as page:
        marks = page.locator(".plot .mark-symbol.role-mark path")
        drawn = [marks.nth(n).bounding_box() for n in range(marks.count())]
        texts = page.locator(".plot .role-mark text").all_text_contents()
    plates = [row for row in rows if row["role"] == "plate"]
    assert len([box for box in drawn if box and box["width"] > 2]) == len(plates)
    assert set(words.values()) <= set(texts)


def test_the_title_of_an_axis_is_never_cut_off(browser: Browser, site: Path) -> None:
    chart = example("range-bars")
    long = replace(chart, units={"value": "Saved with a cut of a very long name, CAD a plate"})
    with opened(browser, site.as_uri(), written(site, long), width=360) as page:
        assert page.locator(".role-axis-title text").count() > 0
        assert outside(page) == []
