"""Every test of a tasting as a row: the published values in the file, and the page's way to it."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from functools import cache

import pandas as pd
import pytest
import statsmodels.formula.api as smf  # type: ignore[import-untyped]
from scipy.stats import binomtest
from statsmodels.stats.anova import anova_lm  # type: ignore[import-untyped]

from builder.pages.components import Cell, Chart, Figures, Page, Table, walk
from builder.pages.data import data_files
from builder.pages.site import site_pages
from builder.pages.tasting_pieces import UNKNOWN
from builder.pages.tastings import tasting_pages
from builder.pages.view import View
from tests.pages_data.kitchens import by_path, html_of, text_of
from tests.tasting.published import DATA, rows
from tests.tasting.test_ranks import COTTON
from tests.tastings.kitchens import BATH, KITCHEN, SCORES, TRIANGLE, computed, demo, trial

Found = dict[str, dict[str, str]]


def findings(view: View | None) -> Found:
    """The file of tests as another program reads it, by id."""
    assert view is not None
    text = dict(data_files(view))["data/findings.csv"].decode("utf-8")
    return {row["id"]: row for row in csv.DictReader(io.StringIO(text, newline=""))}


# Published panels as whole kitchens


def test_analysis_of_variance_of_published_scores_is_statsmodels_own() -> None:
    """First of three scores of six batches of fish by four assessors (ISO 8586 annex, read)."""
    scored = pd.read_csv(DATA / "fish_on_ice.csv").query("rep == 1")
    served = ", ".join(f"b{batch}: chuck-24h" for batch in range(1, 7))
    cells = scored[["assessor", "sample", "score"]].itertuples(index=False)
    lines = [f"T{who},b{batch},{score}" for who, batch, score in cells]
    view, _ = trial(
        f"test: scores\nsamples: {{{served}}}\ntasters: 4\nattributes: {{freshness: 9-point}}\n",
        "\n".join(["Taster,Sample,Freshness", *lines, ""]),
    )
    fitted = smf.ols("score ~ C(assessor) + C(sample)", scored).fit()
    expected = anova_lm(fitted, typ=2)
    for test, factor in (("", "C(sample)"), (", tasters", "C(assessor)")):
        row = findings(view)[f"trial/freshness/analysis of variance{test}"]
        assert float(row["statistic"]) == pytest.approx(expected.loc[factor, "F"])
        assert float(row["degrees_of_freedom"]) == expected.loc[factor, "df"]
        assert float(row["error_degrees_of_freedom"]) == expected.loc["Residual", "df"]
        assert float(row["p_value"]) == pytest.approx(expected.loc[factor, "PR(>F)"])


@cache
def cotton() -> Found:
    """Strength of cotton, Hollander & Wolfe, example 7.2, as ranks of five durations."""
    hours = (12, 18, 24, 36, 48)
    cooks = {f"cooks/c{h}.yaml": f"for: {h} h\nloss: 20 %\n{BATH}" for h in hours}
    lines = []
    for n, row in enumerate(COTTON, start=1):
        best_first = sorted(range(5), key=row.__getitem__, reverse=True)
        lines.append(f"  T{n}: [{', '.join(f'c{hours[place]}' for place in best_first)}]")
    served = ", ".join(f"c{h}: c{h}" for h in hours)
    yaml = f"test: ranks\nsamples: {{{served}}}\ntasters: 3\nranks:\n" + "\n".join(lines) + "\n"
    view, problems = computed({**cooks, "tastings/cotton.yaml": yaml})
    assert view is not None, problems
    return findings(view)


def test_published_ranks_and_trend() -> None:
    """Friedman 8.80 on 4 degrees; L = 158, exact p .002492."""
    ranks, trend = (cotton()[f"cotton/preference/{test}"] for test in ("Friedman", "trend"))
    assert float(ranks["statistic"]) == pytest.approx(8.80)
    assert float(ranks["degrees_of_freedom"]) == 4
    assert float(ranks["p_value"]) < 0.05
    assert float(trend["statistic"]) == 158
    assert float(trend["p_value"]) == pytest.approx(0.002492, abs=5e-7)


# Tests of choice against the standards' tables


TABLE = [
    row
    for row in rows("minimum_correct.csv")
    if row["alpha"] == "0.05" and row["minimum"] and row["protocol"] in {"triangle", "duo-trio"}
]


@cache
def choices() -> Found:
    """One tasting for each row of the tables, with just as many correct answers as it asks."""
    files = {
        f"tastings/{row['protocol']}-{row['tasters']}.yaml": TRIANGLE.replace(
            "test: triangle", f"test: {row['protocol']}"
        )
        .replace("tasters: 12", f"tasters: {row['tasters']}")
        .replace("correct: 8", f"correct: {row['minimum']}")
        for row in TABLE
    }
    view, problems = computed(files)
    assert view is not None, problems
    return findings(view)


def test_numbers_of_correct_answers_are_those_of_the_standards() -> None:
    """ISO 4120 and ISO 10399, tables A.1, at 5 %: enough correct answers are significant."""
    for row in TABLE:
        found = choices()[f"{row['protocol']}-{row['tasters']}/difference"]
        assert float(found["critical_number"]) == int(row["minimum"])
        assert float(found["correct"]) == int(row["minimum"])
        assert float(found["p_value"]) <= 0.05
        assert float(found["guess"]) == (1 / 3 if row["protocol"] == "triangle" else 1 / 2)
    assert len(TABLE) > 10


def test_likeness_has_its_own_level_and_limit() -> None:
    """9 of 24 at 30 % and a risk of 10 %: exact binomial, computed outside the package."""
    view, _ = computed({"tastings/trial.yaml": TRIANGLE.replace("12", "24")})
    found = findings(view)["trial/similarity"]
    assert [float(found[name]) for name in ("critical_number", "limit", "risk")] == [9, 0.3, 0.1]


def test_a_panel_too_small_for_likeness_has_no_number_that_is_few_enough() -> None:
    """3 of 9 at 40 %: p = 0.099 by the binomial, but the printed tables start at 18 tasters."""
    text = TRIANGLE.replace("12", "9").replace("correct: 8", "correct: 3")
    view, _ = computed({"tastings/trial.yaml": text + "can tell: 40 %\n"})
    found = findings(view)["trial/similarity"]
    assert float(found["p_value"]) == pytest.approx(0.0994, abs=1e-4)
    assert found["critical_number"] == ""


def test_what_a_test_does_not_have_is_empty() -> None:
    view, _ = computed({"tastings/trial.yaml": TRIANGLE})
    found = findings(view)["trial/difference"]
    assert [found[name] for name in ("statistic", "estimate", "margin", "attribute")] == [""] * 4


def test_a_lead_is_that_of_the_sample_ahead() -> None:
    """Seven of eight chose b: b leads by 7/8 - 1/8."""
    yaml = "test: paired\nasks: tenderness\nsamples: {a: chuck-24h, b: chuck-36h}\ntasters: 8\n"
    yaml += "answers: {T1: b, T2: b, T3: b, T4: b, T5: a, T6: b, T7: b, T8: b}\n"
    view, _ = computed({"tastings/trial.yaml": yaml})
    found = findings(view)["trial/share/b"]
    assert (found["sample"], found["against"]) == ("b", "a")
    assert [float(found[name]) for name in ("estimate", "correct", "tasters")] == [0.75, 7, 8]
    limits = binomtest(7, 8).proportion_ci(0.95, method="exact")
    assert float(found["lower"]) == pytest.approx(2 * limits.low - 1)
    assert float(found["upper"]) == pytest.approx(2 * limits.high - 1)


def test_a_pair_that_asks_either_way_prints_what_its_findings_hold() -> None:
    """Seven of eight chose b: tile, picture and tables say what the sentence says."""
    yaml = "test: paired\nasks: tenderness\nsamples: {a: chuck-24h, b: chuck-36h}\ntasters: 8\n"
    yaml += "answers: {T1: b, T2: b, T3: b, T4: b, T5: a, T6: b, T7: b, T8: b}\n"
    view, problems = computed({"tastings/trial.yaml": yaml})
    assert view is not None, problems
    page = by_path(tasting_pages(view))["tastings/trial.html"]
    shown = {table.id: [str(cell.text) for cell in table.rows[0].cells] for table in tables(page)}
    low, high = (2 * limit - 1 for limit in binomtest(7, 8).proportion_ci(0.95, method="exact"))
    minus = f"\N{MINUS SIGN}{round(-100 * low)}%"  # a lead that may be none
    assert shown["share-rows"][1:] == [minus, "75%", f"{round(100 * high)}%", "30%"]
    assert shown["tests"] == ["difference", "1", "8", "8 or more, or 0 or fewer", "p = 0.070"]
    tiles = {t.label: t for s in walk(page.sections) if isinstance(s, Figures) for t in s.tiles}
    lead = next(tile for label, tile in tiles.items() if label.startswith("Lead of"))
    assert str(lead.value) == "75%"
    assert lead.trace_href
    assert "d′ of a over b is −1.6" in text_of(html_of(page))


# Numbers of the pages lead to their figures


def tables(page: Page) -> Iterator[Table]:
    """The tables of a page, those under its pictures as well."""
    for section in walk(page.sections):
        table = section.table if isinstance(section, Chart) else section
        if isinstance(table, Table):
            yield table


def referred(view: View) -> Iterator[tuple[str, Cell, str, str, int]]:
    """Every cell on a page of tastings that refers to a figure of a test."""
    for page in tasting_pages(view):
        for table in tables(page):
            for cell in (cell for row in table.rows for cell in row.cells):
                if cell.href.startswith("=finding."):
                    name, row = cell.href.removeprefix("=finding.").rsplit(".", 1)
                    yield page.path, cell, table.id, name, int(row)


def test_every_number_of_a_test_is_its_figure_s_own() -> None:
    view, seen = demo(), 0
    for path, cell, _, name, row in referred(view):
        value = view.number("finding", name, row)
        assert view.costed.figures.identity("finding", row).owner == path.removesuffix(".html")
        assert cell.sort == value
        if re.match(r"[p+−\d]", str(cell.text)) and "%" not in str(cell.text):
            seen += str(cell.text) == str(view.text("finding", name, row))
    assert seen > 700


@pytest.mark.parametrize("name", [n for n, r in demo().costed.tastings.items() if r.held])
def test_no_number_of_a_held_tasting_leads_nowhere(name: str) -> None:
    """But for what the plan of the session asks and serves."""
    page = by_path(tasting_pages(demo()))[f"tastings/{name}.html"]
    numbers = [
        (table.id, cell)
        for table in tables(page)
        if table.id not in {"needed", "cooking"}
        for row in table.rows
        for cell in row.cells[1:]
        if re.match(r"(p [=<] )?[+−]?\d", str(cell.text))
    ]
    assert [(where, cell.text) for where, cell in numbers if not cell.href] == []
    tiles = [t for s in walk(page.sections) if isinstance(s, Figures) for t in s.tiles]
    assert [t.label for t in tiles if not t.trace_href] == ["Samples"]


def test_a_trace_leads_from_a_chance_to_the_answers_and_the_margin() -> None:
    view = demo()
    row = view.costed.findings.row("chuck-durations", "no worse", "tenderness", "chuck-24")
    assert row is not None
    figures = view.costed.figures
    needs = {node[1]: node for node, _ in figures.made_from(("finding", "p_value"), row)}
    places = {name: figures.origin(needs[name], row).place for name in ("tasters", "margin")}
    assert {name: place.file for name, place in places.items() if place} == {
        "tasters": "tastings/chuck-durations.csv",
        "margin": "tastings/chuck-durations.yaml",
    }
    assert figures.origin(("finding", "p_value"), row).reason == "No worse by more than the margin"


def test_a_german_kitchen_reads_decimal_commas() -> None:
    kitchen = f"{KITCHEN['kitchen.yaml']}locale: de_DE\n"
    files = {"kitchen.yaml": kitchen, "tastings/trial.yaml": SCORES}
    view, _ = computed(files)
    assert view is not None
    texts = [str(cell.text) for _, cell, *_ in referred(view) if cell.text != UNKNOWN]
    assert any(re.fullmatch(r"p = 0,\d{2,3}", text) for text in texts)
    assert any(re.fullmatch(r"[+−]\d+,\d", text) for text in texts)
    assert [text for text in texts if re.search(r"\d\.\d", text)] == []
    row = view.costed.findings.row("trial", "mean", "tenderness", "long")
    assert row is not None
    # 8, 7 and 8 of 1 to 9 are 83.33 of 100, by hand.
    assert str(view.text("finding", "estimate", row)) == "83,3"


@pytest.mark.parametrize(
    ("locale", "mean"), [("de_DE", "87,5"), ("fr_FR", "87,5"), ("en_US", "87.5")]
)
def test_the_verdict_of_the_table_is_written_as_the_page_writes_it(locale: str, mean: str) -> None:
    """Scores of 8 on 1 to 9 are 87.5 of 100, in a sentence of the kitchen's style."""
    eaten = "attributes: {liking: 1-9}\ntasters: 7\nscores:\n"
    marks = "".join(f"  T{n}: {{a: 8, b: 2}}\n" for n in range(1, 8))
    yaml = f"test: scores\nsamples: {{a: chuck-24h, b: chuck-36h}}\n{eaten}{marks}"
    kitchen = f"{KITCHEN['kitchen.yaml']}locale: {locale}\n"
    view, problems = computed({"kitchen.yaml": kitchen, "tastings/trial.yaml": yaml})
    assert view is not None, problems
    table = dict(data_files(view))["data/tastings.csv"].decode("utf-8")
    [row] = csv.DictReader(io.StringIO(table, newline=""))
    assert f" {mean} " in row["verdict"].replace("\N{NO-BREAK SPACE}", " ")


def test_the_method_page_of_a_chance_names_every_method() -> None:
    page = by_path(site_pages(demo()))["methods/finding-p-value.html"]
    words = text_of(html_of(page))
    for title in ("Friedman test", "Page's trend test", "Discrimination test for a difference"):
        assert title in words
