"""Invented examples of what few pages have: other tones, sizes of print, words for nothing.

The numbers in `LIVE` are those of the first kitchen, so that they open and can be moved.
"""

from __future__ import annotations

from dataclasses import replace

from markupsafe import Markup

from builder.pages.components import (
    Balance,
    BalancePart,
    BalanceStage,
    Cell,
    Chart,
    Column,
    Figures,
    FigureTile,
    Form,
    FormField,
    FormFields,
    FormGrid,
    FormLines,
    FormNote,
    LinkList,
    Notice,
    Part,
    Prose,
    Row,
    Section,
    SourceListing,
    StepLine,
    StepList,
    Table,
    Tries,
    TryLine,
)
from tests.pages.chart_examples import CHARTS

TONES = Figures(
    (
        FigureTile("Forecast", "120", "covers", "", "muted", "not yet counted"),
        FigureTile("To order", "9.4", "kg", "", "strong", "by Thursday"),
    ),
    "What the next service needs",
)

TWO_PLATES = Table(
    "two-plates",
    "Ribeye and chuck steak, line by line",
    (
        Column("line", "A plate"),
        Column("ribeye", "Ribeye steak", True, "CAD"),
        Column("chuck", "Chuck steak", True, "CAD"),
    ),
    (
        Row((Cell("Weights"),), "group"),
        Row((Cell("AP weight"), Cell("0.31 kg"), Cell("0.36 kg"))),
        Row((Cell("Money"),), "group"),
        Row((Cell("Protein"), Cell("12.30"), Cell("4.20", tone="strong")), "", "protein"),
        Row((Cell("Food"), Cell("14.85"), Cell("6.75")), "subtotal"),
        Row((Cell("Supplements"), Cell("none", tone="muted"), Cell("none", tone="muted"))),
        Row((Cell("Full plate cost"), Cell("15.94"), Cell("9.84")), "total"),
    ),
)

GAINED = Balance(
    "gained",
    "Where a brined leg goes",
    "A piece gains 6 % in the brine, and loses 20 % of that in the cook.",
    (
        BalanceStage(
            "Brine",
            "3.00 kg",
            (
                BalancePart("on to cook", "3.18 kg", 0.943, "out"),
                BalancePart("taken up", "0.18 kg", 0.057, "gain"),
            ),
        ),
    ),
)

# A picture that follows what is tried, as tall as it is told to be.
FOLLOWING = Chart(
    "following",
    "waterfall",
    "What chuck roll costs as purchased, as it is tried",
    "One bar: the price of chuck roll as purchased.",
    ({"step": "As purchased", "start": 0.0, "end": 13.6, "kind": "total", "text": "13.60"},),
    None,
    {"money": "CAD per kg"},
    {"height": 90},
    {0: "cut.ap_price.0"},
)

# A bar whose name, text and figure are in a table on the page, with what only one column explains.
BARS = Table(
    "bars",
    "The bar in numbers",
    (Column("step", "Step"), Column("money", "Money", True, "", "price a kilogram")),
    (Row((Cell("As purchased"), Cell("13.60", href="=cut.ap_price.0"))),),
)
READ_OFF = replace(FOLLOWING, id="read-off", beside=BARS)
# Nothing of it follows what is tried.
ENDS = Table(
    "ends",
    "Ends of an interval",
    (Column("input", "Input"), Column("ends", "Its own interval", True)),
    (Row((Cell("AP price"), Cell("12.90 to 14.30"))),),
    fixed=True,
)

LIVE = Table(
    "live",
    "Numbers that open and follow",
    (Column("what", "Chuck roll"), Column("now", "Now", True)),
    (
        Row((Cell("AP price"), Cell("13.60", href="=cut.ap_price.0"))),
        Row((Cell("Food cost of a plate"), Cell("6.75", href="=plate.food_cost.0"))),
        Row(
            (
                Cell("Price at which a saving would end"),
                Cell("31.20", href="=cut.ap_price.0", tries="cut.ap_price.0"),
            )
        ),
    ),
)

MADE = Tries(
    (TryLine("Chuck roll: AP price", "cut.ap_price.0", "cut.ap_price.0"),),
    "Make another amount",
    Table(
        "made",
        "What that takes",
        (Column("item", "Item"), Column("amount", "Amount", True)),
        (Row((Cell("Chuck roll"), Cell("13.60", href="=cut.ap_price.0"))),),
    ),
)

