"""What all records share: keys as people spell them, and problems with their place."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from functools import cached_property
from typing import Any, ClassVar, Self, TypeVar, get_origin

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator
from pydantic_core import ErrorDetails

from builder.language import either, tr
from builder.problems import Place, Problem, bounded, did_you_mean, nearest
from builder.reading.other_words import another_word, meant_by
from builder.reading.tree import Branch, Node, Row, Text
from builder.records.fields import Date, Words, refuse
from builder.records.hint_examples import (
    as_list,
    as_named_values,
    as_short_form,
    example_in_words,
    with_example,
)
from builder.records.initials import Initials
from builder.records.kind import FREE, Kind
from builder.records.tree_paths import key_place, nearest_place, tidy_key, walk


def in_words(name: str) -> str:
    """Turn a Python name into the key that a cook writes.

    >>> in_words("loaded_wage")
    'loaded wage'
    """
    return name.removesuffix("_").replace("_", " ")


class Written(BaseModel):
    """A mapping of a content file, its keys folded, unknown ones refused."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        arbitrary_types_allowed=True,
        alias_generator=in_words,
    )
    # The keys that a lone value or a list of values stands for, where they are understood.
    short_for: ClassVar[tuple[str, ...]] = ()
    # Keys that whoever is granted the kind of record may read, with the group of figures or the
    # part that has to be granted as well; the others are barred.
    granted: ClassVar[Mapping[str, str]] = {}
    # What a key may hold, for a reader, where its kind of value has no example that fits it.
    examples: ClassVar[Mapping[str, str]] = {}

    @model_validator(mode="before")
    @classmethod
    def _fold_keys(cls, node: object) -> object:
        if len(cls.short_for) > 1 and isinstance(node, Text) and (hint := as_short_form(node)):
            raise refuse(tr("there are {values} values here", values=2), hint, node.place)
        if cls.short_for and isinstance(node, Text | Row):
            node = cls._unfold_short(node)
        if not isinstance(node, Branch):
            place = node.place if isinstance(node, Text | Row) else None
            raise refuse(tr("keys with values are wanted here"), cls.keys_hint(), place)
        return _folded(node)

    @classmethod
    def _unfold_short(cls, node: Text | Row) -> Branch:
        values = node if isinstance(node, Row) else [node]
        if len(values) > len(cls.short_for):
            raise refuse(
                tr("there are {values} values here", values=len(values)),
                tr(
                    "in order: {short_for}; a comma ends a value, a point is decimal",
                    short_for=", ".join(cls.short_for),
                ),
                node.place,
            )
        return branch_of(node.place, dict(zip(cls.short_for, values, strict=False)))

    @classmethod
    def known_keys(cls) -> list[str]:
        """The keys that the mapping may have, in order of declaration."""
        return [field.alias or name for name, field in cls.model_fields.items()]

    @classmethod
    def keys_hint(cls) -> str:
        """Say which keys fit."""
        return tr("keys that fit: {known_keys}", known_keys=", ".join(cls.known_keys()))


