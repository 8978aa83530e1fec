"""A first kitchen, and first records for it: few files, every one an example to write over."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from babel import Locale
from babel.core import UnknownLocaleError
from babel.numbers import get_currency_precision, is_currency

from builder.cooking.rule_library import rule_sets
from builder.language import (
    SOURCE_LANGUAGE,
    current_language,
    language_of,
    languages,
    tr,
    words_of,
    written_in,
)
from builder.problems import ShankbookError, did_you_mean
from builder.records.hint_examples import example_in_words
from builder.refusals import refusal
from builder.starter.schemas import header, write_schemas

METRIC, CUSTOMARY = "metric", "us customary"
# Where a currency is named and no locale: a country that counts in it, by the language of the
# pages; else numbers are written as the language has them.
_COUNTRIES = {
    "en": {"AUD": "AU", "CAD": "CA", "EUR": "IE", "GBP": "GB", "NZD": "NZ", "USD": "US"},
    "fr": {"CAD": "CA", "CHF": "CH", "EUR": "FR"},
}
_FOLDERS = {METRIC: "kitchen", CUSTOMARY: "customary"}
# Money in the first kitchen has two places and no unit behind a space, unlike its weights.
_MONEY = re.compile(r"(?<![\d.])(\d+)\.(\d\d)(?=/|[},\]\s]|$)(?! ?(?:kg|lb|kW)\b)")


class ChoiceError(ShankbookError):
    """A choice on the command line that can't be."""


@dataclass(frozen=True, slots=True)
class Choices:
    """What a new kitchen counts in; what is not chosen follows from the rest."""

    units: str = METRIC
    currency: str = ""
    locale: str = ""
    authority: str = ""
    language: str = ""

    @property
    def words(self) -> str:
        """The language, by the locale where none is chosen; else the one in use."""
        if self.language or self.locale:
            return language_of(self.language, self.locale)
        return current_language()

    @property
    def money(self) -> str:
        """The currency, by the units where none is chosen."""
        return self.currency or ("USD" if self.units == CUSTOMARY else "CAD")

    @property
    def numbers(self) -> str:
        """The locale, by language and currency where none is chosen."""
        country = _COUNTRIES.get(self.words, {}).get(self.money, "")
        return self.locale or "_".join(filter(None, (self.words, country)))

    def check(self) -> None:
        """Raise ChoiceError for a currency, locale, language or rule set that is not known."""
        if self.language and self.language.lower() not in languages():
            raise ChoiceError(
                tr(
                    'there are no pages in "{language}"; known: {names}',
                    language=self.language,
                    names=", ".join(languages()),
                )
            )
        if self.currency and not is_currency(self.currency):
            raise ChoiceError(
                tr('"{currency}" is no currency; wanted: an ISO 4217 code', currency=self.currency)
            )
        known = rule_sets()
        if self.authority and self.authority not in known:
            hint = did_you_mean(self.authority, known) or tr(
                "known: {names}", names=", ".join(known)
            )
            raise ChoiceError(
                tr('there is no rule set "{name}"; {hint}', name=self.authority, hint=hint)
            )
        try:
            Locale.parse(self.numbers)
        except (UnknownLocaleError, ValueError):
            raise ChoiceError(
                tr('"{locale}" is no locale; wanted: one such as en_CA', locale=self.locale)
            ) from None


def start(folder: Path, choices: Choices | None = None) -> list[Path]:
    """Write the first kitchen into a folder that is missing or empty; return its files.

    Raises ChoiceError, or ShankbookError where the folder holds something, or can't be written.
    """
    choices = choices or Choices()
    choices.check()
    try:
        if folder.exists() and any(folder.iterdir()):
            raise ShankbookError(tr("{folder} is not empty; name a new folder", folder=folder))
        source = files(__name__).joinpath(_FOLDERS[choices.units])
        with written_in(words_of(choices.words, choices.numbers)):
            written = list(
                _write(source, folder, "", lambda text: _in(choices, example_in_words(text)))
            )
            return written + write_schemas(folder)
    except OSError as error:
        raise ShankbookError(
            tr("can't write {path}: {why}", path=folder, why=refusal(error))
        ) from error


def _write(
    source: Traversable, target: Path, folder: str, change: Callable[[str], str]
) -> list[Path]:
    target.mkdir(parents=True, exist_ok=True)
    written: list[Path] = []
    for entry in sorted(source.iterdir(), key=lambda entry: entry.name):
        place = target / entry.name
        if entry.is_dir():
            written += _write(entry, place, entry.name, change)
        elif entry.name.endswith(".yaml"):
            text = change(entry.read_text(encoding="utf-8"))
            place.write_text(header(folder) + text, encoding="utf-8", newline="\n")
            written.append(place)
    return written


def _in(choices: Choices, text: str) -> str:
    """A file of the first kitchen with what was chosen in place of its own."""
    if get_currency_precision(choices.money) == 0:
        text = _MONEY.sub(lambda found: str(int(found[1] + found[2])), text)
    text = re.sub(r"(?m)^currency: \w+$", f"currency: {choices.money}", text)
    text = re.sub(r"(?m)^locale: \w+", f"locale: {choices.numbers}", text)
    if choices.words != SOURCE_LANGUAGE or language_of("", choices.numbers) != choices.words:
        text = re.sub(r"(?m)^(locale: .*)$", rf"\1\nlanguage: {choices.words}", text)
    if choices.authority:
        text = re.sub(r"(?m)^(locale: .*)$", rf"\1\nauthority: {choices.authority}", text)
    return text
