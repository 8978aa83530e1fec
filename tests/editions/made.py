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
    "sold as": "weights", "portion": "weights", "with": "weights", "of": "weights",
    "makes": "weights",
    "at": "cooking", "for": "cooking", "hands on": "work", "covers": "work",
    "allergens": "allergens", "steps": "steps", "cover cost": "prices", "garnish": "prices",
    "seasoning": "weights", "source": "cooking", "log": "notes", "decided": "notes",
}  # fmt: skip
_OFFERED: Mapping[str, str] = {
    "price": "menu prices", "supplement": "menu prices", "share": "work", "guests": "sales",
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
_COUNTED: Mapping[str, str] = {
    "name": "counts", "plates": "sales", "sold": "sales", "paid": "prices", "note": "notes",
    "log": "notes",
    **dict.fromkeys(
        ("weighed portions", "used", "made", "opening", "bought", "closing", "left", "thrown"),
        "weights",
    ),
}  # fmt: skip
_ANSWERS = frozenset(("scores", "ranks", "answers", "correct"))
# Columns of price lists and of the till's exports with what has to be granted to see them; a
# count without a price is a plate's own.
_AMOUNTS: Mapping[tuple[str, str], str] = {
    ("price", "prices"): "prices", ("price", "sales"): "till", ("amount", "sales"): "till",
    ("count", "sales"): "sales", ("qty", "sales"): "sales",
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
        groups |= {"tastings", "core"}
    if "cooking" in groups:
        groups |= {"core"}
    if groups.issuperset(("plates", "sales", "menu prices")):
        groups |= {"till"}
    if "steps" in groups:
        groups |= {own for group, own in _IN_STEPS.values() if group in groups}
    for file in sorted(root.rglob("*")):
        target = to / file.relative_to(root)
        if file.is_dir():
            target.mkdir(parents=True, exist_ok=True)
        elif file.suffix == ".yaml":
            kind = file.parent.name if file.parent != root else ""
            text = file.read_text()
            if kind == "tastings" and factor != 1 and "personal codes" not in groups:
                text = re.sub(r"\bQ7", "Z9", text)
            tree = yaml.load(text, Loader=yaml.BaseLoader)
            hidden = kind in {"menus", "buffets", "counts"} and kind not in groups
            # Answers are turned round on a scale of nine points alone; others stay as they are.
            same = set() if "{tenderness: 9-point}" in text else {"tasting answers"}
            moved = _moved(tree, kind, "", set() if hidden else groups | same, factor)
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
    if kind == "" and (key in {"energy", "gas", "give or take"} or within == "tolerances"):
        return _tolerance_group(key)
    if kind == "counts":
        return _COUNTED.get(key, "")
    if kind == "cooks" and key in {"at", "core"}:
        return "core"
    if kind == "plates" and key == "price":
        return "menu prices"
    if kind == "services":
        return "work" if key == "plates" else ""
    if within in {"log", "notes"}:
        return "notes" if key in {"what", "why"} else "as it is"
    if kind == "tastings" and (key in _ANSWERS or within == "tasting answers"):
        return "tasting answers"
    if kind in {"swaps", "tastings"} and key != "name":
        return _KEYS.get(key, "") if key in {"note", "log", "decided", "buys", "paid"} else ""
    if kind in {"swaps", "tastings"} and key == "name":
        return kind
    return _KEYS.get(key, "")


def _tolerance_group(key: str) -> str:
    """How far what is written lies apart; the amounts of a cover are weights."""
    if key == "give or take":
        return "tolerances"
    other = {"cover cost": "weights", "energy": "prices", "gas": "prices"}
    return other.get(key) or _KEYS.get(key, "") or "as it is"


def _text(text: str, group: str, groups: Collection[str], factor: float) -> str:
    if factor == 1 or group == "as it is":
        return text
    if "prices" not in groups and group in {"", "prices", "weights"}:
        text = _RATE.sub(lambda found: _times(found[0], factor), text)
    if not group or group in groups:
        return text
    if group == "tasting answers":
        # On the other side of a scale of nine points.
        return str(10 - int(text)) if text.isdigit() else text
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
            elif (low, folder) in _AMOUNTS and _AMOUNTS[low, folder] not in groups:
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
