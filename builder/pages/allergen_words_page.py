"""The page on allergens: the words that are read, those that are not, and the laws' lists."""

from __future__ import annotations

from markupsafe import Markup

from builder.data.allergens import Law, laws, vocabulary
from builder.display.scales import UnitSystem
from builder.display.words import listed
from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Link, Page, Part, Prose, Row, Table
from builder.pages.example_units import example_in
from builder.pages.parts import part
from builder.pages.values import capital
from builder.records.allergens import in_full

PATH = "writing/allergens.html"
EXAMPLE = Deferred(
    "# kitchen.yaml: the list that the pages show\nallergens: {law: eu, own: "
    "{buckwheat: [soba, kasha]}}\n\n# pantry/sourdough.yaml\nprice: 6.40/kg\n"
    "allergens: [wheat, rye]       # kinds count as gluten and stay named\n"
    "may contain: [sesame]         # traces, as the label warns\n\n# "
    "pantry/potatoes.yaml\nprice: 1.60/kg\nallergens: none               # "
    "somebody looked: there is none\n\n# pantry/toast.yaml: made, so its "
    "ingredients count by themselves\nof: {sourdough: 1 kg, butter: 100 g}\n"
    "makes: 20 each"
)
RULES = (
    Deferred(
        "Write allergens: on what is bought: cuts and pantry items. Sub-recipes "
        "and plates take on all that goes into them; their own allergens: adds "
        "to it."
    ),
    Deferred(
        "Left out is not stated, and every plate that it goes into says so. Only none says none."
    ),
    Deferred(
        "Seasoning, frying fat and garnish count once they are written: under "
        "with:, or under the plate's own allergens:."
    ),
    Deferred(
        "A cut of fish is fish, whether its file says so or not; none under "
        "anything that contains an allergen is refused."
    ),
)


def allergen_words_page(units: UnitSystem, crumbs: tuple[Link, ...], nav: str) -> Page:
    """What a file may write for an allergen, and what each law lists."""
    return Page(
        path=PATH,
        title=tr("Allergens"),
        lead=tr(
            "Say of everything bought what it contains, or none. What nobody stated "
            "stays unknown as far as the plate."
        ),
        kind=tr("Writing the files"),
        crumbs=crumbs,
        nav=nav,
        sections=(
            part("example", tr("An example"), _example(units)),
            part("words", tr("Words that are read"), _words(), _unclear()),
            *(_law_part(law) for law in laws().values()),
        ),
    )


def _example(units: UnitSystem) -> Prose:
    rules = Markup("").join(Markup("<li>{}</li>").format(rule) for rule in RULES)
    text = example_in(tr(EXAMPLE), units)
    return Prose(Markup("<pre><code>{}</code></pre><ul>{}</ul>").format(text, rules))


def _words() -> Table:
    found: dict[tuple[str, str], list[str]] = {}
    for word, meaning in vocabulary().meanings.items():
        found.setdefault(meaning, []).append(word)
    rows = tuple(
        Row((Cell(in_full(*meaning)), Cell(", ".join(words)))) for meaning, words in found.items()
    )
    columns = (Column("means", tr("Allergen")), Column("words", tr("Written as")))
    return Table("allergen-words", tr("Words for allergens"), columns, rows, filterable=True)


def _unclear() -> Table:
    rows = tuple(
        Row((Cell(word), Cell(listed(meant)))) for word, meant in vocabulary().unclear.items()
    )
    columns = (
        Column("word", tr("Written")),
        Column("meant", tr("Write one of these, by the label")),
    )
    return Table("unclear-words", tr("Words that are refused"), columns, rows)


def _law_part(law: Law) -> Part:
    columns = (
        Column("name", tr("Allergen")),
        Column("law", tr("As the law lists it, in short")),
        Column("clause", tr("Where")),
    )
    rows = tuple(Row((Cell(row.name), Cell(row.law), Cell(row.clause))) for row in law.rows)
    table = Table(
        f"{law.id}-rows",
        capital(tr(law.title)),
        columns,
        rows,
        about=tr(
            "{source}. Status: {status}. In kitchen.yaml: {law}.",
            source=law.source,
            status=law.status,
            law=", ".join(law.words),
        ),
    )
    return part(law.id, law.id, table)
