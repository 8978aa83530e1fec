"""Every link in the site leads somewhere in the site, and no page loads anything from elsewhere.

The scanner reads the HTML that this project writes: it looks at tags, not at their nesting. Within
a tag it accepts every spelling of an attribute that a browser does.
"""

from __future__ import annotations

import html
import posixpath
import re
from array import array
from bisect import bisect_left
from collections.abc import Collection, Container, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple
from urllib.parse import unquote

_TAG = re.compile(rb"<[a-zA-Z][^>]*>")
_WHOLE_TAG = re.compile(rb"""<[a-zA-Z](?:[^>"']++|"[^"]*+"|'[^']*+')*+>""")
_TELLING = re.compile(
    rb"""[\s"'/](?:id|(?:xlink:)?href|src|srcset|poster|data|background|(?:form)?action|ping|content)"""
    rb"""\s*=|^<base""",
    re.IGNORECASE,
)
_ATTRIBUTE = re.compile(r"""([^\s"'<>/=]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+)))?""")
_CSS_URL = re.compile(rb"""(?:url\(\s*["']?|@import\s+["'])([^"')]*)""")
_SCHEME = re.compile(r"[a-zA-Z][a-zA-Z0-9+.-]*:")
_LOADS = {"src", "srcset", "poster", "data", "background", "action", "formaction", "ping"}
_PARSED = (".html", ".svg")
# A number leads to its figure's method and carries its row for scripts, which is no place there.
_ROW = re.compile(r"(?<=\.html)#[0-9]+$")
# The same in the plain spelling of a page. Half of a page's tags differ in nothing but such a row,
# so a page is read in half the time once these are gone.
_PLAIN_ROW = re.compile(rb"""(<a href="?[\w./-]+\.html)#[0-9]+(?=[">])""")


@dataclass(frozen=True, slots=True, order=True)
class BrokenLink:
    """One reference that must not be published: the page, what it says, why that is wrong."""

    page: str
    href: str
    reason: str


class Reference(NamedTuple):
    """What one attribute asks for; `follow` when only a click does, not the page itself."""

    href: str
    follow: bool = False
    picture: bool = False


class Scan(NamedTuple):
    """The ids and the references of one page: all that has to be kept of it to check the site."""

    ids: frozenset[str] = frozenset()
    references: frozenset[Reference] = frozenset()


class PackedIds(Container[str]):
    """The ids of a page as sorted 64-bit hashes, a twentieth of the room that a set takes.

    Two names with one hash would let a broken link pass: once in some 10^17 looks.
    The hashes hold within this process and those forked from it.
    """

    __slots__ = ("_hashes",)

    def __init__(self, ids: Iterable[str]) -> None:
        self._hashes = array("q", sorted(map(hash, ids)))

    def __contains__(self, name: object) -> bool:
        wanted = hash(name)
        at = bisect_left(self._hashes, wanted)
        return at < len(self._hashes) and self._hashes[at] == wanted


class OpenLinks(NamedTuple):
    """What is left of a scan once the page's links into itself have been looked at."""

    ids: PackedIds
    references: tuple[Reference, ...]


class LinkCheck:
    """Checks a site whose pages come one at a time, keeping little of each.

    >>> links = LinkCheck()
    >>> links.add("a.html", open_links("a.html", b'<a href="b.html#x">'))
    >>> links.add("b.html", open_links("b.html", b'<p id="y">'))
    >>> [link.reason for link in links.broken()]
    ['"b.html" has no id "x"']
    """

    def __init__(self, allowed: Collection[str] = ()) -> None:
        self._allowed = allowed
        self._pages: dict[str, OpenLinks] = {}
        self._known: dict[Reference, Reference] = {}

    def add(self, path: str, links: OpenLinks) -> None:
        """Keep what is open of a page: a link to a place that came before is settled at once.

        References that many pages make are kept once.
        """
        self._pages[path] = links
        waiting = (
            self._known.setdefault(ref, ref)
            for ref in links.references
            if _fault(path, ref, self._pages, self._allowed)
        )
        self._pages[path] = OpenLinks(links.ids, tuple(waiting))

    def broken(self) -> list[BrokenLink]:
        """What leads nowhere or out of the site, once every page has been added."""
        return check_scans(self._pages, self._allowed)


def open_links(path: str, body: bytes) -> OpenLinks:
    """Scan a page; references to a place on it that is there need no second look."""
    scan = scan_page(path, body)
    still_open = tuple(ref for ref in scan.references if not _is_there(ref.href, scan.ids))
    return OpenLinks(PackedIds(scan.ids), still_open)


def _is_there(href: str, ids: Collection[str]) -> bool:
    return href.startswith("#") and unquote(href[1:]) in ids


_NOTHING = Scan()
_BASE = Reference("<base>")


