"""Method pages: every figure has one, and everything that they lead to is there."""

from __future__ import annotations

import math
import re
import subprocess
import sys

import pytest

from builder.costing.model import MODEL
from builder.engine.methods import METHODS, Method
from builder.engine.tables import Given, Lookup
from builder.pages.components import Page
from builder.pages.docstrings import details, pieces, summary
from builder.pages.method_examples import worked_examples
from builder.pages.method_graph import MethodGraph, function_path
from builder.pages.methods import method_pages
from builder.pages.whereabouts import method_path
from tests.pages_data.kitchens import by_path, hrefs_of, html_of, ids_of, small, text_of, view_of
from tests.pages_data.opened import demo_view
from tests.site.sites import STARTER

PAGES = by_path(method_pages(small()))
GRAPH = MethodGraph(MODEL)
STYLE = small().style


def html(path: str) -> str:
    """One of the pages as it is published."""
    return html_of(PAGES[path])


def test_every_figure_that_is_no_lookup_has_a_page() -> None:
    made = [
        (table.name, figure.name)
        for table in MODEL.tables.values()
        for figure in table.figures.values()
        if not isinstance(figure.how, Lookup)
    ]
    expected = {method_path(node) for node in made}
    expected |= {function_path(method) for method in METHODS.values()}
    assert set(PAGES) == expected | {"methods.html", "sources.html"}


def test_the_pages_alone_bring_every_sourced_function_along() -> None:
    """In a process of its own: what another test has imported must not decide."""
    script = """
import importlib, pkgutil
import builder.pages.methods
from builder.engine.methods import METHODS, Method
known = set(METHODS)
import builder
for room in ("cooking", "costing", "money", "quantities", "tasting", "yields"):
    for found in pkgutil.iter_modules(importlib.import_module(f"builder.{room}").__path__):
        importlib.import_module(f"builder.{room}.{found.name}")
print(len(known), sorted(set(METHODS) - known))
"""
    ran = subprocess.run(
        [sys.executable, "-c", script], check=True, capture_output=True, text=True
    ).stdout.split(maxsplit=1)
    assert int(ran[0]) > 50
    assert ran[1].strip() == "[]"


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES)
def test_pages_are_valid_and_their_ways_lead_to_a_page(page: Page) -> None:
    found = html_of(page)
    ids = ids_of(found)
    assert len(set(ids)) == len(ids)
    root = "../" * page.path.count("/")
    for href in hrefs_of(found):
        path, _, anchor = href.partition("#")
        if path.startswith(f"{root}methods/"):
            assert path.removeprefix(root) in PAGES
        if path == f"{root}sources.html" and anchor:
            assert anchor in ids_of(html("sources.html"))


def test_needs_and_uses_are_each_other_mirrored() -> None:
    for node in GRAPH.nodes:
        for need in GRAPH.needs(node):
            assert node in GRAPH.users[need]
        for user in GRAPH.users[node]:
            assert node in GRAPH.needs(user)


def test_a_formula_says_its_words_source_and_example() -> None:
    text = text_of(html("methods/batch-cost-per-servable-kg.html"))
    assert "cost per servable kg = net cost ÷ servable weight" in text
    assert "Dittmer & Keefe" in text
    assert "CAD/kg" in text
    view = small()
    row = view.costed.rows.cooks["chuck-30h"]
    for figure in ("net_cost", "servable_weight", "cost_per_servable_kg"):
        shown = view.text("batch", figure, row).replace("\N{NO-BREAK SPACE}", " ")
        assert shown in text


def test_an_example_leads_to_its_figure() -> None:
    page = html("methods/batch-cost-per-servable-kg.html")
    assert "href=../methods/batch-cost-per-servable-kg.html#" in page


def test_lookups_are_followed_to_where_a_figure_is_made() -> None:
    # A batch looks its price up; the page leads on to the cut's own.
    links = hrefs_of(html("methods/batch-ap-cost.html"))
    assert "../methods/cut-ap-price.html" in links


