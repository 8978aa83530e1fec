"""JSON Schemas of the content's files, made from the record types that check them.

For editors: they complete keys, show what a key holds, and mark what can't be. The
command is the judge; a schema never marks what the command takes. Draft 7 of JSON Schema
(json-schema.org), the draft that YAML editors read [from memory].
"""

from __future__ import annotations

import inspect
import json
import re
from pathlib import Path
from types import NoneType, UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import ConfigDict, PlainValidator, TypeAdapter, ValidationError, WithJsonSchema

from builder.language import tr
from builder.pages.shapes import Key, choices_of, keys_of
from builder.problems import Place, ShankbookError
from builder.reading.tree import Branch, Node, Row, Text
from builder.records.answer_rows import AnswerRow
from builder.records.base import Written
from builder.records.content import PriceRow
from builder.records.fields import SINGLE
from builder.records.kinds import RECORDS
from builder.records.kitchen import Kitchen
from builder.records.till import SaleRow
from builder.refusals import refusal
from builder.spelling import american

FOLDER = ".schema"
_DRAFT = "http://json-schema.org/draft-07/schema#"
_ALLOWED = ConfigDict(arbitrary_types_allowed=True)
_CONTEXT = {"currency": "CAD"}

Json = dict[str, Any]


def header(folder: str) -> str:
    """The first line of a file by which editors find its schema.

    >>> header("cuts"), header("")
    ('# yaml-language-server: $schema=../.schema/cuts.json\\n', \
'# yaml-language-server: $schema=.schema/kitchen.json\\n')
    """
    path = f"../{FOLDER}/{folder}" if folder else f"{FOLDER}/kitchen"
    return f"# yaml-language-server: $schema={path}.json\n"


def schemas() -> dict[str, Json]:
    """Every schema by the name of its file: records by their folders, rows of CSV files."""
    records = {model.folder: schema_of(model) for model in RECORDS}
    rows: dict[str, type[Written]] = {
        "prices-row": PriceRow, "sales-row": SaleRow, "tastings-row": AnswerRow,
    }  # fmt: skip
    return {
        "kitchen": schema_of(Kitchen),
        **records,
        **{name: _row_schema(model) for name, model in rows.items()},
    }


def write_schemas(content: Path) -> list[Path]:
    """Write every schema into a content folder's `.schema/`; return the files.

    Raises ShankbookError where there is no such folder, or it can't be written.
    """
    if not content.is_dir():
        raise ShankbookError(tr("there is no folder {folder}", folder=content))
    try:
        (content / FOLDER).mkdir(exist_ok=True)
        return [_written(content / FOLDER / f"{k}.json", v) for k, v in schemas().items()]
    except OSError as error:
        raise ShankbookError(
            tr("can't write {path}: {why}", path=content / FOLDER, why=refusal(error))
        ) from error


def _written(path: Path, schema: Json) -> Path:
    text = json.dumps(schema, ensure_ascii=False, indent=1)
    path.write_text(text + "\n", encoding="utf-8", newline="\n")
    return path


def schema_of(model: type[Written]) -> Json:
    """The schema of a file of a kind, with those of the mappings within it."""
    within: dict[type[Written], Json] = {}
    own = _object(model, within)
    defined = {each.__name__: found for each, found in within.items()}
    return {
        "$schema": _DRAFT,
        "title": model.__name__,
        **own,
        **({"definitions": defined} if defined else {}),
    }


def _row_schema(model: type[Written]) -> Json:
    """A row of a CSV file with its header's names as keys; every cell is text."""
    cells: dict[str, Json] = {key.name: {"type": "string", **_about(key)} for key in keys_of(model)}
    return {
        "$schema": _DRAFT,
        "title": model.__name__,
        "description": _doc(model),
        "type": "object",
        "properties": cells,
        "required": [key.name for key in keys_of(model) if key.needed],
    }


def _object(model: type[Written], within: dict[type[Written], Json]) -> Json:
    """The keys of a mapping; the command takes a key in any case, with hyphens or underscores."""
    fields = {field.alias or name: field for name, field in model.model_fields.items()}
    properties: dict[str, Json] = {}
    for key in keys_of(model):
        field = fields[key.name]
        shape = _shape(field.annotation, tuple(field.metadata), within)
        properties[key.name] = {**shape, **_about(key)}
    needed = [key.name for key in keys_of(model) if key.needed]
    return {
        "description": _doc(model),
        "type": "object",
        "properties": properties,
        "patternProperties": {_folded(name): {} for name in properties},
        "additionalProperties": False,
        **({"allOf": [_one_of_spellings(name) for name in needed]} if needed else {}),
    }


