"""The page on how sure a figure is: three keys, each with an example worked out by the reader."""

from __future__ import annotations

import math
from datetime import date
from itertools import pairwise

from markupsafe import Markup

from builder.costing.price_moves import MONTH_DAYS, Change, price_spread
from builder.costing.spreads import weighed_spread
from builder.display.ends import own_ends
from builder.display.scales import UnitSystem
from builder.display.style import Style
from builder.engine.draws import Z_90, Basis, Spread
from builder.language import tr
from builder.pages.components import Link, Page, Part, Prose
from builder.quantities import Dimension, parse_quantity

PATH = "writing/how-sure.html"
_LINE = "finish: {how: sear, loss: 3 %, give or take: 1 %}"
# A portion as it is written, the same portions weighed, and how near one is.
_METRIC = ("180 g", ("182 g", "176 g", "185 g", "179 g", "174 g", "184 g"), "4 g")
_CUSTOMARY = (
    "6.3 oz",
    (
        "6.4 oz",
        "6.2 oz",
        "6.5 oz",
        "6.3 oz",
        "6.1 oz",
        "6.5 oz",
    ),
    "0.15 oz",
)
_LIST = (12.40, 13.15, 12.90, 13.60)


def tolerances_page(style: Style, crumbs: tuple[Link, ...], nav: str) -> Page:
    """What `planning horizon`, `give or take` and `weighed portions` do."""
    return Page(
        path=PATH,
        title=tr("How sure a figure is"),
        lead=tr(
            "Write how far off a value may be, and plates and swaps say how sure their money is."
        ),
        also=(tr("What has nothing behind it is held at what is written, and the page names it."),),
        kind=tr("Writing the files"),
        crumbs=crumbs,
        nav=nav,
        sections=(_horizon(style), _give_or_take(style), _weighed(style), _drawn()),
    )


def _part(anchor: str, title: str, about: str, example: str, worked: str) -> Part:
    prose = Markup("<p>{}</p><pre><code>{}</code></pre><p>{}</p>").format(about, example, worked)
    return Part(anchor, title, (Prose(prose),))


def _horizon(style: Style) -> Part:
    days = [date(2026, month, 2) for month in (3, 5, 7, 9)]
    changes = [
        Change(day, math.log(price / before), float((day - since).days))
        for (since, before), (day, price) in pairwise(zip(days, _LIST, strict=True))
    ]
    scale = price_spread(changes, 3 * MONTH_DAYS)
    now = _LIST[-1]
    low, high = Spread(
        now, scale, Basis.LIST, float(len(changes)), relative=True, count=len(changes)
    ).ends
    first, last = own_ends(style, "money", low, high, "")
    went = ", ".join(style.money(price) for price in _LIST)
    return _part(
        "planning-horizon",
        "planning horizon",
        tr(
            "In kitchen.yaml: how long today's menu prices have to hold, in days, "
            "weeks or months. A price may move further over a longer time. Left out, "
            "it is one month."
        ),
        "planning horizon: 3 months",
        tr(
            "Say a cut's list went {went} in six months. Over the next 3 "
            "months the price is {first} to {last}, 9 times in 10. Prices of one "
            "supplier move together as their lists did, but for those with fewer "
            "than three changes or with give or take. A price with no list and "
            "nothing to give or take is held.",
            went=went,
            first=first,
            last=last,
        ),
    )


def _give_or_take(style: Style) -> Part:
    near_portion = _portions(style)[2]
    loss, near = (parse_quantity(text, Dimension.RATIO).value for text in ("3 %", "1 %"))
    low, high = Spread(loss, near / Z_90, Basis.STATED).ends
    return _part(
        "give-or-take",
        "give or take",
        tr(
            "In the kitchen's file, a cut, a stage, a cook, a pantry item, a plate "
            "or a buffet: nine times in ten the true value is this near to the one "
            "written. A share, or an amount of the same unit. A loss is given or "
            "taken in points of the weight in, what a buffet leaves in points of "
            "what is put out."
        ),
        f"{_LINE}\ngive or take: {{loaded wage: 3 %, energy: 15 %, portion: {near_portion}}}",
        tr(
            "The loss in the sear is {low} to {high}, 9 times in 10. The second line "
            "is for the kitchen's file. Tests of a stage, and like stages beside one "
            "test, count before what it gives or takes; a price that gives or takes "
            "counts before its list.",
            low=style.percent(low, 0),
            high=style.percent(high, 0),
        ),
    )


def _portions(style: Style) -> tuple[str, tuple[str, ...], str]:
    return _CUSTOMARY if style.units is UnitSystem.US_CUSTOMARY else _METRIC


def _weighed(style: Style) -> Part:
    stated, weighings, _ = _portions(style)
    written, *portions = (
        parse_quantity(text, Dimension.MASS).value for text in (stated, *weighings)
    )
    spread = weighed_spread(written, portions)
    low, high = spread.ends if spread else (written, written)
    return _part(
        "weighed-portions",
        "weighed portions",
        tr(
            "On a plate: portions weighed one by one on the pass. Costs use the "
            "portion as written; the weighings say how far the mean of many plates "
            "may be from it. Two are the least, eight or more are better."
        ),
        f"portion: {stated}\nweighed portions: [{', '.join(weighings)}]",
        tr(
            "{portions} weighings: the mean portion is {low} to {high}, 9 times in "
            "10. They count before the plate's give or take.",
            portions=style.count(len(portions)),
            low=style.weight(low),
            high=style.weight(high),
        ),
    )


def _drawn() -> Part:
    prose = Markup(
        tr(
            "<p>How the draws are made, and how to make them again: <a "
            'href="~/methods/interval-90.html">the method of the 90 % interval</a>. '
            "Every input with a spread is a row of <a "
            'href="~/data.html#spreads">spreads.csv</a>.</p>'
        )
    )
    return Part("drawn", tr("What it does"), (Prose(prose),))
