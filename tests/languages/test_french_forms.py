"""Dates, times, units and lists as French writes them."""

from __future__ import annotations

import re
from datetime import date
from enum import StrEnum
from pathlib import Path

import pytest
from markupsafe import Markup

from builder.build import compute_content
from builder.data import cooking_yields
from builder.data.muscles import muscles
from builder.display.estimates import about, about_span
from builder.display.style import NBSP, Style
from builder.language import Deferred, either, ntr, tr, written_in
from builder.pages.messages import problem_in_style
from builder.pages.values import measured
from builder.pages.ways import way_words
from builder.problems import Place, Problem
from builder.quantities import Dimension, QuantityError, parse_quantity
from builder.records.fields import Measure
from builder.tasting.comparisons import no_worse_by_margin
from builder.tasting.margin_verdicts import no_worse_verdict
from tests.kitchens import write

CANADA, FRANCE = Style.of("fr_CA", "CAD"), Style.of("fr_FR", "EUR")
ENGLISH = Style.of("en_CA", "CAD")


def plain(text: str) -> str:
    return text.replace(NBSP, " ").replace("\u202f", " ")


@pytest.mark.parametrize("style", [CANADA, FRANCE, Style.of("fr", "CHF")], ids=str)
def test_the_first_of_a_month_is_an_ordinal_number(style: Style) -> None:
    with written_in("fr"):
        assert plain(style.date(date(2026, 10, 1))) == "1er oct. 2026"
        assert plain(style.date(date(2026, 5, 1))) == "1er mai 2026"
        for day in (2, 10, 11, 21, 31):
            assert plain(style.date(date(2026, 10, day))) == f"{day} oct. 2026"


@pytest.mark.parametrize(
    ("scores", "said"),
    [([1, -1, 2, -2, 0, 0], "0.0 point,"), ([1, 2, 1, 2, 1, 2], "+1.5 point,"),
     ([2, 3, 1, 2, 3, 1], "+2.0 points,"), ([-4, -2, -3, -4, -2, -3], "−3.0 points,")],
)  # fmt: skip
def test_less_than_two_points_is_a_singular(scores: list[float], said: str) -> None:
    """Decimals too: French has its plural from two on (Unicode CLDR, plural rules)."""
    with written_in("fr"):
        verdict = no_worse_verdict(no_worse_by_margin(scores, margin=10), "a", "b", "goût")
    assert said in plain(verdict.sentence), verdict.sentence
    assert "à 10 points près" in plain(verdict.sentence)


def test_a_date_in_a_message_is_one_too() -> None:
    problem = Problem(Place("a.yaml", 1, 1), "rien depuis 2026-10-01, ni en 2026-10")
    with written_in("fr"):
        found = problem_in_style(problem, FRANCE).message
    assert plain(found) == "rien depuis 1er oct. 2026, ni en oct. 2026"


def test_months_are_named_in_the_language_of_the_pages() -> None:
    """A kitchen may write its numbers as English Canada does and its pages in French."""
    with written_in("fr"):
        assert plain(ENGLISH.date(date(2026, 6, 26))) == "26 juin 2026"
        assert plain(ENGLISH.date(date(2026, 6, 1))) == "1er juin 2026"
        assert ENGLISH.month((2026, 9)) == "sept. 2026"
        assert ENGLISH.number(1.5, 1) == "1.5"
    for locale in ("de_DE", "fr_FR", "ja_JP"):
        assert Style.of(locale, "EUR").month((2026, 5)) == "May 2026"


def test_other_languages_have_ordinary_numbers() -> None:
    assert ENGLISH.date(date(2026, 10, 1)) == "Oct 1, 2026"
    assert Style.of("de_DE", "EUR").date(date(2026, 10, 1)) == "1 Oct 2026"


SPANS = [
    (date(2026, 9, 21), date(2026, 9, 27), "21 au 27 sept. 2026", "Sep 21–27, 2026"),
    (date(2026, 10, 1), date(2026, 10, 7), "1er au 7 oct. 2026", "Oct 1–7, 2026"),
    (date(2026, 9, 1), date(2026, 10, 1), "1er sept. au 1er oct. 2026", "Sep 1–Oct 1, 2026"),
    (
        date(2026, 12, 28),
        date(2027, 1, 3),
        "28 déc. 2026 au 3 janv. 2027",
        "Dec 28, 2026–Jan 3, 2027",
    ),
]


@pytest.mark.parametrize(("first", "last", "french", "english"), SPANS)
def test_days_of_a_span_are_written_with_what_they_share_once(
    first: date, last: date, french: str, english: str
) -> None:
    assert ENGLISH.days(first, last) == english
    with written_in("fr"):
        for style in (CANADA, ENGLISH):
            assert plain(style.days(first, last)) == f"du {french}"
            assert style.days(last, last) == style.date(last)


HOURS = [
    (5 + 40 / 60, "5 h 40", "5 h 40 min"),
    (5 + 5 / 60, "5 h 05", "5 h 5 min"),
    (30.0, "30 h", "30 h"),
    (0.75, "45 min", "45 min"),
    (-1.5, "−1 h 30", "−1 h 30 min"),
]


@pytest.mark.parametrize(("hours", "french", "english"), HOURS)
def test_minutes_after_hours_have_no_unit_in_french(
    hours: float, french: str, english: str
) -> None:
    assert plain(ENGLISH.duration(hours)) == english
    with written_in("fr"):
        assert plain(CANADA.duration(hours)) == french


def test_an_estimate_is_written_alike() -> None:
    with written_in("fr"):
        assert plain(about(CANADA, 253)) == "environ 4 h 30"
        assert plain(about_span(CANADA, 193, 270)) == "environ 3 h à 4 h 30"
        assert plain(about_span(CANADA, 193, 236)) == "environ 3 à 4 h"