def test_a_written_figure_shows_the_line_that_it_was_written_on() -> None:
    page = html("methods/batch-cook-hours.html")
    text = text_of(page)
    assert "for: 30 h" in text
    assert "On line 5 of cooks/chuck-30h.yaml" in text
    assert "left out, it is 0 (not stated)" in text_of(html("methods/equipment-turn-round.html"))
    assert "left out, it is not known" in text_of(html("methods/batch-hands-on.html"))
    assert "left out, it is not known" in text
    assert "../cooks/chuck-30h.html#L5" in hrefs_of(page)


def test_a_written_figure_without_a_default_says_so() -> None:
    lead = str(PAGES["methods/cut-ap-price.html"].answer)
    assert lead.endswith("left out, it is not known.")


def test_the_index_names_every_figure_with_how_it_comes_about() -> None:
    text = text_of(html("methods.html"))
    assert "sum of step credit over every step" in text
    written = sum(isinstance(GRAPH.definition(node).how, Given) for node in GRAPH.nodes)
    assert f"{len(GRAPH.nodes)} figures are behind the numbers of this site." in text
    assert f"{written} are written in the kitchen's files" in text


def test_a_function_page_has_its_users() -> None:
    page = html("methods/t-975.html")
    assert "../methods/stage-yield-half-width.html" in hrefs_of(page)
    assert "../methods/t-975.html" in hrefs_of(html("methods/stage-yield-half-width.html"))


def test_sources_state_their_status_and_who_cites_them() -> None:
    text = text_of(html("sources.html"))
    assert "Cochran, Sampling Techniques, 3rd ed. 1977, ch. 6 from memory" in text
    assert "../" not in "".join(hrefs_of(html("sources.html")))
    assert "methods/stage-measured-yield.html" in hrefs_of(html("sources.html"))


def test_figures_in_examples_are_known() -> None:
    view = small()
    for node in GRAPH.nodes:
        column = view.costed.figures.column(*node)[:, 0]
        shown = "An example from this kitchen" in html(method_path(node))
        assert shown == any(math.isfinite(value) for value in column)


def test_docstrings_become_paragraphs_and_labels_without_what_programmers_read() -> None:
    doc = """One sentence <with> signs.

    Formula: a / b, where `a` is
    the first.
    Parameters: tasters: [1], 1 or more.
    Returns: what is left [1], 0 to 1.
    Errors: ValueError below 0.

    >>> 1 < 2
    True
    """
    assert summary(doc, STYLE) == "One sentence <with> signs."
    prose = details(doc, STYLE)
    assert prose is not None
    assert str(prose.html) == (
        "<p><strong>Formula</strong> a / b, where <code>a</code> is the first.</p>\n"
        "<p><strong>What goes in</strong> tasters: 1 or more.</p>\n"
        "<p><strong>What comes out</strong> what is left, 0 to 1.</p>"
    )


def test_words_before_a_colon_that_are_no_label_keep_it() -> None:
    prose = details(
        """Once.

    What is over stays: it is not thrown away.
    Formula: what is left.
    """,
        STYLE,
    )
    assert prose is not None
    assert str(prose.html) == (
        "<p>What is over stays: it is not thrown away.</p>\n"
        "<p><strong>Formula</strong> what is left.</p>"
    )


@pytest.mark.parametrize("method", METHODS.values(), ids=METHODS)
def test_no_page_of_a_function_shows_its_code(method: Method) -> None:
    said = text_of(html(function_path(method))).split("Figures that use it")[0]
    for code in (">>>", "ValueError", "NaN", "`", "builder.", "[1]"):
        assert code not in said
    # Tables and files of data keep their names, which a reader opens by them.
    assert not re.search(r"\b[a-z]+(?:_[a-z0-9]+)+\b(?!\.csv)", said)


def test_an_example_says_that_its_values_are_rounded() -> None:
    """Five minutes at 24.50 an hour are not what is printed, where the time was 5.2 minutes."""
    said = (
        "Values are written as pages print them, no finer than they are known; the last comes "
        "from unrounded ones."
    )
    assert said in text_of(html("methods/swap-margin-change.html"))
    assert said not in text_of(html("methods/cut-ap-price.html"))


