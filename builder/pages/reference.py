"""How the files are written: pages made from the record types that check them."""

from __future__ import annotations

import inspect
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from builder.data import cooking_yields
from builder.display.scales import UnitSystem
from builder.display.words import listed
from builder.language import Deferred, clauses, tr
from builder.pages.allergen_words_page import PATH as ALLERGENS
from builder.pages.allergen_words_page import allergen_words_page
from builder.pages.answers_part import answers_parts
from builder.pages.components import (
    Cell,
    Column,
    Link,
    LinkList,
    Page,
    Part,
    Prose,
    Row,
    Section,
    Table,
)
from builder.pages.example_units import example_in
from builder.pages.muscles_page import PATH as MUSCLES_PATH
from builder.pages.muscles_page import TITLE as MUSCLES
from builder.pages.muscles_page import muscles_page
from builder.pages.notes_page import PATH as NOTES
from builder.pages.notes_page import notes_page
from builder.pages.parts import page_of, paragraph, part, present
from builder.pages.shapes import Key, keys_of, models_within, shortest
from builder.pages.tolerances_page import PATH as TOLERANCES
from builder.pages.tolerances_page import tolerances_page
from builder.pages.units_page import units_page
from builder.pages.values import capital
from builder.pages.view import View
from builder.pages.worked import worked_parts
from builder.pages.yaml_page import yaml_page
from builder.reading.names import slug
from builder.records.base import Record, Written
from builder.records.content import PriceRow
from builder.records.kinds import RECORDS
from builder.records.kitchen import Kitchen
from builder.records.till import SaleRow

INDEX = "writing.html"
NAV = f"~/{INDEX}"
_CRUMBS = (Link(Deferred("Writing the files"), NAV),)
_MOST_EXAMPLES = 5
RULES = "writing/rules.html"


@dataclass(frozen=True, slots=True)
class _Kind:
    """A record type with the address of its page and the name of its file."""

    model: type[Written]
    path: str
    file: str


def reference_pages(view: View) -> Iterator[Page]:
    """The index, a page for each record type, and the pages on units, YAML, notes and yields."""
    kinds = list(_kinds())
    yield _index(kinds)
    for kind in kinds:
        yield _kind_page(view, kind)
    yield units_page(_CRUMBS, NAV)
    yield yaml_page(view.style, _CRUMBS, NAV)
    yield notes_page(view.style, _CRUMBS, NAV)
    yield allergen_words_page(view.style.units, _CRUMBS, NAV)
    yield tolerances_page(view.style, _CRUMBS, NAV)
    yield _published_page(view)
    yield _rules_page(view)
    yield muscles_page(view.style, _CRUMBS, NAV)


def _kinds() -> Iterator[_Kind]:
    yield _Kind(Kitchen, "writing/kitchen.html", "kitchen.yaml")
    for model in RECORDS:
        yield _Kind(model, f"writing/{model.folder}.html", f"{model.folder}/ID.yaml")
    yield _Kind(PriceRow, "writing/prices.html", "prices/NAME.csv")
    yield _Kind(SaleRow, "writing/sales.html", "sales/NAME.csv")


def about_type(model: type[Written]) -> str:
    """What the type says about itself, without the name of its file, in the source's language."""
    text = " ".join((inspect.getdoc(model) or "").split())
    head, colon, rest = text.partition(": ")
    return rest if colon and head.endswith((".yaml", ".csv")) else text


def _doc(model: type[Written]) -> str:
    return capital(tr(about_type(model)))


