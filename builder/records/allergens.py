"""Allergens as the files state them, and the list that a kitchen goes by.

What nobody stated is not known; only `none`, written on purpose, says that there is none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator, ValidationInfo

from builder.data.allergens import laws, vocabulary
from builder.language import either, tr
from builder.problems import Place, did_you_mean
from builder.reading.tree import Blank, Branch, Row, Text
from builder.records.base import Written, branch_of
from builder.records.fields import refuse, scalar, schema
from builder.records.kind import FREE
from builder.records.tree_paths import tidy_key

NONE = "none"
OWN_WORDS = "own allergens"
"""Key of the reading context: a kitchen's own words, a line each, the name before a tab; any word
is read where they are `ANY`, because the kitchen's own list could not be."""
ANY = "*"


@dataclass(frozen=True, slots=True)
class Allergen:
    """An allergen as written; `kind` says which of its kinds it is, where one was named."""

    name: str
    kind: str
    place: Place

    def __str__(self) -> str:
        return in_full(self.name, self.kind)


@dataclass(frozen=True, slots=True)
class Stated:
    """What a file states at `allergens` or `may contain`; `none` is a statement, too."""

    allergens: tuple[Allergen, ...]
    none: bool
    place: Place

    @property
    def is_known(self) -> bool:
        """Whether anything is stated: an empty list states nothing."""
        return self.none or bool(self.allergens)


def in_full(name: str, kind: str) -> str:
    """An allergen with its kind.

    >>> in_full("tree nuts", "hazelnuts"), in_full("milk", "")
    ('tree nuts (hazelnuts)', 'milk')
    """
    return f"{name} ({kind})" if kind else name


def _stated(node: object, info: ValidationInfo) -> Stated:
    if isinstance(node, Text) and not isinstance(node, Blank):
        if tidy_key(node) == NONE:
            return Stated((), none=True, place=node.place)
        hint = tr(
            "write [{node}], or start each entry with a dash; none where there is none", node=node
        )
        raise refuse(tr("a list is wanted here"), hint, node.place)
    if not isinstance(node, Row):
        place = node.place if isinstance(node, Branch | Text) else None
        raise refuse(tr("a list is wanted here"), tr("such as [milk, eggs], or none"), place)
    own = dict(_own_words((info.context or {}).get(OWN_WORDS, "")))
    return Stated(tuple(_read(each, own) for each in node), none=False, place=node.place)


def _own_words(text: str) -> Iterator[tuple[str, str]]:
    for line in text.splitlines():
        name, _, word = line.partition("\t")
        yield word or name, name


def _read(node: object, own: Mapping[str, str]) -> Allergen:
    text = scalar(node, tr("an allergen, such as milk"))
    word = tidy_key(text)
    if word == NONE:
        raise refuse(
            tr("none stands by itself"),
            tr("write allergens: none, or take it out of the list"),
            text.place,
        )
    if found := meaning_of(word, own):
        return Allergen(*found, text.place)
    if ANY in own:
        return Allergen(word, "", text.place)
    raise refuse(tr('"{text}" is not known here', text=text), _hint(word, own), text.place)


def meaning_of(word: str, own: Mapping[str, str]) -> tuple[str, str] | None:
    """The allergen and kind that a tidy word means, by the kitchen's own words first."""
    if word in own:
        return vocabulary().meanings.get(own[word], (own[word], ""))
    return vocabulary().meanings.get(word)


def _hint(word: str, own: Mapping[str, str]) -> str:
    words = vocabulary()
    if meant := words.unclear.get(word):
        return tr("write {meant}, whichever the label says", meant=either(meant))
    near = did_you_mean(word, [*words.names, *own, *words.meanings])
    add = tr("kitchen.yaml can add it: allergens: {{own: [{word}]}}", word=word)
    if near:
        return tr("{near} If it is something else, {add}", near=near, add=add)
    return tr(
        "known: {names}, and kinds such as wheat; {add}", names=", ".join(words.names), add=add
    )


AllergensStated = Annotated[
    Stated,
    PlainValidator(_stated),
    schema("[milk, hazelnuts]", "a list of allergens, or none"),
]


def _law(node: object) -> Text:
    text = scalar(node, tr("one of {laws}, or none", laws=", ".join(laws())))
    word = tidy_key(text)
    for law in laws().values():
        if word in {tidy_key(law.id), tidy_key(law.title), *law.words}:
            return Text(law.id, text.file, text.line, text.column)
    if word == NONE:
        return Text(NONE, text.file, text.line, text.column)
    known = [*laws(), *(word for law in laws().values() for word in law.words)]
    hint = did_you_mean(word, known) or tr("one of {laws}, or none", laws=", ".join(laws()))
    if word in vocabulary().meanings:
        hint = tr("a kitchen's own list is written as [{text}, ...]", text=text)
    raise refuse(tr('no list of allergens is called "{text}" here', text=text), hint, text.place)


def _own(node: object) -> dict[Text, tuple[Text, ...]]:
    """Names with further words for them; a lone list has names only."""
    if isinstance(node, Row):
        return {scalar(each, tr("an allergen, such as buckwheat")): () for each in node}
    if not isinstance(node, Branch):
        text = scalar(node, tr("a list of allergens"))
        raise refuse(tr("a list is wanted here"), tr("write [{text}]", text=text), text.place)
    wanted = tr("another word for it")
    return {
        name: tuple(scalar(word, wanted) for word in (words if isinstance(words, Row) else [words]))
        for name, words in node.items()
    }


LawName = Annotated[Text, PlainValidator(_law), schema("eu", "a law's list, by name, or none")]
OwnList = Annotated[
    dict[Text, tuple[Text, ...]],
    PlainValidator(_own),
    schema("[buckwheat]", "a list of allergens, or each with other words for it"),
]


class AllergenList(Written):
    """The allergens that the kitchen's pages list: those of a law, its own, or both."""

    short_for: ClassVar[tuple[str, ...]] = ("law",)
    examples: ClassVar[Mapping[str, str]] = {
        "law": "eu-1169-2011", "own": "{buckwheat: [soba, kasha]}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"law": FREE, "own": FREE}

    law: LawName | None = Field(
        None, description=f"one of {', '.join(laws())}, or none; by the authority if left out"
    )
    own: OwnList = Field(
        {}, description="further allergens of the kitchen's own, with other words for them"
    )

    @classmethod
    def _unfold_short(cls, node: Text | Row) -> Branch:
        if isinstance(node, Row):
            place = node.place
            none = Text(NONE, place.file, place.line, place.column)
            return branch_of(place, {"law": none, "own": node})
        return super()._unfold_short(node)


def context_of(chosen: AllergenList | None, *, unread: bool) -> dict[str, str]:
    """What reading the other files has to know of the kitchen's own list."""
    if unread:
        return {OWN_WORDS: ANY}
    lines = [
        f"{tidy_key(name)}\t{tidy_key(word)}"
        for name, words in (chosen.own.items() if chosen else ())
        for word in (name, *words)
    ]
    return {OWN_WORDS: "\n".join(lines)} if lines else {}
