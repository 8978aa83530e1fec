"""The one error that reading a written value raises."""

from __future__ import annotations

from builder.language import clauses, tr

LONGEST = 80
# An editor's quotation marks, which YAML takes for a part of the value.
_CURLY = "“”„‟‘’‚‛«»‹›"


class QuantityError(ValueError):
    """A written value that has no single clear meaning, with what would have one.

    `own_word`: its unit is not known, nor a slip of one that is; it may be a kitchen's word for
    a piece.

    >>> str(QuantityError('"12" has no unit', "units that fit: kg, g"))
    '"12" has no unit; units that fit: kg, g'
    """

    def __init__(self, message: str, hint: str = "", *, own_word: bool = False) -> None:
        super().__init__(message, hint)
        self.message = message
        self.hint = hint
        self.own_word = own_word

    def __str__(self) -> str:
        return clauses((self.message, self.hint))


def quoted(text: str) -> str:
    """Put a value in quotation marks for a message, cut short when it is long.

    >>> quoted("1,9 kg")
    '"1,9 kg"'
    """
    return f'"{text}"' if len(text) <= LONGEST else f'"{text[:40]}…"'


def one_short_line(text: str) -> str:
    """Strip a written value and refuse one that is empty or too long to be a single value."""
    stripped = text.strip()
    if not stripped:
        raise QuantityError(tr("nothing is written here"))
    if stripped[0] in _CURLY:
        raise QuantityError(
            tr("{stripped} stands in quotation marks", stripped=quoted(stripped)), "take them out"
        )
    if len(stripped) > LONGEST:
        raise QuantityError(tr("{stripped} is too long for one value", stripped=quoted(stripped)))
    return stripped
