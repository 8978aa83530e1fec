"""Editions: for whom a site is printed, and what each of them is granted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Annotated, ClassVar, Literal, get_args

from pydantic import Field, PlainValidator

from builder.language import tr
from builder.problems import Problem, did_you_mean
from builder.reading.names import is_id, same_name, why_no_file_name
from builder.reading.tree import Text
from builder.records.base import Written
from builder.records.fields import Words, any_of
from builder.records.kinds import RECORDS

Group = Literal[
    "weights", "cooking", "work", "food cost", "labour", "margins", "sales", "suppliers",
    "prices", "menu prices", "tasting answers", "personal codes",
]  # fmt: skip
GROUPS: tuple[Group, ...] = get_args(Group)
KINDS = tuple(record.folder for record in RECORDS)
PARTS = (
    "steps", "notes", "raw files", "forms", "tasting sheets", "allergens", "methods",
    "data tables", "warnings",
)  # fmt: skip
OWNER = "owner"
# What the words of a kitchen mean here, where their spelling is near to something else.
_GROUPS_MEANT: Mapping[str, str] = {
    **dict.fromkeys(("wage", "wages", "pay", "salary", "salaries", "loaded wage"), "labour"),
    **dict.fromkeys(("cost", "costs", "food costs"), "food cost"),
    **dict.fromkeys(("profit", "profits", "earnings", "contribution"), "margins"),
    **dict.fromkeys(("revenue", "turnover", "takings"), "sales"),
    **dict.fromkeys(("yield", "yields", "losses", "portions", "amounts"), "weights"),
    **dict.fromkeys(("hours", "minutes", "hands on", "covers"), "work"),
    **dict.fromkeys(("temperature", "temperatures", "times", "heat"), "cooking"),
    **dict.fromkeys(("vendors", "vendor"), "suppliers"),
    **dict.fromkeys(("answers", "scores", "results", "verdicts"), "tasting answers"),
    **dict.fromkeys(("codes", "tasters", "names"), "personal codes"),
    **dict.fromkeys(KINDS, "it under records:"), **dict.fromkeys(PARTS, "it under with:"),
}  # fmt: skip
_KINDS_MEANT: Mapping[str, str] = {
    **{word: record.folder for record in RECORDS for word in record.kind.meant},
    **dict.fromkeys(GROUPS, "it under figures:"), **dict.fromkeys(PARTS, "it under with:"),
}  # fmt: skip
_PARTS_MEANT: Mapping[str, str] = {
    **dict.fromkeys(("recipes", "recipe"), "steps"), "remarks": "notes", "log": "notes",
    **dict.fromkeys(("files", "file", "lines"), "raw files"), "ballots": "tasting sheets",
    **dict.fromkeys(("labels", "spec sheets", "sheets"), "forms"),
    **dict.fromkeys(("formulas", "formula"), "methods"),
    **dict.fromkeys(("csv", "data", "downloads", "tables"), "data tables"),
    **dict.fromkeys(KINDS, "it under records:"), **dict.fromkeys(GROUPS, "it under figures:"),
}  # fmt: skip
FIGURES: Mapping[str, tuple[str, ...]] = {
    **{record.folder: record.kind.needs for record in RECORDS if record.kind.needs},
    "tasting answers": ("cooking",),
}  # fmt: skip
"""Groups of figures without which a kind of record, or a group, says nothing: what was counted are
weights, and tasters answered on so many hours."""
NAMES: Mapping[str, tuple[str, ...]] = {
    record.folder: record.kind.names for record in RECORDS if record.kind.names
}
"""Kinds of record with the kinds that they name: without these they can't be shown."""


