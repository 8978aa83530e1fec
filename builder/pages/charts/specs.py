"""All kinds as chart specifications, written once into a script of the site."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Final

import altair as alt

from builder.pages.charts import kitchen, money
from builder.pages.charts.theme import config

# Only the width follows the page; bars keep their step whatever the count of rows.
FIT: Final = alt.AutoSizeParams(type="fit-x", contains="padding")

BUILDERS: Final[dict[str, Callable[[], alt.LayerChart]]] = {
    "waterfall": money.waterfall,
    "cost-stack": money.cost_stack,
    "crossover": money.crossover,
    "margin-scatter": money.margin_scatter,
    "range-bars": money.range_bars,
    "line-months": money.line_months,
    "core-curve": kitchen.core_curve,
    "timeline": kitchen.timeline,
    "score-dots": kitchen.score_dots,
    "right-bars": kitchen.right_bars,
    "interval": kitchen.interval,
    "rank-sums": kitchen.rank_sums,
    "duration-curve": kitchen.duration_curve,
}


def specs() -> dict[str, dict[str, object]]:
    """Return every kind's specification, checked against the chart library's schema."""
    return {
        name: build().properties(width="container", autosize=FIT).to_dict()
        for name, build in BUILDERS.items()
    }


def kinds_script() -> bytes:
    """Return the script that carries the kinds and their common configuration."""
    shared = {
        name: {k: v for k, v in spec.items() if k not in ("config", "$schema")}
        for name, spec in specs().items()
    }
    packed = json.dumps(
        {"config": config(), "kinds": shared}, separators=(",", ":"), sort_keys=True
    )
    return f"const CHARTS={packed};\n".encode()


def schema_version() -> str:
    """Return the version of the grammar that the specifications are written in, such as 6.4."""
    return ".".join(alt.SCHEMA_VERSION.lstrip("v").split(".")[:2])
