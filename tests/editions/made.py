"""Editions in memory, and kitchens in which everything that is withheld is another."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Collection, Mapping
from datetime import date
from pathlib import Path
from typing import Any

import yaml

from builder.build import compute_content
from builder.costing.costed import Costed
from builder.pages.editions import EditionSite, reader_of
from builder.pages.reader import Reader
from builder.pages.rendering import render
from builder.pages.view import View
from builder.problems import Problem
from builder.publish.manifest import Manifest, sha256
from builder.records.editions import editions_of

TODAY = date(2026, 10, 1)
Kitchen = tuple[Costed, list[Problem]]
Change = Callable[[str, str], str]
"""A key with its value as written, in a group of figures, gives another value."""
_RATE = re.compile(r"([0-9]+(?:\.[0-9]+)?)(?=/(?:kg|lb|L|each|h|kWh)\b)")
_NUMBER = re.compile(r"(?<![\w-])[0-9]+(?:\.[0-9]+)?")
# Keys of the files by the group that is needed to see them; "notes" is what is free text.
_KEYS: Mapping[str, str] = {
    "supplier": "suppliers", "note": "notes", "price": "prices", "loaded wage": "labour",
    "charge": "prices", "consumables": "prices", "remainder": "prices", "margin": "margins",
    "buys": "margins", "paid": "prices", "sold": "sales", "forecast": "sales",
    "weeks open": "sales", "tax": "menu prices", "food cost": "margins",
    "in": "weights", "load": "weights", "loss": "weights", "purge": "weights",
    "sold as": "weights", "portion": "weights", "with": "weights", "of": "weights", "makes": "weights",
    "at": "cooking", "for": "cooking", "hands on": "work", "covers": "work",
    "allergens": "allergens", "steps": "steps", "cover cost": "prices", "garnish": "prices",
    "seasoning": "weights", "source": "cooking", "log": "notes", "decided": "notes",
}  # fmt: skip
_OFFERED: Mapping[str, str] = {
    "price": "menu prices", "supplement": "menu prices", "share": "sales", "guests": "sales",
    "sells": "sales", "left": "weights", "left worth": "prices", "cooks": "weights",
    "items": "weights", "cover cost": "prices", "note": "notes",
}  # fmt: skip
# Keys of a step that are withheld with what they say, or with the steps.
_IN_STEPS: Mapping[str, tuple[str, str]] = {
    "for": ("cooking", "a step's time"), "at": ("cooking", "a step's heat"),
    "amounts": ("weights", "a step's amounts"),
}  # fmt: skip
ANOTHER_ENTRY = {
    "date": "2026-09-02", "who": "ZZ", "what": "Quite another entry", "why": "of another cook",
}  # fmt: skip
_FREE_TEXT = frozenset(
    ("notes", "suppliers", "swaps", "counts", "tastings", "menus", "buffets", "steps")
)


def another(
    root: Path, to: Path, reader: Reader, factor: float, kept: Collection[str] = ()
) -> Path:
    """A content folder in which all that a reader is not granted is another; nothing else is.

    Amounts are so many times as large, texts are longer, and records of other kinds have
    other names. What is `kept` stays, granted or not.
    """
    groups = {*reader.groups, *reader.parts, *reader.kinds, *kept}
    if "tasting sheets" in groups:
        # Ballots say which tasting they are of, and how far what is tasted is cooked.
        groups |= {"tastings", "cooking"}
    if "steps" in groups:
        groups |= {own for group, own in _IN_STEPS.values() if group in groups}
    for file in sorted(root.rglob("*")):
        target = to / file.relative_to(root)
        if file.is_dir():
            target.mkdir(parents=True, exist_ok=True)
        elif file.suffix == ".yaml":
            tree = yaml.load(file.read_text(), Loader=yaml.BaseLoader)
            kind = file.parent.name if file.parent != root else ""
            hidden = kind in {"menus", "buffets"} and kind not in groups
            moved = _moved(tree, kind, "", set() if hidden else groups, factor)
            target.write_text(yaml.safe_dump(moved, allow_unicode=True, sort_keys=False))
        elif file.suffix == ".md" and "notes" not in groups:
            name, text = file.name, file.read_text()
            if factor != 1:
                name, text = f"another-{name}", f"# Another {file.stem}\n\nIn words {factor}.\n"
            target.with_name(name).write_text(text)
        elif file.suffix == ".csv" and file.parent.name in {"prices", "sales"}:
            target.write_text(_moved_rows(file.read_text(), file.parent.name, groups, factor))
        else:
            target.write_bytes(file.read_bytes())
    return to


def _moved(tree: Any, kind: str, group: str, groups: Collection[str], factor: float) -> Any:
    match tree:
        case str() | list() if group == "allergens" and group not in groups and factor != 1:
            return ["celery"]
        case list() if group == "notes" and group not in groups and factor != 1:
            return [ANOTHER_ENTRY]
        case dict():
            return {
                key: _moved(value, kind, _group(key, kind, group) or group, groups, factor)
                for key, value in tree.items()
                # A picture in a step that is withheld is none.
                if not (key == "picture" and group == "steps" and group not in groups)
            }
        case list():
            return [_moved(value, kind, group, groups, factor) for value in tree]
        case str():
            return _text(tree, group, groups, factor)


def _group(key: str, kind: str, within: str) -> str:
    key = key.lower().replace("-", " ")
    if within == "steps":
        return _IN_STEPS[key][1] if key in _IN_STEPS else within
    if kind in {"menus", "buffets"}:
        return kind if key == "name" else _OFFERED.get(key, "")
    if within == "weights" and key in {"steps", "deposit"}:  # of how an item is sold
        return "prices" if key == "deposit" else within
    if kind == "" and key in {"energy", "gas"}:
        return "prices"
    if kind == "plates" and key == "price":
        return "menu prices"
    if kind == "services":
        return "work" if key == "plates" else ""
    if within in {"log", "notes"}:
        return "notes" if key in {"what", "why"} else "as it is"
    if kind in {"swaps", "counts", "tastings"} and key != "name":
        return _KEYS.get(key, "") if key in {"note", "log", "decided", "buys", "paid"} else ""
    if kind in {"swaps", "counts", "tastings"} and key == "name":
        return kind
    return _KEYS.get(key, "")


def _text(text: str, group: str, groups: Collection[str], factor: float) -> str:
    if factor == 1 or group == "as it is":
        return text
    if "prices" not in groups and group in {"", "prices", "weights"}:
        text = _RATE.sub(lambda found: _times(found[0], factor), text)
    if not group or group in groups:
        return text
    if group in _FREE_TEXT:
        return f"Quite another {group} {factor}"
    if _RATE.search(text):
        return text if group == "prices" else _RATE.sub(lambda m: _times(m[0], factor), text)
    # Shares of guests may come to no more than all of them, a step's amounts to the recipe's.
    less = (group == "sales" and "%" in text) or group == "a step's amounts"
    by = 1 / factor if less else factor
    # What is in the pack of a price is a weight.
    count = 1 if group == "prices" and "/" in text else 0
    return _NUMBER.sub(lambda found: _times(found[0], by), text, count=count)


def _times(number: str, factor: float) -> str:
    value = float(number) * factor
    return f"{value:.2f}" if "." in number else str(max(1, round(value)))


def _moved_rows(text: str, folder: str, groups: Collection[str], factor: float) -> str:
    """Rows of a price list or of a till, with other amounts and another supplier."""
    if factor == 1:
        return text
    head, *rows = csv.reader(io.StringIO(text))
    moved = []
    for row in rows:
        cells = dict(zip(head, row, strict=False))
        for name, value in cells.items():
            low = name.lower()
            if low in {"supplier", "note"} and "suppliers" not in groups:
                cells[name] = f"Quite another {low}" if value else value
            elif low in {"price", "amount", "qty"} and folder not in groups:
                cells[name] = _NUMBER.sub(lambda found: _times(found[0], factor), value, count=1)
        moved.append(list(cells.values()))
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows([head, *moved])
    return out.getvalue()


def computed(root: Path) -> Kitchen:
    """A content folder that has no error."""
    costed, problems = compute_content(root, None, TODAY)
    assert costed is not None, [str(p) for p in problems if p.is_error]
    return costed, problems


def named(kitchen: Kitchen, name: str) -> Reader:
    """The reader of one of a kitchen's editions."""
    return reader_of(name, editions_of(kitchen[0].content.kitchen.editions)[name])


