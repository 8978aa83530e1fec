"""The page on YAML: what is read as it stands, and what is refused with which words.

Every answer on it is given by the readers themselves while the page is made.
"""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from builder.display.style import Style
from builder.language import Deferred, tr
from builder.pages.components import Cell, Column, Link, Page, Part, Row, Table
from builder.problems import Problem
from builder.quantities import Dimension, QuantityError, parse_quantity
from builder.reading.limits import LIMITS
from builder.reading.tree import Branch
from builder.reading.yaml_text import parse_yaml

# Left as written; beside it what a reader of YAML 1.1 makes of it.
AS_WRITTEN: tuple[tuple[str, str], ...] = (
    ("no", "false"),
    ("on", "true"),
    ("12:30", "750"),
    ("010", "8"),
    ("1_000", "1000"),
    ("0x1F", "31"),
    ("1.20", "1.2"),
    ("116A", "116A"),
    ("2026-09-03", Deferred("a date object")),
    ("~", Deferred("nothing")),
)
_WELL_WRITTEN: tuple[tuple[str, Dimension], ...] = (
    ("1.9 kg", Dimension.MASS),
    ("5 1/2 lb", Dimension.MASS),
    ("½ lb", Dimension.MASS),
    ("5 lb 8 oz", Dimension.MASS),
    ("2 cases of 6 x 500 g", Dimension.MASS),
    ("case of 12", Dimension.COUNT),
    ("1 h 30 min", Dimension.TIME),
    ("131 °F", Dimension.TEMPERATURE),
    ("22 %", Dimension.RATIO),
)
_BADLY_WRITTEN = (
    "12",
    "1,9 kg",
    "1 000 g",
    "1e3 g",
    "1-2 kg",
    "010 g",
    "5 t",
    "12:30",
    "-1 kg",
    "3 kgg",
)
_REFUSED_YAML = (
    "price:13.60/kg",
    "tax: 5 %\ntax: 6 %",
    "a: {<<: {b: c}}",
    "a: !!int 5",
    "a: 1\n\tb: 2",
    "a: 1\n---\nb: 2",
    "note: rest: one hour",
)
_UNIT = {
    Dimension.MASS: "kg",
    Dimension.COUNT: "each",
    Dimension.TIME: "h",
    Dimension.TEMPERATURE: "°C",
    Dimension.RATIO: "",
}


def yaml_page(style: Style, crumbs: tuple[Link, ...], nav: str) -> Page:
    """What the readers keep, understand and refuse."""
    return Page(
        path="writing/yaml.html",
        title=tr("YAML and numbers"),
        lead=tr(
            "A value is kept as it is written; what could mean two things is refused with its line."
        ),
        also=(
            tr("No word becomes a truth value, no clock time a number, no leading zero an octal."),
        ),
        kind=tr("Writing the files"),
        crumbs=crumbs,
        nav=nav,
        sections=(
            Part("kept", tr("What never changes its meaning"), (_kept(),)),
            Part("numbers", tr("Numbers with units"), (_understood(), _refused_numbers())),
            Part("refused", tr("YAML that is refused"), (_refused_yaml(),)),
            Part("limits", tr("How much is read"), (_limits(style),)),
        ),
    )


def _kept() -> Table:
    columns = (
        Column("written", tr("Written")),
        Column("here", tr("Read here as the text")),
        Column("elsewhere", tr("A YAML 1.1 reader takes it as")),
    )
    rows = tuple(
        Row((_code(text), _code(_value_of(text)), Cell(elsewhere)))
        for text, elsewhere in AS_WRITTEN
    )
    return Table("kept-values", tr("Values that stay as they are"), columns, rows)


def _code(text: str) -> Cell:
    return Cell(Markup("<code>{}</code>").format(text))


def _value_of(text: str) -> str:
    tree, _ = parse_yaml("example.yaml", f"key: {text}\n".encode())
    return str(next(iter(tree.values()))) if isinstance(tree, Branch) else ""


def _understood() -> Table:
    columns = (Column("written", tr("Written")), Column("means", tr("Is"), numeric=True))
    rows = tuple(
        Row(
            (
                _code(text),
                Cell(f"{parse_quantity(text, wanted).value:.10g} {_UNIT[wanted]}".strip()),
            )
        )
        for text, wanted in _WELL_WRITTEN
    )
    return Table("understood-numbers", tr("Numbers that are understood"), columns, rows)


def _refused_numbers() -> Table:
    rows = tuple(
        Row((_code(text), Cell(error.message), Cell(error.hint)))
        for text, error in _complaints(_BADLY_WRITTEN)
    )
    return Table("refused-numbers", tr("Where a weight is wanted"), _REFUSAL, rows)


_REFUSAL = (
    Column("written", Deferred("Written")),
    Column("said", Deferred("What is said")),
    Column("do", Deferred("What to do")),
)


def _complaints(texts: tuple[str, ...]) -> Iterator[tuple[str, QuantityError]]:
    for text in texts:
        try:
            parse_quantity(text, Dimension.MASS)
        except QuantityError as error:
            yield text, error


def _refused_yaml() -> Table:
    rows = tuple(
        Row((_code(_one_line(text)), Cell(problem.message), Cell(problem.hint.partition("\n")[0])))
        for text in _REFUSED_YAML
        for problem in _problems(text)[:1]
    )
    return Table("refused-yaml", tr("Files that are refused"), _REFUSAL, rows)


def _problems(text: str) -> list[Problem]:
    return parse_yaml("example.yaml", f"{text}\n".encode())[1]


def _one_line(text: str) -> str:
    return text.replace("\t", "→").replace("\n", " ⏎ ")


def _limits(style: Style) -> Table:
    columns = (Column("what", tr("What")), Column("most", tr("At most"), numeric=True))
    limits = (
        (tr("bytes of a YAML file"), LIMITS.yaml_bytes),
        (tr("bytes of a price list"), LIMITS.csv_bytes),
        (tr("bytes of a picture"), LIMITS.picture_bytes),
        (tr("levels of nesting"), LIMITS.depth),
        (tr("values in a file, repeats written out"), LIMITS.nodes),
        (tr("rows of a price list"), LIMITS.rows),
    )
    rows = tuple(Row((Cell(what), Cell(style.count(most)))) for what, most in limits)
    return Table("reading-limits", tr("Limits of reading"), columns, rows)