def _index(kinds: list[_Kind]) -> Page:
    records = tuple(Link(kind.file, f"~/{kind.path}", _doc(kind.model)) for kind in kinds)
    others = (
        Link(
            tr("Units"),
            "~/writing/units.html",
            tr("every unit that is read, with its exact factor"),
        ),
        Link(
            "YAML", "~/writing/yaml.html", tr("what never changes its meaning, and what is refused")
        ),
        Link(
            tr("How sure a figure is"),
            f"~/{TOLERANCES}",
            tr("planning horizon, give or take and weighed portions, with an example each"),
        ),
        Link(tr("Allergens"), f"~/{ALLERGENS}", tr("the words that are read, and the laws' lists")),
        Link(
            tr("Notes, pictures and logs"),
            f"~/{NOTES}",
            tr("notes and free pages, their links and pictures; logs and decisions"),
        ),
        Link("rules/ID.yaml", f"~/{RULES}", tr("a rule set of the kitchen's own, with an example")),
        Link(
            tr("Published yields"),
            "~/writing/published-yields.html",
            tr("cooking yields that can stand in for a test"),
        ),
        Link(tr(MUSCLES), f"~/{MUSCLES_PATH}", tr("what a cut may name under muscle:")),
    )
    return Page(
        path=INDEX,
        title=tr("Writing the files"),
        lead=tr("A kitchen writes one plain text file a record."),
        also=(
            tr(
                "The file's name is its id, and ids link records. Each page below lists "
                "every key that a file may have."
            ),
        ),
        nav=NAV,
        sections=(
            Part("records", tr("Files"), (LinkList(records),)),
            Part("rules", tr("Rules"), (LinkList(others),)),
        ),
    )


def _kind_page(view: View, kind: _Kind) -> Page:
    model, keys = kind.model, keys_of(kind.model)
    folder = kind.path.removeprefix("writing/").removesuffix(".html")
    needed = [key.name for key in keys if key.needed]
    units = view.style.units
    first, stop, rest = _doc(model).partition(". ")
    must = (
        tr("It must have {needed}", needed=listed(needed)) if needed else tr("No key must be there")
    )
    return Page(
        path=kind.path,
        title=kind.file,
        lead=f"{first}." if stop else first,
        also=(
            tr(
                "{rest} {must}; {keys} keys are understood.", rest=rest, must=must, keys=len(keys)
            ).lstrip(),
        ),
        kind=tr("Writing the files"),
        crumbs=_CRUMBS,
        nav=NAV,
        sections=present(
            *worked_parts(folder, customary=units == UnitSystem.US_CUSTOMARY),
            part("shortest", tr("The shortest file that is read"), _shortest(model, units)),
            part(
                "keys",
                tr("Keys"),
                _keys_table("keys-table", tr("Keys of the file"), keys, units),
                _spelling(),
            ),
            *answers_parts(model),
            *(_model_part(inner, units) for inner in models_within(model)),
            part("examples", tr("From this kitchen"), LinkList(tuple(_examples(view, model)))),
        ),
    )


def _shortest(model: type[Written], units: UnitSystem) -> Prose:
    values = shortest(model)
    if model in {PriceRow, SaleRow}:
        text = f"{','.join(values)}\n{','.join(values.values())}"
    else:
        text = "\n".join(f"{key}: {example}" for key, example in values.items())
    return Prose(Markup("<pre><code>{}</code></pre>").format(example_in(text, units)))


def _spelling() -> Prose:
    return paragraph(
        tr(
            "Capitals, hyphens and underscores in a key are forgiven: Hands-On is "
            "hands on. A key that is not listed, or is there twice, is "
            "refused with its line."
        )
    )


def _keys_table(table_id: str, caption: str, keys: Sequence[Key], units: UnitSystem) -> Table:
    columns = (
        Column("key", tr("Key")),
        Column("holds", tr("What it holds")),
        Column("written", tr("Written as")),
        Column("example", tr("Example")),
        Column("without", tr("Left out")),
    )
    return Table(table_id, caption, columns, tuple(_key_row(key, units) for key in keys))


def _key_row(key: Key, units: UnitSystem) -> Row:
    inner = key.shape.model
    return Row(
        (
            Cell(key.name, href=f"#{_anchor(inner)}" if inner else ""),
            Cell(example_in(tr(key.about), units)),
            Cell(key.shape.words),
            Cell(Markup("<code>{}</code>").format(example_in(key.shape.example, units))),
            Cell(tr("must be there") if key.needed else _default(key.default)),
        )
    )


