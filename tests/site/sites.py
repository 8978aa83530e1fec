"""Built sites as tests look at them: which kinds of page there are, what a page holds."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from builder.publish import read_manifest
from builder.records.hint_examples import example_in_words

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "content"


def _in_english(folder: Path) -> Path:
    """The first kitchens, metric and customary, without the marks round their words."""
    source = ROOT / "builder" / "starter"
    for file in (*source.glob("kitchen/**/*.yaml"), *source.glob("customary/**/*.yaml")):
        target = folder / file.relative_to(source)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(example_in_words(file.read_text(encoding="utf-8")), encoding="utf-8")
    return folder / "kitchen"


# Kept as long as the tests run.
_HERE = TemporaryDirectory()
STARTER = _in_english(Path(_HERE.name))


@dataclass(frozen=True)
class BuiltSite:
    """A published folder, and its address over http."""

    folder: Path
    http: str

    def home(self, way: str) -> str:
        """The site's address by one of the two ways."""
        return self.folder.as_uri() if way == "file" else self.http

    def text(self, path: str) -> str:
        """A file of the site."""
        return (self.folder / path).read_text(encoding="utf-8")


def files_of(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, byte for byte."""
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }


def pages_of(folder: Path) -> list[str]:
    """The pages that the site's own manifest lists."""
    manifest = read_manifest(folder)
    assert manifest is not None
    return [path for path in manifest.files if path.endswith(".html")]


def kinds_of(pages: Iterable[str]) -> dict[str, list[str]]:
    """Pages by kind: the folder a page lies in, or the page itself where it lies at the top.

    The many sheets of `forms` are told apart by what follows the name of their record.

    >>> kinds_of(["menu.html", "cuts/chuck.html", "forms/chuck-yield-test.html"])
    {'menu.html': ['menu.html'], 'cuts': ['cuts/chuck.html'], 'forms yield-test': \
['forms/chuck-yield-test.html']}
    """
    pages = list(pages)
    records = {Path(page).stem for page in pages if "/" in page and not page.startswith("forms/")}
    kinds: dict[str, list[str]] = {}
    for page in pages:
        folder, _, name = page.rpartition("/")
        kind = folder or name
        if folder == "forms":
            kind = f"forms {_without_record(Path(name).stem, records)}"
        kinds.setdefault(kind, []).append(page)
    return kinds


def _without_record(sheet: str, records: set[str]) -> str:
    whose = [record for record in records if sheet.startswith(f"{record}-")]
    return sheet.removeprefix(f"{max(whose, key=len)}-") if whose else sheet


def examples(folder: Path) -> dict[str, str]:
    """The largest page of every kind, and the smallest of each kind that has several.

    The largest has every part that the kind can have; the smallest may lack some.
    """
    found: dict[str, str] = {}
    for kind, pages in kinds_of(pages_of(folder)).items():
        by_size = sorted(pages, key=lambda page: ((folder / page).stat().st_size, page))
        found[kind] = by_size[-1]
        if by_size[0] != by_size[-1] and not kind.startswith("forms"):
            found[f"{kind}, small"] = by_size[0]
    return found


def typical(folder: Path, most: int = 60_000) -> dict[str, str]:
    """The largest page of every kind of at most `most` bytes, else the smallest of the kind."""
    found: dict[str, str] = {}
    for kind, pages in kinds_of(pages_of(folder)).items():
        by_size = sorted(pages, key=lambda page: ((folder / page).stat().st_size, page))
        small = [page for page in by_size if (folder / page).stat().st_size <= most]
        found[kind] = small[-1] if small else by_size[0]
    return found


def text_of(markup: str) -> str:
    """Markup as the words that a reader sees, spaces made plain."""
    bare = html.unescape(re.sub(r"<[^>]*>", "", markup))
    return " ".join(bare.split())
