"""Collect the builder's own words, and bring each language's catalogue up to them.

    python -m tests.catalogue

writes `builder/locale/*/LC_MESSAGES/shankbook.po` anew: texts that are new stand there without a
translation, texts that are gone are left out. It exits with 1 where a translation is missing.
"""

from __future__ import annotations

import ast
import importlib
import pkgutil
import re
import sys
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from enum import StrEnum
from io import BytesIO
from pathlib import Path
from typing import get_args

from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po, write_po
from pydantic import WithJsonSchema

import builder
from builder.cooking.rule_library import rule_sets
from builder.costing.model import MODEL
from builder.data import cooking_yields, plausible_ranges
from builder.data.allergens import laws, vocabulary
from builder.data.bath_hours import bath_hours
from builder.data.hot_hours import hot_hours
from builder.data.muscles import muscles
from builder.engine.draws import Basis
from builder.engine.methods import METHODS
from builder.engine.tables import FigureDef, Formula, Given, in_words
from builder.engine.units import FIGURE_UNITS
from builder.language import DOMAIN, LOCALES, Deferred
from builder.pages.data import RESOURCES
from builder.pages.docstrings import pieces
from builder.pages.method_examples import names_in
from builder.pages.reference import about_type, type_name
from builder.pages.rendering import TEMPLATES, said_by_scripts
from builder.problems import Severity
from builder.records.base import Written
from builder.records.hint_examples import IN_WORDS
from builder.records.kinds import RECORDS

Found = tuple[str | tuple[str, str], str]
ROOT = Path(builder.__file__).parent
_SAID = re.compile(r'\btr\("((?:[^"\\]|\\.)*)"')
HEADER = """\
# The builder's own words in another language, by `python -m tests.catalogue`.
# The trade's terms and where each was checked: GLOSSARY.md beside this file."""


def in_source() -> Iterator[Found]:
    """Templates in the builder's code, those within other expressions, too."""
    for path in sorted(ROOT.rglob("*.py")):
        where = f"builder/{path.relative_to(ROOT)}"
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                texts = [each.value for each in node.args if isinstance(each, ast.Constant)]
                match node.func.id, texts:
                    case "ntr", [str(one), str(many), *_]:
                        yield (one, many), where
                    case "tr" | "Deferred", [str(text), *_]:
                        yield text, where


def in_templates() -> Iterator[Found]:
    """Texts of the pages' templates and of their scripts."""
    for path in sorted(TEMPLATES.rglob("*.html")):
        for text in _SAID.findall(path.read_text(encoding="utf-8")):
            yield text, f"site_templates/{path.relative_to(TEMPLATES)}"
    yield from ((text, "site_templates/assets") for text in said_by_scripts())


def of_figures() -> Iterator[Found]:
    """Names of figures and tables, what each figure is, why a default is what it is."""
    for table in MODEL.tables.values():
        yield in_words(table.name), "figures"
        yield table.title, "figures"
        for figure in table.figures.values():
            yield from ((text, f"figures/{table.name}") for text in _figure_texts(figure))
    yield from ((words, "units") for words in ("money", *FIGURE_UNITS.values()))


def _figure_texts(figure: FigureDef) -> Iterator[str]:
    yield from (in_words(figure.name), figure.about)
    if isinstance(figure.how, Given):
        yield figure.how.reason
    if isinstance(figure.how, Formula):
        yield from map(in_words, figure.how.needs)
        yield from list(pieces(figure.how.doc))[1:]
        yield figure.how.source


def of_methods() -> Iterator[Found]:
    """Titles and docstrings of sourced functions."""
    for method in METHODS.values():
        texts = (
            method.title, method.source, method.unit_words, *pieces(method.doc), *names_in(method)
        )  # fmt: skip
        yield from ((text, f"methods/{method.name}") for text in texts)


def of_keys() -> Iterator[Found]:
    """What the keys of files are, and what the readers of their values take."""
    for kind in _subclasses(Written):
        yield type_name(kind), f"keys/{kind.__name__}"
        yield about_type(kind), f"keys/{kind.__name__}"
        for key, example in kind.examples.items():
            yield from ((text, f"keys/{kind.__name__}.{key}") for text in IN_WORDS.findall(example))
        for name, field in kind.model_fields.items():
            yield field.description or "", f"keys/{kind.__name__}.{name}"
            for words in (*_kinds_of_value(field.annotation), *map(_schema, field.metadata)):
                yield words, f"keys/{kind.__name__}.{name}"
    for record in RECORDS:
        yield record.kind.counted, f"kinds/{record.folder}"
    for resource in RESOURCES:
        yield resource.title, "tables"
        yield from ((each.about, f"tables/{resource.name}") for each in resource.fields)


def _kinds_of_value(annotation: object) -> Iterator[str]:
    """What the readers within a type annotation take, lists and mappings of them, too."""
    yield from map(_schema, getattr(annotation, "__metadata__", ()))
    for inner in get_args(annotation):
        yield from _kinds_of_value(inner)


def _schema(item: object) -> str:
    found = item.json_schema if isinstance(item, WithJsonSchema) else None
    return str(found["description"]) if found else ""


def _subclasses(kind: type[Written]) -> Iterator[type[Written]]:
    for each in kind.__subclasses__():
        if each.__module__.startswith("builder."):
            yield each
        yield from _subclasses(each)


