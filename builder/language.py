"""The language that the builder's own words are written in.

Sentences are whole templates in English, which is the language of the source; a catalogue in
`builder/locale/` holds each of them in another one. What a kitchen writes itself, keys of its
files and columns of its tables are never translated. A text that a catalogue lacks stays English;
a test holds every catalogue to be complete.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache, reduce
from io import BytesIO
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from builder.elision import elided
from builder.rounding import Halved
from builder.spelling import american, is_american

LOCALES = Path(__file__).parent / "locale"
SOURCE_LANGUAGE = "en"
# The source's language as it is spelled in the United States.
AMERICAN = "en_US"
DOMAIN = "shankbook"
_NONE: Mapping[str, tuple[str, ...]] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Catalogue:
    """A language's texts by the English ones, each with as many forms as it has numbers."""

    language: str
    texts: Mapping[str, tuple[str, ...]] = field(default_factory=lambda: _NONE)
    is_american: bool = False

    def form(self, forms: tuple[str, ...], count: float) -> str:
        """Which of a text's forms goes with a count, by the language's rule (Unicode CLDR)."""
        return forms[0 if _plural(self.language)(abs(count)) == "one" else -1]


@cache
def _plural(language: str) -> Callable[[float], str]:
    # Imported late, as below: the command's help waits for no library.
    from babel import Locale  # noqa: PLC0415

    return Locale(language).plural_form


ENGLISH = Catalogue(SOURCE_LANGUAGE)
AMERICAN_ENGLISH = Catalogue(SOURCE_LANGUAGE, is_american=True)
_current: ContextVar[Catalogue] = ContextVar("catalogue", default=ENGLISH)


class Deferred(str):
    """A text of the builder's own that is made at import, and translated where it is written.

    Put into another text, by an f-string or `format`, it is written in the language of the pages;
    joined to one, it is not.
    """

    __slots__ = ()

    def __format__(self, spec: str) -> str:
        return format(tr(str(self)), spec)


def languages() -> tuple[str, ...]:
    """The languages that pages can be written in, by their ISO 639 codes."""
    return (
        SOURCE_LANGUAGE,
        *sorted(path.parent.parent.name for path in LOCALES.glob(f"*/*/{DOMAIN}.po")),
    )


def language_of(language: str, locale: str = "") -> str:
    """The language that a kitchen names, else that of its locale, else English.

    >>> language_of("", "en_CA"), language_of("en", "fr_CA"), language_of("", "xx")
    ('en', 'en', 'en')
    """
    wanted = (language or locale.replace("-", "_").partition("_")[0]).strip().lower()
    return wanted if wanted in languages() else SOURCE_LANGUAGE


def words_of(language: str, locale: str = "") -> str:
    """The same, or American English where the locale's is spelled so: what `written_in` takes.

    >>> words_of("", "en_US"), words_of("en", "en_CA"), words_of("fr", "en_US")
    ('en_US', 'en', 'fr')
    """
    found = language_of(language, locale)
    return AMERICAN if found == SOURCE_LANGUAGE and is_american(locale) else found


_NO_LANGUAGE = ("C", "POSIX")


def language_of_environment(environment: Mapping[str, str]) -> str:
    """The language that a command's user reads, where no kitchen says another.

    `LC_ALL`, `LC_MESSAGES` and `LANG` name a locale, the first that is set; with one, the list
    `LANGUAGE` goes before it, as GNU gettext's manual has it [from memory]. Else English.

    >>> language_of_environment({"LANG": "fr_CA.UTF-8"}), language_of_environment({"LANG": "C"})
    ('fr', 'en')
    """
    named = (environment.get(name, "") for name in ("LC_ALL", "LC_MESSAGES", "LANG"))
    locale = next(filter(None, named), "")
    if locale.partition(".")[0] in _NO_LANGUAGE:
        return SOURCE_LANGUAGE
    for wanted in (*environment.get("LANGUAGE", "").split(":"), locale):
        language = re.split("[_.@-]", wanted)[0].lower()
        if language in languages():
            return language
    return SOURCE_LANGUAGE


def catalogue_bytes(language: str) -> bytes:
    """A language's catalogue as it lies in its file; empty for the language of the source."""
    if language not in languages() or language == SOURCE_LANGUAGE:
        return b""
    return (LOCALES / language / "LC_MESSAGES" / f"{DOMAIN}.po").read_bytes()


_ENGLISH = {SOURCE_LANGUAGE: ENGLISH, AMERICAN: AMERICAN_ENGLISH}


