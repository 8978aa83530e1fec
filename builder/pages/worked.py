"""Worked examples: one annotated file of every kind, for the pages and for `new`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from importlib.resources import files
from itertools import cycle, islice

from markupsafe import Markup

from builder.language import Deferred, tr
from builder.pages.components import Part, Prose
from builder.pages.parts import paragraph
from builder.quantities import Dimension
from builder.records.hint_examples import example_in_words
from builder.records.kinds import RECORDS
from builder.records.kitchen import Kitchen

_CHOICE = re.compile("«([^»]*)»")
# A remark behind a value stands in this column where the value leaves room for it; else two blanks
# behind it. A line that is given as a remark itself is no exception.
REMARK = 28
_VALUE_AND_REMARK = re.compile(r"(?m)^((?:# )?[^#\n]*[^#\s]) +(# .*)$")

# What an example links to where the kitchen has nothing of the kind yet.
LINKS: Mapping[str, tuple[str, ...]] = {
    "cut": ("beef-cheek",),
    "cook": ("beef-cheek-30h", "beef-cheek-24h"),
    "item": ("red-sauce",),
    "plate": ("beef-cheek-plate", "beef-pie"),
    "equipment": ("bath",),
    "section": ("mains",),
}
_SAME_LIST = {
    "cook2": ("cook", 1),
    "plate2": ("plate", 1),
    "benchmark": ("plate", 0),
    "challenger": ("plate", 1),
}


# Amounts of an item, a little and much, in metric and US customary.
_AMOUNTS: Mapping[str, Mapping[Dimension, tuple[str, str]]] = {
    "some": {
        Dimension.MASS: ("60 g", "2 oz"),
        Dimension.VOLUME: ("60 ml", "2 fl oz"),
        Dimension.COUNT: ("1 each", "1 each"),
    },
    "much": {
        Dimension.MASS: ("5 kg", "11 lb"),
        Dimension.VOLUME: ("5 L", "5 qt"),
        Dimension.COUNT: ("12 each", "12 each"),
    },
}


def example(
    kind: str,
    title: str,
    links: Mapping[str, tuple[str, ...]],
    *,
    customary: bool,
    counted_in: Dimension = Dimension.MASS,
) -> str:
    """The annotated example of a kind under a name, linked to what `links` names.

    `counted_in`: whether the pantry item that it uses goes by weight, volume or count.
    """
    text = files("builder.starter").joinpath("records", f"{kind}.yaml").read_text(encoding="utf-8")
    money = {
        "currency": "USD" if customary else "CAD",
        "locale": "en_US" if customary else "en_CA",
    }

    def chosen(found: re.Match[str]) -> str:
        words = found[1]
        if words == "name":
            return quoted(title)
        if words in money:
            return money[words]
        if "|" in words:
            return words.split("|")[customary]
        if words in _AMOUNTS:
            return _AMOUNTS[words][counted_in][customary]
        key, number = _SAME_LIST.get(words, (words, 0))
        return next(islice(cycle(links[key]), number, None))

    return _VALUE_AND_REMARK.sub(_aligned, _CHOICE.sub(chosen, example_in_words(text)))


def _aligned(found: re.Match[str]) -> str:
    return f"{found[1]:<{REMARK - 2}}  {found[2]}"


def quoted(title: str) -> str:
    """A name as YAML takes it, in quotes where it needs them."""
    plain = re.fullmatch(r"[^\W\d_][\w ,.()'’&/-]*", title)
    return title if plain else '"' + title.replace("\\", "\\\\").replace('"', '\\"') + '"'


PRICES = """\
date,item,price,supplier,sold as,minimum,deposit,note
2026-08-03,beef-cheek,«13.10/kg|5.95/lb»,Quill Meats,,,,
2026-09-07,beef-cheek,«13.50/kg|6.10/lb»,Quill Meats,«case of 10 kg|case of 20 lb»,,,dearer
2026-09-07,red-wine,54.00/crate,Quill Meats,crate of 6 x 1 L,2 crates,4.50,
"""
SALES = """\
Day,Item,Qty,Amount,Table
2026-09-04,beef-cheek-plate,2,52.00,7
2026-09-04,Coffee,3,10.50,7
2026-09-05,beef-cheek-plate,-1,26.00,2
2026-09-30,beef-cheek-plate,31,806.00,
"""
_OF_FOLDERS: Mapping[str, Mapping[str, str]] = {
    "kitchen": Kitchen.kind.worked, "rules": {"rules": Deferred("House")},
    **{record.folder: record.kind.worked for record in RECORDS},
}  # fmt: skip
_ABOUT = {
    **{record.folder: record.kind.about_worked for record in RECORDS},
    "prices": Deferred(
        "One price of one item a row, in any order; the newest on or before the "
        "day counts. A supplier's list is a file. Cells are parted by commas, "
        "semicolons or tabs. A price may be for a pack, 54.00/crate, whose size "
        "sold as says here or in the item's own file. Orders of services are "
        "rounded up to what is sold; a deposit is named apart and in no cost of "
        "a plate."
    ),
    "sales": Deferred(
        "An export of the till: a row a sale, or a plate and day. Further "
        "columns are passed over, and kitchen.yaml says once, under till:, which "
        "heading is which. A file with a wrong row is refused whole, with every "
        "wrong row at its line."
    ),
    "rules": Deferred(
        "A rule set of the kitchen's own, for authority: in kitchen.yaml. It can "
        "only hold what somebody copied from a text: name the clause and how far "
        "it was read (status)."
    ),
}


def worked(folder: str, *, customary: bool) -> list[str]:
    """The worked files of a folder; a kitchen's is that of "kitchen"."""
    rows = {"prices": PRICES, "sales": SALES}
    if folder in rows:
        return [_CHOICE.sub(lambda found: found[1].split("|")[customary], rows[folder])]
    links = {**LINKS, "item": ("bones",), "section": (tr("mains"),)}
    return [
        example(kind, tr(title), links, customary=customary)
        for kind, title in _OF_FOLDERS[folder].items()
    ]


def worked_parts(folder: str, *, customary: bool) -> Iterator[Part]:
    """The part with the worked files of a kind."""
    texts = worked(folder, customary=customary)
    code = tuple(Prose(Markup("<pre><code>{}</code></pre>").format(t.rstrip())) for t in texts)
    about = (paragraph(tr(_ABOUT[folder])),) if _ABOUT.get(folder) else ()
    yield Part("worked", tr("A worked example"), (*about, *code))
