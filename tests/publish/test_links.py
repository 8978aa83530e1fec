"""Links that lead nowhere or out, against an independent HTML parser and a table of cases."""

from __future__ import annotations

import html
import importlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.publish import BrokenLink, broken_links, scan_page

# Carries no types, hence no import statement that mypy could follow.
html5lib = importlib.import_module("html5lib")

SITE = {
    "index.html": b'<h1 id="top-of-all">Home</h1><p id="caf&eacute;">',
    "cuts/chuck.html": b'<p id="yield">',
    "cuts/data.csv": b"a,b",
    "icons.svg": b'<svg><g id="gain"/></svg>',
    "style.css": b"body{}",
}


def reasons(page: str, path: str = "plates/one.html", allowed: tuple[str, ...] = ()) -> list[str]:
    """Check one page within the site and return what is held against it."""
    found = broken_links({**SITE, path: page.encode()}, allowed)
    assert all(each.page == path for each in found)
    return [each.reason for each in found]


@pytest.mark.parametrize(
    "page",
    [
        '<a href="../index.html">x</a>',
        "<a href='../index.html'>x</a>",
        "<a href=../index.html>x</a>",
        '<A HREF = "../index.html">x</A>',
        '<a href="../index.html#top-of-all">x</a>',
        '<a href="../index.html#caf%C3%A9">x</a>',
        '<a href="../index.html?sort=price&amp;by=name">x</a>',
        '<a href="../cuts/chuck.html#yield">x</a>',
        '<a href="../cuts/chuck.html#12">x</a>',
        '<a href="../cuts/data.csv" download>x</a>',
        '<a href="#here">x</a><p id="here">',
        '<a href="one.html#here">x</a><p class="a" id=here>',
        '<a href="#">x</a>',
        '<a title="a > b" href="../index.html">x</a>',
        '<link rel="stylesheet" href="../style.css">',
        '<svg><use href="../icons.svg#gain"/></svg>',
        '<img src="data:image/png;base64,AAAA" alt="">',
        '<p>href="nowhere.html" and &lt;a href=&#34;nowhere.html&#34;&gt;</p>',
        '<td data-href="nowhere.html" data-src="x" data-sort="1.2">',
        '<meta name="description" content="0; url=nowhere.html">',
    ],
)
def test_good_pages(page: str) -> None:
    assert reasons(page) == []


@pytest.mark.parametrize(
    "page",
    [
        '<a href="index.html">x</a>',
        "<a href=index.html>x</a>",
        '<a\n  class="x"\n  href="index.html">x</a>',
        '<a class="x"href="index.html">x</a>',
        '<a/href="index.html">x</a>',
        '<a title="a > b" href="index.html">x</a>',
        '<a title=\'"\' href="index.html">x</a>',
        '<a href="../Index.html">x</a>',
        '<a href="../cuts/">x</a>',
        '<a href="../cuts">x</a>',
        '<a href="../../index.html">x</a>',
        '<a href="">x</a>',
        '<a href="../index.html#bottom">x</a>',
        '<a href="#nowhere">x</a>',
        '<a href="#12">x</a>',
        '<a href="../nowhere.html#12">x</a>',
        '<a href="../index.html#12x">x</a>',
        '<a href="../index.html#12"class="x"id="here"><b id="here2"></a><a href="#here3">x</a>',
        '<link rel="next" href="../index.html#12">',
        '<a href="#here">x</a><p data-id="here">',
        '<a href="#here">x</a> id="here"',
        '<a href="/index.html">x</a>',
        '<a href="//elsewhere.invalid/">x</a>',
        '<a href="\\\\elsewhere.invalid">x</a>',
        '<a href="https://elsewhere.invalid/">x</a>',
        '<a href="HTTP://elsewhere.invalid/">x</a>',
        '<a href="mailto:chef@elsewhere.invalid">x</a>',
        '<a href="javascript:alert(1)">x</a>',
        '<a href=" JavaScript:alert(1)">x</a>',
        '<a href="java&#10;script:alert(1)">x</a>',
        '<a href="&#106;avascript:alert(1)">x</a>',
        '<a href="data:text/html,x">x</a>',
        '<area href="nowhere.html">',
        '<script src="https://elsewhere.invalid/a.js"></script>',
        '<script src="data:text/javascript,x"></script>',
        '<script src="missing.js"></script>',
        '<link rel="stylesheet" href="https://elsewhere.invalid/a.css">',
        '<link rel="icon" href="missing.ico">',
        '<img src="missing.png" alt="">',
        '<img src="https://elsewhere.invalid/a.png" alt="">',
        '<img srcset="../icons.svg 1x, missing.png 2x" alt="">',
        '<iframe src="https://elsewhere.invalid/"></iframe>',
        '<object data="missing.svg"></object>',
        '<video poster="missing.png"></video>',
        '<form action="https://elsewhere.invalid/"></form>',
        '<button formaction="missing.html">x</button>',
        '<a ping="https://elsewhere.invalid/" href="#">x</a>',
        '<body background="missing.png">',
        '<svg><use xlink:href="../icons.svg#loss"/></svg>',
        '<svg><image href="https://elsewhere.invalid/a.png"/></svg>',
        '<base href="../index.html">',
        '<base target="_top">',
        '<meta http-equiv="refresh" content="0; url=https://elsewhere.invalid/">',
    ],
)
def test_bad_pages(page: str) -> None:
    assert len(reasons(page)) == 1


