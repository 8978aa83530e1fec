"""An invented picture of every kind; nothing here was computed."""

from __future__ import annotations

from collections.abc import Mapping

from builder.pages.components import Cell, Chart, Column, Row, Table, Value

Rows = list[Mapping[str, Value]]


def _table(chart_id: str, rows: Rows) -> Table:
    keys = list(dict.fromkeys(key for row in rows for key in row))
    columns = tuple(Column(key, key.capitalize(), key not in ("role", "kind")) for key in keys)
    cells = tuple(
        Row(tuple(Cell(str(row[key]) if key in row else "—") for key in keys)) for row in rows
    )
    return Table(f"{chart_id}-rows", "Rows of the picture", columns, cells)


def _chart(kind: str, title: str, summary: str, units: dict[str, str], rows: Rows) -> Chart:
    name = f"example-{kind}"
    return Chart(name, kind, title, summary, tuple(rows), _table(name, rows), units)


def _steps(*steps: tuple[str, float, float, str, str]) -> Rows:
    names = ("step", "start", "end", "kind", "text")
    return [dict(zip(names, step, strict=True)) for step in steps]


def _plate(plate: str, *amounts: float) -> Rows:
    parts = ("Meat", "With it", "Labour", "Energy and bags", "Equipment")
    total = f"{sum(amounts):.2f}"
    return [
        {
            "plate": plate,
            "part": part,
            "amount": amount,
            "order": n,
            "text": f"{amount:.2f}",
            "total": total,
        }
        for n, (part, amount) in enumerate(zip(parts, amounts, strict=True))
    ]


def _menu(*plates: tuple[str, int, float, str]) -> Rows:
    rows: Rows = [
        {
            "role": "plate",
            "number": str(number),
            "plate": plate,
            "sold": sold,
            "margin": margin,
            "class": kind,
        }
        for number, (plate, sold, margin, kind) in enumerate(plates, 1)
    ]
    return [*rows, {"role": "divide", "sold": 310, "margin": 14.9}]


def _months() -> Rows:
    chuck = (12.9, 13.1, 13.1, 13.6, 13.4, 13.6, 14.0, 13.6)
    ribeye = (31.0, 31.8, 33.2, 34.1, 33.9, 35.2, 36.4, 36.1)
    return [
        {"month": f"2026-{n + 2:02}", "series": name, "value": value}
        for name, values in (("Chuck roll", chuck), ("Ribeye", ribeye))
        for n, value in enumerate(values)
    ]


def _core() -> Rows:
    curve: Rows = [
        {
            "role": "core",
            "time": t / 4,
            "low": 57 - 53 * 0.62 ** (t / 4),
            "mid": 57 - 53 * 0.52 ** (t / 4),
            "high": 57 - 53 * 0.40 ** (t / 4),
        }
        for t in range(33)
    ]
    rule: Rows = [
        {"role": "threshold", "temperature": 54.4, "text": "54.4 °C held 112 min"},
        {"role": "met", "time": 4.7, "temperature": 54.4, "text": "reached after 4.7 h"},
    ]
    return [*curve, *rule]


def _scores() -> Rows:
    given = {
        12: (4, 5, 4, 3, 6, 5),
        24: (6, 6, 7, 5, 6, 8),
        30: (7, 8, 7, 7, 6, 8),
        48: (5, 6, 4, 7, 5, 6),
    }
    dots: Rows = [
        {"role": "dot", "duration": hours, "score": score, "taster": f"T{n}"}
        for hours, scores in given.items()
        for n, score in enumerate(scores, 1)
    ]
    means: Rows = [
        {"role": "mean", "duration": h, "score": sum(s) / len(s)} for h, s in given.items()
    ]
    return [*dots, *means, {"role": "band", "low": 6.4, "high": 7.6, "text": "Ribeye, 95 % band"}]


def _right(sample: str, order: int, *shares: float) -> Rows:
    sides = (("below", "Too firm"), ("right", "Just right"), ("above", "Falling apart"))
    return [
        {
            "sample": sample,
            "order": order,
            "side": side,
            "answer": answer,
            "share": share,
            "text": f"{share:.0%}",
        }
        for (side, answer), share in zip(sides, shares, strict=True)
    ]


