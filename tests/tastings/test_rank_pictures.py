"""What was ranked as a picture: rank sums with the limit of chance."""

from __future__ import annotations

from builder.costing.tasting_words import headline
from builder.pages.components import Chart, Table, walk
from builder.pages.tastings import tasting_pages
from builder.pages.view import View
from builder.tasting.rank_sums import rank_sums
from tests.pages_data.kitchens import by_path, html_of, text_of
from tests.tastings.test_one_decision import ranked, view_of


def picture_of(view: View) -> tuple[Chart, str]:
    """The one picture of the tasting's page, and what the page says."""
    page = by_path(tasting_pages(view))["tastings/trial.html"]
    (chart,) = [each for each in walk(page.sections) if isinstance(each, Chart)]
    return chart, text_of(html_of(page))


def test_ranks_have_one_picture_with_the_limit_of_the_words() -> None:
    """Six who all agree: sums 6, 12, 18; of three samples 9 and more come once in 20 (counted)."""
    view = view_of(ranked(6, "samples: {a: c24, b: c48, c: c72}\n", "a, c, b"))
    chart, said = picture_of(view)
    assert [(row["name"], row["mid"]) for row in chart.rows] == [
        ("24 h", 18),
        ("48 h", 6),
        ("72 h", 12),
    ]
    limit = rank_sums([[3, 1, 2]] * 6).limit
    assert [(row["low"], row["high"]) for row in chart.rows] == [
        (at - limit / 2, at + limit / 2) for at in (18, 6, 12)
    ]
    assert {row["limit"] for row in chart.rows} == {None}
    limits = (
        f"Two bars that touch are sums no more than {limit:.0f} apart, which may be by chance "
        "(risk 5%)."
    )
    assert limits in chart.summary and limits in " ".join(said.split())


def test_ranks_beside_a_benchmark_reach_its_line_unless_told_apart() -> None:
    head = "samples: {rib: ribeye-grill, a: c24, b: c48}\nbenchmark: rib\n"
    view = view_of(ranked(8, head, "rib, b, a"))
    chart, _ = picture_of(view)
    rib, a, b = chart.rows
    assert rib["low"] == rib["high"] == rib["limit"] == 24
    assert float(b["low"] or 0) <= 24 and float(a["high"] or 0) < 24
    assert "24 h below rib" in headline(view.costed.tastings["trial"])


def test_too_few_who_rank_get_a_picture_without_bars() -> None:
    view = view_of(ranked(4, "samples: {a: c24, b: c48}\n", "b, a"))
    chart, _ = picture_of(view)
    assert all(row["low"] == row["high"] for row in chart.rows)
    assert "Fewer than 6 tasters can't tell any apart: no bars." in chart.summary


def test_three_who_agree_on_four_have_bars_as_their_words_have_an_order() -> None:
    """12 of 1,728 orders put one sample first and one last for all three, .007."""
    head = "samples: {a: c24, b: c48, c: c72, d: ribeye-grill}\n"
    view = view_of(ranked(3, head, "b, a, d, c"))
    chart, _ = picture_of(view)
    assert "48 h above 72 h" in headline(view.costed.tastings["trial"])
    assert "no bars" not in chart.summary
    assert all(float(row["low"] or 0) < float(row["high"] or 0) for row in chart.rows)


def test_a_ranking_of_which_nobody_had_all_has_neither_sums_nor_bars() -> None:
    """Three cups of four each: a sum over nobody would be 0 for every sample."""
    head = "test: ranks\nsamples: {a: c24, b: c48, c: c72, d: ribeye-grill}\nasks: liking\n"
    rows = "  T1: [a, b, c]\n  T2: [b, c, d]\n  T3: [c, d, a]\n  T4: [a, b, d]\n"
    view = view_of(f"{head}tasters: 4\nmost samples: 3\nranks:\n{rows}")
    page = by_path(tasting_pages(view))["tastings/trial.html"]
    said = text_of(html_of(page))
    assert not [each for each in walk(page.sections) if isinstance(each, Chart)]
    assert "Nobody ranked every sample, so there are no sums to compare." in said
    assert "can't tell any apart" not in said
    assert "0 tasters" not in said
    table = next(t for t in walk(page.sections) if isinstance(t, Table) and t.id == "ranks-liking")
    assert [str(row.cells[1].text) for row in table.rows] == ["–"] * 4
    answers = next(
        t for t in walk(page.sections) if isinstance(t, Table) and t.id == "answers-table"
    )
    assert answers.columns[2].about == "place given: 1 is the first"
