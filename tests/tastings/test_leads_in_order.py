"""A tasting's page leads with what to do; how it was decided stands behind, nothing lost."""

from __future__ import annotations

import re

import pytest

from builder.costing.tasting_words import headlines, in_order
from builder.pages.components import Page, Part
from builder.pages.tastings import tasting_pages
from tests.pages_data.kitchens import html_of, text_of
from tests.pages_data.opened import demo_view

DURATIONS = "tastings/chuck-durations.html"


def page_of(path: str) -> Page:
    return next(page for page in tasting_pages(demo_view()) if page.path == path)


def test_what_follows_the_verdict_is_the_benchmark_then_what_to_do() -> None:
    page = page_of(DURATIONS)
    assert page.lead.startswith("11 tasters: 30 h came out best")
    (also,) = page.also
    places = [also.index(words) for words in ("30 h against ribeye", "42 h (8 of 11", "Next: ")]
    assert places[0] == 0 and places == sorted(places)
    assert len(re.findall(r"[.] (?=[A-Z0-9])", also)) < 4


def test_how_it_was_decided_stands_behind_the_first_picture() -> None:
    page = page_of(DURATIONS)
    parts = [each for each in page.sections if isinstance(each, Part)]
    assert [each.id for each in parts[:2]] == ["right", "decided"]
    words = text_of(html_of(page))
    for said in (
        "18 h is out: too firm to all 11.",
        "60 h is out: falling apart to all 11.",
        "24 h (5 of 11 right) is out: lower tenderness than another.",
        "Mean tenderness is higher at 42 h (86.4 against 76.1).",
        "The risk that a right one is out is 5% at most, all counted.",
    ):
        assert said in words
        assert said not in page.answer


@pytest.mark.parametrize("name", ["chuck-durations", "lamb-first-try", "lamb-second-try",
                                  "pork-butt-or-loin", "short-rib-triangle"])  # fmt: skip
def test_no_sentence_is_lost(name: str) -> None:
    result = demo_view().costed.tastings[name]
    first, behind = in_order(result)

    def words(sentences: list[str]) -> list[str]:
        """Every sentence, whichever of them says how many tasters there were."""
        return sorted(re.sub(r"^\d+ tasters[,:] ", "", each).lower() for each in sentences)

    assert words([*first, *behind]) == words(headlines(result))
    assert first[0] == headlines(result)[0]
