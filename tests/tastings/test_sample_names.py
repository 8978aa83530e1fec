"""A sample of a series of durations has one name on every page: its duration, never its id."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from builder.costing.durations_said import durations_sentences
from builder.costing.tasting_results import TastingResult
from builder.pages.components import Chart, Page, walk
from builder.pages.home import home_page
from builder.pages.plates import plate_page
from builder.pages.tasting_sheets import sheet_pages
from builder.pages.tastings import tasting_pages
from builder.pages.view import View
from tests.pages_data.kitchens import html_of
from tests.tastings.kitchens import BATH, KITCHEN, PLACE, computed

COOKS = {
    f"cooks/c{h}.yaml": f"name: Chuck {h}\nfor: {h} h\nloss: 20 %\n{BATH}" for h in (24, 36, 48)
}
SERIES = """test: scores
samples: {grill: ribeye-grill, c24: c24, c36: c36, c48: c48}
benchmark: grill
warm up: c24
tasters: [T1, T2, T3, T4, T5, T6, T7]
attributes: {liking: line 0-100, texture: [too firm, right, mushy]}
margin: 10 %
"""
LIKING = ((80, 60, 78, 10), (70, 55, 69, 12), (90, 70, 88, 20), (75, 60, 74, 9), (82, 66, 84, 30),
          (77, 58, 70, 8), (85, 71, 88, 15))  # fmt: skip
ROWS = "scores:\n" + "".join(
    f"  T{n}: {{grill: [{a}, right], c24: [{b}, {'right' if n % 2 else 'too firm'}],"
    f" c36: [{c}, right], c48: [{d}, mushy]}}\n"
    for n, (a, b, c, d) in enumerate(LIKING, start=1)
)
RANKED = """test: ranks
samples: {c24: c24, c36: c36, c48: c48}
asks: tenderness
tasters: [T1, T2, T3, T4, T5, T6]
ranks:
""" + "".join(f"  T{n}: [c48, c36, c24]\n" for n in range(1, 7))
ID = re.compile(r"\bc(24|36|48)\b")


def view_of(yaml: str) -> View:
    view, problems = computed({**COOKS, PLACE: yaml})
    assert view is not None, [str(p) for p in problems]
    return view


def result_of(yaml: str) -> TastingResult:
    return view_of(yaml).costed.tastings["trial"]


def read(page: Page) -> str:
    """A page without its links, ids, the rows of a table of ids, and the file it quotes."""
    whole = re.sub(
        r"<script.*?</script>|<pre.*?</pre>|<code.*?</code>|<ol class=lines.*?</ol>",
        " ",
        html_of(page),
        flags=re.S,
    )
    return re.sub(r"<[^>]*>", " ", whole).replace("\N{NO-BREAK SPACE}", " ")


def pages(view: View) -> Iterator[Page]:
    yield from tasting_pages(view)
    yield from sheet_pages(view)
    yield home_page(view)
    for plate in view.costed.content.plates.values():
        yield plate_page(view, plate)


ALONE = SERIES.replace("benchmark: grill\n", "").replace("margin: 10 %\n", "") + ROWS


@pytest.mark.parametrize("yaml", [SERIES + ROWS, SERIES, RANKED, ALONE])
def test_no_page_picture_or_form_names_a_sample_of_a_series_by_its_id(yaml: str) -> None:
    view, named = view_of(yaml), 0
    for page in pages(view):
        text = read(page)
        named += "36 h" in text
        assert not ID.search(text), (page.path, ID.search(text))
    assert named >= 2


def test_the_pictures_of_a_series_name_it_by_its_durations() -> None:
    drawn = " ".join(
        str(value)
        for page in tasting_pages(view_of(SERIES + ROWS))
        for chart in walk(page.sections)
        if isinstance(chart, Chart)
        for row in chart.rows
        for value in row.values()
    )
    assert "36 h" in drawn
    assert not ID.search(drawn)


def test_sentences_of_a_series_say_one_name() -> None:
    result = result_of(SERIES + ROWS)
    assert [sample.words for sample in result.samples] == ["grill", "24 h", "36 h", "48 h"]
    assert "36 h" in " ".join(durations_sentences(result))


def test_what_is_served_again_is_called_so_and_two_cuts_keep_their_names() -> None:
    again = SERIES.replace("c48: c48}", "c48: c48, extra: c36, more: c36}")
    words = [each.words for each in result_of(again).samples]
    assert words == ["grill", "24 h", "36 h", "48 h", "36 h again", "36 h again, time 3"]
    one = KITCHEN["cooks/chuck-36h.yaml"].replace("57 °C", "60 °C")
    view, problems = computed(
        {**COOKS, "cooks/hot.yaml": one, PLACE: SERIES.replace("c48: c48}", "c48: c48, hot: hot}")}
    )
    assert view is not None, problems
    samples = view.costed.tastings["trial"].samples
    assert [each.words for each in samples] == ["grill", "24 h", "36 h", "48 h", "hot"]


def test_durations_that_read_alike_keep_the_names_of_the_file() -> None:
    cook = f"for: 36.04 h\nloss: 20 %\n{BATH}"
    yaml = SERIES.replace("c48: c48}", "c48: c48, later: later}")
    view, problems = computed({**COOKS, "cooks/later.yaml": cook, PLACE: yaml})
    assert view is not None, problems
    samples = view.costed.tastings["trial"].samples
    assert [each.words for each in samples] == ["grill", "c24", "c36", "c48", "later"]
