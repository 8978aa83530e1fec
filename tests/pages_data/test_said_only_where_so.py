"""Sentences of most kitchens are left out, or are other ones, where they would be false."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from builder.pages.charts.fields import MARGIN_CLASSES
from builder.pages.components import Chart, Page, walk
from builder.pages.forms import cooking_loss_page
from builder.pages.home import home_page
from builder.pages.menu import menu_page
from builder.pages.menu_classes import class_of
from builder.pages.view import View
from tests.kitchens import pages_but_methods
from tests.pages_data.kitchens import SMALL, by_path, html_of, text_of, view_of
from tests.tastings.kitchens import PLACE, computed


def words_of(page: Page) -> str:
    return " ".join(text_of(html_of(page)).split()).replace("\xa0", " ")


def home_words(files: Mapping[str, str]) -> str:
    return words_of(home_page(view_of(files)))


def pages_of(view: View) -> Mapping[str, Page]:
    return by_path(pages_but_methods(view))


def test_every_plate_is_within_only_a_target_that_is_stated() -> None:
    """Without one, and where a plate's cost is not known, less is said."""
    lower = KITCHEN.replace("food cost: 30 %", "food cost: 90 %")
    cheap = {**SMALL, "kitchen.yaml": lower}
    del cheap["swaps/chuck-for-ribeye.yaml"]
    assert "Every plate is within." in home_words(cheap)
    without = {
        **cheap,
        "kitchen.yaml": lower.replace("targets: {food cost: 90 %, margin: 16.00}\n", ""),
    }
    said = home_words(without)
    assert "No target for the food cost is stated." in said
    assert "Every plate is within" not in said


KITCHEN = SMALL["kitchen.yaml"]


def test_a_cook_that_nobody_weighed_has_no_tests_together() -> None:
    view = view_of(SMALL)
    cooks = view.costed.content.cooks
    weighed, stated = (
        words_of(cooking_loss_page(view, cooks[name])) for name in ("chuck-30h", "ribeye-grill")
    )
    assert "all tests together" in weighed and "nobody weighed" not in weighed
    assert "all tests together" not in stated and "nobody weighed this cook" in stated


TRIANGLE = "test: triangle\nsamples: {short: chuck-24h, long: chuck-36h}\ndate: 2026-09-02\n"
COUNTED = f"{TRIANGLE}tasters: 12\ncorrect: 8\n"
ANSWERED = f"{TRIANGLE}tasters: [T1, T2, T3]\nanswers: {{T1: correct, T2: wrong, T3: correct}}\n"


@pytest.mark.parametrize(("yaml", "coded"), [(COUNTED, False), (ANSWERED, True)])
def test_codes_are_those_of_answers_that_were_kept(yaml: str, *, coded: bool) -> None:
    view, problems = computed({PLACE: yaml})
    assert view is not None, problems
    pages = pages_of(view)
    assert ("all under private codes" in words_of(pages["tastings.html"])) is coded
    assert ("By private code; each answer" in words_of(pages["tastings/trial.html"])) is coded


@pytest.mark.parametrize(("correct", "shown"), [(2, False), (4, True), (8, True)])
def test_no_share_is_shown_of_fewer_correct_than_guessing_brings(
    correct: int, *, shown: bool
) -> None:
    """4 of 12 are what guessing brings."""
    view, problems = computed({PLACE: f"{TRIANGLE}tasters: 12\ncorrect: {correct}\n"})
    assert view is not None, problems
    page = pages_of(view)["tastings/trial.html"]
    pictures = [each.id for each in walk(page.sections) if isinstance(each, Chart)]
    assert ("share" in pictures) is shown
    assert ("Share who can tell" in words_of(page)) is shown


@pytest.mark.parametrize(
    ("seed", "words"), [("seed: 7\n", "the seed “7”"), ("", "the file's name, “trial”")]
)
def test_what_codes_are_drawn_from_is_called_what_it_is(seed: str, words: str) -> None:
    view, problems = computed({PLACE: COUNTED + seed})
    assert view is not None, problems
    pages = pages_of(view)
    assert f"Drawn from {words}: the same file gives the same codes." in words_of(
        pages["forms/trial-key.html"]
    )


def test_one_of_several_plates_sells_and_earns() -> None:
    files = dict(SMALL)
    for name, count in {"chuck-steak": 20, "ribeye-steak": 90}.items():
        plate = files[f"plates/{name}.yaml"].replace("sold: {2026-08: 412}\n", "")
        files[f"plates/{name}.yaml"] = f"{plate}sold: {{2026-08: {count}}}\n"
    view = view_of(files)
    mains = [each for each in view.costed.content.plates.values() if each.menu == "mains"]
    assert [class_of(view, plate) for plate in mains].count(MARGIN_CLASSES[0]) == 1
    said = words_of(menu_page(view))
    assert "1 of 2 plates counted both sells and earns above" in said