# Some lists of the site are set in a way of their own, by their names.
TO_DO = replace(
    LIVE,
    id="to-do",
    caption="By the money, and how sure it is",
    columns=(
        Column("do", "Do"),
        Column("money", "A month", True),
        Column("sure", "How sure"),
        Column("why", "Why"),
    ),
    rows=(
        Row(
            (
                Cell("Raise Ribeye steak to $63.00", href="~/plates/index.html"),
                Cell("+3,710", tone="gain"),
                Cell("more than 99 times in 100", note="that it is over the target"),
                Cell("now $45.00; food cost 41.7 % against 30 %"),
            )
        ),
    ),
    filterable=True,
)
CLASSES = Table(
    "plates",
    "Every plate with its class",
    (Column("plate", "Plate"), Column("class", "Class")),
    (
        Row(
            (
                Cell("Chuck steak"),
                Cell(
                    Markup('sells and earns <span class="chance">(7 times in 10)</span>'),
                    fixed=True,
                ),
            )
        ),
    ),
)

COUNTERS = Table(
    "list-of-buffets",
    "Counters and buffets",
    (
        Column("what", "Counter or buffet"),
        *(Column(f"c{n}", word, True) for n, word in enumerate(("Price", "Food", "A guest"))),
        Column("share", "Food cost %", True),
        Column("week", "Margin a week", True),
    ),
    (Row((Cell("Pulled pork by weight"), *map(Cell, ("38.00", "11.20", "2.80", "29 %", "640")))),),
)

LISTED = SourceListing("plates/chuck-steak.yaml", ("name: Chuck steak", "menu: mains"), prefix="p-")

# A blank picture of a PNG's least bytes.
PICTURE = Markup(
    '<img alt="Five slices in a row" width="40" height="30" src="data:image/png;base64,'
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGM4AwAAzgDN1GaQsAAAAABJRU5ErkJggg=="
    '">'
)
PICTURED = StepList(
    (StepLine("Plate", picture=PICTURE, shows="Five slices, in a row"),), "Steps of the plate"
)

BALLOT = Form(
    "ballot",
    "Ballot",
    (
        FormFields((FormField("Taster", "", "", "full"),)),
        FormNote("Rinse between samples.", strong=True),
        FormLines("Which one is different?", 1),
    ),
    reference="1 of 2",
    half="upper",
)

_NARROW = (
    Column("plate", "Plate"),
    *(Column(name, name.capitalize()) for name in ("milk", "eggs", "gluten", "celery")),
)
_DECIDED = FormGrid(
    "Side by side",
    (Column("line", "A plate"), Column("ribeye", "Ribeye", True), Column("chuck", "Chuck", True)),
    (Row((Cell("Margin"), Cell("17.52"), Cell("15.87"))),),
    small="print",
)
_MATRIX = FormGrid(
    "Allergens of each plate",
    _NARROW,
    (Row((Cell("Chuck steak"), *(Cell("yes") for _ in _NARROW[1:]))),),
    small="upright",
)
_TICKED = FormGrid(
    "Jobs of the day",
    (Column("job", "Job"), Column("amount", "Amount", True), Column("by", "Initials")),
    (Row((Cell("Trim chuck roll"), Cell("7.10 kg"), Cell(""))),),
    small="ledger",
)

SHEETS: dict[str, Section] = {
    "ballot": BALLOT,
    "second half": replace(BALLOT, id="ballot-two", reference="2 of 2", half="lower"),
    "upper of one sheet": replace(BALLOT, id="ballot-above", reference="morning", half="above"),
    "rest of the sheet": replace(BALLOT, id="ballot-below", reference="evening", half="below"),
    "list to tick off": Form("ticked", "Prep list", (_TICKED,)),
    "close sheet": Form(
        "close",
        "Swap to decide on",
        (_DECIDED, _MATRIX, replace(CHARTS[2], id="on-paper", table=None)),
        close=True,
    ),
}

RARE: dict[str, Section] = {
    "one notice": Notice("One weighing only.", "note", hint="(the cook's own scale)"),
    "tones": TONES,
    "plates side by side": TWO_PLATES,
    "weight gained": GAINED,
    "following picture": FOLLOWING,
    "bar read off a table": READ_OFF,
    "table of a bar": BARS,
    "table that follows nothing": ENDS,
    "numbers that open": LIVE,
    "amounts made": MADE,
    "listed file": LISTED,
    "no links": LinkList((), "Swaps", "No swap names this cut."),
    "no rows": Table("none", "Counts", (Column("c", "Count"),), (), empty="Nothing counted yet."),
    "step with a picture": PICTURED,
    "what to do": TO_DO,
    "classes": CLASSES,
    "counters": COUNTERS,
    "as written": Prose(Markup('<p class="written">Held at what is written: the wage.</p>')),
    "open part": Part(
        "opened", "Open from the start", (Prose(Markup("<p>A caution.</p>")),), "", True
    ),
}
