"""Kitchens and readers by chance, for the proof of editions: the same seed gives the same ones."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from random import Random

from builder.pages.editions import reader_of
from builder.pages.reader import Reader
from builder.records.editions import GROUPS, KINDS, PARTS, edition
from tests.editions.small import OPTIONAL, without

# What a file says more, or instead of something: each of these is warned of.
_MORE: tuple[tuple[str, str], ...] = (
    ("plates/broth.yaml", "allergens: []\n"),
    ("cuts/ribeye.yaml", 'note: "See [[nowhere at all]]."\n'),
    ("prices/marrowgate.csv", "2026-09-07,chuck-roll,141.937/kg,Ossington Bones\n"),
    ("prices/marrowgate.csv", "2026-09-14,butter,0.00/kg,Marrowgate Stores\n"),
    ("prices/marrowgate.csv", "2026-09-14,ribeye,391.73/kg,Marrowgate Stores\n"),
    ("prices/marrowgate.csv", "2004-09-14,bread,5.61937/kg,Marrowgate Stores\n"),
    ("sales/2026-09.csv", "2026-09-29,chuck-steak,17,127.37\n"),
    ("plates/broth.yaml", "forecast: 97\nsold: {2026-07: 9173, 2026-08: 9371}\n"),
    ("plates/ribeye-steak.yaml", "weighed portions: [231.7 g, 239.1 g, 233.9 g]\n"),
)
_INSTEAD: tuple[tuple[str, str, str], ...] = (
    ("cooks/chuck-30h.yaml", "remainder: 3.91573/kg", "remainder: 391.573/kg"),
    ("cooks/chuck-30h.yaml", "load: 7.1 kg", "load: 0.71 kg"),
    ("cooks/chuck-30h.yaml", "thickness: 70 mm", "thickness: 7 mm"),
    ("cuts/chuck-roll.yaml", "minimum: 18.346 kg", "minimum: 20.173 kg"),
    ("cuts/chuck-roll.yaml", "0.617391/kg", "617.391/kg"),
    ("cuts/chuck-roll.yaml", "8.1379/kg", "81.379/kg"),
    ("cuts/chuck-roll.yaml", "2026-09-03", "2025-07-03"),
    ("tastings/blind-try.yaml", "2026-11-20", "2026-09-20"),
    ("tastings/held-try.yaml", "  Q73: {chuck: 5, ribeye: 7}\n", ""),
    ("kitchen.yaml", "energy: 0.148371/kWh", "energy: 0.0148371/kWh"),
    ("kitchen.yaml", "loaded wage: 24.7193/h", "loaded wage: 0.247193/h"),
    ("counts/week-39.yaml", "bought: 374.8 kg", "bought: 3748.3 kg"),
    ("counts/week-39.yaml", "paid: 5193.17", "paid: 51931.7"),
    ("services/friday.yaml", "chuck-steak: 43", "chuck-steak: 9743"),
)
_NUMBER = re.compile(r"(?<![\w.-])[1-9][0-9]*(?:\.[0-9]+)?(?=[ /,}\]]|$)(?!-)", re.MULTILINE)


def kitchen(dice: Random, *, slips: bool) -> Mapping[str, str]:
    """A kitchen without some of what is optional, and with warnings; with slips of the pen."""
    left_out = [each for each in OPTIONAL if dice.random() < dice.choice((0.0, 0.1, 0.4))]
    files = dict(without([], customary=dice.random() < 0.3))
    for name, old, new in _INSTEAD:
        if dice.random() < 0.25:
            files[name] = files[name].replace(old, new)
    for name, more in _MORE:
        if dice.random() < 0.25:
            files[name] = _joined(files[name], more)
    for _ in range(dice.randint(1, 4) if slips else 0):
        name = dice.choice([name for name in files if name.endswith(".yaml")])
        files[name] = _slipped(files[name], dice)
    return without(left_out, customary=False, files=files)


def _joined(text: str, more: str) -> str:
    """A file with further keys, but for those that it has."""
    key = more.partition(":")[0]
    return text if more.endswith("\n") and f"\n{key}:" in f"\n{text}" else text + more


def _slipped(text: str, dice: Random) -> str:
    """A number of a file ten times as large or as small."""
    found = list(_NUMBER.finditer(text))
    if not found:
        return text
    at = dice.choice(found)
    by = dice.choice((0.1, 10))
    number = f"{float(at[0]) * by:.6g}" if "." in at[0] or by < 1 else f"{int(at[0]) * 10}"
    return f"{text[: at.start()]}{number}{text[at.end() :]}"


def reader(dice: Random) -> Reader:
    """Somebody who is granted few or many kinds of record, groups of figures and parts."""
    return reader_of("somebody", edition(*(_some(names, dice) for names in (KINDS, GROUPS, PARTS))))


def _some(names: Iterable[str], dice: Random) -> list[str]:
    share = dice.choice((0.3, 0.6, 0.8, 0.9, 1.0))
    return [name for name in names if dice.random() < share]
