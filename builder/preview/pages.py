"""What the preview sends: files of the output folder, pages with the reload script added."""

from __future__ import annotations

import html
import json
import re
from importlib.resources import files
from pathlib import Path
from urllib.parse import unquote

from builder.language import language_of, tr, written_in

RELOAD_SCRIPT = "/__reload.js"
RELOAD_EVENTS = "/__reload"

# Media types by IANA's registry; the machine's own table may say otherwise.
MEDIA_TYPES = {
    ".css": "text/css; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".gif": "image/gif",
    ".html": "text/html; charset=utf-8",
    ".ico": "image/vnd.microsoft.icon",
    ".jpeg": "image/jpeg",
    ".jpg": "image/jpeg",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".md": "text/markdown; charset=utf-8",
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".webp": "image/webp",
    ".woff2": "font/woff2",
    ".xml": "application/xml",
    ".zip": "application/zip",
}

_POLICY = re.compile(
    rb"""(<meta\s[^>]*http-equiv=["']?content-security-policy["']?[^>]*content=)(["'])(.*?)\2""",
    re.IGNORECASE | re.DOTALL,
)


_LANGUAGE = re.compile(rb'<html[^>]*? lang="([a-z]+)"')
# The tag that says a page's language is among its first.
_HEAD = 1000


def language_of_site(output: Path) -> str:
    """The language of a published site, which its home page says; English before there is one."""
    home = read(output / "index.html") or b""
    found = _LANGUAGE.search(home[:_HEAD])
    return language_of(found[1].decode() if found else "")


def reload_script(language: str) -> bytes:
    """Return the script that listens for the next build, with what it says of one that failed."""
    with written_in(language):
        failed = tr(
            "The last build failed. This is the site of the build before; the terminal "
            "lists what has to be fixed."
        )
    script = files(__package__).joinpath("reload.js").read_text(encoding="utf-8")
    return script.replace('"%FAILED%"', json.dumps(failed)).encode()


def missing_page(language: str) -> bytes:
    """Return the page for an address that leads nowhere yet."""
    with written_in(language):
        title, words = tr("No such page"), tr("This page comes by itself once it is built.")
    return (
        f'<!doctype html><html lang="{language}"><meta charset="utf-8"><title>{title}</title>'
        f"<body><h1>{title}</h1><p>{words}</p></body>"
    ).encode()


def find(output: Path, path: str) -> Path | None:
    """Return what a request path names inside the output, or None.

    Hidden names, dot segments, backslashes and links that lead outside name nothing.
    """
    name = unquote(path)
    segments = name.strip("/").split("/") if name.strip("/") else []
    if not name.startswith("/") or name.startswith("//") or any(map(_is_odd, segments)):
        return None
    root = output.resolve()
    try:
        file = root.joinpath(*segments).resolve(strict=True)
    except (OSError, ValueError):
        return None
    return file if file.is_relative_to(root) else None


def _is_odd(segment: str) -> bool:
    return not segment or segment.startswith(".") or not segment.isprintable() or "\\" in segment


def read(file: Path) -> bytes | None:
    """Read a file; None when there is none, or when it goes while a build swaps the site."""
    try:
        return file.read_bytes()
    except OSError:
        return None


def with_reload(page: bytes, version: str) -> bytes:
    """Add the reload script to a page, and to its policy the leave to connect to this server.

    >>> with_reload(b"<body>x</body>", "1")
    b'<body>x<script src="/__reload.js?v=1"></script></body>'
    """
    script = f'<script src="{RELOAD_SCRIPT}?v={version}"></script>'.encode()
    page = _POLICY.sub(_allow_connection, page, count=1)
    before, tag, after = page.rpartition(b"</body>")
    return before + script + tag + after if tag else page + script


def _allow_connection(match: re.Match[bytes]) -> bytes:
    start, quote, policy = match.groups()
    rules = [rule.strip() for rule in html.unescape(policy.decode()).split(";")]
    kept = [rule for rule in rules if rule and not rule.lower().startswith("connect-src")]
    text = html.escape("; ".join([*kept, "connect-src 'self'"])).encode()
    return start + quote + text + quote