@cache
def catalogue(language: str) -> Catalogue:
    """The texts of a language; raises KeyError for one that there is no catalogue of."""
    if language in _ENGLISH:
        return _ENGLISH[language]
    if language not in languages():
        raise KeyError(language)
    from babel.messages.pofile import read_po  # noqa: PLC0415

    found = read_po(BytesIO(catalogue_bytes(language)), locale=language)
    texts: dict[str, tuple[str, ...]] = {}
    for message in found:
        one, *_ = message.id if isinstance(message.id, tuple) else (message.id,)
        forms = message.string if isinstance(message.string, tuple) else (message.string,)
        if one and all(forms):
            texts[str(one)] = tuple(map(str, forms))
    return Catalogue(language, texts)


@contextmanager
def written_in(language: str) -> Iterator[None]:
    """Write in the words of a language (`words_of`); outside stays what was written in before."""
    before = _current.set(catalogue(language))
    try:
        yield
    finally:
        _current.reset(before)


def current_language() -> str:
    """The language that is written in, by its ISO 639 code."""
    return _current.get().language


def current_words() -> str:
    """The words that are written in: the language, or American English. `written_in` takes it."""
    current = _current.get()
    return AMERICAN if current.is_american else current.language


def spelled(text: str) -> str:
    """A word of the files, which are in the source's English, spelled as the pages are."""
    return american(text) if _current.get().is_american else text


def tr(template: str, /, **values: object) -> str:
    """The template in the language of the pages, with its values put in.

    A value that is a text of the builder's own (`Deferred`) is translated, too.

    >>> tr("{plate} saves {money} a plate", plate="Chuck", money="$3.20")
    'Chuck saves $3.20 a plate'
    """
    current = _current.get()
    if not current.texts:
        text = american(template) if current.is_american else template
        return text.format(**_halved(values)) if values else str(text)
    text = current.texts[template][0] if template in current.texts else template
    return _filled(text, values, current) if values else str(text)


def _filled(text: str, values: Mapping[str, object], current: Catalogue) -> str:
    if not current.texts:
        return text.format(**_halved(values))
    said = {name: written(value) for name, value in values.items()}
    return elided(text, said, current.language).format(**_halved(said))


def _halved(values: Mapping[str, object]) -> Mapping[str, object]:
    return {n: Halved(x) if isinstance(x, float) else x for n, x in values.items()}


def ntr(one: str, many: str, count: int, /, **values: object) -> str:
    """The template for as many things as there are, with the count and its values put in.

    >>> ntr("{count} cut", "{count} cuts", 1), ntr("{count} cut", "{count} cuts", 3)
    ('1 cut', '3 cuts')
    """
    current = _current.get()
    form = current.form(current.texts.get(one, (one, many)), count)
    form = american(form) if current.is_american else form
    return _filled(form, {"count": count, **values}, current)


def either(words: Iterable[str]) -> str:
    """Join words of which one is meant, as a sentence of the language does.

    >>> either(["oz", "lb", "kg"]), either(["oz", "lb"]), either(["oz"]), either([])
    ('oz, lb or kg', 'oz or lb', 'oz', '')
    """
    *others, last = [str(written(word)) for word in words] or [""]
    return tr("{words} or {last}", words=", ".join(others), last=last) if others else last


def labelled(label: str, words: str) -> str:
    """A label and what belongs to it, joined by the language's colon.

    >>> labelled("Chuck roll", "as purchased")
    'Chuck roll: as purchased'
    """
    return tr("{label}: {words}", label=label, words=words)


def clauses(parts: Iterable[str]) -> str:
    """Join what belongs to one sentence by the language's semicolon; what is empty is left out.

    A question ends its own sentence, so that what follows begins another.

    >>> clauses(["may be a slip", "", "compare the two"]), clauses([""])
    ('may be a slip; compare the two', '')
    >>> clauses(["did you mean 3?", "look at the price"])
    'did you mean 3? Look at the price'
    """
    own = [str(written(part)) for part in parts if part] or [""]
    return reduce(_with_clause, own)


def _with_clause(before: str, part: str) -> str:
    if before.endswith("?"):
        return f"{before} {part[:1].upper()}{part[1:]}"
    return tr("{before}; {part}", before=before, part=part)


T = TypeVar("T")
# Made once: every cell of every page is asked about.
_OWN = (Deferred, StrEnum)


def written(text: T) -> T | str:
    """What is printed: a text of the builder's own in the language of the pages, all else as it is.

    The values of enumerations are such texts.
    """
    return tr(str(text)) if isinstance(text, _OWN) else text