def _about(key: Key) -> Json:
    without = tr("must be there") if key.needed else ""
    words = f"{key.about} ({'; '.join(filter(None, (key.shape.words, without)))})"
    return {"description": words, "examples": [key.shape.example]}


def _doc(model: type[Written]) -> str:
    return " ".join((inspect.getdoc(model) or "").split())


def _folded(words: str) -> str:
    """A pattern of all spellings of a key or a word that the readers fold into one.

    >>> _folded("at 2")
    '^[ \\\\-_]*[aA][tT][ \\\\-_]+2[ \\\\-_]*$'
    """
    gap = r"[ \-_]"
    letters = "".join(
        f"{gap}+" if c in " -" else f"[{c.lower()}{c.upper()}]" if c.isalpha() else re.escape(c)
        for c in words
    )
    return f"^{gap}*{letters}{gap}*$"


def _one_of_spellings(name: str) -> Json:
    """That a key is there, however it is spelt: not all keys are others."""
    return {"not": {"propertyNames": {"not": {"pattern": _folded(name)}}}}


def _shape(
    annotation: object, metadata: tuple[object, ...], within: dict[type[Written], Json]
) -> Json:
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _shape(arguments[0], tuple(arguments[1:]), within)
    if origin in {Union, UnionType}:
        (inner,) = (each for each in arguments if each is not NoneType)
        return _shape(inner, metadata, within)
    if any(isinstance(item, PlainValidator) for item in metadata):
        return _scalar(metadata)
    if origin is list:
        return {"type": "array", "items": _shape(arguments[0], (), within)}
    if origin is dict:
        return {"type": "object", "additionalProperties": _shape(arguments[1], (), within)}
    if inspect.isclass(annotation) and issubclass(annotation, Written):
        return _reference(annotation, within)
    return _scalar(metadata)


def _reference(model: type[Written], within: dict[type[Written], Json]) -> Json:
    if model not in within:
        within[model] = {}
        within[model] = _object(model, within)
    reference: Json = {"$ref": f"#/definitions/{model.__name__}"}
    if not model.short_for:
        return {"allOf": [reference]}
    short = {"type": ["string", "number", "array", "boolean"], "description": tr("in short")}
    return {"anyOf": [reference, short]}


def _scalar(metadata: tuple[object, ...]) -> Json:
    """One value, or of some readers a list or a mapping; numbers where the reader takes them."""
    described = any(isinstance(item, WithJsonSchema) for item in metadata)
    words = [] if described else [word for item in metadata for word in choices_of(item)]
    if words:
        both = dict.fromkeys((*words, *map(american, words)))
        spelt = [{"pattern": _folded(word), "type": "string"} for word in both]
        several: Json = {"type": "array", "items": {"anyOf": spelt}}
        readers = [item.func for item in metadata if isinstance(item, PlainValidator)]
        lists = any("any_of" in getattr(reader, "__qualname__", "") for reader in readers)
        return {"anyOf": [{"enum": words}, *spelt, *([several] if lists else [])]}
    number = any(_refusal(metadata, Text(text)) is None for text in ("5", "5.00", "0"))
    truth = _refusal(metadata, Text("true")) is None
    many = ("array", Row(Place(""))), ("object", Branch(Place("")))
    types = ["number"] * number + ["boolean"] * truth
    types += [name for name, node in many if _refusal(metadata, node) != tr(SINGLE)]
    return {"type": ["string", *types]}


def _refusal(metadata: tuple[object, ...], node: Node) -> str | None:
    """What the reader says of a value that it does not take; None of one that it takes."""
    readers = [item for item in metadata if isinstance(item, PlainValidator)]
    kind: Any = Annotated[object, *readers]
    adapter: TypeAdapter[object] = TypeAdapter(kind, config=_ALLOWED)
    try:
        adapter.validate_python(node, context=dict(_CONTEXT))
    except ValidationError as error:
        return str(error.errors(include_url=False)[0].get("ctx", {}).get("message", ""))
    return None