@pytest.mark.parametrize(
    "css",
    [
        'a{background:url("missing.png")}',
        "a{background:url( missing.png )}",
        "@font-face{src:url(https://elsewhere.invalid/a.woff2)}",
        '@import "https://elsewhere.invalid/a.css";',
        "@import url(missing.css);",
    ],
)
def test_bad_stylesheets(css: str) -> None:
    assert len(reasons(css, "sheet.css")) == 1


def test_good_stylesheets() -> None:
    css = 'a{background:url("icons.svg#gain")} b{c:url(data:image/png;base64,AA)}'
    assert reasons(css, "sheet.css") == []


def test_a_listed_address_may_be_linked_but_never_loaded() -> None:
    address = "https://law.invalid/code#clause"
    assert reasons(f'<a href="{address}">x</a>', allowed=(address,)) == []
    assert len(reasons(f'<a href="{address}.evil">x</a>', allowed=(address,))) == 1
    assert len(reasons(f'<img src="{address}" alt="">', allowed=(address,))) == 1


def test_every_broken_link_is_named_once_in_order() -> None:
    pages = {
        "b.html": b'<a href="x.html">1</a><a href="x.html">2</a><a href="a.html#no">3</a>',
        "a.html": b'<a href="y.html">1</a>',
    }
    assert broken_links(pages) == [
        BrokenLink("a.html", "y.html", 'there is no file "y.html"'),
        BrokenLink("b.html", "a.html#no", '"a.html" has no id "no"'),
        BrokenLink("b.html", "x.html", 'there is no file "x.html"'),
    ]


def test_other_files_are_not_read_as_pages() -> None:
    assert broken_links({"a.js": b'"<a href=missing.html>"', "a.csv": b"<a href=missing>"}) == []


_LETTERS = st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"])
_VALUES = st.text(_LETTERS, min_size=1, max_size=8)
_PAIRS = st.dictionaries(st.sampled_from(["id", "href", "title", "class"]), _VALUES)
_QUOTES = st.sampled_from("\"'")


@given(st.lists(st.tuples(_PAIRS, _QUOTES), max_size=6))
def test_the_scanner_agrees_with_an_html_parser(tags: list[tuple[dict[str, str], str]]) -> None:
    """html5lib implements the parsing rules of the WHATWG HTML Standard [reference library]."""
    page = "<!doctype html><title>x</title>"
    for pairs, quote in tags:
        escaped = {
            key: html.escape(value).replace("&gt;", ">").replace("&lt;", "<")
            for key, value in pairs.items()
        }
        page += "<a " + " ".join(f"{k}={quote}{v}{quote}" for k, v in escaped.items()) + ">x</a>"
    root = html5lib.parse(page, namespaceHTMLElements=False)
    links = list(root.iter("a"))
    scan = scan_page("a.html", page.encode())
    assert scan.ids == {link.get("id") for link in links} - {None}
    assert {each.href for each in scan.references} == {link.get("href") for link in links} - {None}