class LogEntry(Written):
    """Something that was decided about a record, and why."""

    examples: ClassVar[Mapping[str, str]] = {
        "what": "‹Cooked 30 h instead of 42 h›", "why": "‹tasters could not tell them apart›",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = dict.fromkeys(("date", "who", "what", "why"), FREE)

    date: Date = Field(description="the day on which it was decided")
    who: Initials = Field(description="the decider's own initials, never a name")
    what: Words = Field(description="what was decided or changed")
    why: Words = Field(description="the reason for it")


class Record(Written):
    """A file of its own: its id is the file's name, its page the id's path."""

    folder: ClassVar[str] = ""
    kind: ClassVar[Kind] = Kind()

    checked: Date | None = Field(
        None,
        description="day on which somebody looked over what is written here: values that are "
        "out of proportion are then believed, but for prices, tests and months after it",
    )
    log: list[LogEntry] = Field(
        [], description="what was decided about it, when, by whom and why, in any order"
    )

    # Set once by `named`. They are no keys of the file, so they are no fields; a cached
    # property is read as fast as a plain attribute, unlike a private one of pydantic.
    @cached_property
    def id(self) -> str:
        """The file's name without its ending."""
        raise AttributeError(tr("this {name} has no id yet", name=type(self).__name__))

    @property
    def title(self) -> str:
        """The name, or one made from the id."""
        name: Text | None = getattr(self, "name", None)
        return name or title_of(self.id)

    @cached_property
    def file(self) -> str:
        """The content file of the record."""
        raise AttributeError(tr("this {name} has no file yet", name=type(self).__name__))

    @cached_property
    def unread(self) -> frozenset[str]:
        """What could not be read of a partial record: keys, and `key.entry`, `key.*` for all."""
        return frozenset()

    @property
    def links(self) -> Iterable[tuple[str, Text]]:
        """The records that it names, each by folder and id: all have to be there."""
        return ()

    @property
    def named_paths(self) -> set[str]:
        """The paths of the records that it has no sense without."""
        return {f"{folder}/{name}" for folder, name in self.links}

    @cached_property
    def path(self) -> str:
        """Folder and id, such as "cuts/beef-chuck-roll"."""
        return f"{self.folder}/{self.id}" if self.folder else self.id

    def settle(self) -> None:
        """Fill in what other keys of the file say; done once, when it has been read."""

    def named(self, record_id: str, file: str) -> Self:
        """Give the record its id and file; done once, when it has been read."""
        self.__dict__.update(id=record_id, file=file)
        return self


R = TypeVar("R", bound=Written)

# Problems of one record that are held: it is written by hand, and each looks for what is meant.
MAX_OF_A_RECORD = 500


def read_record(
    kind: type[R],
    node: Node | None,
    file: str,
    context: Mapping[str, str],
    reported: Collection[Problem] = (),
) -> tuple[R | None, list[Problem]]:
    """Make a record of a file's tree, or say everything that is wrong with it.

    `reported` is what was wrong with reading the file: nothing more is said of its lines then, nor
    of a key that is not there.
    """
    try:
        return kind.model_validate(node, context=dict(context)), []
    except ValidationError as error:
        details = error.errors(include_url=False)
        meant = {_meant(kind, detail["loc"]) for detail in details if _is_unknown(detail)}
        # A key that a misspelt one stands for is reported with that one.
        found = (
            _problem(kind, node, file, each)
            for each in details
            if each["type"] != "missing" or not (reported or each["loc"] in meant)
        )
        return None, _new_problems(bounded(found, MAX_OF_A_RECORD), reported)


def _new_problems(found: Iterable[Problem], reported: Collection[Problem]) -> list[Problem]:
    lines = {problem.place.line for problem in reported}
    return [problem for problem in found if problem.place.line not in lines]


def title_of(record_id: str) -> str:
    """Make a name from an id where the record states none.

    >>> title_of("chuck-steak")
    'Chuck steak'
    """
    words = record_id.replace("-", " ")
    return words[:1].upper() + words[1:]


def branch_of(place: Place, values: Mapping[str, Node]) -> Branch:
    """Make a mapping at the place where its short form was written."""
    branch = Branch(place)
    for key, value in values.items():
        branch[Text(key, place.file, place.line, place.column)] = value
    return branch


def _folded(node: Branch) -> Branch:
    if all(key == tidy_key(key) for key in node):
        return node
    folded = Branch(node.place)
    for key, value in node.items():
        tidy = Text(tidy_key(key), key.file, key.line, key.column)
        if tidy in folded:
            first = folded.key(tidy).place
            raise refuse(
                tr('"{key}" is there twice', key=key),
                tr("first at {first}", first=first),
                key.place,
            )
        folded[tidy] = value
    return folded


def _problem(kind: type[Written], root: Node | None, file: str, detail: ErrorDetails) -> Problem:
    place = nearest_place(root, detail["loc"], file)
    context: dict[str, Any] = detail.get("ctx", {})
    match detail["type"]:
        case "content":
            hint = _key_as_entry(kind, detail["loc"])
            hint = hint or with_example(context["hint"], _example_at(kind, detail["loc"]))
            return Problem(context["place"] or place, context["message"], hint)
        case "missing":
            key = detail["loc"][-1]
            about = _missing_line(kind, detail["loc"])
            return Problem(place, tr('"{key}" is missing', key=key), about)
        case "extra_forbidden":
            key = str(detail["loc"][-1])
            known = _keys_at(kind, detail["loc"][:-1])
            hint = (
                _key_elsewhere(kind, root, detail["loc"])
                or another_word(key, known)
                or did_you_mean(key, known)
                or tr("keys that fit: {known}", known=", ".join(known))
            )
            return Problem(
                key_place(root, detail["loc"], file), tr('unknown key "{key}"', key=key), hint
            )
        case "list_type":
            return Problem(
                place, tr("a list is wanted here"), as_list(walk(root, detail["loc"])[-1:])
            )
        case "dict_type":
            hint = _as_named(kind, root, detail["loc"])
            return Problem(place, tr("names with values are wanted here"), hint)
        case _:
            return Problem(place, str(detail["msg"]))


def _example_of(kind: type[Written], loc: Sequence[int | str]) -> str:
    """The example of the key at a place, in the language in use; empty without one."""
    return example_in_words(_model_at(kind, loc[:-1]).examples.get(str(loc[-1]), "")) if loc else ""


def _example_at(kind: type[Written], loc: Sequence[int | str]) -> str:
    """The example of the key that a value stands at, alone or as an entry; empty without one.

    Of a list it is the first entry, of named values the first value.
    """
    if found := _example_of(kind, loc):
        return found
    listed = _example_of(kind, loc[:-1])
    entry = re.fullmatch(r"(?:\[|{[^:{}\[\]]+: )([^,{}\[\]]+)(?:,[^{}\[\]]*)?[\]}]", listed)
    return entry[1] if entry else ""


def _as_named(kind: type[Written], root: Node | None, loc: tuple[int | str, ...]) -> str:
    """How names with values are written, from what stands there or like the key's example."""
    found = walk(root, loc)
    node = found[-1] if len(found) > len(loc) else None
    return as_named_values(node, _example_of(kind, loc))


def _missing_line(kind: type[Written], loc: tuple[int | str, ...]) -> str:
    """What a missing key is, with a line that holds it."""
    model, key = _model_at(kind, loc[:-1]), str(loc[-1])
    fields = (f for name, f in model.model_fields.items() if key == (f.alias or name))
    about = "".join(tr(field.description or "") for field in fields)
    line = f"{key}: {_example_of(kind, loc)}"
    return about if line.endswith(": ") else tr("{about}, such as {line}", about=about, line=line)


def _is_unknown(detail: ErrorDetails) -> bool:
    return detail["type"] == "extra_forbidden"


def _meant(kind: type[Written], loc: tuple[int | str, ...]) -> tuple[int | str, ...]:
    """Where the key would stand that an unknown one was probably meant to be."""
    return (*loc[:-1], meant_key(str(loc[-1]), _keys_at(kind, loc[:-1])))


def meant_key(key: str, known: Collection[str]) -> str:
    """The known key that an unknown one was probably meant to be, or an empty string."""
    return meant_by(key, known) or nearest(key, known)


def _model_at(kind: type[Written], loc: Iterable[int | str]) -> type[Written]:
    """The model that a path leads to, through lists and mappings of models."""
    for step in loc:
        for name, field in kind.model_fields.items():
            if step == (field.alias or name):
                kind = _inner(field.annotation) or kind
    return kind


def _key_elsewhere(kind: type[Written], root: Node | None, loc: tuple[int | str, ...]) -> str:
    """Where an unknown key belongs that is known one level up or down; else an empty string.

    Not one level up where it is written there as well: then it means something else here.
    """
    key, levels, above = str(loc[-1]), [kind], loc[:0]
    for end in range(1, len(loc)):
        model = _model_at(kind, loc[:end])
        if model is not levels[-1]:
            levels.append(model)
            above = loc[: end - 1]
    written = len(walk(root, (*above, key))) == len(above) + 2
    if len(levels) > 1 and key in levels[-2].known_keys() and not written:
        return tr('"{key}" goes one level up, beside "{loc}"', key=key, loc=loc[len(above)])
    # Every record has a log, so that it says nothing about where a date belongs.
    below = [
        field.alias or name
        for name, field in levels[-1].model_fields.items()
        if name != "log" and (inner := _inner(field.annotation)) and key in inner.known_keys()
    ]
    return (
        tr('"{key}" goes one level down, within {either}', key=key, either=_either(below))
        if below
        else ""
    )


def _key_as_entry(kind: type[Written], loc: tuple[int | str, ...]) -> str:
    """Where an entry of named mappings belongs that is called like a key of such a mapping."""
    for end in range(max(1, len(loc) - 2), len(loc)):
        model, key = _model_at(kind, loc[:end]), tidy_key(str(loc[end]))
        is_named = _field_type(_model_at(kind, loc[: end - 1]), loc[end - 1])
        if get_origin(is_named) is dict and _inner(is_named) and key in model.known_keys():
            return tr(
                '"{loc}" is a key of each entry of "{loc2}": write it in the entry',
                loc=loc[end],
                loc2=loc[end - 1],
            )
    return ""


def _field_type(kind: type[Written], key: int | str) -> object:
    found = (f.annotation for name, f in kind.model_fields.items() if key == (f.alias or name))
    return next(found, None)


def _either(names: list[str]) -> str:
    return either(f'"{name}"' for name in names)


def _inner(annotation: object) -> type[Written] | None:
    if isinstance(annotation, type) and issubclass(annotation, Written):
        return annotation
    for argument in getattr(annotation, "__args__", ()):
        if found := _inner(argument):
            return found
    return None


def _keys_at(kind: type[Written], loc: Iterable[int | str]) -> list[str]:
    return _model_at(kind, loc).known_keys()