def files_of(kitchen: Kitchen, reader: Reader, cache: Path) -> dict[str, bytes]:
    """Every file of an edition with its manifest, as it would be published."""
    site = EditionSite(View.of(*kitchen, reader))
    around = site.frame()
    found = {
        page.path: render(page, around)
        for group in site.groups()
        for batch in group.batches
        for page in batch()
    }
    found |= site.assets(cache)
    manifest = Manifest({path: sha256(data) for path, data in found.items()})
    return {**found, ".shankbook-manifest.json": manifest.to_bytes()}


SMALL: Mapping[str, str] = {
    "kitchen.yaml": """
name: Ferrystone Kitchen
currency: CAD
as of: 2026-10-01
tax: 5.7 %
loaded wage: 24.7193/h
energy: 0.148371/kWh
gas: 0.0521937/kWh
targets: {food cost: 31.7 %, margin: 118.91}
weeks open: 47
covers: [20, 60]
sections: [mains, starters]
garnish: 4.31
cover cost: {of: {butter: 13 g, bread: 47 g}, on: [mains]}
authority: us-food-code-2017
log: [{date: 2026-08-21, who: YX, what: Hired the Manxome crew, why: a lilliburlero summer}]
equipment:
  bath-40: {kind: water bath, volume: 40 L, holds: 12 kg, price: 1157.39, service life: 14000}
note: Keep the word zibellino in the office.
""",
    "cuts/chuck-roll.yaml": """
name: Chuck roll
species: beef
supplier: Marrowgate Stores
purge: 1.2 %
sold as: {piece: about 9.173 kg, minimum: 18.346 kg}
log:
  - {date: 2026-09-11, who: YX, what: Changed to Tulgey trim, why: less is lost on slithy days}
  - {date: 2026-09-12, who: XY, what: Tulgey trim stays, why: the mome raths like it}
trim:
  tests:
    - {date: 2026-09-03, in: 8.42 kg, out: 7.10 kg, parts: {grind: [0.74 kg, 8.1379/kg]}}
    - {date: 2026-09-10, in: 8.10 kg, out: 6.90 kg, parts: {grind: [0.70 kg, 8.1379/kg]}}
note: "The word quincunx is for the chef. See [[menus/sunday]], [[Uncommon chowder]]."
""",
    "cuts/ribeye.yaml": "species: beef\nprice: 37.9153/kg\nallergens: none\n",
    "cooks/chuck-30h.yaml": """
cut: chuck-roll
how: water bath
at: 57 °C
for: 30 h
equipment: bath-40
hands-on: 35 min
load: 7.1 kg
piece: {thickness: 70 mm, weight: 1.8 kg}
consumables: {bags: 21.37}
remainder: 3.91573/kg
tests:
  - {date: 2026-09-05, in: 7.10 kg, out: 5.68 kg, parts: {juices: [0.92 kg, 0.617391/kg]}}
finish: {how: sear, loss: 3 %}
store: {at: 3 °C, for: 71 h, source: The Bandersnatch guide}
hold-at: 61 °C
hold: {how: hold, loss: 1 %, for: 3 h}
steps:
  - Bag it frumiously
  - {what: Sear, for: 97 s, at: 231.7 °C, amounts: {chuck-roll: 5.3 kg}, caution: The Jubjub spits}
""",
    "cooks/ribeye-grill.yaml": "cut: ribeye\nhow: grill\nload: 5 kg\nloss: 18 %\n",
    "pantry/bones.yaml": "price: 2.51937/kg\nsupplier: Ossington Bones\nallergens: none\n",
    "pantry/bread.yaml": "price: 5.71937/kg\nallergens: [wheat]\nsold as: steps of 913 g\n",
    "pantry/butter.yaml": (
        "price: 9.31759/kg\nallergens: [milk]\n"
        "sold as: {pack: case of 4.817 kg, minimum: 2 cases, deposit: 61.79}\n"
    ),
    "pantry/stock.yaml": "of: {bones: 5 kg}\nmakes: 4 L\nhands on: 20 min\n",
    "pantry/sauce.yaml": (
        "of: {stock: 2 L, butter: 100 g}\nmakes: 600 ml\nlitre: 1.07 kg\n"
        "store: {at: 4 °C, for: 50 h}\n"
        "steps: [Boil it uffishly, {what: Mount, amounts: {butter: 83 g}}]\n"
    ),
    "plates/chuck-steak.yaml": """
menu: mains
cook: chuck-30h
portion: 180 g
with: {sauce: 60 ml}
hands-on: 3 min
price: 127.37
sold: {2026-08: 4127, 2026-09: 4391}
forecast: 973
steps: [{what: Slice it brilligly, amounts: {chuck-30h: 173 g}}, {what: Sauce, for: 19 s}]
""",
    "plates/ribeye-steak.yaml": """
menu: mains
cook: ribeye-grill
portion: 200 g
price: 141.73
sold: {2026-08: 3719}
cover cost: 14.37
garnish: 3.7 %
seasoning: 1.9 %
note: See [[swaps/chuck-for-ribeye]].
""",
    "plates/broth.yaml": "menu: starters\nwith: {stock: 250 ml}\nprice: 139.17\n",
    "plates/two-cuts.yaml": """
menu: mains
portions: [{cook: chuck-30h, portion: 97 g}, {cook: ribeye-grill, portion: 89 g}]
cover cost: none
price: 151.37
""",
    "menus/sunday.yaml": """
name: The Galumph dinner
price: 163.19
guests: 317
courses:
  first: {broth: equal}
  main: {chuck-steak: {share: 37 %}, ribeye-steak: {share: 23 %, supplement: 17.93}}
""",
    "menus/combo.yaml": "name: Galumph lunch\nprice: 149.73\nplates: [chuck-steak, broth]\n",
    "buffets/counter.yaml": """
name: The Vorpal counter
price: 71.93/kg
cooks: {chuck-30h: 1.1 kg}
items: {sauce: 310 ml}
left: 7.3 %
left worth: 3.17193/kg
sells: 417 kg
""",
    "buffets/party.yaml": """
name: The Vorpal party
price: 173.91
cooks: {chuck-30h: 237 g}
guests: 613
""",
    "swaps/chuck-for-ribeye.yaml": (
        "name: Zuccotto against the ribeye\nbenchmark: ribeye-steak\nchallengers: [chuck-steak]\n"
        "decided: {date: 2026-08-01, who: YX, why: Snickersnee earns more, margin change: 314.17,\n"
        "  food saved: 713.19, forecast: 977}\n"
    ),
    "services/friday.yaml": "day: friday\nat: 18:00\nplates: {chuck-steak: 43, ribeye-steak: 17}\n",
    "notes/opening.md": (
        "# Uncommon chowder\n\nThe Calloh list of [[chuck-roll]], [[The Vorpal counter]],\n"
        "[[plates/broth|the soup]] and [[notes/house/closing]]; [[swaps/chuck-for-ribeye]] led.\n"
        "\n| Callay | [[ribeye-steak\\|steak]] |\n| --- | ---: |\n| first | 17:41 |\n"
    ),
    "notes/house/closing.md": (
        "---\ntitle: Frabjous closing\n---\n\nBeamish words on [[sauce]]. [[notes/opening]].\n"
    ),
    "tastings/blind-try.yaml": """
name: Periwinkle panel
test: scores
date: 2026-11-20
seed: nobody guesses these words
samples: {chuck: chuck-30h, ribeye: {plate: ribeye-steak}}
benchmark: ribeye
tasters: 3
attributes: {tenderness: 9-point}
margin: 10 %
""",
    "tastings/held-try.yaml": """
name: Oubliette panel
test: scores
date: 2026-09-20
samples: {chuck: chuck-30h, ribeye: {plate: ribeye-steak}}
benchmark: ribeye
tasters: [Q71, Q72, Q73]
attributes: {tenderness: 9-point}
margin: 10 %
scores:
  Q71: {chuck: 6, ribeye: 7}
  Q72: {chuck: 7, ribeye: 7}
  Q73: {chuck: 5, ribeye: 7}
""",
    "counts/week-39.yaml": """
name: Jabberwock week
from: 2026-09-21
to: 2026-09-27
plates: {chuck-steak: {sold: 1013}}
cuts: {chuck-roll: {opening: 9.4 kg, bought: 374.8 kg, paid: 5193.17, closing: 11.2 kg}}
""",
    "prices/marrowgate.csv": (
        "date,item,price,supplier\n"
        "2026-08-03,chuck-roll,13.6193/kg,Marrowgate Stores\n"
        "2026-09-07,chuck-roll,14.1937/kg,Marrowgate Stores\n"
    ),
}
"""A kitchen with a record of every kind, its amounts odd and its words found nowhere else."""


