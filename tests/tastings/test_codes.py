"""Codes that differ by taster, ballots two to a page, the key on a sheet of its own."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.language import written_in
from builder.pages import tasting_sheets
from builder.pages.components import Form, Page
from builder.pages.tasting_sheets import sheet_pages
from tests.pages_data.kitchens import by_path, html_of, text_of
from tests.site.opened import sheets_of
from tests.tastings.kitchens import SCORES, TRIANGLE, result_of, trial
from tests.tastings.test_line_scales import written

PAIRED = TRIANGLE.replace("triangle", "paired").replace("correct: 8\n", "")
DUO = TRIANGLE.replace("triangle", "duo-trio")
MANY = TRIANGLE.replace("tasters: 12", "tasters: 41")
OWN = f"{SCORES}codes: by taster\n"
SAME = f"{TRIANGLE}codes: by sample\n"
# The fullest ballot that still takes half a sheet.
FULL = (
    SCORES.partition("attributes:")[0].replace(
        "long: chuck-36h}", "long: chuck-36h, b: {plate: steak}, c: chuck-24h}"
    )
    + "seed: grey geese\nwarm up: b\n"
    "attributes: {tenderness: 9-point, overall liking of the plate: 9-point, "
    "juiciness: 9-point, texture: [too firm, right, falling apart]}\n"
)


def sheet(yaml: str, name: str) -> Page:
    """One of the printed pages of a tasting."""
    view, problems = trial(yaml)
    assert view is not None, problems
    return by_path(sheet_pages(view))[f"forms/trial-{name}.html"]


def forms(page: Page) -> list[Form]:
    """The forms of a page."""
    return [section for section in page.sections if isinstance(section, Form)]


@pytest.mark.parametrize("yaml", [TRIANGLE, DUO, PAIRED, OWN], ids=["tri", "duo", "pair", "own"])
def test_no_two_tasters_share_a_code(yaml: str) -> None:
    trays = result_of(yaml).plan.trays
    assert set(Counter(code for tray in trays for code in tray.codes).values()) == {1}


@pytest.mark.parametrize("yaml", [SAME, SCORES], ids=["same", "scores"])
def test_one_set_of_codes_where_the_file_or_the_test_has_it(yaml: str) -> None:
    trays = result_of(yaml).plan.trays
    assert max(Counter(code for tray in trays for code in tray.codes).values()) > 1


def test_a_taster_more_moves_no_code() -> None:
    fewer = result_of(TRIANGLE).plan.trays
    more = result_of(TRIANGLE.replace("tasters: 12", "tasters: 13")).plan.trays
    assert more[:-1] == fewer


def test_all_200_tasters_have_codes_that_differ_on_the_tray() -> None:
    trays = result_of(TRIANGLE.replace("12", "200").replace("correct: 8", "correct: 80")).plan.trays
    assert all(len(set(tray.codes)) == 3 for tray in trays)


def test_a_code_is_read_as_what_it_is_on_that_tray() -> None:
    planned = TRIANGLE.replace("correct: 8\n", "")
    plan = result_of(planned).plan
    rows = ["taster,answer"]
    for tray in plan.trays:
        samples = [plan.meaning(tray.taster, code).sample for code in tray.codes]
        odd = next(c for c, s in zip(tray.codes, samples, strict=True) if samples.count(s) == 1)
        rows.append(f"{tray.taster},{odd}")
    result = result_of(planned, "\n".join(rows))
    assert result.choice is not None
    assert result.choice.difference.correct == 12


def test_another_taster_s_code_is_refused() -> None:
    planned = TRIANGLE.replace("correct: 8\n", "")
    trays = result_of(planned).plan.trays
    _, problems = trial(planned, f"taster,answer\nT1,{trays[1].codes[0]}\n")
    found = [p.message for p in problems if p.is_error]
    assert found == [f"T1 was not served {trays[1].codes[0]}: are codes swapped?"]


@pytest.mark.parametrize("yaml", [TRIANGLE, MANY, OWN, SCORES], ids=["tri", "many", "own", "all"])
def test_the_key_names_every_cup_on_one_sheet(yaml: str) -> None:
    page = sheet(yaml, "key")
    assert sum(form.title.startswith("Key") for form in forms(page)) == 1
    words = " ".join(text_of(html_of(page)).split())
    result = result_of(yaml)
    for tray in result.plan.trays:
        for code in tray.codes:
            name = result.words_of(result.plan.meaning(tray.taster, code).sample)
            assert f"{code} {name}" in words


def test_ballots_come_in_halves_and_an_odd_one_has_its_own_sheet() -> None:
    halves = [form.half for form in forms(sheet(TRIANGLE, "ballots"))]
    assert halves == ["upper", "lower"] * 6
    assert [form.half for form in forms(sheet(SCORES, "ballots"))] == ["upper", "lower", ""]


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("yaml", [TRIANGLE, SCORES, FULL], ids=["triangle", "scores", "full"])
def test_two_ballots_take_one_page(browser: Browser, tmp_path: Path, yaml: str, paper: str) -> None:
    page = sheet(yaml, "ballots")
    assert any(form.half for form in forms(page))
    sheets = sum(form.half != "lower" for form in forms(page))
    assert pages_of(browser, tmp_path, page, paper) == sheets


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(
    ("yaml", "letters"), [(TRIANGLE, 880), (SCORES, 770), (FULL, 110)], ids=["3", "3s", "6"]
)
def test_two_ballots_with_as_many_words_as_may_be_take_one_page_in_french(
    browser: Browser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    yaml: str, letters: int, paper: str,
) -> None:  # fmt: skip
    """French needs more room: the words are as long as ballots in halves take them."""
    words = ("allergènes " * 99)[:letters]
    monkeypatch.setattr(tasting_sheets, "contains", lambda *_: words)
    monkeypatch.setattr(tasting_sheets, "doneness", lambda *_: "")
    with written_in("fr"):
        page = sheet(yaml, "ballots")
        assert any(form.half for form in forms(page))
        sheets = sum(form.half != "lower" for form in forms(page))
        assert pages_of(browser, tmp_path, page, paper) == sheets


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("yaml", [TRIANGLE, MANY, OWN], ids=["triangle", "many", "own"])
def test_the_key_takes_one_page(browser: Browser, tmp_path: Path, yaml: str, paper: str) -> None:
    page = sheet(yaml, "key")
    assert pages_of(browser, tmp_path, page, paper) == len(forms(page))


def pages_of(browser: Browser, folder: Path, page: Page, paper: str) -> int:
    """Pages that a page of the site prints."""
    tab = browser.new_page()
    tab.goto(written(page, folder))
    printed = tab.pdf(format=paper)
    tab.close()
    return sheets_of(printed)