def _curve() -> Rows:
    mid = {h: 7.2 - 0.011 * (h - 31) ** 2 for h in range(12, 49, 2)}
    curve: Rows = [
        {"role": "curve", "duration": h, "low": m - 0.7, "mid": m, "high": m + 0.7}
        for h, m in mid.items()
    ]
    tried: Rows = [
        {"role": "tried", "duration": h, "score": s}
        for h, s in ((12, 3.4), (24, 6.5), (30, 7.3), (48, 4.0))
    ]
    return [
        *curve,
        *tried,
        {"role": "window", "start": 25, "end": 37, "text": "texture right"},
        {"role": "best", "duration": 31, "score": 7.2, "text": "best at 31 h (27 to 35)"},
    ]


def _range(order: int, name: str, low: float, high: float, at: tuple[str, str]) -> Rows:
    return [
        {"input": name, "order": order, "side": side, "value": value, "base": 6.10, "text": text}
        for side, value, text in (("low", low, at[0]), ("high", high, at[1]))
    ]


def _busy(*steps: tuple[str, str, str, str, str]) -> Rows:
    names = ("lane", "task", "start", "end", "kind")
    rows: list[dict[str, Value]] = [
        {"role": "step", **dict(zip(names, step, strict=True))} for step in steps
    ]
    return [*rows, {**rows[-1], "role": "clash", "kind": "clash: can't share", "text": "clash 1"}]


WATERFALL = _chart(
    "waterfall",
    "Where the money of one kilogram goes: chuck roll, from 13.60 as purchased to 19.62 servable",
    "13.60 a kilogram as purchased rises to 19.62 a servable kilogram; trim adds 2.54, "
    "cooking 4.31, credits take back 1.16.",
    {"money": "CAD per kg"},
    _steps(
        ("As purchased", 0, 13.60, "total", "13.60"),
        ("Trim", 13.60, 16.14, "rise", "+2.54"),
        ("Grind credit", 16.14, 15.30, "fall", "−0.84"),
        ("Cooking loss", 15.30, 19.61, "rise", "+4.31"),
        ("Juices credit", 19.61, 19.29, "fall", "−0.32"),
        ("Sear", 19.29, 19.62, "rise", "+0.33"),
        ("Servable", 0, 19.62, "total", "19.62"),
    ),
)

