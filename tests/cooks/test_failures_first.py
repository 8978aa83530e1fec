"""What fails leads a page before what is a caution; a name before a caution has one colon."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.costing.cautions import findings
from builder.language import written_in
from builder.pages.view import View
from builder.pages.warned import cook_warnings, found_of, leading, plate_faults
from tests.cooks.kitchens import COOK, changed, costed, pages, problems

# 110 mm take long to come up in 57 °C, which is a caution; so thick they cool too slowly as well.
SLOW = changed(
    COOK,
    ("thickness: 60 mm", "thickness: 160 mm"),
    more="cool: {to: 5 °C, within: 24 h, in: cold room}\n",
)


def view_of(root: Path) -> View:
    return View.of(costed(root, SLOW), [])


def test_what_fails_comes_before_every_caution(tmp_path: Path) -> None:
    view = view_of(tmp_path)
    cook = view.costed.content.cooks["chuck-30h"]
    found = [each.is_caution for each in findings(cook, view.costed.content.cuts["chuck"],
                                                  view.costed.heat)]  # fmt: skip
    assert True in found and False in found
    assert found == sorted(found)


def test_the_page_of_a_cook_leads_with_what_fails(tmp_path: Path) -> None:
    reported = problems(tmp_path / "told", SLOW)
    page, _ = pages(costed(tmp_path / "pages", SLOW), reported)["cooks/chuck-30h.html"]
    first = page.answer.partition("Caution:")
    assert "does not meet" in first[0] and first[1]


def test_what_leads_a_page_ends_without_a_space_in_every_language(tmp_path: Path) -> None:
    """French has a space before a semicolon, and none before the full stop that takes its place."""
    with written_in("fr"):
        view = view_of(tmp_path)
        said = leading(found_of(view, view.costed.content.cooks["chuck-30h"]))
    assert any("Prudence" in short for short in said), said
    assert not [short for short in said if re.search(r"\s\.|\S; ", short)]


@pytest.mark.parametrize("of", [0, 1])
def test_a_caution_with_a_name_before_it_has_one_colon(tmp_path: Path, of: int) -> None:
    view = view_of(tmp_path)
    content = view.costed.content
    said = (
        cook_warnings(view, content.cooks["chuck-30h"]),
        plate_faults(view, content.plates["chuck-plate"]),
    )[of]
    assert any(each.startswith("Chuck 30h, a caution: ") for each in said), said
    for sentence in said:
        for short in sentence.split(". "):
            assert short.count(": ") <= 1, short
