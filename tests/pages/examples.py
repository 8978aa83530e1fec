"""An invented example of every component's data; nothing here was computed."""

from __future__ import annotations

from dataclasses import replace

from markupsafe import Markup

from builder.pages.components import (
    Balance,
    BalancePart,
    BalanceStage,
    Cell,
    Column,
    Copyable,
    Definitions,
    Figures,
    FigureTile,
    Form,
    FormField,
    FormFields,
    FormGrid,
    FormLabels,
    FormLines,
    FormNote,
    FormScale,
    FormTicks,
    Link,
    LinkList,
    Notice,
    Notices,
    PaperLabel,
    Part,
    Prose,
    Row,
    Section,
    SourceListing,
    StepLine,
    StepList,
    Table,
    Term,
    Tries,
    TryLine,
)

FIGURES = Figures(
    (
        FigureTile("Full plate cost", "9.84", "CAD", "#t-plate", "", "food, labour, process"),
        FigureTile(
            "Contribution margin", "+15.87", "CAD", "#t-margin", "gain", "price ex tax 25.71"
        ),
        FigureTile("Food cost", "31.2", "%", "#t-food", "loss", "target 30 %"),
        FigureTile("Portions", "27", "", "", "", "whole, from one piece"),
    )
)

NOTICES = Notices(
    (
        Notice(
            "One cooking loss test only: no interval.",
            "warning",
            "cooks/chuck-roll-30h.yaml:11:3",
            "Weigh two more batches.",
            "~/source/chuck-roll-30h.html#L11",
        ),
        Notice("Arithmetic on published tables, not a food-safety plan.", "caution"),
        Notice("Prices as of 2026-09-30.", "note"),
    )
)

STAGES = Table(
    "stages",
    "From 8.42 kg as purchased to 27 plates",
    (
        Column("stage", "Stage"),
        Column("in", "In", True, "kg"),
        Column("out", "Out", True, "kg", "What goes on to the next stage."),
        Column("yield", "Yield", True, "%", "Out divided by in."),
        Column("cost", "Cost", True, "CAD/kg"),
    ),
    (
        Row((Cell("Trim"), Cell("8.42"), Cell("7.10"), Cell("84.3"), Cell("15.30"))),
        Row(
            (
                Cell("Cook", href="~/cooks/chuck-roll-30h.html", note="57 °C, 30 h"),
                Cell("7.10"),
                Cell("5.68"),
                Cell("80.0", tone="loss"),
                Cell("19.03"),
            )
        ),
        Row((Cell("Sear"), Cell("5.68"), Cell("5.51"), Cell("97.0"), Cell("19.62"))),
    ),
    (
        Row(
            (Cell("Overall"), Cell("8.42"), Cell("5.51"), Cell("65.4"), Cell("19.62")),
            "total",
        ),
    ),
    about="One test at each stage; no interval.",
)

PLATES = (
    ("Chuck steak, bone sauce", 412, 9.84, 31.2, 15.87),
    ("Ribeye steak", 388, 18.20, 44.0, 17.52),
    ("Lamb neck, barley", 205, 7.15, 27.4, 16.90),
    ("Pork collar", 311, 6.02, 24.8, 14.26),
    ("Chicken thigh", 502, 4.41, 22.9, 12.73),
    ("Beef shin ragù", 177, 5.38, 23.6, 13.48),
)

MENU = Table(
    "menu",
    "Every plate on the menu, September 2026",
    (
        Column("plate", "Plate"),
        Column("sold", "Sold", True, "", "Plates sold in the month."),
        Column("cost", "Plate cost", True, "CAD"),
        Column("food", "Food cost", True, "%", "Food cost divided by the price ex tax."),
        Column("margin", "Margin", True, "CAD"),
    ),
    tuple(
        Row(
            (
                Cell(name, href="~/plates/index.html"),
                Cell(str(sold), sold),
                Cell(f"{cost:.2f}", cost),
                Cell(f"{food:.1f}", food, tone="loss" if food > 30 else ""),
                Cell(f"+{margin:.2f}", margin, tone="gain"),
            )
        )
        for name, sold, cost, food, margin in PLATES
    ),
    sortable=True,
    filterable=True,
)

# Rows are picked by the name of the page that they lead to.
PICKED = replace(
    MENU,
    id="picked",
    caption="Plates to see side by side",
    rows=tuple(
        replace(row, cells=(replace(row.cells[0], href=f"~/plates/plate-{n}.html"), *row.cells[1:]))
        for n, row in enumerate(MENU.rows)
    ),
    pick=True,
)

EMPTY = Table("empty", "Tastings", (Column("tasting", "Tasting"),), ())


def long_table(count: int) -> Table:
    return Table(
        "long",
        f"{count} plates",
        MENU.columns,
        tuple(
            Row(
                (
                    Cell(f"Plate {n:04}"),
                    Cell(str(n * 7919 % 499), n * 7919 % 499),
                    Cell(f"{n % 31:.2f}", n % 31),
                    Cell(f"{n % 47}.0", n % 47),
                    Cell(f"+{n % 23}.00", n % 23),
                )
            )
            for n in range(count)
        ),
        sortable=True,
        filterable=True,
    )


LONG = long_table(250)

