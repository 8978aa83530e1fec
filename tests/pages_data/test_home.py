"""The first page and the examples stay short however much there is."""

from __future__ import annotations

import re

from builder.pages.components import Notices, Table, walk
from builder.pages.home import MOST, MOST_WARNINGS, home_page
from builder.pages.methods import method_pages
from builder.pages.view import View
from builder.pages.worth_doing import actions
from builder.problems import Place, Problem, Severity
from builder.records.chains import ORDER
from tests.pages_data.kitchens import SMALL, html_of, text_of, view_of
from tests.pages_data.opened import demo_view
from tests.tastings.kitchens import demo


def crowded(plates: int) -> View:
    """The small kitchen with so many more plates, sold under their cost."""
    cheap = "menu: starters\ncook: chuck-30h\nportion: 180 g\nprice: 2.00\n"
    return view_of({**SMALL, **{f"plates/cheap-{n:02}.yaml": cheap for n in range(plates)}})


def test_the_first_page_shows_the_worst_and_where_the_others_are() -> None:
    view = crowded(MOST + 5)
    page = home_page(view)
    [table] = [
        each for each in walk(page.sections) if isinstance(each, Table) and each.id == "over-target"
    ]
    over = sum(
        view.number("plate", "food_cost_share", row) > view.number("plate", "food_cost_target", row)
        for row in view.costed.rows.plates.values()
    )
    assert len(table.rows) == MOST < over
    assert f"{over - MOST} more on the menu" in text_of(html_of(page))


def test_a_warning_that_stands_on_no_other_page_is_never_left_out() -> None:
    costed = crowded(1).costed
    owned = [
        Problem(Place("a.yaml", n), f"slip {n}", "", Severity.WARNING, "plates/cheap-00")
        for n in range(MOST_WARNINGS)
    ]
    lost = Problem(Place("z.csv", 1), "belongs to nobody", "", Severity.WARNING)
    page = home_page(View.of(costed, [*owned, lost]))
    [notices] = [each for each in walk(page.sections) if isinstance(each, Notices)]
    assert len(notices.items) == MOST_WARNINGS
    assert notices.items[0].text == "Belongs to nobody"
    assert "1 more, each on the page that it concerns." in text_of(html_of(page))


def test_an_example_shows_a_few_of_many() -> None:
    pages = {page.path: page for page in method_pages(crowded(40))}
    page = pages["methods/section-items.html"]
    [table] = [
        each
        for each in walk(page.sections)
        if isinstance(each, Table) and each.id == "example-figures"
    ]
    assert len(table.rows) == 21
    assert "more go into it in the same way." in text_of(html_of(page))


def test_what_to_do_is_found_once_for_the_first_page_and_the_search() -> None:
    view = demo_view()
    assert actions(view) is actions(view)


def test_what_a_cook_fails_is_said_on_the_first_page_in_sentences_of_one_colon() -> None:
    view = demo()
    found = [view.reported(each).text for each in view.problems if each.record.startswith("cooks/")]
    (fails,) = [text for text in found if "Eye of round 18h: the plan does not meet" in text]
    first, second, *_ = fails.split(". ")
    assert first.endswith("(3-401.11(B))") and first.count(": ") == 1
    assert second.startswith("At 53.5\N{NO-BREAK SPACE}°C this cook never brings")
    assert "Last full week of September</a>. Food cost" in html_of(home_page(view))


def test_a_warning_of_a_stage_has_one_colon_away_from_its_page() -> None:
    """The record, its stage, then what is said of it."""
    view = demo()
    found = {view.reported(each).text for each in view.problems}
    assert "Tenderloin from the pan, cook: one test only" in {each.split(";")[0] for each in found}
    stages = re.compile(rf": (?:{'|'.join(ORDER)}): ")
    assert not [text for text in found if stages.search(text)]
