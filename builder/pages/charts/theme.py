"""How every picture looks: ink on paper, colours taken from the stylesheet.

Colours are the stylesheet's own custom properties. The pictures are drawn as
SVG, so a change of scheme or a sheet of paper recolours them without a redraw.
"""

from __future__ import annotations

from typing import Final

INK: Final = "var(--ink)"
MUTED: Final = "var(--muted)"
HAIR: Final = "var(--hair)"
PAPER: Final = "var(--paper)"
ACCENT: Final = "var(--accent)"
GAIN: Final = "var(--gain)"
# A hatched fill that charts.js defines in the page: a credit stays one in black and white.
CREDIT: Final = "url(#hatch-gain)"
# The same of two bars that can't be at once: what is drawn below shows between its lines.
CLASH: Final = "url(#hatch-clash)"
PARTS: Final = [f"var(--part-{n})" for n in range(1, 8)]
LINES: Final = [ACCENT, INK, GAIN, MUTED]
DASHES: Final = [[1, 0], [6, 3], [2, 2], [8, 3, 2, 3]]
SHAPES: Final = ["circle", "square", "triangle-up", "diamond"]
FONT: Final = "system-ui, 'Segoe UI', Roboto, 'Helvetica Neue', 'Liberation Sans', sans-serif"


def config() -> dict[str, object]:
    """Return the chart library's configuration."""
    axis = {
        "labelColor": INK,
        "titleColor": MUTED,
        "domainColor": INK,
        "tickColor": INK,
        "gridColor": HAIR,
        "labelFontSize": 12,
        "titleFontSize": 12,
        "titleFontWeight": "normal",
        "titlePadding": 8,
        "labelPadding": 5,
        "tickSize": 4,
        "labelLimit": 190,
    }
    legend = {
        "orient": "top",
        "title": None,
        "labelColor": INK,
        "labelFontSize": 12,
        "labelLimit": 200,
        "symbolSize": 110,
        "symbolStrokeWidth": 1,
        "offset": 10,
        "columnPadding": 16,
        "rowPadding": 4,
    }
    return {
        "aria": False,
        "background": None,
        "font": FONT,
        "padding": 2,
        "view": {"stroke": None},
        "axis": axis,
        "axisBand": {"grid": False, "domain": False, "ticks": False},
        "axisQuantitative": {"domain": False, "tickCount": 6, "labelFlush": False},
        "axisTemporal": {"tickCount": 6, "labelFlush": False},
        "legend": legend,
        "text": {"color": INK, "fontSize": 12},
        "bar": {"stroke": INK, "strokeWidth": 0.75},
        "rule": {"color": INK, "strokeWidth": 1},
        "line": {"strokeWidth": 2},
        "point": {"size": 70, "filled": True, "opacity": 1, "strokeWidth": 1},
        "scale": {"bandPaddingInner": 0.35, "bandPaddingOuter": 0.2},
    }
