"""English as it is spelled in the United States, for kitchens whose locale is one of those places.

The source's own English is spelled as in Britain. What is spelled otherwise over there is in one
table, by the beginning of the word; words of the trade that differ altogether are not.
"""

from __future__ import annotations

import re
from functools import lru_cache

# Where English is spelled as in the United States [from memory].
_TERRITORIES = ("US", "AS", "FM", "GU", "LR", "MH", "MP", "PH", "PR", "PW", "UM", "VI")
SPELLED = {
    "aluminium": "aluminum", "behaviour": "behavior", "cancell": "cancel", "centre": "center",
    "centring": "centering", "colour": "color", "defence": "defense", "favour": "favor",
    "fibre": "fiber", "flavour": "flavor", "grey": "gray", "honour": "honor", "judgement":
    "judgment", "labell": "label", "labour": "labor", "levell": "level", "licence": "license",
    "litre": "liter", "metre": "meter", "modell": "model", "mould": "mold", "neighbour":
    "neighbor", "odour": "odor", "offence": "offense", "plough": "plow", "programme": "program",
    "savour": "savor", "sceptic": "skeptic", "totall": "total", "travell": "travel",
    "vapour": "vapor", "yoghurt": "yogurt",
}  # fmt: skip
# Verbs and what is made of them: written -ise in the source.
_IN_Z = (
    "caramelis", "characteris", "crystallis", "emulsis", "equalis", "generalis", "itemis",
    "maximis", "minimis", "normalis", "optimis", "organis", "pasteuris", "randomis", "realis",
    "recognis", "specialis", "stabilis", "standardis", "sterilis", "summaris", "tenderis", "utilis",
    "vaporis", "analys(?=e[ds]?\\b|ing)",
)  # fmt: skip
# Words that have no letter to lose: "totally" and the like.
_WHOLE = r"(?!(?:total|level|model|label)ly\b)"
_PLACEHOLDER = r"\{\w*(?:![rsa])?(?::[^{} ]*)?\}"
_WORD = re.compile(
    rf"(?P<kept>{_PLACEHOLDER})"
    rf"|\b{_WHOLE}(?P<before>(?:milli|centi|kilo)?)(?P<word>{'|'.join(SPELLED)}|{'|'.join(_IN_Z)})",
    re.IGNORECASE,
)
# Keys and words that a file is written with stay as they are in every language.
_FILE_WORDS = ("litre and quart", "groups of figures, any of")


def is_american(locale: str) -> bool:
    """Whether a locale's English is spelled as in the United States.

    >>> is_american("en_US"), is_american("en-PH"), is_american("en_CA"), is_american("fr_US")
    (True, True, False, False)
    """
    language, _, territory = locale.replace("-", "_").partition("_")
    return language.lower() == "en" and territory.rpartition("_")[2].upper() in _TERRITORIES


@lru_cache(maxsize=20_000)
def american(text: str) -> str:
    """A text of the source in American spelling; names of its values stay as they are.

    >>> american("The {licence} licence: grey, tenderised, labelled by the litre")
    'The {licence} license: gray, tenderized, labeled by the liter'
    >>> american("Colour: 3 millilitres, analysed; an analysis")
    'Color: 3 milliliters, analyzed; an analysis'
    """
    return text if text.startswith(_FILE_WORDS) else _WORD.sub(_spelled, text)


def _spelled(found: re.Match[str]) -> str:
    if found["kept"]:
        return found["kept"]
    word = found["word"]
    other = SPELLED.get(word.lower()) or f"{word[:-1].lower()}z"
    return found["before"] + (other.capitalize() if word[0].isupper() else other)