def test_what_is_counted_is_counted_in_french() -> None:
    twelve = Measure(12.0, Place(""), "12 each", Dimension.COUNT)
    with written_in("fr"):
        assert plain(FRANCE.money_per(0.4, "each")) == "0,40 € l'unité"
        assert plain(FRANCE.money_per(12.5, "kg")) == "12,50 €/kg"
        assert plain(measured(FRANCE, twelve)) == "12 u."
    assert ENGLISH.money_per(0.4, "each") == "$0.40 each"


class Cut(StrEnum):
    WHOLE = "trim"


def test_a_value_of_an_enumeration_is_translated_where_a_number_decides() -> None:
    with written_in("fr"):
        assert ntr("{count} cut {what}", "{count} cuts {what}", 2, what=Cut.WHOLE) == (
            "2 cuts parage"
        )
        assert ntr("{count} {what}", "{count} {what}", 2, what=Deferred("trim")) == "2 parage"


def test_of_several_one_is_meant() -> None:
    with written_in("fr"):
        assert either(["a", "b", "c"]) == "a, b ou c"
        assert either(["a", "b"]) == "a ou b"
        assert either(["a"]) == "a"


UNCLEAR = [
    ("1,250 kg", "écrire 1250 kg si ce sont des milliers, 1.250 kg si ce sont des décimales"),
    ("2-3 kg", "écrire un seul nombre, 2 kg ou 3 kg"),
    ("1:30", "écrire une durée sous la forme 1 h 30 min"),
]


@pytest.mark.parametrize(("text", "hint"), UNCLEAR)
def test_what_an_unclear_number_may_mean_is_said_in_french(text: str, hint: str) -> None:
    with written_in("fr"), pytest.raises(QuantityError) as refused:
        parse_quantity(text)
    assert plain(refused.value.hint) == hint


MISTAKES = {
    "kitchen.yaml": (
        "name: A\ncurrency: CAD\nlanguage: fr\nloaded wage: 20/h\nroom: 60 °C\n"
        "equipment:\n  bath: {kind: water bath, volume: 3 L, holds: 12 kg, how many: 900}\n"
    ),
    "cuts/a.yaml": "species: beef\nprice: 9/kg\ntrim: {loss: 120 %}\n",
    "cooks/a.yaml": "cut: a\nhow: water bath\nat: 20 °C\nfor: 300 h\nhold at: 200 °C\n",
    "counts/a.yaml": (
        "name: A\ndate: 2026-01-01\ncuts: {a: {opening: 1 kg, bought: 2 kg, closing: 9 kg}}\n"
    ),
    "notes.txt": "x",
}
# Words that no key, value or file above has.
FRAGMENT = re.compile(
    r"\b(?:or|and|is|of|little|much|room|outside|at most|up to|bought \d|how many|a water)\b"
)


def test_messages_of_records_hold_no_english_fragment(tmp_path: Path) -> None:
    _, problems = compute_content(write(tmp_path, MISTAKES), None, date(2026, 10, 1))
    said = [text for each in problems for text in (each.message, each.hint)]
    assert len(problems) >= 8
    assert [text for text in said if FRAGMENT.search(text)] == []
    together = plain(" | ".join(said))
    for words in ("au plus 100 %", "jusqu'à 7 j", "en stock 1 kg", "température du local"):
        assert words in together


def test_ways_of_cooking_that_the_builder_knows_are_said_in_french() -> None:
    assert way_words("Water bath") == "Water bath"
    with written_in("fr"):
        assert way_words("Water bath") == "bain thermostaté"
        assert way_words("ice bath") == "bain d'eau glacée"
        assert way_words("La marmite") == "La marmite"


def test_why_a_value_is_doubted_is_said_in_french(tmp_path: Path) -> None:
    kitchen = "name: A\ncurrency: CAD\nlanguage: fr\nenergy: 9.00/kWh\nloaded wage: 20/h\n"
    _, problems = compute_content(
        write(tmp_path, {"kitchen.yaml": kitchen}), None, date(2026, 10, 1)
    )
    [doubt] = [each.message for each in problems if "9.00" in each.message]
    assert "tarifs des ménages et des entreprises au Canada" in doubt


def test_published_figures_are_told_in_french() -> None:
    muscle = muscles()["psoas major"]
    with written_in("fr"):
        assert muscle.matched.startswith("filet")
        assert f"{muscle.grade}" == "très tendre"
        assert tr(muscle.shear_forces[0].published) == "moins de 3.2 kg, très tendre"
        assert f"{cooking_yields()['usda 13806'].how}" == "braisé"


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Oxtail on toast", "Portions d'Oxtail on toast"),
        ("Œufs mimosa", "Portions d'Œufs mimosa"),
        ("Escalope", "Portions d'Escalope"),
        ("Half a dozen oysters", "Portions de Half a dozen oysters"),
        ("Brisket", "Portions de Brisket"),
        ("11 huîtres", "Portions de 11 huîtres"),
    ],
)
def test_a_little_word_loses_its_vowel_before_a_name(name: str, said: str) -> None:
    assert tr("Portions of {plate}", plate=name) == f"Portions of {name}"
    with written_in("fr"):
        assert tr("Portions of {plate}", plate=name) == said


def test_it_does_before_a_name_that_is_a_link_and_within_a_count() -> None:
    with written_in("fr"):
        link = Markup('<a href="oxtail.html">Oxtail</a>')
        assert tr("Portions of {plate}", plate=link) == f"Portions d'{link}"
        found = ntr("the weighing of {days}", "the weighings of {days}", 1, days="août")
        assert found == "pesée du août"
