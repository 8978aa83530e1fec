"""Long sentences of the checks as several short ones, for pages."""

from __future__ import annotations

import re

from builder.pages.values import capital

# Some languages have a space before these signs.
AFTER_RULE = re.compile(r"(?<=\))\s?: ")
# What is in brackets is one thought with what it follows.
_AFTER_CLAUSE = re.compile(r"\s?; (?![^(]*\))")


def in_short(said: str) -> list[str]:
    """A long sentence as what fails, by which clause of the rules, and the rest in short ones.

    >>> in_short("The plan does not meet A (3-1(B)): it stays cold; the authority decides.")
    ['The plan does not meet A (3-1(B)).', 'It stays cold. The authority decides.']
    >>> in_short("It cools slowly (at once; then on ice); the authority decides.")
    ['It cools slowly (at once; then on ice).', 'The authority decides.']
    """
    first, *rest = AFTER_RULE.split(said, 1)
    later = _AFTER_CLAUSE.split(rest[0] if rest else said)
    if not rest:
        first, *later = later
    return [f"{first}.", ". ".join(map(capital, later))] if later else [said]
