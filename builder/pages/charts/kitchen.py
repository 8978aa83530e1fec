"""Kinds of picture about cooks and tastings."""

from __future__ import annotations

import altair as alt

from builder.pages.charts.marks import STEP, in_lanes, label, lane, point, role, rows, stack, x, y
from builder.pages.charts.theme import ACCENT, CLASH, GAIN, INK, MUTED, PAPER, PARTS

HEIGHT = 300
BAND = 0.3
# A mark's words hang under it, at six pixels a letter a third before the mark, further where
# the picture ends: down there the core has long come up.
LOW = 66
UNDER = "min(-2 * length(datum.text), width - scale('x', datum.time) - 6.2 * length(datum.text))"


def core_curve() -> alt.LayerChart:
    """The core's estimate with its fast and slow bounds against a published threshold."""
    core = role("core").encode(x=x("time", "time", nice=False))
    threshold = role("threshold").encode(y="temperature:Q")
    met = role("met").encode(x="time:Q", y="temperature:Q")
    return stack(
        core.mark_area(color=MUTED, opacity=BAND).encode(
            y=y("low", "temperature", zero=False), y2="high:Q"
        ),
        core.mark_line(color=INK).encode(y="mid:Q"),
        threshold.mark_rule(color=ACCENT, strokeDash=[6, 3]),
        # Over the picture, with a piece of its line: no curve can run through it there.
        threshold.mark_rule(color=ACCENT, strokeDash=[6, 3]).encode(
            x=alt.value(0), x2=alt.value(15), y=alt.value(-14)
        ),
        threshold.mark_text(align="left", color=ACCENT).encode(
            x=alt.value(21), y=alt.value(-14), text="text:N"
        ),
        met.mark_rule(color=INK, y2Offset=LOW - 10).encode(y2="temperature:Q"),
        point(met),
        met.mark_text(align="left", dx=alt.ExprRef(UNDER), dy=LOW).encode(text="text:N"),
    ).properties(height=HEIGHT)


# A bar of a lane leaves room above it for the name of what clashes.
BAR, STRIP, OVER = 22, 6, -17


def timeline() -> alt.LayerChart:
    """A bar for each step from its start to its end, a lane for each bath, oven or hand.

    What clashes of a bar has a frame, a hatched foot and its name above.
    """
    steps = _timed("step")
    when = alt.X(
        "start:T",
        title=None,
        axis=alt.Axis(format="%a %X", labelOverlap=True, labelSeparation=10),
    )
    long = "scale('x', datum.end) - scale('x', datum.start) > 6.5 * length(datum.task) + 10"
    bars = steps.mark_bar(size=BAR).encode(
        x=when,
        x2="end:T",
        color=alt.Color("kind:N", sort=None, scale=alt.Scale(range=PARTS[1:])),
        tooltip=_span(),
    )
    # Clipped, or words that are not shown would still ask for room beyond the last step.
    shown = alt.ExprRef(f"{long} ? 1 : 0")
    words = steps.mark_text(
        align="left", dx=5, dy=-2, color="var(--on-part)", opacity=shown, clip=True
    ).encode(x="start:T", text="task:N")
    return in_lanes(stack(bars, *_clashes(), words), "lane", STEP + 6)


def _timed(what: str) -> alt.Chart:
    """Rows of one role in their lanes, their moments read as such."""
    times = {"start": "toDate(datum.start)", "end": "toDate(datum.end)"}
    return role(what).transform_calculate(**times).encode(y=lane("lane"))


def _span() -> list[alt.Tooltip]:
    """What a pointer over a bar is shown: the task, its start and its end."""
    ends = (alt.Tooltip(f"{end}:T", format="%a %X") for end in ("start", "end"))
    return [alt.Tooltip("task:N"), *ends]


def _clashes() -> tuple[alt.Chart, ...]:
    """The foot, the frame and the name of what clashes of a bar, with a legend of its own."""
    clash = _timed("clash").encode(x="start:T", x2="end:T")
    # Below the picture: beside the other legend a phone would cut it off.
    legend = alt.Legend(orient="bottom", symbolStrokeColor=ACCENT, symbolType="square")
    frame = clash.mark_bar(size=BAR, filled=False, stroke=ACCENT, strokeWidth=2)
    foot = clash.mark_bar(size=STRIP, yOffset=(BAR - STRIP) / 2, stroke=None).encode(
        fill=alt.Fill("kind:N", scale=alt.Scale(range=[CLASH]), legend=legend)
    )
    name = _timed("clash").mark_text(align="left", dy=OVER, color=ACCENT, fontWeight="bold")
    return foot, frame.encode(tooltip=_span()), name.encode(x="start:T", text="text:N")


