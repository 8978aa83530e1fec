"""Other words that people write for a key or a column, where the spelling leads nowhere."""

from __future__ import annotations

from collections.abc import Collection

from builder.language import tr

# Each word with the keys that it may stand for: the first that is known where it is written.
OTHER_WORDS = {
    "date": ("day", "as of"),
    "weekday": ("day",),
    "day": ("date",),
    "time": ("for", "within", "at"),
    "start": ("at",),
    "duration": ("for", "within"),
    "temperature": ("at", "to"),
    "temp": ("at", "to"),
    "method": ("how",),
    "way": ("how",),
    "machine": ("equipment",),
    "device": ("equipment",),
    "size": ("thickness", "portion"),
    "diameter": ("thickness",),
    "animal": ("species",),
    "meat": ("species", "cut"),
    "labour": ("hands-on", "hands on", "loaded wage"),
    "labor": ("hands-on", "hands on", "loaded wage"),
    "work": ("hands-on", "hands on"),
    "wage": ("loaded wage",),
    "title": ("name",),
    "label": ("name",),
    "comment": ("note",),
    "remark": ("note",),
    "cost": ("price",),
    "amount": ("price",),
    "product": ("item",),
    "ingredient": ("item",),
    "article": ("item",),
    "premium": ("benchmark",),
    "panel": ("tasters",),
    "vendor": ("supplier",),
    "shop": ("supplier",),
}


def meant_by(word: str, known: Collection[str]) -> str:
    """The known key that another word for it stands for, or an empty string.

    >>> meant_by("cost", ["item", "price"])
    'price'
    """
    return next((name for name in OTHER_WORDS.get(word.lower(), ()) if name in known), "")


def another_word(word: str, known: Collection[str]) -> str:
    """Suggest the known key that another word for it stands for, or return an empty string.

    >>> another_word("Date", ["day", "at"]), another_word("date", ["loss"])
    ('did you mean "day"?', '')
    """
    meant = meant_by(word, known)
    return tr('did you mean "{meant}"?', meant=meant) if meant else ""
