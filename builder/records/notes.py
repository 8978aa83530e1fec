"""Notes: their links lead somewhere, their pictures are there; reported at the line of each."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import PurePosixPath
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token

from builder.display.words import listed
from builder.language import tr
from builder.problems import Place, Problem, Severity, nearest
from builder.reading.folder import PICTURES, ContentFile
from builder.reading.pictures import ENDINGS, PictureError, picture_of
from builder.reading.source import BREAK
from builder.reading.tree import Text
from builder.records.base import Record
from builder.records.content import Content
from builder.records.editions import KINDS
from builder.records.free_pages import FreePage
from builder.records.links import Link, Links
from builder.records.step_checks import Stepped, stepped_of
from builder.records.steps import Step


class _AnyLink(MarkdownIt):
    """Markdown whose links are links whatever they lead to, so that a check sees every one."""

    def validateLink(self, url: str) -> bool:  # noqa: N802, ARG002 - the library's names
        return True


Owner = Record | FreePage
"""What a note is part of."""

_LINK = re.compile(r"\[\[([^\[\]\n]*)\]\]")
_BAR = "\x1f"
"""Stands for the bar of [[where|words]] while tables are cut at bars."""
_WEB = re.compile(r"(?:https?://|mailto:)\S", re.IGNORECASE)
# Such an address with its colon, or a stroke, left out.
_MISSED_SIGN = re.compile(r"(https?)[:;]?/{1,2}(?=\w)", re.IGNORECASE)
_ADDRESS = re.compile(r"[a-z0-9-]+(?:\.[a-z0-9-]+)*\.[a-z]{2,}(?:/|$)", re.IGNORECASE)
_ALIKE = 0.8


def _between_brackets(state: StateInline, silent: bool) -> bool:
    """Read a [[link]] where Markdown reads links, so that code stays as it is written."""
    found = _LINK.match(state.src, state.pos, state.posMax)
    if found is None or state.linkLevel > 0:
        return False
    if not silent:
        link = state.env["links"].read(found[1].replace(_BAR, "|"))
        state.env["found"].append((found[0].replace(_BAR, "|"), link))
        _push(state, found[0], link)
    state.pos = found.end()
    return True


def _push(state: StateInline, raw: str, link: Link) -> None:
    target = link.target
    if target is not None and target.there:
        state.push("link_open", "a", 1).attrs = {"href": f"~/{target.path}.html"}
    if target:
        shown = link.words or target.title
    else:
        shown = (link.words or elsewhere) if (elsewhere := state.env["links"].elsewhere) else raw
    state.push("text", "", 0).content = shown
    if target is not None and target.there:
        state.push("link_close", "a", -1)


MARKDOWN = _AnyLink("commonmark", {"html": False}).enable("table")
MARKDOWN.inline.ruler.before("link", "between_brackets", _between_brackets)


def tokens_of(links: Links, written: str) -> list[Token]:
    """The Markdown of a note, its [[links]] made links to the pages of what they name."""
    return _parsed(links, written)[0]


def _parsed(links: Links, written: str) -> tuple[list[Token], list[tuple[str, Link]]]:
    """The tokens of a note, and its [[links]] as they are written."""
    found: list[tuple[str, Link]] = []
    barred = _LINK.sub(lambda link: link[0].replace("|", _BAR), written)
    tokens = MARKDOWN.parse(barred, {"links": links, "found": found})
    for block in tokens:
        for token in (block, *(block.children or ())):
            token.content = token.content.replace(_BAR, "|")
    return tokens, found


def inner(tokens: Iterable[Token], kind: str) -> Iterator[Token]:
    """The tokens of a kind within the text, such as `link_open` or `image`."""
    for block in tokens:
        yield from (token for token in block.children or () if token.type == kind)


def is_web(href: str) -> bool:
    """Whether an address leads to the web or to a letter, so that a page may link to it."""
    return _WEB.match(href) is not None


def notes(content: Content) -> Iterator[tuple[Owner, Text]]:
    """Every note that a page shows, with its record, and every free page."""
    for record in (content.kitchen, *content.records()):
        if written := getattr(record, "note", None):
            yield record, written
    for page in content.pages.values():
        yield page, page.body


def mentions(links: Links) -> dict[str, list[Owner]]:
    """The records and free pages whose note leads to a path, by that path, each once."""
    found: dict[str, dict[str, Owner]] = {}
    for owner, note in notes(links.content):
        for _, link in _linked(links, note):
            if link.target and link.target.path != owner.path:
                found.setdefault(link.target.path, {})[owner.path] = owner
    return {path: list(each.values()) for path, each in found.items()}


def _linked(links: Links, note: str) -> list[tuple[str, Link]]:
    """The [[links]] of a note as they are written."""
    return _parsed(links, note)[1] if "[[" in note else []


def web_links(content: Content) -> set[str]:
    """The addresses outside the site that notes link to."""
    links = Links.of(content)
    hrefs = (href_of(t) for _, note in notes(content) for t in _addresses(links, note))
    return {href for href in hrefs if is_web(href)}


def pictures_in(content: Content) -> Iterator[ContentFile]:
    """The files of the pictures that notes and steps show."""
    links = Links.of(content)
    for _, note in notes(content):
        if "![" in note:
            for token in inner(tokens_of(links, note), "image"):
                if found := picture_file(content, href_of(token)):
                    yield found
    for _, step in steps_of(content):
        if step.picture and (found := picture_file(content, step.picture.file)):
            yield found


def steps_of(content: Content) -> Iterator[tuple[Stepped, Step]]:
    """Every step of a cook, a sub-recipe or a plate, with its record."""
    for record in stepped_of(content):
        yield from ((record, step) for step in record.steps)


def href_of(token: Token) -> str:
    """Where a link leads, or which file a picture is."""
    return str(token.attrGet("href") or token.attrGet("src") or "")


def picture_file(content: Content, address: str) -> ContentFile | None:
    """The file of the content folder that a picture's address names."""
    path = unquote(address)
    return content.files.get(path) if path.startswith(f"{PICTURES}/") else None