def broken_links(pages: Mapping[str, bytes], allowed: Collection[str] = ()) -> list[BrokenLink]:
    """List the references that lead nowhere or out of the site, by page and reference.

    Parameters: `pages`, every file of the site by path; `allowed`, the complete addresses outside
    the site that a plain `<a href>` may name.

    >>> broken_links({"a.html": b'<a href="b.html#x">', "b.html": b'<p id="y">'})
    [BrokenLink(page='a.html', href='b.html#x', reason='"b.html" has no id "x"')]
    """
    return check_scans({path: scan_page(path, body) for path, body in pages.items()}, allowed)


def check_scans(
    scans: Mapping[str, Scan | OpenLinks], allowed: Collection[str] = ()
) -> list[BrokenLink]:
    """Do the work of `broken_links` from scans, which a build may keep of pages that it skips."""

    return sorted(
        BrokenLink(page, reference.href, reason)
        for page, scan in scans.items()
        for reference in scan.references
        if (reason := _fault(page, reference, scans, allowed))
    )


def _fault(
    page: str,
    reference: Reference,
    scans: Mapping[str, Scan | OpenLinks],
    allowed: Collection[str],
) -> str:
    """Return the reason against a reference of a page; empty where it leads somewhere."""
    if reference == _BASE:
        return "a base address bends every relative link on the page"
    href = reference.href.strip()
    if scheme := _SCHEME.match(href):
        return _outside(href, scheme[0].lower(), reference, allowed)
    if href.startswith(("/", "\\")):
        return "an absolute path breaks when the site is opened from a folder"
    if not href:
        return "empty"
    target, fragment = _resolved(page.rpartition("/")[0], href)
    target = target or page
    if target not in scans:
        return f'there is no file "{target}"'
    if fragment and target.endswith(_PARSED) and fragment not in scans[target].ids:
        return f'"{target}" has no id "{fragment}"'
    return ""


@lru_cache(maxsize=1 << 14)
def _resolved(folder: str, href: str) -> tuple[str, str]:
    """Return the file that a relative address names (empty: its own page) and the id in it."""
    path, _, fragment = href.partition("#")
    path = unquote(path.partition("?")[0])
    if not path:
        return "", unquote(fragment)
    target = posixpath.normpath(posixpath.join(folder, path))
    # A folder is no file, though its name without the slash might be one.
    return (f"{target}/" if path.endswith("/") else target), unquote(fragment)


def _outside(href: str, scheme: str, reference: Reference, allowed: Collection[str]) -> str:
    if reference.follow:
        return "" if href in allowed else "this address outside the site is not on the list"
    if scheme == "data:" and reference.picture:
        return ""
    return "a page may not load anything from outside the site"


def scan_page(path: str, body: bytes) -> Scan:
    """Collect a page's ids and references; a file that is neither HTML, SVG nor CSS has none."""
    if path.endswith(".css"):
        return Scan(references=frozenset(_css(body)))
    if not path.endswith(_PARSED):
        return Scan()
    # A split keeps the group: many times faster than a template for each match.
    body = b"".join(_PLAIN_ROW.split(body))
    parts = [_tag(tag) for tag in set(_TAG.findall(body))]
    if None in parts:
        parts = [_tag(tag) for tag in set(_WHOLE_TAG.findall(body))]
    telling = [part for part in parts if part and part is not _NOTHING]
    return Scan(
        frozenset().union(*(part.ids for part in telling)),
        frozenset().union(*(part.references for part in telling)),
    )


def _css(body: bytes) -> Iterator[Reference]:
    for match in _CSS_URL.finditer(body):
        yield Reference(match[1].decode().strip(), picture=True)


@lru_cache(maxsize=1 << 13)
def _tag(tag: bytes) -> Scan | None:
    """Read one tag; None for half a tag, cut off at a ">" in quotes."""
    if (b'"' in tag or b"'" in tag) and not _WHOLE_TAG.fullmatch(tag):
        return None
    if not _TELLING.search(tag):
        return _NOTHING
    name, *pairs = _ATTRIBUTE.findall(tag.decode())
    attributes = {key.lower(): html.unescape(one or two or bare) for key, one, two, bare in pairs}
    ids = [value for key, value in attributes.items() if key == "id"]
    return Scan(frozenset(ids), frozenset(_asked_for(name[0].lower(), attributes)))


def _asked_for(tag: str, attributes: Mapping[str, str]) -> Iterator[Reference]:
    """Yield what a tag loads or leads to; "action" and the like count as loading."""
    picture = tag in {"img", "image", "source"}
    for key, value in attributes.items():
        if key == "srcset":
            yield from (Reference(one.split()[0], picture=True) for one in value.split(",") if one)
        elif key in _LOADS and not (key == "data" and tag != "object"):
            yield Reference(value, picture=picture)
        elif key in {"href", "xlink:href"}:
            follow = tag in {"a", "area"}
            yield Reference(_ROW.sub("", value) if follow else value, follow, picture)
    if tag == "meta" and attributes.get("http-equiv", "").lower() == "refresh":
        yield Reference(attributes.get("content", "").partition("=")[2], follow=True)
    if tag == "base":
        yield _BASE