CHARTS: tuple[Chart, ...] = (
    WATERFALL,
    _chart(
        "cost-stack",
        "What a plate costs: the cheap cut moves money from meat to labour",
        "Chuck steak costs 9.84, ribeye 15.94; meat is 4.20 against 12.30.",
        {"money": "CAD per plate"},
        [
            *_plate("Chuck steak", 4.20, 2.55, 1.78, 0.71, 0.60),
            *_plate("Ribeye steak", 12.30, 2.55, 0.92, 0.17, 0.00),
            *_plate("Lamb neck", 3.10, 1.95, 1.40, 0.40, 0.30),
        ],
    ),
    _chart(
        "crossover",
        "The swap pays until chuck roll costs 31.20 a kilogram",
        "At today's 13.60 the chuck plate costs 9.84, below ribeye's 15.94; they meet at 31.20.",
        {"price": "Chuck roll, CAD per kg as purchased", "cost": "CAD per plate"},
        [
            {"role": "line", "name": "Chuck steak", "price": 8, "cost": 7.92},
            {"role": "line", "name": "Chuck steak", "price": 36, "cost": 17.60},
            {"role": "line", "name": "Ribeye steak", "price": 8, "cost": 15.94},
            {"role": "line", "name": "Ribeye steak", "price": 36, "cost": 15.94},
            {
                "role": "today",
                "name": "Chuck steak",
                "price": 13.6,
                "cost": 9.86,
                "text": "today 13.60",
            },
            {"role": "break-even", "price": 31.2, "cost": 15.94, "text": "break-even 31.20"},
        ],
    ),
    _chart(
        "margin-scatter",
        "What sells and what earns, September 2026",
        "Two plates sell and earn above the average; pork collar sells and earns little.",
        {
            "sold": "Plates sold in the month",
            "margin": "Contribution margin, CAD",
            "both": "sells and earns",
            "sells": "sells, earns little",
            "earns": "earns, sells little",
            "neither": "neither",
        },
        _menu(
            ("Chuck steak", 412, 15.87, "sells and earns"),
            ("Ribeye", 388, 17.52, "sells and earns"),
            ("Lamb neck", 205, 16.90, "earns, sells little"),
            ("Pork collar", 311, 14.26, "sells, earns little"),
            ("Chicken thigh", 502, 12.73, "sells, earns little"),
            ("Shin ragù", 177, 13.48, "neither"),
        ),
    ),
    _chart(
        "range-bars",
        "What moves the saving of 6.10 a plate",
        "The benchmark's price moves the saving most, from 4.05 to 8.20.",
        {"value": "Saving a plate, CAD"},
        [
            *_range(1, "Ribeye price", 4.05, 8.20, ("−15 %", "+15 %")),
            *_range(2, "Chuck price", 6.75, 5.40, ("−15 %", "+15 %")),
            *_range(3, "Cooking loss", 6.55, 5.60, ("16 %", "24 %")),
            *_range(4, "Wage", 6.30, 5.90, ("20.00/h", "29.00/h")),
        ],
    ),
    _chart(
        "line-months",
        "Ribeye rose by 16 % in eight months, chuck roll by 5 %",
        "Ribeye went from 31.00 to 36.10 a kilogram, chuck roll from 12.90 to 13.60.",
        {"value": "CAD per kg as purchased"},
        _months(),
    ),
    _chart(
        "core-curve",
        "The core reaches 54.4 °C after about 4.7 hours",
        "Estimated between 3.2 and 6.3 hours; the bath stands at 57 °C.",
        {"time": "Hours in the bath", "temperature": "Core, °C"},
        _core(),
    ),
    _chart(
        "timeline",
        "For Friday 18:00 the long cook starts on Thursday at 10:00",
        "Bath 40 is taken from Thursday 10:00 to Friday 16:00.",
        {},
        _busy(
            ("Bath 40", "Chuck roll 30 h", "2026-10-01T10:00", "2026-10-02T16:00", "cook"),
            ("Hands", "Bag", "2026-10-01T08:30", "2026-10-01T10:00", "active"),
            ("Hands", "Sear", "2026-10-02T16:30", "2026-10-02T18:00", "active"),
            ("Oven", "Bones", "2026-10-01T11:00", "2026-10-01T21:00", "cook"),
            ("Bath 40", "Shank 8 h", "2026-10-02T10:00", "2026-10-02T18:00", "cook"),
        ),
    ),
    _chart(
        "score-dots",
        "Tenderness by duration: thirty hours lies within ribeye's band",
        "Means 4.5 at 12 h, 6.3 at 24 h, 7.2 at 30 h, 5.5 at 48 h; six tasters.",
        {"duration": "Hours at 57 °C", "score": "Tenderness, 0 to 10"},
        _scores(),
    ),
    _chart(
        "right-bars",
        "Texture is just right for most at 30 hours",
        "Just right for 30 % at 12 h, 60 % at 24 h, 75 % at 30 h, 35 % at 48 h.",
        {"share": "Share of tasters"},
        [
            *_right("12 h", 1, 0.65, 0.30, 0.05),
            *_right("24 h", 2, 0.30, 0.60, 0.10),
            *_right("30 h", 3, 0.10, 0.75, 0.15),
            *_right("48 h", 4, 0.0, 0.35, 0.65),
        ],
    ),
    _chart(
        "interval",
        "Between none and 41 % can tell; the kitchen's limit is 30 %",
        "Estimate 17 %, interval 0 to 41 %, limit 30 %.",
        {"share": "Share of people who can tell"},
        [
            {
                "name": "Triangle",
                "low": 0.0,
                "mid": 0.17,
                "high": 0.41,
                "limit": 0.3,
                "text": "17 %",
            },
            {"name": "Paired", "low": 0.1, "mid": 0.24, "high": 0.38, "limit": 0.3, "text": "24 %"},
        ],
    ),
    _chart(
        "rank-sums",
        "Rank sums for liking: the highest came first",
        "10 tasters, rank sums: ribeye 12, 24 h 21, 30 h 36. Up to 12 apart may be chance.",
        {"sum": "rank sum: each last place adds 1"},
        [
            {"name": "ribeye", "low": 12, "mid": 12, "high": 12, "limit": 12, "text": "12"},
            {"name": "24 h", "low": 9, "mid": 21, "high": 33, "limit": 12, "text": "21"},
            {"name": "30 h", "low": 24, "mid": 36, "high": 48, "limit": 12, "text": "36"},
        ],
    ),
    _chart(
        "duration-curve",
        "Tenderness peaks near 31 hours, inside what was tried",
        "Best at 31 h, interval 27 to 35 h; texture stays right from 25 to 37 h.",
        {"duration": "Hours at 57 °C", "score": "Tenderness, 0 to 10"},
        _curve(),
    ),
)
