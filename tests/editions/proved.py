"""The proof of one edition: what is withheld from its reader is in none of its bytes."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from builder.costing.blind import is_over
from builder.pages.editions import reader_of
from builder.pages.reader import Reader
from builder.pages.view import View
from builder.records.editions import edition
from tests.editions.made import Kitchen, another, computed, files_of
from tests.editions.searched import forms_of, holding, names_withheld, numbers, with_numbers
from tests.editions.small import SMALL, written

# Words that stand in one key of one file each, with what has to be granted to read them.
WORDS = {
    "zibellino": ("notes", "raw files"), "quincunx": ("notes",), "Ossington": ("suppliers",),
    "Marrowgate": ("suppliers",), "Zuccotto": ("swaps",), "Oubliette": ("tastings",),
    "Periwinkle": ("tastings", "tasting sheets"), "Jabberwock": ("counts",), "gimbled": ("counts",),
    "nobody guesses": (), "Q71": ("personal codes",), "Galumph": ("menus",), "Vorpal": ("buffets",),
    "frumiously": ("steps",), "uffishly": ("steps",), "brilligly": ("steps",),
    **dict.fromkeys(
        ("Manxome", "lilliburlero", "Tulgey", "slithy", "mome raths", "Uncommon chowder", "Calloh",
         "Callay", "Frabjous", "Beamish"),
        ("notes",),
    ),
    "Snickersnee": ("notes",), "Jubjub": ("steps",), "Bandersnatch": ("cooking",),
    "Bag it": ("steps",),
}  # fmt: skip


def of_scripts(folder: Path, cache: Path) -> set[bytes]:
    """Numbers that are there without any figure, though all of them are others: the scripts'."""
    nobody = reader_of("nobody", edition(("cuts", "cooks", "pantry", "plates"), (), ("methods",)))
    root = written(SMALL, folder / "as-written")
    everything = numbers(forms_of(View.of(*computed(root)), nobody))
    to = folder / "another"
    to.mkdir()
    files = files_of(computed(another(root, to, nobody, 1.31)), nobody, cache)
    return set().union(*with_numbers(files, everything).values())


def searched(
    kitchen: Kitchen, reader: Reader, files: dict[str, bytes], scripts: set[bytes]
) -> dict[str, Collection[str | bytes]]:
    """The files that hold a name or a value that is withheld."""
    sought = numbers(forms_of(View.of(*kitchen), reader)) - scripts
    words = words_withheld(kitchen, reader, files)
    if "steps" not in reader.parts and "cooking" in reader.groups:
        # How long each step takes is its own, though other hours are shown.
        words |= {"231.7", "97\u00a0s", "19\u00a0s"}
    return {**holding(files, words), **with_numbers(files, sought)}


def words_withheld(kitchen: Kitchen, reader: Reader, files: dict[str, bytes]) -> set[str]:
    """The names and remarks that may be in no file of a reader's site."""
    granted = {*reader.kinds, *reader.groups, *reader.parts}
    words = {word for word, by in WORDS.items() if not granted.intersection(by)}
    content = kitchen[0].content
    if any(
        is_over(content, tasting, held=False)
        for tasting in content.tastings.values()
        if tasting.seed
    ):
        words -= {"nobody guesses"}  # nobody is left to be kept blind
    # Shorter ones are words of any kitchen's pages, such as stock.
    names = names_withheld(content, reader, files.keys())
    return words | {name for name in names if len(name) > 9}
