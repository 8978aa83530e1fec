"""Where a record lacks the row that a figure looks into, a method page says which, in words."""

import pytest

from builder.costing.model import MODEL
from builder.engine.tables import Lookup
from builder.language import written_in
from builder.pages.link_words import LINK_WORDS, no_link


def _links() -> set[str]:
    figures = (figure for table in MODEL.tables.values() for figure in table.figures.values())
    return {figure.how.link for figure in figures if isinstance(figure.how, Lookup)}


def test_every_link_of_the_figures_has_words() -> None:
    assert _links() - set(MODEL.tables) <= set(LINK_WORDS) <= _links()


@pytest.mark.parametrize("link", sorted(_links()))
def test_the_words_are_no_name_of_the_code(link: str) -> None:
    assert "_" not in no_link(link)


def test_a_french_page_says_it_in_french() -> None:
    with written_in("fr"):
        assert no_link("item") == "sans objet\N{NO-BREAK SPACE}: denrée"
        assert no_link("cover_item") == "sans objet\N{NO-BREAK SPACE}: denrée du couvert"
