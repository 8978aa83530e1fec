"""Who decided something: initials only, since a site is no place for people's names."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import PlainValidator

from builder.language import tr
from builder.reading.tree import Text
from builder.records.fields import refuse, scalar, schema

MOST = 4
_WRITTEN = re.compile(r"[^\W\d_](?:[. -]{0,2}[^\W\d_]){0,3}\.?")
_WORD = re.compile(r"[^\W\d_]+")


def _initials(node: object) -> Text:
    """Up to four capitals, such as JB or J.B., without their points; a name is refused."""
    text = scalar(node, tr("initials, for example JB"))
    words = _WORD.findall(text)
    letters = "".join(words)
    one_each = len(words) == 1 or all(len(word) == 1 for word in words)
    if _WRITTEN.fullmatch(text) and one_each and letters.isupper():
        return Text(letters, text.file, text.line, text.column)
    raise refuse(*_not_initials(text, words), text.place)


def _not_initials(text: str, words: list[str]) -> tuple[str, str]:
    """Why it is refused, and the initials that were meant."""
    small = len(words) == 1 and len(words[0]) < MOST and words[0].islower()
    meant = (words[0] if small else "".join(word[0] for word in words)).upper()
    hint = (
        tr("write {meant}", meant=meant)
        if 1 <= len(meant) <= MOST
        else tr("{most} capitals at the most, as in JB", most=MOST)
    )
    if small:
        return tr('"{text}" is in small letters', text=text), hint
    return tr('"{text}" is not initials; people\'s names do not belong on a site', text=text), hint


Initials = Annotated[Text, PlainValidator(_initials), schema("JB", "initials, 4 at the most")]