def score_dots() -> alt.LayerChart:
    """A dot for each taster, equal scores side by side, over the benchmark's band."""
    band = role("band")
    dots = (
        role("dot")
        .transform_joinaggregate(longest="max(duration)", shortest="min(duration)")
        .transform_joinaggregate(same="count()", groupby=["duration", "score"])
        .transform_window(nth="row_number()", groupby=["duration", "score"])
        .transform_calculate(
            at="datum.duration + (datum.nth - (datum.same + 1) / 2)"
            " * 0.018 * max(1, datum.longest - datum.shortest)"
        )
    )
    across = x("at", "duration", zero=False, padding=24)
    mean = role("mean").encode(x="duration:Q", y="score:Q")
    return stack(
        band.mark_rect(color=GAIN, opacity=0.22).encode(
            y=y("low", "score", zero=False), y2="high:Q"
        ),
        band.mark_text(align="left", dx=4, dy=-8).encode(x=alt.value(0), y="high:Q", text="text:N"),
        dots.mark_point(size=44, color=PAPER, stroke=INK, strokeWidth=1.2).encode(
            x=across,
            y="score:Q",
            tooltip=[alt.Tooltip(f"{name}:N") for name in ("taster", "duration", "score")],
        ),
        mean.mark_line(color=ACCENT, strokeWidth=1.5),
        point(mean, 90),
    ).properties(height=HEIGHT)


def right_bars() -> alt.LayerChart:
    """Shares below, at and above just right, as parts of a whole bar."""
    base = (
        rows()
        .transform_calculate(rank="datum.side == 'below' ? 0 : datum.side == 'right' ? 1 : 2")
        .transform_stack(
            stack="share",
            groupby=["sample"],
            sort=[alt.SortField("rank")],
            as_=["from", "to"],
            offset="normalize",
        )
        .encode(y=lane("sample"))
    )
    answer = alt.Color(
        "answer:N",
        sort=alt.EncodingSortField("rank", op="min"),
        scale=alt.Scale(range=["var(--part-3)", "var(--part-5)", "var(--part-2)"]),
    )
    bars = (
        base.transform_filter("datum.share > 0")
        .mark_bar()
        .encode(
            x=alt.X("from:Q", title="{share}", axis=alt.Axis(format="%")),
            x2="to:Q",
            color=answer,
            tooltip=[alt.Tooltip(f"{name}:N") for name in ("sample", "answer", "text")],
        )
    )
    words = (
        base.transform_calculate(mid="(datum.from + datum.to) / 2")
        .mark_text(
            color="var(--on-part)",
            opacity=alt.ExprRef("(datum.to - datum.from) * width > 34 ? 1 : 0"),
        )
        .encode(x="mid:Q", text="text:N")
    )
    return in_lanes(stack(bars, words), "sample", STEP)


def interval() -> alt.LayerChart:
    """Estimates with their intervals; the dashed line is the limit."""
    return _intervals(x("low", "share").axis(format="%"))


def rank_sums() -> alt.LayerChart:
    """Rank sums with what chance may bring; the dashed line is the benchmark, if there is one."""
    return _intervals(x("low", "sum", zero=False, padding=12))


def _intervals(across: alt.X) -> alt.LayerChart:
    base = rows().encode(y=lane("name"))
    limit = (
        rows()
        .transform_filter("isValid(datum.limit)")
        .transform_aggregate(limit="min(limit)")
        .encode(x="limit:Q")
    )
    layers = stack(
        limit.mark_rule(color=ACCENT, strokeDash=[6, 3], strokeWidth=1.5),
        base.mark_rule(strokeWidth=2).encode(x=across, x2="high:Q"),
        base.mark_tick(thickness=2, color=INK, size=12).encode(x="low:Q"),
        base.mark_tick(thickness=2, color=INK, size=12).encode(x="high:Q"),
        point(base.encode(x="mid:Q", tooltip=[alt.Tooltip("name:N"), alt.Tooltip("text:N")])),
        label(base.encode(x="mid:Q"), "mid", dy=-14),
    )
    return in_lanes(layers, "name", STEP + 20)


def duration_curve() -> alt.LayerChart:
    """An attribute over time with its band, drawn no further than what was tried."""
    curve = role("curve").encode(x=x("duration", "duration", zero=False, nice=False))
    window = role("window")
    best = role("best").encode(x="duration:Q", y="score:Q")
    return stack(
        window.mark_rect(color=GAIN, opacity=0.2).encode(x="start:Q", x2="end:Q"),
        # At the foot: where it is right the curve runs high.
        window.mark_text(align="left", dx=4).encode(
            x="start:Q", y=alt.value(HEIGHT - 10), text="text:N"
        ),
        curve.mark_area(color=MUTED, opacity=BAND).encode(
            y=y("low", "score", zero=False), y2="high:Q"
        ),
        curve.mark_line(color=INK).encode(y="mid:Q"),
        role("tried")
        .mark_point(color=PAPER, stroke=INK, size=50)
        .encode(x="duration:Q", y="score:Q"),
        point(best),
        label(best, "duration", dy=-16),
    ).properties(height=HEIGHT)