BALANCE = Balance(
    "balance",
    "Where 8.42 kg of chuck roll goes",
    "65 % of what was purchased can be served; 9 % leaves as trim with a worth of its own.",
    (
        BalanceStage(
            "Trim",
            "8.42 kg",
            (
                BalancePart("on to cook", "7.10 kg", 0.843, "out"),
                BalancePart("grind", "0.74 kg", 0.088, "by-product"),
                BalancePart("loss", "0.58 kg", 0.069, "loss"),
            ),
        ),
        BalanceStage(
            "Cook, 57 °C for 30 h",
            "7.10 kg",
            (
                BalancePart("on to sear", "5.68 kg", 0.675, "out"),
                BalancePart("bag juices", "0.92 kg", 0.109, "by-product"),
                BalancePart("loss", "0.50 kg", 0.059, "loss"),
            ),
            "~/cooks/chuck-roll-30h.html",
            "One test, no interval.",
        ),
        BalanceStage(
            "Sear and carve",
            "5.68 kg",
            (
                BalancePart("to the plate", "5.51 kg", 0.654, "out"),
                BalancePart("loss", "0.17 kg", 0.021, "loss"),
            ),
        ),
    ),
)

TRIES = Tries(
    (
        TryLine("Beef chuck roll: AP price", "cut.ap_price.0"),
        TryLine("Beef chuck roll: left after trim", "stage.assumed_yield.0", "stage.stage_yield.0"),
    )
)

SOURCE = SourceListing(
    "cuts/beef-chuck-roll.yaml",
    (
        "name: Beef chuck roll",
        'imps: 116A                  # a "quoted" & <escaped> comment',
        "price: 13.60/kg",
        "trim:",
        "  leave: 3 mm of fat, seam fat out",
        "  tests:",
        "    - {date: 2026-09-03, in: 8.42 kg, out: 7.10 kg,"
        " parts: {grind: [0.74 kg, 7.90/kg], fat: [0.41 kg, 0/kg]}}",
    ),
    frozenset({3, 7}),
)

DEFINITIONS = Definitions(
    (
        Term("Cut", "Beef chuck roll, IMPS 116A", "~/cuts/beef-chuck-roll.html"),
        Term("Cook", "Water bath, 57 °C for 30 h"),
        Term("Supplier", "Tarn & Vale Provisions", "", "invented"),
    )
)

LINKS = LinkList(
    (
        Link("Chuck for ribeye", "~/swaps/chuck-for-ribeye.html", "96 % likely cheaper", "+6.10"),
        Link("Neck for rack", "~/swaps/neck-for-rack.html", "one taste test missing", "+8.35"),
    ),
    "Swaps",
)

PROSE = Prose(
    Markup(
        "<p>Ask for the <em>eye side</em>; the blade side has the silver seam. "
        'See <a href="~/cuts/beef-chuck-roll.html">chuck roll</a>.</p>'
        "<ul><li>Trim the day before.</li><li>Bag with 20 g of suet.</li></ul>"
        '<ul class="few"><li>the portion</li><li>the wage</li><li>what sub-recipes make</li></ul>'
    )
)

FORM = Form(
    "yield-test",
    "Butcher's yield test",
    (
        FormFields(
            (
                FormField("Item", "Beef chuck roll", "", "half"),
                FormField("IMPS", "116A", "", "quarter"),
                FormField("Date", "", "", "quarter"),
                FormField("AP weight", "", "kg", "quarter"),
                FormField("AP price", "13.60", "CAD/kg", "quarter"),
                FormField("Tested by", "", "", "half"),
            )
        ),
        FormGrid(
            "Breakdown",
            (
                Column("part", "Part"),
                Column("weight", "Weight", True, "kg"),
                Column("ratio", "Ratio", True, "%"),
                Column("worth", "Worth", True, "CAD/kg"),
                Column("value", "Value", True, "CAD"),
            ),
            (
                Row((Cell("Grind"), Cell(""), Cell(""), Cell("7.90"), Cell(""))),
                Row((Cell("Fat"), Cell(""), Cell(""), Cell("0.00"), Cell(""))),
            ),
            6,
            (Row((Cell("Total"), Cell(""), Cell(""), Cell(""), Cell("")), "total"),),
        ),
        FormTicks("Before you weigh", ("Scale at zero", "Tray weighed empty", "Surface dried")),
        FormScale("Surface", "dry", "wet", 150),
        FormLines("Remarks", 3),
        FormNote("A stage that does not balance is refused: in = out + by-products + loss."),
    ),
    "Weigh everything, the bin included.",
    "Sheet 1",
)

LABELS = Form(
    "labels",
    "Labels: chuck roll 30h",
    (
        FormLabels(
            (
                PaperLabel("Chuck roll 30h", (("Made", "Fri 18:00"), ("Use by", ""))),
                PaperLabel("Bone sauce", (("Made", ""), ("Use by", "")), ("Contains milk.",)),
            )
        ),
    ),
)
STEPS = StepList(
    (
        StepLine("Season and bag", ("20 min",), (("Chuck roll", "7.10 kg"),), "Raw meat"),
        StepLine("Carve across the grain"),
    ),
    "Steps of chuck roll 30h",
)

EXAMPLES: dict[str, Section] = {
    "figures": FIGURES,
    "files to copy": Copyable(
        "trial",
        "Copy the files",
        (("cuts/chuck.yaml", "species: beef\n"), ("cooks/a.yaml", "at: 57 °C\n")),
    ),
    "notice": NOTICES.items[1],
    "notices": NOTICES,
    "table": STAGES,
    "list": MENU,
    "rows to pick": PICKED,
    "empty": EMPTY,
    "long": LONG,
    "balance": BALANCE,
    "tries": TRIES,
    "source": SOURCE,
    "definitions": DEFINITIONS,
    "links": LINKS,
    "prose": PROSE,
    "form": FORM,
    "labels": LABELS,
    "steps": STEPS,
    "part": Part("part", "A part", (PROSE, Part("inner", "Inside", (DEFINITIONS,))), "About it."),
}