class Edition(Written):
    """What one kind of reader is granted; nothing else is anywhere in their site."""

    examples: ClassVar[Mapping[str, str]] = {
        "folder": "chefs", "records": "[cuts, cooks]", "figures": "[weights, cooking]",
        "with": "[notes, forms]",
    }  # fmt: skip

    folder: Words | None = Field(
        None, description="folder of the site beside the owner's, where several are built at once"
    )
    records: (
        Annotated[tuple[Text, ...], PlainValidator(any_of(*KINDS, meant=_KINDS_MEANT))] | None
    ) = Field(None, description=f"kinds of record, any of {', '.join(KINDS)}")
    figures: (
        Annotated[tuple[Text, ...], PlainValidator(any_of(*GROUPS, meant=_GROUPS_MEANT))] | None
    ) = Field(None, description=f"groups of figures, any of {', '.join(GROUPS)}")
    with_: (
        Annotated[tuple[Text, ...], PlainValidator(any_of(*PARTS, meant=_PARTS_MEANT))] | None
    ) = Field(None, description=f"what else, any of {', '.join(PARTS)}")

    @property
    def grants_nothing(self) -> bool:
        """Whether it says nothing of what is granted: a ready edition in a folder of its own."""
        return self.records is None and self.figures is None and self.with_ is None


def edition(records: Iterable[str], figures: Iterable[str], also: Iterable[str]) -> Edition:
    """An edition that no file holds."""
    granted = {"records": records, "figures": figures, "with_": also}
    words = {key: tuple(map(Text, names)) for key, names in granted.items()}
    return Edition.model_construct(None, folder=None, **words)


def _holding(name: str) -> list[str]:
    return [record.folder for record in RECORDS if name in record.kind.editions]


READY: Mapping[str, Edition] = {
    OWNER: edition(KINDS, GROUPS, PARTS),
    "kitchen": edition(
        _holding("kitchen"),
        ("weights", "cooking", "work"),
        ("steps", "allergens", "forms", "methods", "tasting sheets"),
    ),
    "front-of-house": edition(
        _holding("front-of-house"),
        (),
        ("allergens", "tasting sheets"),
    ),
}
"""Three that every kitchen has; its own of the same name goes before."""


def editions_of(written: Mapping[Text, Edition]) -> dict[str, Edition]:
    """Every edition of a kitchen by its name, with what it grants."""
    found = dict(READY)
    for name, own in written.items():
        ready = READY.get(str(name))
        if ready is not None and own.grants_nothing:
            found[str(name)] = ready.model_copy(update={"folder": own.folder})
        else:
            found[str(name)] = own
    return found


def folder_of(name: str, granted: Edition, output: str) -> str:
    """The name of an edition's folder beside the owner's, of which the name is `output`."""
    if granted.folder is not None:
        return str(granted.folder)
    return output if name == OWNER else f"{output}-{name}"


def check_editions(written: Mapping[Text, Edition]) -> Iterator[Problem]:
    """Names that name no folder, folders that two editions share, an owner who sees less."""
    taken: dict[str, str] = {}
    for name, own in written.items():
        if not is_id(name) or why_no_file_name(name):
            hint = tr("write lower-case letters, digits and single hyphens, such as head-chef")
            yield Problem(name.place, tr('"{name}" is no name for an edition', name=name), hint)
        if name == OWNER and not own.grants_nothing:
            hint = tr("take its records, figures and with out, or give it another name")
            yield Problem(name.place, tr("the owner's edition holds everything"), hint)
        if own.grants_nothing and name not in READY:
            hint = did_you_mean(name, READY) or tr("write records:, figures: and with: as wanted")
            yield Problem(
                name.place, tr("nothing is granted to the edition {name}", name=name), hint
            )
        folder = own.folder
        if folder is None:
            continue
        if not is_id(folder) or folder.endswith("-keys"):
            hint = tr("write a name without dots and slashes, such as chefs")
            yield Problem(
                folder.place, tr('"{folder}" is no folder beside the owner\'s', folder=folder), hint
            )
        if (other := taken.setdefault(same_name(folder), str(name))) != name:
            hint = tr("every edition has a folder of its own")
            yield Problem(
                folder.place, tr("the edition {other} has this folder, too", other=other), hint
            )