def _default(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "–" if value is None else "none"


def _anchor(model: type[Written]) -> str:
    return slug(tr(type_name(model)))


def type_name(model: type[Written]) -> str:
    """The type's name as words, in the source's language.

    >>> from builder.records.stages import WeighingTest
    >>> type_name(WeighingTest)
    'Weighing test'
    """
    words = "".join(
        f" {letter.lower()}" if letter.isupper() else letter for letter in model.__name__
    )
    return words.strip().capitalize()


def _model_part(model: type[Written], units: UnitSystem) -> Part:
    anchor = _anchor(model)
    short = (
        tr(
            " In short: {short_for}, in this order, as a list or a lone value.",
            short_for=", ".join(model.short_for),
        )
        if model.short_for
        else ""
    )
    table = _keys_table(
        f"{anchor}-keys",
        tr("Keys: {name}", name=tr(type_name(model)).lower()),
        keys_of(model),
        units,
    )
    about = Markup("{}{}").format(Markup(_code(example_in(_doc(model), units))), short)
    return Part(anchor, tr(type_name(model)), (table,), about=about)


def _code(text: str) -> str:
    """Escape a docstring and set what it quotes between backticks as code."""
    pieces = str(Markup.escape(text)).split("`")
    return "".join(f"<code>{p}</code>" if n % 2 else p for n, p in enumerate(pieces))


def _examples(view: View, model: type[Written]) -> Iterator[Link]:
    if model is Kitchen:
        yield Link(tr("The kitchen"), "~/kitchen.html#file")
    if model is PriceRow:
        yield Link(tr("Prices"), "~/prices.html")
    if model is SaleRow and view.costed.content.till:
        yield Link(tr("Sales"), "~/sales.html")
    found = [r for r in view.costed.content.records() if type(r) is model]
    yield from (_example(record) for record in found[:_MOST_EXAMPLES])


def _example(record: Record) -> Link:
    return Link(record.file, f"~/{page_of(record)}#file")


def _rules_page(view: View) -> Page:
    customary = view.style.units == UnitSystem.US_CUSTOMARY
    return Page(
        path=RULES,
        title="rules/ID.yaml",
        lead=tr(
            "A rule set of the kitchen's own: what an authority's text says of times "
            "and temperatures, row by row."
        ),
        also=(tr("The tool compares plans with it and adds no rule of its own, only cautions."),),
        kind=tr("Writing the files"),
        crumbs=_CRUMBS,
        nav=NAV,
        sections=(
            *worked_parts("rules", customary=customary),
            LinkList(
                (Link(tr("Rules"), "~/rules.html", tr("the rule set that this kitchen names")),)
            ),
        ),
    )


def _published_page(view: View) -> Page:
    count = len(cooking_yields())
    return Page(
        path="writing/published-yields.html",
        title=tr("Published yields"),
        lead=tr(
            "{count} published cooking yields come with the tool, for cooks without a test.",
            count=count,
        ),
        also=(tr("Write published: and an entry's name; the cook's page says so."),),
        kind=tr("Writing the files"),
        crumbs=_CRUMBS,
        nav=NAV,
        sections=(_published_note(), _yields_table(view)),
    )


def _published_note() -> Section:
    entry = next(iter(cooking_yields()))
    return Prose(Markup("<pre><code>published: {}</code></pre>").format(entry))


def _yields_table(view: View) -> Table:
    published = cooking_yields().values()
    columns = (
        Column("entry", tr("Entry")),
        Column("cut", tr("Cut")),
        Column("how", tr("Cooked")),
        Column("yield", tr("Yield"), True),
        Column("samples", tr("Samples"), True),
    )
    rows = tuple(
        Row(
            (
                Cell(found.entry),
                Cell(found.description),
                Cell(found.how),
                Cell(view.style.percent(found.value), found.value),
                Cell(view.style.count(found.samples), found.samples)
                if found.samples
                else Cell(tr("not stated"), 0),
            )
        )
        for found in published
    )
    about = tr(
        "Source: {fromkeys}.",
        fromkeys=clauses(dict.fromkeys(found.source for found in published)),
    )
    return Table(
        "yields", tr("Cooking yields"), columns, rows, sortable=True, filterable=True, about=about
    )
