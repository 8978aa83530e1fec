"""What leads a page is one thought of some twenty words, without a symbol of statistics."""

from __future__ import annotations

import re

import pytest

from builder.pages.components import Page, Part
from builder.pages.site import site_pages
from tests.pages_data.kitchens import html_of, text_of
from tests.pages_data.opened import demo_view

# Twenty words by the house's rules for words; a name of five words may be in the sentence twice.
MOST = 25
SYMBOLS = re.compile(r"\bp [=<>]|\bd′|\bn =|\bF\(|χ")
ALL = list(site_pages(demo_view()))
PAGES = [page for page in ALL if not page.path.startswith("methods/")]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.path)
def test_a_lead_is_short_and_says_no_symbol(page: Page) -> None:
    assert 1 <= len(str(page.lead).split()) <= MOST
    said = " ".join(map(str, (page.lead, *page.also)))
    assert not SYMBOLS.search(said)
    assert "to everything else" not in said


def test_what_leads_a_tasting_has_no_p_value_and_its_parts_have_it() -> None:
    (page,) = [page for page in PAGES if page.path == "tastings/short-rib-triangle.html"]
    (swap,) = [page for page in PAGES if page.path == "swaps/short-rib-two-days.html"]
    assert "14 correct in the triangle: different." in page.answer
    for each in (page, swap):
        assert "14 correct in the triangle: different (p = 0.010)" in text_of(html_of(each))


def test_the_lead_of_a_menu_a_buffet_and_a_count_does_not_repeat_its_title() -> None:
    leads = {page.path: page.lead for page in PAGES}
    for path in ("menus/sunday-three-courses.html", "buffets/staff-party.html"):
        assert leads[path].startswith("A guest leaves ")
    assert leads["counts.html"] == leads["counts/late-september.html"]


def test_what_fails_leads_and_what_may_be_done_follows() -> None:
    (page,) = [page for page in PAGES if page.path == "cooks/eye-of-round-18h.html"]
    assert page.lead == ("The plan does not meet US model Food Code, 2017 and later (3-401.11(B)).")
    assert page.also[0].startswith("At 53.5\xa0°C this cook never brings the core to 130 °F / 54.4")
    # Who decides is said among the cautions, once and in sight.
    [cautions] = [s for s in page.sections if isinstance(s, Part) and s.id == "cautions"]
    assert cautions.open
    assert text_of(html_of(page)).count("the licensed authority decide") == 1
    text = text_of(html_of(page))
    assert page.alarm and text.count("this cook never brings the core") == 2


def test_of_two_challengers_the_one_that_earns_more_leads() -> None:
    (page,) = [page for page in PAGES if page.path == "swaps/shoulder-or-neck-for-rack.html"]
    assert page.lead.startswith("Lamb shoulder with gratin: $1.85 less margin a plate")
    assert any(text.startswith("Lamb neck with gratin: $8.83 less margin") for text in page.also)
    assert page.answer == " ".join((page.lead, *page.also))


# What the house's rules for words replace; the methods say it in the same words as the pages.
GONE = re.compile(
    r"not settled in|would do if it stays|of 100 of it|Process in the|does not go on"
    r"|guest's question|files state them|no such value more than once"
)


@pytest.mark.parametrize("page", ALL, ids=lambda page: page.path)
def test_no_page_speaks_as_the_rules_for_words_forbid(page: Page) -> None:
    found = GONE.search(text_of(html_of(page)))
    assert not found, found and found.string[max(0, found.start() - 60) : found.end() + 60]


SWAPS = [page for page in PAGES if page.path.startswith("swaps/")]


@pytest.mark.parametrize("page", SWAPS, ids=lambda page: page.path)
def test_what_follows_the_lead_of_a_swap_is_in_short_sentences(page: Page) -> None:
    """Names of plates are up to seven words, so as long as a lead may be."""
    sentences = [each for text in page.also for each in re.split(r"(?<=[.]) (?=[A-Z0-9])", text)]
    long = [each for each in sentences if len(each.split()) > MOST]
    assert sentences and long == []
