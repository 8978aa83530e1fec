"""The few pieces that the kinds are put together from."""

from __future__ import annotations

from collections.abc import Sequence

import altair as alt

from builder.pages.charts.theme import DASHES, INK, LINES, MUTED, SHAPES

STEP = 34
NEAR_RIGHT = "scale('x', {x}) > 0.6 * width"
_RIGHT_HALF = "scale('x', {x}) > 0.5 * width"
# Letters of a line of a name, and pixels for words behind bars, until charts.js knows the page.
LETTERS, ROOM = 26, 80
_LINE = r"regexp('(.{1,' + letters + '})(\\s+|$)', 'g')"
_LINES = rf"split(trim(replace(datum.label, {_LINE}, '$1\n')), '\n')"
LINES_OF_NAME = f"length(datum.label) <= letters ? datum.label : {_LINES}"
# Half a line up for each further one, so that a name is in the middle of its lane.
UP = f"length(datum.label) <= letters ? 0 : -6.5 * (length({_LINES}) - 1)"


def rows() -> alt.Chart:
    """Return a chart over the rows that the page carries."""
    return alt.Chart(alt.NamedData(name="rows"))


def role(name: str) -> alt.Chart:
    """Return a chart over the rows of one role; charts.js leaves it out where there are none."""
    return rows().transform_filter(f"datum.role == '{name}'")


def lane(field: str) -> alt.Y:
    """Return the axis of names, in the order of the rows; a long name takes several lines."""
    axis = alt.Axis(labelExpr=LINES_OF_NAME, labelOffset=alt.ExprRef(UP), labelLineHeight=13)
    return alt.Y(f"{field}:N", sort=None, title=None, axis=axis)


def stack(*charts: alt.Chart) -> alt.LayerChart:
    """Draw charts over each other, the first one at the bottom."""
    return alt.LayerChart(layer=list(charts))


def in_lanes(chart: alt.LayerChart, field: str, step: int, ends: str = "") -> alt.LayerChart:
    """Make the chart as high as it has names; charts.js counts them in the page's rows.

    `ends` names the field whose words stand behind the bars; charts.js takes the longest.
    """
    room = [alt.param(name="room", value=ROOM)] if ends else []
    return chart.add_params(alt.param(name="letters", value=LETTERS), *room).properties(
        usermeta={"lane": field, "step": step} | ({"ends": ends} if ends else {})
    )


def x_before_words(field: str, unit: str) -> alt.X:
    """Return a horizontal axis that leaves room at its right for words behind the bars."""
    scale = alt.Scale(rangeMax=alt.ExprRef("width - room"))
    return alt.X(f"{field}:Q", title=f"{{{unit}}}", scale=scale)


def x(field: str, unit: str, *, zero: bool = True, nice: bool = True, padding: float = 0) -> alt.X:
    """Return a horizontal axis of figures; its title is the page's word for `unit`."""
    return alt.X(
        f"{field}:Q",
        title=f"{{{unit}}}",
        scale=alt.Scale(zero=zero, nice=nice, padding=padding),
    )


def x_between_words(field: str, unit: str) -> alt.X:
    """Return a horizontal axis that leaves room on both sides for words at the bars' ends."""
    room, rest = alt.ExprRef("0.86 * room"), alt.ExprRef("width - 0.86 * room")
    scale = alt.Scale(zero=False, nice=False, rangeMin=room, rangeMax=rest)
    return alt.X(f"{field}:Q", title=f"{{{unit}}}", scale=scale)


def y(field: str, unit: str, *, zero: bool = True, padding: float = 0) -> alt.Y:
    """Return a vertical axis of figures; its title is the page's word for `unit`."""
    scale = alt.Scale(zero=zero, padding=padding)
    return alt.Y(f"{field}:Q", title=f"{{{unit}}}", scale=scale)


def label(
    chart: alt.Chart, at: str, *, dy: float = -10, field: str = "text", long: bool = False
) -> alt.Chart:
    """Label points; where a label would leave the picture it turns to the left of its point.

    A long one has half a picture on either side.
    """
    near = (_RIGHT_HALF if long else NEAR_RIGHT).format(x=f"datum.{at}")
    words: alt.Chart = chart.mark_text(
        align=alt.ExprRef(f"{near} ? 'right' : 'left'"),
        dx=alt.ExprRef(f"{near} ? -8 : 8"),
        dy=dy,
    ).encode(text=f"{field}:N", tooltip=alt.value(None))
    return words


def by_dash(field: str) -> tuple[alt.Color, alt.StrokeDash]:
    """Tell lines apart by colour and by dash at once."""
    name = f"{field}:N"
    legend = alt.Legend(symbolSize=900, symbolStrokeWidth=2)
    return (
        alt.Color(name, sort=None, scale=alt.Scale(range=LINES), legend=legend),
        alt.StrokeDash(name, sort=None, scale=alt.Scale(range=DASHES), legend=legend),
    )


def by_shape(
    field: str, domain: Sequence[str], colours: Sequence[str]
) -> tuple[alt.Color, alt.Shape]:
    """Tell points apart by colour and by shape at once; the picture itself says which is which."""
    name, words = f"{field}:N", list(domain)
    return (
        alt.Color(name, scale=alt.Scale(domain=words, range=list(colours)), legend=None),
        alt.Shape(name, scale=alt.Scale(domain=words, range=SHAPES), legend=None),
    )


# Pixels that the words of two corners take in any language, with room between them.
_TWO_CORNERS = 320


def corner(chart: alt.Chart, words: str, *, right: bool, top: bool) -> alt.Chart:
    """Words in a corner of the picture; a narrow one has no room for two beside each other."""
    off = "10" if right else f"(width < {_TWO_CORNERS} ? 24 : 10)"
    drawn: alt.Chart = chart.mark_text(
        text=words,
        color=MUTED,
        fontStyle="italic",
        align="right" if right else "left",
        x=alt.ExprRef("width - 6" if right else "6"),
        y=alt.ExprRef(off if top else f"height - {off}"),
    )
    return drawn


def point(chart: alt.Chart, size: float = 110) -> alt.Chart:
    """Draw the one point that matters: a diamond in the accent colour, outlined."""
    drawn: alt.Chart = chart.mark_point(
        shape="diamond", size=size, filled=True, color="var(--accent)", stroke=INK, strokeWidth=1
    )
    return drawn
