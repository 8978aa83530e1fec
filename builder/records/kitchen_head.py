"""What of the kitchen's file is read ahead of everything else."""

from __future__ import annotations

from pathlib import Path

from builder.language import current_words, words_of
from builder.reading.salvage import parse_or_salvage
from builder.reading.tree import Branch, Node, Text
from builder.records.kitchen import Kitchen
from builder.records.tree_paths import tidy_key

# A kitchen's file is short; what is far down in a long one is read with all else.
_KITCHEN_HEAD = 200_000


def language_in(root: Path) -> str:
    """The language that a kitchen's pages and messages are written in, as `written_in` takes it.

    It is read ahead of all else, so that every message is in it; where there is no such file,
    the one in use.
    """
    try:
        data = (root / "kitchen.yaml").read_bytes()[:_KITCHEN_HEAD]
    except OSError:
        return current_words()
    tree, _ = parse_or_salvage("kitchen.yaml", data)
    return words_of(written_for(tree, "language"), written_for(tree, "locale"))


def language_for(kitchen: Kitchen) -> str:
    """The same, of a kitchen that was read."""
    return words_of(str(kitchen.language or ""), str(kitchen.locale or ""))


def written_for(tree: Node | None, wanted: str) -> str:
    """The text of a key of the kitchen, where there is one."""
    for key, value in tree.items() if isinstance(tree, Branch) else ():
        if tidy_key(key) == wanted and isinstance(value, Text):
            return str(value)
    return ""