def of_enumerations() -> Iterator[Found]:
    """Values of enumerations in words."""
    rooms = ("builder.records", "builder.costing", "builder.cooking", "builder.tasting")
    for kind in StrEnum.__subclasses__():
        if kind.__module__.startswith(rooms) or kind in (Basis, Severity):
            yield from ((str(each), f"values/{kind.__name__}") for each in kind)


def of_starters() -> Iterator[Found]:
    """What first kitchens and worked examples say in words."""
    for path in sorted((ROOT / "starter").rglob("*.yaml")):
        where = f"builder/{path.relative_to(ROOT)}"
        yield from ((text, where) for text in IN_WORDS.findall(path.read_text(encoding="utf-8")))


def of_data() -> Iterator[Found]:
    """Texts of rule sets and of the laws on allergens."""
    for rules in rule_sets().values():
        yield from ((text, f"rules/{rules.id}") for text in _deferred(rules))
    for law in laws().values():
        yield from ((text, f"allergens/{law.id}") for text in _deferred(law))
    words = vocabulary()
    names = (*words.names, *(kind for _, kind in words.meanings.values()))
    yield from ((name, "allergens") for name in names)
    for muscle in muscles().values():
        own = (muscle.grade, muscle.cut, muscle.match)
        texts = (text for force in muscle.shear_forces for text in (force.published, force.status))
        yield from ((str(text), "builder/data/muscles.py") for text in (*own, *texts))
    for ranges in plausible_ranges().values():
        yield from ((str(limits.reason), "builder/data/plausible.csv") for limits in ranges)
    yield from ((str(row.reason), "builder/data/bath_hours.csv") for row in bath_hours())
    yield from ((str(row.reason), "builder/data/hot_hours.csv") for row in hot_hours())
    for found in cooking_yields().values():
        yield from ((str(text), "published yields") for text in (found.how, found.status))


def _deferred(value: object) -> Iterator[str]:
    """Every text within a value that is written in the language of the pages."""
    if isinstance(value, Deferred):
        yield str(value)
    elif isinstance(value, tuple | list | frozenset):
        for each in value:
            yield from _deferred(each)
    elif is_dataclass(value) and not isinstance(value, type):
        for each in fields(value):
            yield from _deferred(getattr(value, each.name))


def _every_module() -> None:
    """Import the whole builder: types of records and methods are known once they are imported."""
    for found in pkgutil.walk_packages(builder.__path__, "builder."):
        if not found.name.endswith("__main__"):
            importlib.import_module(found.name)


def collected() -> dict[str | tuple[str, str], list[str]]:
    """Every text once, with where it is used, in the order of the source."""
    _every_module()
    found: dict[str | tuple[str, str], list[str]] = {}
    sources: tuple[Iterable[Found], ...] = (
        in_source(), in_templates(), of_figures(), of_methods(), of_keys(), of_enumerations(),
        of_data(), of_starters(),
    )  # fmt: skip
    seen: set[str] = set()
    for source in sources:
        for text, where in source:
            first = text if isinstance(text, str) else text[0]
            if not any(letter.isalpha() for letter in first) or (
                first in seen and text not in found
            ):
                continue
            seen.add(first)
            places = found.setdefault(text, [])
            if where not in places:
                places.append(where)
    return found


def renewed(path: Path, language: str) -> Catalog:
    """A language's catalogue with every text of today, translated as far as it was."""
    with path.open("rb") as file:
        before = read_po(file, locale=language)
    after = Catalog(locale=language, header_comment=HEADER, project="shankbook", version="1")
    for text, places in collected().items():
        old = before.get(text)
        after.add(text, old.string if old else "", locations=[(place, 0) for place in places])
    return after


# Lines of a catalogue's header that say when, by whom and with what it was written: they would
# differ at each refresh, and git keeps all of it.
_OF_ITS_MAKING = re.compile(
    rb'(?m)^"(?:POT-Creation-Date|PO-Revision-Date|Report-Msgid-Bugs-To|Last-Translator'
    rb"|Language-Team|Generated-By): .*\n"
)


def as_file(catalogue: Catalog) -> bytes:
    """A catalogue as its file holds it: the same texts give the same bytes on every day."""
    found = BytesIO()
    write_po(found, catalogue, width=100, sort_by_file=False, omit_header=False)
    header, blank, rest = found.getvalue().partition(b"\n\n")
    return _OF_ITS_MAKING.sub(b"", header + b"\n").rstrip(b"\n") + blank + rest


def _is_said(message: Message) -> bool:
    """Whether a text has its translation, in each of its forms."""
    forms = message.string if isinstance(message.string, tuple) else (message.string,)
    return all(forms)


def main() -> int:
    """Bring every catalogue up to the source; 1 where a translation is missing."""
    missing = 0
    for path in sorted(LOCALES.glob(f"*/LC_MESSAGES/{DOMAIN}.po")):
        catalogue = renewed(path, path.parent.parent.name)
        path.write_bytes(as_file(catalogue))
        lacks = [message.id for message in catalogue if message.id and not _is_said(message)]
        missing += len(lacks)
        print(f"{path.parent.parent.name}: {len(catalogue)} texts, {len(lacks)} not translated")
        for text in lacks[:20]:
            print(f"  {text}")
    return 1 if missing else 0


if __name__ == "__main__":
    sys.exit(main())
