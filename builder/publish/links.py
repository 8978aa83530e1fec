"""Every link in the site leads somewhere in the site, and no page loads anything from elsewhere.

The scanner reads the HTML that this project writes: it looks at tags, not at their nesting. Within
a tag it accepts every spelling of an attribute that a browser does.
"""

from __future__ import annotations

import html
import posixpath
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
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

    ids: Collection[str] = frozenset()
    references: Collection[Reference] = frozenset()


class PackedIds(Collection[str]):
    """The ids of a page in one string, a tenth of the room that a set of them takes."""

    __slots__ = ("_text",)

    def __init__(self, ids: Iterable[str]) -> None:
        self._text = "\n".join(("", *sorted(ids), ""))

    def __contains__(self, name: object) -> bool:
        return f"\n{name}\n" in self._text

    def __iter__(self) -> Iterator[str]:
        return iter(self._text.split("\n")[1:-1])

    def __len__(self) -> int:
        return max(self._text.count("\n") - 1, 0)


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
        self._scans: dict[str, Scan] = {}
        self._known: dict[Reference, Reference] = {}

    def add(self, path: str, scan: Scan) -> None:
        """Keep what is open of a page; references that many pages make are kept once."""
        kept = tuple(self._known.setdefault(ref, ref) for ref in scan.references)
        self._scans[path] = Scan(scan.ids, kept)

    def broken(self) -> list[BrokenLink]:
        """What leads nowhere or out of the site, once every page has been added."""
        return check_scans(self._scans, self._allowed)


def open_links(path: str, body: bytes) -> Scan:
    """Scan a page; references to a place on it that is there need no second look."""
    scan = scan_page(path, body)
    still_open = tuple(ref for ref in scan.references if not _is_there(ref.href, scan.ids))
    return Scan(PackedIds(scan.ids), still_open)


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


def check_scans(scans: Mapping[str, Scan], allowed: Collection[str] = ()) -> list[BrokenLink]:
    """Do the work of `broken_links` from scans, which a build may keep of pages that it skips."""

    @cache
    def verdict(folder: str, reference: Reference) -> tuple[str, str, str]:
        return _verdict(folder, reference, scans, allowed)

    found = set[BrokenLink]()
    for page, scan in scans.items():
        folder = posixpath.dirname(page)
        for reference in scan.references:
            reason, target, fragment = verdict(folder, reference)
            target = target or page
            if not reason and fragment and target.endswith(_PARSED):
                missing = fragment not in scans[target].ids
                reason = f'"{target}" has no id "{fragment}"' if missing else ""
            if reason:
                found.add(BrokenLink(page, reference.href, reason))
    return sorted(found)


def _verdict(
    folder: str, reference: Reference, scans: Mapping[str, Scan], allowed: Collection[str]
) -> tuple[str, str, str]:
    """Return the reason against a reference, or its target (empty: the page itself) and its id."""
    if reference == _BASE:
        return "a base address bends every relative link on the page", "", ""
    href = reference.href.strip()
    if scheme := _SCHEME.match(href):
        return _outside(href, scheme[0].lower(), reference, allowed), "", ""
    if href.startswith(("/", "\\")):
        return "an absolute path breaks when the site is opened from a folder", "", ""
    path, _, fragment = href.partition("#")
    path = unquote(path.partition("?")[0])
    if not path:
        return ("" if href else "empty"), "", unquote(fragment)
    target = posixpath.normpath(posixpath.join(folder, path))
    if target not in scans or path.endswith("/"):
        return f'there is no file "{target}"', "", ""
    return "", target, unquote(fragment)


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


@lru_cache(maxsize=1 << 16)
def _tag(tag: bytes) -> Scan | None:
    """Read one tag; None for half a tag, cut off at a ">" that stands in quotes."""
    if not _WHOLE_TAG.fullmatch(tag):
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
            yield Reference(value, follow=tag in {"a", "area"}, picture=picture)
    if tag == "meta" and attributes.get("http-equiv", "").lower() == "refresh":
        yield Reference(attributes.get("content", "").partition("=")[2], follow=True)
    if tag == "base":
        yield _BASE
