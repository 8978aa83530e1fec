"""A docstring as prose: paragraphs and labelled lines, without what only programmers read."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator

from markupsafe import Markup, escape

from builder.display.marks import in_style
from builder.display.style import Style
from builder.language import Deferred, tr
from builder.pages.components import Prose

_BLANK = re.compile(r"\n\s*\n")
# What a docstring sets apart; any other words before a colon are part of a sentence.
_LABELS = (
    Deferred("Formula"),
    Deferred("Parameters"),
    Deferred("Returns"),
    Deferred("Valid range"),
    Deferred("Errors"),
    Deferred("Departs from the source"),
    Deferred("Departure"),
    Deferred("Draws"),
)
# What a page calls a label, where the code's own word is a programmer's.
_SHOWN = {"Parameters": Deferred("What goes in"), "Returns": Deferred("What comes out")}
# What the code refuses is no cook's business.
_UNSAID = "Errors:"
_LABEL = re.compile(rf"({'|'.join(_LABELS)}):(?=\s)")
_CODE = re.compile(r"``?([^`\n]+)``?")


def summary(doc: str, style: Style) -> str:
    """The first paragraph of a docstring on one line, with the style's decimal mark.

    >>> summary('One sentence\\n    of 0.5 kg.\\n\\n    More.', Style.of("de_DE", "EUR"))
    'One sentence of 0,5 kg.'
    """
    return in_style(tr(" ".join(_blocks(doc)[0].split())), style) if doc.strip() else ""


def details(doc: str, style: Style) -> Prose | None:
    """What follows the first paragraph, with the style's decimal mark, or None."""
    texts = (in_style(tr(text), style) for text in list(pieces(doc))[1:])
    html = Markup("\n").join(map(_paragraph, texts))
    return Prose(html) if html else None


def pieces(doc: str) -> Iterator[str]:
    """The texts of a docstring that a page prints in the language of the pages."""
    first, *rest = _blocks(doc)
    yield " ".join(first.split())
    for block in rest:
        if not block.startswith((">>>", " ", "\t")):
            yield from (_plain(text) for text in _labelled(block) if not text.startswith(_UNSAID))


def _blocks(doc: str) -> list[str]:
    return _BLANK.split(inspect.cleandoc(doc).strip())


def _plain(text: str) -> str:
    """A text without the unit of a bare number.

    >>> _plain("tasters: [1], 1 or more. share [1], 0 to 1")
    'tasters: 1 or more. share, 0 to 1'
    """
    return text.replace(": [1], ", ": ").replace(" [1]", "")


def _labelled(block: str) -> list[str]:
    """Cut a paragraph where a line starts with a label such as "Formula:"."""
    parts: list[str] = []
    for line in block.splitlines():
        if parts and not _LABEL.match(line):
            parts[-1] += f" {line.strip()}"
        else:
            parts.append(line.strip())
    return parts


def _paragraph(text: str) -> Markup:
    label = _LABEL.match(text)
    head = (
        Markup("<strong>{}</strong> ").format(tr(_SHOWN.get(label[1], label[1])))
        if label
        else Markup("")
    )
    body = str(escape(text[label.end() :].strip() if label else text))
    return Markup("<p>{}{}</p>").format(head, Markup(_CODE.sub(r"<code>\1</code>", body)))
