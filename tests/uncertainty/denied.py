"""Spreads that a kitchen writes, denied by its own tests, lists, weighed portions or months."""

from __future__ import annotations

from collections.abc import Mapping

KITCHEN = "name: X\ncurrency: CAD\nloaded wage: 24.00/h\n"
CUT = "species: beef\n"
COOK = "cut: c\nhow: braise\nload: 8 kg\n"
PLATE = "menu: mains\ncook: k\nportion: 180 g\nprice: 27.00\n"
BASE = {
    "kitchen.yaml": KITCHEN,
    "cuts/c.yaml": f"{CUT}price: 12.00/kg\n",
    "cooks/k.yaml": f"{COOK}loss: 30 %\n",
    "cooks/g.yaml": "cut: c\nhow: grill\nload: 8 kg\nloss: 20 %\n",
    "plates/p.yaml": f"{PLATE}forecast: 50\n",
    "plates/q.yaml": "menu: mains\ncook: g\nportion: 180 g\nprice: 27.00\nforecast: 50\n",
    "swaps/s.yaml": "benchmark: p\nchallengers: [q]\n",
}
MONTHS = [f"2026-0{month}-01" for month in range(2, 10)]


def weighed(*pairs: tuple[str, str]) -> str:
    rows = (
        f"  - {{date: 2026-09-0{day}, in: {into}, out: {out}}}\n"
        for day, (into, out) in enumerate(pairs, start=1)
    )
    return f"tests:\n{''.join(rows)}"


def listed(prices: Mapping[str, float]) -> dict[str, str]:
    rows = "".join(f"{day},c,{price}/kg\n" for day, price in prices.items())
    return {"cuts/c.yaml": CUT, "prices/l.csv": f"date,item,price\n{rows}"}


def monthly(*prices: float) -> dict[str, str]:
    return listed(dict(zip(MONTHS, prices, strict=False)))


LONG_GAP = {"2025-01-01": 10.0, "2025-02-01": 10.5, "2025-03-01": 10.2, "2026-09-01": 12.0}
UNLIKE = (("8 kg", "6 kg"), ("8 kg", "5.7 kg"), ("8 kg", "5.4 kg"))
WILD = (10.0, 12.0, 9.0, 14.0, 9.0, 12.0, 8.0, 10.0)

# What is written, and what is said of it: at a line, or on the page of the cut or the plate.
DENIED: dict[str, tuple[dict[str, str], str, str]] = {
    "tests deny what is given": (
        {"cooks/k.yaml": f"{COOK}{weighed(*UNLIKE)}give or take: {{loss: 1 %}}\n"},
        "cooks/k.yaml:8", "1 % is given or taken, but its 3 tests leave 6.3% either way",
    ),
    "tests deny what is given of a trimming": (
        {"cuts/c.yaml": (
            f"{CUT}price: 12.00/kg\ntrim:\n  give or take: 1 %\n"
            + weighed(*UNLIKE).replace("tests", "  tests").replace("  -", "    -")
        )},
        "cuts/c.yaml:4", "trim: 1 % is given or taken, but its 3 tests leave 6.3% either way",
    ),
    "a list denies what is given": (
        monthly(*WILD) | {"cuts/c.yaml": f"{CUT}give or take: {{price: 2 %}}\n"},
        "cuts/c.yaml:2", "2 % is given or taken, but 7 changes of its price list lead to 90%",
    ),
    "a calm list denies what is given": (
        monthly(10, 10.1, 10, 10.1, 10, 10.1, 10, 10.1)
        | {"cuts/c.yaml": f"{CUT}give or take: {{price: 40 %}}\n"},
        "cuts/c.yaml:2", "40 % is given or taken, but 7 changes of its price list lead to 2%",
    ),
    "like stages deny what is given beside one test": (
        {
            "cooks/k.yaml": f"{COOK}{weighed(UNLIKE[0])}give or take: {{loss: 1 %}}\n",
            "cooks/m.yaml": COOK + weighed(*UNLIKE),
        },
        "cooks/k.yaml:6", "cook: 1 % is given or taken, but like stages in this kitchen leave "
        "10.9% either way; they count",
    ),
    "like stages beside tests deny what is given": (
        {
            "cooks/k.yaml": f"{COOK}{weighed(*UNLIKE[:2])}give or take: {{loss: 1 %}}\n",
            "cooks/m.yaml": COOK + weighed(*UNLIKE),
        },
        "cooks/k.yaml:7", "its 2 tests and like stages in this kitchen leave 5.7% either way",
    ),
    "two tests of a trimming deny what is given": (
        {"cuts/c.yaml": (
            f"{CUT}price: 12.00/kg\ntrim:\n  give or take: 1 %\n"
            + weighed(("9 kg", "6.8 kg"), ("8.4 kg", "6.61 kg"))
            .replace("tests", "  tests").replace("  -", "    -")
        )},
        "cuts/c.yaml:4", "trim: 1 % is given or taken, but its 2 tests leave 9.9% either way",
    ),
    "weighed portions deny what is given": (
        {"plates/p.yaml": (
            f"{PLATE}weighed portions: [180 g, 186 g, 175 g, 184 g]\n"
            "give or take: {portion: 1 g}\n"
        )},
        "plates/p.yaml:6", "1 g is given or taken, but 4 weighed portions leave 5.7 g "
        "either way",
    ),
    "months deny what is given": (
        {"plates/p.yaml": (
            f"{PLATE}sold: {{2026-06: 200, 2026-07: 260, 2026-08: 190, 2026-09: 230}}\n"
            "give or take: {count: 4 %}\n"
        )},
        "plates/p.yaml:6", "4 % is given or taken, but 4 months leave 38% either way",
    ),
}  # fmt: skip
DENIED_ON_THE_PAGE: dict[str, tuple[dict[str, str], str, str]] = {
    "weighed portions deny a share that is given, on the plate's page": (
        {"plates/p.yaml": (
            f"{PLATE}weighed portions: [180 g, 180.1 g, 179.9 g, 180 g]\n"
            "give or take: {portion: 8 %}\n"
        )},
        "plates/p.html", "8 % is given or taken, but 4 weighed portions leave 0.1 g either way",
    ),
    "months deny what is given, on the plate's page": (
        {"plates/p.yaml": (
            f"{PLATE}sold: {{2026-06: 200, 2026-07: 260, 2026-08: 190, 2026-09: 230}}\n"
            "give or take: {count: 4 %}\n"
        )},
        "plates/p.html", "4 % is given or taken, but 4 months leave 38% either way",
    ),
    "a trimming whose tests count before what is given, on its page": (
        {"cuts/c.yaml": (
            f"{CUT}price: 12.00/kg\ntrim:\n  give or take: 3 %\n"
            + weighed(("9 kg", "6.8 kg"), ("8.4 kg", "6.61 kg"))
            .replace("tests", "  tests").replace("  -", "    -")
        )},
        "cuts/c.html", "2 tests, 57.2% to 97.0%, 19 times in 20; 3% given or taken is not used",
    ),
}  # fmt: skip
