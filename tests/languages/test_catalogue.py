"""Every text of the builder is in every catalogue, with the values that it takes."""

from __future__ import annotations

from collections import Counter
from string import Formatter

import pytest
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
from tests.catalogue import collected

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