def test_a_worked_example_is_words_and_numbers() -> None:
    weighed = text_of(html(function_path(METHODS["tasting_weight_to_cook"])))
    assert "servings 12, portion 20, spare 0.1, servable yield 0.66 = 400 g" in weighed
    heated = text_of(html(function_path(METHODS["heating_up_energy"])))
    assert "food 5 °C, to 57 °C = 1.09 kWh" in heated


def test_a_worked_example_that_takes_code_is_left_out() -> None:
    assert not list(worked_examples(METHODS["all_pairs"]))
    assert not list(worked_examples(METHODS["bath_standing_loss"]))
    two = [worked.result for worked in worked_examples(METHODS["width_after_one_more"])]
    assert two == [0.419, 0.951, 0.646, 0.702]


def test_a_docstring_of_one_sentence_has_no_details() -> None:
    assert details("Only this.", STYLE) is None


def test_a_value_that_nobody_writes_itself_comes_from_the_files() -> None:
    """A flag is in no file as a number; a price is."""
    assert "It comes from the kitchen's files" in PAGES["methods/step-before-cook.html"].answer
    assert "It comes from the kitchen's files" in PAGES["methods/kitchen-tax-included.html"].answer
    assert "It comes from the kitchen's files" in PAGES["methods/swap-uncooked.html"].answer
    assert "It comes from the kitchen's files" in PAGES["methods/batch-modelled-energy.html"].answer
    assert "It is written in the kitchen's files" in PAGES["methods/cut-ap-price.html"].answer


def test_a_count_of_rows_says_which_rows_count() -> None:
    """Plates of a section, and those of them that have a count, are two numbers."""
    assert "number of rows of plate whose sold is known" in text_of(
        html("methods/section-items.html")
    )
    assert html("methods/section-plates.html") != html("methods/section-items.html")


def test_an_example_names_figures_as_the_formula_does() -> None:
    """Both sides of a swap, and what is looked up in the kitchen, are told apart."""
    assert sum(len(example_names(html(path))) for path in PAGES) > 500
    text = text_of(html("methods/swap-margin-change.html"))
    assert "challenger margin after full" in text.split("An example from this kitchen")[1]
    for path in PAGES:
        if "An example" not in html(path):
            continue
        names = example_names(html(path))
        assert len(names) == len(set(names)), path


def test_no_id_stands_where_a_name_should() -> None:
    """What is on a plate, in a sub-recipe and with the cover is called by its own name."""
    view = demo_view()
    for table in ("accompaniment", "ingredient", "cover_item"):
        rows = range(view.costed.figures.size(table))
        labels = {view.costed.figures.identity(table, row).label for row in rows}
        assert labels <= {item.title for item in view.costed.content.pantry.values()}


def test_tables_are_called_by_what_their_rows_are() -> None:
    text = text_of(html("methods/moved_cut-weight-on-challenger.html"))
    assert "over every portion moved" in text


def example_names(page: str) -> list[str]:
    """The first cell of every row of the example."""
    table = page.partition("<table id=example-figures")[2].partition("</table>")[0]
    rows = table.partition("<tbody>")[2].split("<tr")[1:]
    return [text_of(f"<tr{row}".split("<td")[0]) for row in rows]


def test_figures_are_named_in_the_units_that_pages_show_them_in() -> None:
    """Statistics and physics keep the units of their sources."""
    folder = STARTER.with_name("customary")
    files = {
        str(path.relative_to(folder)): path.read_text("utf-8") for path in folder.rglob("*.yaml")
    }
    found = list(method_pages(view_of(files)))
    figures = [page for page in found if page.kind.startswith("Method ·") and page.aside]
    named = [page for page in figures if page.kind != "Method · sourced function"]
    assert len(named) > 500
    assert "Cost per servable lb" in {page.title for page in named}
    for page in named:
        said = f"{page.title} {page.lead} {page.aside[0].text}"
        assert not re.search(r"\bkg\b|kg²|\bkilogram\b|°C|\bmm\b|(?<!Page's )\bL\b", said), (
            page.path,
            said,
        )


def test_a_formula_of_a_sourced_function_names_nothing_of_the_code() -> None:
    for method in METHODS.values():
        for words in pieces(method.doc):
            if words.startswith("Formula:"):
                assert not re.search(r"[a-z]{2,}_[a-z]{2,}", words), (method.name, words)
