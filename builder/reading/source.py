"""One file's text: decoded or refused, and the problems found in it."""

from __future__ import annotations

import codecs
import re
import unicodedata
from dataclasses import dataclass, field
from itertools import islice

from builder.language import Deferred, tr
from builder.problems import Place, Problem
from builder.reading.limits import LIMITS, Limits

BREAK = re.compile(r"\r\n|\n|\r")

# UTF-32 before UTF-16: the little-endian marks begin with the same two bytes.
_OTHER_MARKS = {
    codecs.BOM_UTF32_LE: "UTF-32",
    codecs.BOM_UTF32_BE: "UTF-32",
    codecs.BOM_UTF16_LE: "UTF-16",
    codecs.BOM_UTF16_BE: "UTF-16",
}
# Controls, the line breaks that editors do not count (U+0085, U+2028, U+2029), and characters
# that change what a reader sees without being seen.
_UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b\u2028-\u202e\u2060\u2066-\u2069\ufeff\ufffe\uffff]"
)
# One may slip in with something pasted; more are a picture, an archive or a spreadsheet.
_CONTROLS = re.compile("[\x00-\x08\x0e-\x1a\x1c-\x1f]")
FEW_CONTROLS = 2
_SAVE_AS = Deferred("save the file as UTF-8")
_SHOWN = 72


@dataclass(slots=True)
class Source:
    """A file's relative name, its text once decoded, and its problems, capped."""

    file: str
    limits: Limits = LIMITS
    text: str = ""
    problems: list[Problem] = field(default_factory=list)
    _lines: list[str] = field(default_factory=list)

    @property
    def lines(self) -> list[str]:
        """The text by lines as editors count them."""
        if not self._lines:
            self._lines = BREAK.split(self.text)
        return self._lines

    def line(self, number: int) -> str:
        """Line `number`, counted from 1; empty past either end."""
        return self.lines[number - 1] if 1 <= number <= len(self.lines) else ""

    def refuse(self, line: int, column: int, message: str, hint: str = "") -> None:
        """Add a problem, or, at the cap, one last word that the rest is passed over."""
        cap = self.limits.problems
        if len(self.problems) < cap:
            self.problems.append(Problem(Place(self.file, line, column), message, hint))
        elif len(self.problems) == cap:
            message = tr("more problems than are listed here")
            self.problems.append(Problem(Place(self.file), message, stands_for_more=True))

    def refuse_showing(self, line: int, column: int, message: str, hint: str = "") -> None:
        """Add a problem whose hint quotes the line with a mark under the column."""
        self.refuse(
            line, column, message, f"{hint}\n{excerpt(self.line(line), column)}".lstrip("\n")
        )

    def decode(self, data: bytes, most: int) -> bool:
        """Take `data` [B, at most `most`] as this file's text; False with a problem if refused."""
        if len(data) > most:
            self.refuse(0, 0, too_large(len(data), most), tr("split it into several files"))
        elif name := _other_encoding(data):
            self.refuse(0, 0, tr("this file is {name}, not UTF-8", name=name), tr(_SAVE_AS))
        else:
            self._decode_utf8(data.removeprefix(codecs.BOM_UTF8))
        return not self.problems

    def _decode_utf8(self, data: bytes) -> None:
        try:
            self.text = data.decode("utf-8")
        except UnicodeDecodeError as error:
            self._refuse_byte(data, error.start)
        else:
            controls = [*islice(_CONTROLS.finditer(self.text), FEW_CONTROLS + 1)]
            if len(controls) > FEW_CONTROLS:
                message = tr("this file is no plain text")
                self.refuse(*_position(self.text[: controls[0].start()]), message, tr(_SAVE_AS))
                return
            for found in _UNSEEN.finditer(self.text):
                self._refuse_unseen(found.start())
                if len(self.problems) > self.limits.problems:
                    break

    def _refuse_byte(self, data: bytes, start: int) -> None:
        byte = data[start : start + 1]
        line, column = _position(data[:start].decode("utf-8"))
        letter = byte.decode("cp1252", "replace")
        guess = (
            tr('; in Windows-1252 it would be "{letter}"', letter=letter)
            if letter.isprintable()
            else ""
        )
        message = tr(
            "not UTF-8: byte 0x{hex}, number {start} of the file",
            hex=byte.hex().upper(),
            start=start + 1,
        )
        self.refuse(line, column, message, tr(_SAVE_AS) + guess)

    def _refuse_unseen(self, start: int) -> None:
        character = self.text[start]
        line, column = _position(self.text[:start])
        self.refuse_showing(line, column, unseen(character), "delete it")


def first_unseen(text: str) -> str:
    """The first control or invisible character of `text`, or an empty string."""
    found = _UNSEEN.search(text)
    return found.group() if found else ""


def unseen(character: str) -> str:
    """Name a control or invisible character.

    >>> unseen("\\u200b")
    'an invisible character: U+200B ZERO WIDTH SPACE'
    """
    name = unicodedata.name(character, "control character")
    return tr("an invisible character: U+{ord:04X} {name}", ord=ord(character), name=name)


def too_large(size: int, most: int) -> str:
    """Say that a file of `size` [B] is over the cap `most` [B].

    >>> too_large(300_000, 262_144)
    'this file has 300,000 bytes; at most 262,144 are read'
    """
    return tr("this file has {size:,} bytes; at most {most:,} are read", size=size, most=most)


def short(text: str) -> str:
    """A text short enough to stand in a message.

    >>> short("x" * 50) == "x" * 39 + "…"
    True
    """
    return text if len(text) <= 40 else f"{text[:39]}…"


def too_deep(most: int) -> str:
    """Say that values are nested beyond the cap of `most` levels.

    >>> too_deep(20)
    'nested deeper than 20 levels'
    """
    return tr("nested deeper than {most} levels", most=most)


def excerpt(line: str, column: int) -> str:
    """Quote the part of a line around a column, with a caret under it.

    >>> print(excerpt("price:13.60/kg", 7))
        price:13.60/kg
              ^
    """
    start = max(0, column - _SHOWN // 2) if len(line) > _SHOWN else 0
    shown = "".join(_visible(c) for c in line[start : start + _SHOWN])
    return f"    {shown}\n    {' ' * (column - 1 - start)}^"


def _visible(character: str) -> str:
    if character == "\t":
        return "→"
    return character if character.isprintable() else "·"


def _position(before: str) -> tuple[int, int]:
    """Line and column, from 1, of the character that follows `before`."""
    breaks = list(BREAK.finditer(before))
    return len(breaks) + 1, len(before) - (breaks[-1].end() if breaks else 0) + 1


def _other_encoding(data: bytes) -> str:
    """Name UTF-16 or UTF-32 by its mark, or by every other byte being zero."""
    for mark, name in _OTHER_MARKS.items():
        if data.startswith(mark):
            return name
    head = data[:2048]
    halves = head[0::2], head[1::2]
    return "UTF-16" if any(h.count(0) > len(h) / 3 for h in halves) else ""
