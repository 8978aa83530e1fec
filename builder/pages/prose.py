"""Markdown of notes and free pages as HTML: links, pictures and tables as the site has them."""

from __future__ import annotations

from collections.abc import Sequence

from markdown_it.token import Token
from markupsafe import Markup, escape

from builder.language import tr
from builder.pages.parts import picture_path
from builder.pages.view import View
from builder.reading.folder import ContentFile
from builder.reading.pictures import picture_of
from builder.records.notes import MARKDOWN, href_of, inner, is_web, picture_file, tokens_of

_TABLE = '<div class="scroll" role="group" aria-label="{}" tabindex="0">\n<table>\n'


def tokens_shown(view: View, written: str, level: int) -> list[Token]:
    """The Markdown of a note, its largest heading of a level, ready to be printed."""
    content = view.costed.content
    tokens = tokens_of(view.where.links, written)
    for link in inner(tokens, "link_open"):
        # A build with any other address publishes nothing; here it could only be an attack.
        if not is_web(href_of(link)) and not href_of(link).startswith("~/"):
            link.attrSet("href", "#")
        elif is_web(href_of(link)):
            link.attrSet("rel", "noopener")
    for image in inner(tokens, "image"):
        if file := picture_file(content, href_of(image)):
            _show(image, file)
    _set_headings(tokens, level)
    for token in tokens:
        _set_table(token)
    return tokens


def html_of(tokens: Sequence[Token]) -> Markup:
    """The HTML of tokens that are ready to be printed; other HTML in them is text."""
    return Markup(MARKDOWN.renderer.render(tokens, MARKDOWN.options, {}))


def _show(image: Token, file: ContentFile) -> None:
    """Let a note's picture be the one in the site, its room kept while it loads."""
    picture = picture_of(file)
    image.attrs = {
        "src": f"~/{picture_path(file)}",
        "alt": "",  # filled in from the token's text
        "width": picture.width,
        "height": picture.height,
        "loading": "lazy",
    }


def _set_headings(tokens: Sequence[Token], level: int) -> None:
    """Let headings go on from those around them, without a step left out."""
    found = [token for token in tokens if token.type.startswith("heading_")]
    used = sorted({token.tag for token in found})
    for token in found:
        token.tag = f"h{min(level + used.index(token.tag), 6)}"


def _set_table(token: Token) -> None:
    """A table that scrolls where it has no room, its columns set by the site's own styles."""
    if token.type in {"th_open", "td_open"}:
        right = "right" in str(token.attrs.pop("style", ""))
        token.attrs |= {"class": "num"} if right else {}
        token.attrs |= {"scope": "col"} if token.tag == "th" else {}
    elif token.type in {"table_open", "table_close"}:
        opens = token.nesting == 1
        token.type, token.content = (
            "html_block",
            _TABLE.format(escape(tr("Table"))) if opens else "</table>\n</div>\n",
        )