# What a kitchen may have or not; a file by its name alone, a key with its file.
OPTIONAL: tuple[tuple[str, str], ...] = (
    *((name, "") for name in SMALL if name.startswith(("menus/", "buffets/", "plates/two-cuts"))),
    *(("kitchen.yaml", key) for key in ("garnish", "cover cost", "loaded wage", "energy",
                                        "targets", "covers", "authority", "tax")),
    *(("cooks/chuck-30h.yaml", key) for key in ("hands-on", "piece", "consumables", "remainder",
                                                "finish", "store", "steps")),
    *(("pantry/sauce.yaml", key) for key in ("store", "steps")), ("pantry/bread.yaml", "allergens"),
    *(("plates/chuck-steak.yaml", key) for key in ("hands-on", "sold", "forecast", "steps")),
    *(("plates/ribeye-steak.yaml", key) for key in ("cover cost", "garnish", "seasoning", "sold")),
    *(("buffets/counter.yaml", key) for key in ("left", "left worth", "sells", "items")),
    ("buffets/party.yaml", "guests"), ("menus/sunday.yaml", "guests"),
)  # fmt: skip


def without(left_out: Collection[tuple[str, str]], *, customary: bool) -> Mapping[str, str]:
    """The small kitchen without some of what is optional, in either system of units."""
    files = {name: text for name, text in SMALL.items() if (name, "") not in left_out}
    for name, key in left_out:
        if key and name in files:
            tree = yaml.load(files[name], Loader=yaml.BaseLoader)
            tree.pop(key)
            files[name] = yaml.safe_dump(tree, allow_unicode=True, sort_keys=False)
    units = "units: US customary\n" if customary else ""
    return {**files, "kitchen.yaml": files["kitchen.yaml"] + units}


def written(files: Mapping[str, str], root: Path) -> Path:
    """Write a kitchen's files."""
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return root
