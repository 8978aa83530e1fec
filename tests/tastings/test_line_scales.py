"""Lines to mark on ballots: exactly as long on paper as they say, and a sheet to a page."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.pages.components import Form, FormGrid, FormNote, FormScale
from builder.pages.components import Page as View
from builder.pages.rendering import assets, render
from builder.pages.tasting_sheets import sheet_pages
from tests.pages_data.kitchens import SITE, by_path, html_of, text_of
from tests.site.opened import sheets_of
from tests.tastings.kitchens import demo, trial

# CSS Values and Units 3, W3C Candidate Recommendation: 1in = 2.54cm = 96px.
PX_PER_MM = 96 / 25.4

PLAIN = """test: scores
samples: {ribeye: ribeye-grill, short: chuck-24h, long: chuck-36h}
warm up: ribeye
tasters: [T1, T2]
"""
MIXED = PLAIN + (
    "attributes: {tenderness: 150 mm, chew: {scale: line 0-10, best: low}, juice: 9-point,"
    " texture: [too firm, right, falling apart]}\nscales: {T2: 9-point}\n"
)
MANY = PLAIN.replace("long: chuck-36h", "long: chuck-36h, steak: {plate: steak}, e: chuck-36h") + (
    f"attributes: {{{', '.join(f'quality {n}: line 0-180' for n in range(1, 8))},"
    " texture: [too firm, right, falling apart]}\n"
)
LONG = PLAIN.replace(
    "long: chuck-36h", "long: chuck-36h, e: chuck-36h, f: chuck-36h, g: chuck-36h"
) + (
    "attributes: {how tender it is when first bitten with the front teeth: 9-point, flavour of long"
    " roasted beef and bone marrow: 0-5, texture: [too firm by far, right, falling apart into"
    " threads], liking overall: line}\n"
)
ONLY = f"{PLAIN}attributes: {{liking: line, flavour: 150 mm}}\n"


def ballots(yaml: str) -> View:
    """The ballots of one tasting."""
    view, problems = trial(f"{yaml}seed: grey geese\n")
    assert view is not None, [str(problem) for problem in problems]
    return by_path(sheet_pages(view))["forms/trial-ballots.html"]


def forms(page: View) -> list[Form]:
    return [section for section in page.sections if isinstance(section, Form)]


def lines(form: Form) -> list[FormScale]:
    return [block for block in form.blocks if isinstance(block, FormScale)]


def written(page: View, folder: Path) -> str:
    """The address of a page written to disk."""
    for path, data in {page.path: render(page, SITE), **assets()}.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data)
    return (folder / page.path).as_uri()


def widths(tab: Page) -> list[float]:
    """How long each line is [mm], its stroke's ends left out."""
    script = """() => [...document.querySelectorAll('.scale svg line:first-child')]
        .map((line) => line.getBoundingClientRect().width)"""
    return [float(width) / PX_PER_MM for width in tab.evaluate(script)]


def test_a_line_for_every_sample_on_every_line_scale() -> None:
    first, second = forms(ballots(MIXED))
    codes = next(b for b in first.blocks if isinstance(b, FormGrid)).rows[1:]
    expected = [f"{r.cells[0].text}: {name}" for r in codes for name in ("tenderness", "chew")]
    assert [line.label for line in lines(first)] == expected
    assert {(x.low, x.high, x.length_mm) for x in lines(first)} == {
        ("least tenderness", "most tenderness (best)", 150),
        ("least chew (best)", "most chew", 100),
    }
    assert lines(second) == []
    assert "Chew: 1 to 9, lowest is best" in repr(second)


def test_a_ballot_of_lines_alone_has_no_table_but_names_the_warm_up() -> None:
    view, _ = trial(f"{ONLY}seed: grey geese\n")
    assert view is not None
    plan = view.costed.tastings["trial"].plan
    warm = next(line.code for line in plan.key if line.warm_up)
    for form in forms(ballots(ONLY)):
        assert not any(isinstance(block, FormGrid) for block in form.blocks)
        assert FormNote(f"{warm}: to warm up: taste, do not score.") in form.blocks
        assert not any(line.label.startswith(warm) for line in lines(form))


def test_the_key_says_how_long_the_lines_are() -> None:
    key = by_path(sheet_pages(demo()))["forms/duck-leg-or-breast-key.html"]
    words = text_of(html_of(key))
    assert (
        "liking 100 mm for 0 to 100; flavour 100 mm for 0 to 100; T11 150 mm for 0 to 150" in words
    )


def test_no_line_is_lost_between_sheets() -> None:
    found = [form for form in forms(ballots(MANY)) if form.reference.startswith("T1,")]
    assert len(found) > 2
    assert [form.reference for form in found] == [
        f"T1, sheet {n} of {len(found)}" for n in range(1, len(found) + 1)
    ]
    labels = [line.label for form in found for line in lines(form)]
    assert len(labels) == len(set(labels)) == 5 * 7
    assert all(len(lines(form)) % 7 == 0 for form in found)


@pytest.mark.browser
@pytest.mark.parametrize("yaml", [MIXED, MANY, LONG, ONLY], ids=["mixed", "many", "long", "only"])
def test_a_sheet_is_a_page_and_a_line_as_long_as_it_says(
    browser: Browser, tmp_path: Path, yaml: str
) -> None:
    check_paper(browser, tmp_path, ballots(yaml))


def test_six_samples_of_long_names_and_a_line_fit_one_sheet() -> None:
    found = forms(ballots(LONG.replace("warm up: ribeye\n", "")))
    assert [len(lines(form)) for form in found] == [6, 6]


@pytest.mark.browser
def test_the_demos_old_ballot_has_150_mm(browser: Browser, tmp_path: Path) -> None:
    page = by_path(sheet_pages(demo()))["forms/duck-leg-or-breast-ballots.html"]
    old = next(form for form in forms(page) if form.reference == "T11")
    assert {line.length_mm for line in lines(old)} == {150}
    check_paper(browser, tmp_path, page)


def check_paper(browser: Browser, folder: Path, page: View) -> None:
    """A page a sheet on A4 and Letter; lines to half a millimetre, between the margins."""
    tab = browser.new_page()
    tab.goto(written(page, folder))
    for paper, width in (("A4", 210.0), ("Letter", 215.9)):
        printed = tab.pdf(format=paper)
        assert sheets_of(printed) == len(forms(page))
        tab.emulate_media(media="print")
        tab.set_viewport_size({"width": round((width - 28) * PX_PER_MM), "height": 900})
        stated = [line.length_mm for form in forms(page) for line in lines(form)]
        assert stated
        assert widths(tab) == pytest.approx(stated, abs=0.5)
    tab.close()


@pytest.mark.browser
def test_a_long_line_does_not_scroll_a_phone(browser: Browser, tmp_path: Path) -> None:
    tab = browser.new_page(viewport={"width": 360, "height": 800})
    tab.goto(written(ballots(MANY), tmp_path))
    assert tab.evaluate("document.documentElement.scrollWidth") == 360
    assert 0 < max(widths(tab)) * PX_PER_MM < 360
    tab.close()
