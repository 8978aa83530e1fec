"""English as it is spelled in the United States, in kitchens there and in no other."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from builder.build import build, compute_content
from builder.language import Deferred, current_language, ntr, tr, words_of, written_in
from builder.spelling import american
from tests.catalogue import collected
from tests.kitchens import costed_from, write

# Endings that are spelled otherwise in the United States, and words that only look so.
BRITISH = re.compile(
    r"\b\w*(?:[b-df-hj-np-tv-z]our|[b-df-hj-np-tv-z]re|is[ei]\w*|ys(?:ed?|ing)|ogue|amme|(?:l{2}(?:ed|ing|er))|"
    r"grey|mould\w*|[cf]en?ce|cheque|gement\w*)s?\b",
    re.IGNORECASE,
)

LOOK_SO = """
    adviser arrangement arrangements billed braise braised called chilled chiller chilling decision
    decisions falling fieller filled filling flour flours four grilled hour hours installed
    invisible killed likewise management noise otherwise pour pre precision promise promised
    promises raise raised raising rearrangement rearrangements revision rise rises rising rolled
    selling smaller spellings voller müller your yours
"""
OF_FILES = "labour litre"
ALIKE = frozenset(f"{LOOK_SO} {OF_FILES}".split())


def test_words_of_the_source_are_spelled_as_over_there() -> None:
    with written_in("en_US"):
        assert tr("{what} in grey", what="Colour") == "Colour in gray"
        assert ntr("{count} litre", "{count} litres", 2) == "2 liters"
        assert f"{Deferred('flavour')}" == "flavor"
        assert current_language() == "en"
    assert tr("in grey") == "in grey"


@pytest.mark.parametrize(
    ("language", "locale", "words"),
    [
        ("", "en_US", "en_US"), ("en", "en_PH", "en_US"), ("", "en_CA", "en"),
        ("", "en_GB", "en"), ("fr", "en_US", "fr"), ("en", "fr_CA", "en"),
    ],
)  # fmt: skip
def test_the_locale_says_how_english_is_spelled(language: str, locale: str, words: str) -> None:
    assert words_of(language, locale) == words


def test_names_of_values_stay_and_so_do_words_of_files() -> None:
    assert american("The {licence} licence") == "The {licence} license"
    assert american("litre and quart say the same") == "litre and quart say the same"


def test_no_text_of_the_source_is_left_with_a_british_spelling() -> None:
    texts = (text if isinstance(text, tuple) else (text,) for text in collected())
    plain = (re.sub(r"\{\w*\}", "", american(form)) for forms in texts for form in forms)
    found = {word.lower() for text in plain for word in BRITISH.findall(text)}
    assert found - ALIKE == set()


KITCHEN = {
    "kitchen.yaml": "name: Invented kitchen\ncurrency: USD\nlocale: en_US\nloaded wage: 20.00/h\n",
    "cuts/flank.yaml": "species: beef\nprice: 12.00/kg\nallergens: none\n",
    "cooks/flank-pan.yaml": (
        "cut: flank\nhow: pan\nfor: 10 min\nform: tenderized\nload: 2.5 kg\nyield: 80 %\n"
    ),
    "plates/flank.yaml": "menu: mains\ncook: flank-pan\nportion: 150 g\nprice: 30.00\n",
}


@pytest.mark.parametrize(("locale", "labour"), [("en_US", "labor"), ("en_CA", "labour")])
def test_a_kitchen_there_reads_its_own_spelling(locale: str, labour: str, tmp_path: Path) -> None:
    """A word of a file is read in either spelling."""
    kitchen = KITCHEN["kitchen.yaml"].replace("en_US", locale)
    root = write(tmp_path / "kitchen", {**KITCHEN, "kitchen.yaml": kitchen})
    assert costed_from(root).content.cooks["flank-pan"].form == ("tenderised",)
    build(root, tmp_path / "site", None, date(2026, 10, 1))
    page = (tmp_path / "site" / "plates" / "flank.html").read_text(encoding="utf-8")
    assert labour in page.lower()
    assert {"labor": "labour", "labour": "labor"}[labour] + " " not in page.lower()


@pytest.mark.parametrize(
    ("written", "message", "hint"),
    [
        ("[intact, tenderized]", "a piece marked intact can't also be tenderized", "keep one"),
        ("bladed", '"bladed" is not known here', 'did you mean "tenderized"?'),
        ("soft", '"soft" is not known here', "tenderized, stuffed"),
        ("[]", "this list is empty", "tenderized, stuffed"),
    ],
)
def test_words_of_a_file_are_named_in_its_spelling(
    written: str, message: str, hint: str, tmp_path: Path
) -> None:
    cook = KITCHEN["cooks/flank-pan.yaml"].replace("tenderized", written)
    root = write(tmp_path, {**KITCHEN, "cooks/flank-pan.yaml": cook})
    _, (problem,) = compute_content(root, None, date(2026, 10, 1))
    assert message in problem.message
    assert hint in problem.hint
