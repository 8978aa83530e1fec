"""A kitchen of one bath and a few cooks, changed piece by piece, and its pages as text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from html import unescape
from pathlib import Path

from builder.costing.costed import Costed
from builder.pages.components import Page
from builder.pages.rendering import render
from builder.pages.site import frame
from builder.pages.view import View
from builder.problems import Problem
from tests.kitchens import pages_but_methods, read, write

BATH = "{kind: water bath, volume: 20 L, holds: 12 kg, cover: open, turn-round: 1 h}"
FILES: Mapping[str, str] = {
    "kitchen.yaml": f"""\
name: Invented kitchen
currency: CAD
as of: 2026-10-01
energy: 0.20/kWh
authority: us-food-code-2017
equipment:
  bath: {BATH}
""",
    "cuts/chuck.yaml": "species: beef\nprice: 13.60/kg\ntrim: {loss: 10 %}\n",
    "cooks/chuck-30h.yaml": """\
cut: chuck
how: water bath
at: 57 °C
for: 30 h
form: intact
counts as: roast
piece: {shape: slab, thickness: 60 mm, starts at: 4 °C, weight: 2.4 kg}
equipment: bath
load: 9.6 kg
loss: 24 %
""",
    "plates/chuck-plate.yaml": """\
menu: mains
cook: chuck-30h
portion: 200 g
price: 27.00
forecast: 400
""",
}
COOK, KITCHEN = "cooks/chuck-30h.yaml", "kitchen.yaml"


def changed(path: str, *changes: tuple[str, str], more: str = "") -> Mapping[str, str]:
    """The files with words of one of them replaced; every word has to be there once."""
    text = FILES[path]
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {path}"
        text = text.replace(old, new)
    return {**FILES, path: text + more}


def costed(root: Path, files: Mapping[str, str] = FILES) -> Costed:
    """The figures of the files; an error fails the test with its words."""
    found, problems = read(write(root, files))
    assert found is not None, [f"{p.place} {p.message}" for p in problems]
    return found


def problems(root: Path, files: Mapping[str, str]) -> list[Problem]:
    """Every problem of the files."""
    return read(write(root, files))[1]


def pages(kitchen: Costed, reported: Iterable[Problem] = ()) -> dict[str, tuple[Page, str]]:
    """Every page but the methods', with its problems, and the words that a reader sees on it."""
    view = View.of(kitchen, reported)
    site = frame(view)
    return {page.path: (page, words(render(page, site))) for page in pages_but_methods(view)}


def words(html: bytes) -> str:
    """The text of a page, its tags and its data taken out."""
    text = re.sub(r"<script.*?</script>|<style.*?</style>", " ", html.decode(), flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", text)).split())