def _addresses(links: Links, note: str) -> list[Token]:
    if "](" not in note and "<" not in note and "]:" not in note:
        return []  # as good as every note: no need to parse it
    return list(inner(tokens_of(links, note), "link_open"))


def check_notes(content: Content) -> Iterator[Problem]:
    """Say which links of the records' notes lead nowhere, and which pictures can't be shown."""
    links = Links.of(content)
    for owner, note in notes(content):
        yield from _check_links(links, owner, note)
        yield from _check_addresses(links, owner, note)
    for _, step in steps_of(content):
        if step.picture:
            yield from _check_picture(content, str(step.picture.file), step.picture.file.place)
    yield from _check_unused(content)


def _check_unused(content: Content) -> Iterator[Problem]:
    shown = {file.path for file in pictures_in(content)}
    for path, file in content.files.items():
        if file.folder == PICTURES and path not in shown:
            hint = tr("write ![what it shows]({path}) in one, or delete it", path=path)
            message = tr("no note or step shows this picture")
            owner, needs = content.kitchen.path, ("notes", "steps", *KINDS)
            yield Problem(Place(path), message, hint, Severity.WARNING, owner, needs=needs)


def _check_links(links: Links, owner: Owner, note: Text) -> Iterator[Problem]:
    """Say which [[links]] lead to no page, or may be several."""
    where = _Finder(links.content, owner, note)
    for raw, link in _linked(links, note):
        place = where.place(raw)
        if link.target is None and (link.targets or not links.is_unread(link.written)):
            message, hint = links.problem(link)
            # Where a link leads hangs on the names of all records.
            needs = ("notes", *KINDS)
            yield Problem(place, message, hint, Severity.WARNING, owner.path, needs=needs)


