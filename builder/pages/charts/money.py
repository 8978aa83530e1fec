"""Kinds of picture about money."""

from __future__ import annotations

import altair as alt

from builder.pages.charts.marks import (
    STEP,
    by_dash,
    by_shape,
    corner,
    in_lanes,
    label,
    lane,
    point,
    role,
    rows,
    stack,
    x,
    x_before_words,
    x_between_words,
    y,
)
from builder.pages.charts.theme import ACCENT, CREDIT, GAIN, INK, MUTED, PAPER, PARTS, SHAPES

HEIGHT = 300


def waterfall() -> alt.LayerChart:
    """Steps from the purchase price to the plate, each starting where the last one ended."""
    fill = alt.Scale(domain=["total", "rise", "fall"], range=[INK, ACCENT, CREDIT])
    base = rows().transform_calculate(far="max(datum.start, datum.end)").encode(y=lane("step"))
    bars = base.mark_bar().encode(
        x=x_before_words("start", "money"),
        x2="end:Q",
        color=alt.Color("kind:N", scale=fill, legend=None),
        tooltip=[alt.Tooltip("step:N"), alt.Tooltip("text:N")],
    )
    words = base.mark_text(align="left", dx=6).encode(x="far:Q", text="text:N")
    return in_lanes(stack(bars, words), "step", STEP, ends="text")


def cost_stack() -> alt.LayerChart:
    """Parts of the plate cost end to end; a label is where its part has room for it."""
    base = (
        rows()
        .transform_stack(
            stack="amount", groupby=["plate"], sort=[alt.SortField("order")], as_=["from", "to"]
        )
        .transform_joinaggregate(top="max(to)")
        .encode(y=lane("plate"))
    )
    bars = (
        base.transform_filter("datum.amount > 0")
        .mark_bar()
        .encode(
            x=x_before_words("from", "money"),
            x2="to:Q",
            color=alt.Color("part:N", sort=None, scale=alt.Scale(range=PARTS)),
            tooltip=[alt.Tooltip(f"{name}:N") for name in ("plate", "part", "text")],
        )
    )
    roomy = "datum.amount / datum.top * (width - room) > 6 * length(datum.text) + 14"
    parts = (
        base.transform_calculate(mid="(datum.from + datum.to) / 2")
        .mark_text(color=alt.ExprRef(f"datum.order == 0 ? '{PAPER}' : 'var(--on-part)'"))
        .encode(
            x="mid:Q",
            text="text:N",
            opacity=alt.condition(roomy, alt.value(1), alt.value(0)),
        )
    )
    totals = (
        base.transform_aggregate(end="max(to)", groupby=["plate", "total"])
        .mark_text(align="left", dx=6, fontWeight="bold")
        .encode(x="end:Q", y=lane("plate"), text="total:N")
    )
    return in_lanes(stack(bars, parts, totals), "plate", STEP + 8, ends="total")


def crossover() -> alt.LayerChart:
    """Lines that cross where the swap stops paying, with today's price marked."""
    axes = x("price", "price", zero=False), y("cost", "cost", zero=False)
    lines = role("line").mark_line().encode(*axes, *by_dash("name"))
    even = role("break-even")
    rule = even.mark_rule(strokeDash=[2, 3], color=MUTED).encode(x="price:Q")
    cross = even.mark_point(shape="cross", size=90, color=INK).encode(x="price:Q", y="cost:Q")
    today = role("today").encode(x="price:Q", y="cost:Q")
    # Its words at the foot and those of the crossing at the head keep clear of the lines.
    down = today.mark_rule(color=INK).encode(y2=alt.value(HEIGHT))
    said = label(today.encode(y=alt.value(HEIGHT - 8)), "price", dy=0)
    return stack(
        rule,
        down,
        lines,
        cross,
        point(today),
        label(even.encode(x="price:Q", y=alt.value(6)), "price", dy=0, long=True),
        said,
    ).properties(height=HEIGHT)


# The four classes as the rows of a page say them, in its language.
_CLASSES = ("{both}", "{sells}", "{earns}", "{neither}")


def margin_scatter() -> alt.LayerChart:
    """Plates by popularity and margin; the lines divide what sells and earns from what does not.

    Every point has its name; where not all names find room charts.js numbers them all.
    """
    axes = x("sold", "sold", zero=False, padding=20), y("margin", "margin", zero=False, padding=20)
    divide = role("divide").mark_rule(strokeDash=[4, 3], color=MUTED)
    plates = role("plate").encode(*axes)
    points = plates.mark_point(size=90).encode(
        *by_shape("class", _CLASSES, (GAIN, INK, INK, MUTED)),
        tooltip=[alt.Tooltip(f"{name}:N") for name in ("plate", "class", "sold", "margin")],
    )
    both, sells, earns, neither = _CLASSES
    fields = (
        corner(role("divide"), both, right=True, top=True),
        corner(role("divide"), sells, right=True, top=False),
        corner(role("divide"), earns, right=False, top=True),
        corner(role("divide"), neither, right=False, top=False),
    )
    named = plates.transform_calculate(words="numbered ? datum.number : datum.plate")
    drawn = stack(
        divide.encode(x="sold:Q"),
        divide.encode(y="margin:Q"),
        *fields,
        points,
        label(named, "sold", dy=0, field="words"),
    ).add_params(alt.param(name="numbered", value=False))
    return drawn.properties(height=HEIGHT + 60, usermeta={"named": "plate"})


def range_bars() -> alt.LayerChart:
    """One bar for each input, widest first, around the answer as it is."""
    side = alt.Scale(domain=["low", "high"], range=["var(--part-3)", ACCENT])
    base = rows().encode(y=lane("input"))
    left = "datum.value < datum.base"
    bars = base.mark_bar().encode(
        x=x_between_words("base", "value"),
        x2="value:Q",
        color=alt.Color("side:N", scale=side, legend=None),
        tooltip=[alt.Tooltip(f"{name}:N") for name in ("input", "text")],
    )
    words = base.mark_text(
        align=alt.ExprRef(f"{left} ? 'right' : 'left'"), dx=alt.ExprRef(f"{left} ? -6 : 6")
    ).encode(x="value:Q", text="text:N")
    middle = (
        rows().transform_aggregate(base="min(base)").mark_rule(strokeWidth=1.5).encode(x="base:Q")
    )
    return in_lanes(stack(bars, middle, words), "input", STEP, ends="text")


def line_months() -> alt.LayerChart:
    """Months along, figures up, a line with its own dash and point for each series."""
    base = rows().encode(
        x=alt.X("month:O", title=None, axis=alt.Axis(labelAngle=0, labelOverlap=True)),
        y=y("value", "value", zero=False),
    )
    shape = alt.Shape("series:N", sort=None, scale=alt.Scale(range=SHAPES), legend=None)
    # The points borrow the lines' colour scale: a second encoding would be a second legend.
    points = base.mark_point(size=50, color=alt.ExprRef("scale('color', datum.series)")).encode(
        shape, tooltip=[alt.Tooltip(f"{name}:N") for name in ("series", "month", "value")]
    )
    lines = base.mark_line().encode(*by_dash("series"))
    return stack(lines, points).properties(height=HEIGHT - 40)
