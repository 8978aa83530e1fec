"""What is odd about keys of the files: every record type says itself which of them may be read."""

from __future__ import annotations

from collections.abc import Mapping

# Keys of free words, in whatever record they are; each needs notes.
REMARKS = ("note", "log", "decided")
# Amounts in a mapping whose names are free.
AMOUNTS = dict.fromkeys(
    (
        ("PantryItem", "of"), ("Plate", "with_"), ("Cover", "of"), ("Step", "amounts"),
        ("Buffet", "cooks"), ("Buffet", "items"),
    ),
    "weights",
)  # fmt: skip
# Values of which all may see that they are there, and what they measure: they say what is on a
# plate, or how something is sold.
THERE = frozenset(
    (
        ("Kitchen", "garnish"), ("Plate", "garnish"), ("Plate", "seasoning"),
        ("Plate", "cover_cost"), ("SetMenu", "cover_cost"), ("Buffet", "price"),
    )
)  # fmt: skip
# What claims nothing where it is absent; of the rest absence would be a statement.
ABSENT: Mapping[str, object] = {
    **dict.fromkeys(("note", "decided", "evidence", "tasting", "candidate")), "log": (),
    "steps": [],
}  # fmt: skip