def _check_addresses(links: Links, owner: Owner, note: Text) -> Iterator[Problem]:
    """Say which other links are no addresses, and which pictures can't be shown."""
    where = _Finder(links.content, owner, note)
    for token in _addresses(links, note):
        yield from _check_link(links, token, where)
    where = _Finder(links.content, owner, note)  # pictures are among the links
    for token in inner(tokens_of(links, note), "image") if "![" in note else ():
        written = unquote(href_of(token))
        place = where.place(written)
        if not token.content.strip():
            message = tr("this picture has no words for who can't see it")
            yield Problem(place, message, tr("write ![what it shows]({written})", written=written))
        yield from _check_picture(links.content, written, place)


class _Finder:
    """Finds where in the file a word of a note is; each next one after the last."""

    def __init__(self, content: Content, record: Owner, note: Text) -> None:
        data = content.files[record.file].data
        self.lines = BREAK.split(data.decode("utf-8-sig", "replace"))
        self.note = note.place
        self.line, self.column = note.line, note.column - 1

    def place(self, word: str) -> Place:
        """The place of the next such word; that of the note where it is written otherwise."""
        start = self.column
        for number in range(self.line, len(self.lines) + 1):
            at = self.lines[number - 1].find(word, start)
            if word and at >= 0:
                self.line, self.column = number, at + len(word)
                return Place(self.note.file, number, at + 1)
            start = 0
        return self.note


def _check_link(links: Links, token: Token, where: _Finder) -> Iterator[Problem]:
    href = href_of(token)
    if is_web(href):
        return
    if href.startswith("~/") and href[2:].removesuffix(".html") in links.by_path:
        return
    written = unquote(href)
    place = where.place(written)
    if place == where.note:  # as it is written, with its %28
        place = where.place(href)
    message = tr('"{written}" is no address that a note can link to', written=written)
    yield Problem(place, message, _link_hint(links, written))


def _link_hint(links: Links, written: str) -> str:
    """The record that a path names, the web address that lacks its beginning, else the forms."""
    path = re.sub(r"^[./~]+|\.(?:html|ya?ml)(?:#.*)?$", "", written)
    if path in links.by_path:
        return tr("write [[{path}]]", path=path)
    if _ADDRESS.match(written):
        return tr("write {address}", address=f"https://{written}")
    scheme, sign, rest = written.partition("://")
    if not sign and (found := _MISSED_SIGN.match(written)):
        return tr("write {address}", address=f"{found[1].lower()}://{written[found.end() :]}")
    if sign and (meant := nearest(scheme, ("https", "http"))):
        return tr("write {address}", address=f"{meant}://{rest}")
    if "@" in written and ":" not in written:
        return tr("write mailto:{written}", written=written)
    return tr("a note links to records, as in [[cuts/beef-chuck-roll]], to http, https and mailto")


def _check_picture(content: Content, written: str, place: Place) -> Iterator[Problem]:
    """A picture that is not there, or is none; `written` is its address."""
    file = picture_file(content, written)
    if file is None:
        if written not in content.refused:
            message = tr('there is no picture "{written}" in the content folder', written=written)
            yield Problem(place, message, _picture_hint(content, written))
        return
    try:
        picture_of(file)
    except PictureError as error:
        yield Problem(Place(file.path), error.message, error.hint)


def _picture_hint(content: Content, written: str) -> str:
    folder = f"{PICTURES}/"
    known = [p.removeprefix(folder) for p in content.files if p.startswith(folder)]
    if written.lower().startswith("data:"):
        return tr("put it into {pictures}/ as a file of its own", pictures=PICTURES)
    name = written.rpartition("/")[2]
    if PurePosixPath(name).suffix.lower() not in ENDINGS and not is_web(written):
        stem = PurePosixPath(name).stem
        return tr(
            "pages show {endings}: save it as {folder}{stem}.png or {stem}.jpg",
            endings=listed([*ENDINGS]),
            folder=folder,
            stem=stem,
        )
    if near := nearest(name, known, _ALIKE):
        return tr("write {folder}{near}", folder=folder, near=near)
    if is_web(written):
        return tr(
            "a page loads nothing from elsewhere: save it as {pictures}/{name}",
            pictures=PICTURES,
            name=name,
        )
    return tr("put it into {pictures}/, and write {pictures}/{name}", pictures=PICTURES, name=name)
