"""Every text of the builder is in every catalogue, with the values that it takes."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, datetime
from string import Formatter

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po

from builder.language import (
    DOMAIN,
    LOCALES,
    SOURCE_LANGUAGE,
    catalogue,
    languages,
    ntr,
    tr,
    written_in,
)
from tests.catalogue import as_file, collected

OTHERS = [language for language in languages() if language != SOURCE_LANGUAGE]


def _values(text: str) -> Counter[str]:
    """The values that a template takes, as it writes them; a text without any may hold braces."""
    found: Counter[str] = Counter()
    for _, name, spec, conversion in Formatter().parse(text):
        if name is not None:
            found[f"{name}!{conversion}:{spec}"] += 1
    return found


@pytest.mark.parametrize("language", OTHERS)
def test_every_text_is_translated(language: str) -> None:
    texts = catalogue(language).texts
    lacks = [
        text for text in collected() if (text if isinstance(text, str) else text[0]) not in texts
    ]
    assert not lacks, f"python -m tests.catalogue, then translate: {lacks[:10]}"


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_takes_the_values_of_its_template(language: str) -> None:
    for text in collected():
        forms = (text,) if isinstance(text, str) else text
        for english, other in zip(forms, catalogue(language).texts[forms[0]], strict=True):
            if "{" in english and _is_template(english):
                assert _values(other).keys() == _values(english).keys(), english


def _is_template(text: str) -> bool:
    """Whether values are put into a text: braces of a file's own YAML have blanks within."""
    try:
        parts = [(name, spec) for _, name, spec, _ in Formatter().parse(text) if name is not None]
    except ValueError:
        return False
    return all(
        (name.isidentifier() or not name) and " " not in (spec or "") for name, spec in parts
    )


@pytest.mark.parametrize("language", OTHERS)
def test_no_text_is_kept_that_the_builder_does_not_say(language: str) -> None:
    path = LOCALES / language / "LC_MESSAGES" / f"{DOMAIN}.po"
    with path.open("rb") as file:
        kept = {message.id for message in read_po(file, locale=language) if message.id}
    assert kept == set(collected())


def test_french_counts_nothing_and_one_alike() -> None:
    """Unicode CLDR, plural rules of French: 0 and 1 are "one" [read]."""
    with written_in("fr"):
        found = [ntr("{count} cut", "{count} cuts", count) for count in (0, 1, 2)]
    assert [words.split()[1] for words in found] == ["pièce", "pièce", "pièces"]


def test_a_text_without_translation_stays_english() -> None:
    with written_in("fr"):
        assert (
            tr("A text that nobody has written, {x}.", x=1) == "A text that nobody has written, 1."
        )


def test_a_catalogue_is_the_same_file_whenever_it_is_written() -> None:
    files = []
    for year in (2025, 2026):
        made = Catalog(locale="fr", creation_date=datetime(year, 1, 2, tzinfo=UTC))
        made.add("one cut", "une pièce")
        files.append(as_file(made))
    assert files[0] == files[1]
    assert b"une pi\xc3\xa8ce" in files[0]
    assert b"Plural-Forms" in files[0]


@pytest.mark.parametrize("language", OTHERS)
def test_a_catalogue_says_nothing_of_its_making(language: str) -> None:
    path = LOCALES / language / "LC_MESSAGES" / f"{DOMAIN}.po"
    header = path.read_bytes().partition(b"\n\n")[0]
    assert b"Language: " in header
    assert not [word for word in (b"Date", b"Babel", b"EMAIL") if word in header]
