"""No page writes a figure finer than its draws leave it, nor hides what is open or lost."""

from __future__ import annotations

import html
import math
import re
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Browser

from builder.costing.spreads import AP_PRICE, PANTRY_PRICE, SOLD
from builder.engine.model import Node
from builder.engine.sampling import drawn_targets
from builder.engine.tables import Applied, Given
from builder.money.intervals import DRAWS, SWAP_INTERVALS
from builder.pages.rendering import render
from builder.pages.site import frame
from builder.pages.view import View
from builder.quantities import find_unit
from tests.kitchens import costed_from, pages_but_methods, write
from tests.live.engine import computed, every_figure, load
from tests.live.test_recomputed import KITCHENS, view_of
from tests.pages_data.kitchens import SMALL
from tests.pages_data.kitchens import view_of as small
from tests.site.sites import text_of
from tests.uncertainty.drawn import Values

READ = (
    "index", "menu", "swaps", "plates", "try-next", "cuts", "cooks", "pantry", "forms", "prices",
    "buffets", "menus", "counts",
)  # fmt: skip
# What was counted is costed at the prices of its day, which move no more.
PERIOD = {"count", "usage", "sale"}
AHEAD = {SOLD, AP_PRICE, PANTRY_PRICE}
TABLES = {
    "plate", "portion", "swap", "section", "kitchen", "candidate", "batch", "step", "stage",
    "test", "pantry", "ingredient", "accompaniment",
    "buffet", "dish", "set_menu", "course", "choice",
    *PERIOD,
}  # fmt: skip
MONEY = {"money", "money up", "share", "share down", "factor", "portion factor"}
# One batch's own: with another yield a whole portion more or less is left over.
LEFT_OVER = {("plate", "remainder_credit")}
# What a candidate starts from, as it is listed or published.
LISTED = {("candidate", name) for name in ("ap_price", "trim_left", "published_cook_yield")}
LINK = re.compile(r"<a ([^>]*methods/([a-z_]+)-([a-z0-9-]+)\.html#(\d+)[^>]*)>([^<]*)<")
NUMBER = re.compile(r"\d[\d,]*(?:\.(\d+))?")


def pages(view: View) -> dict[str, str]:
    return {
        page.path: render(page, frame(view)).decode()
        for page in pages_but_methods(view)
        if page.path.startswith(READ)
    }


def figures(view: View, markup: Mapping[str, str]) -> Iterator[tuple[str, Node, int, str]]:
    """Every figure that is printed and links to its method: page, figure, row, text."""
    for path, text in markup.items():
        for _, table, name, row, shown in LINK.findall(text):
            node = (table, name.replace("-", "_"))
            if node[1] in view.costed.figures.model.tables[table].figures:
                yield path, node, int(row), html.unescape(shown)


@cache
def drawn_widths(view: View, node: Node) -> list[float]:
    """From 5 % to 95 % of each row's draws, worked out here; NaN where they differ by nothing.

    What was counted of a month that is over is a fact.
    """
    known = view.costed.uncertainty
    assert known is not None
    held = AHEAD if node[0] in PERIOD else {SOLD}
    spreads = {name: rows for name, rows in known.spreads.items() if name not in held}
    rows = np.arange(view.costed.figures.size(node[0]))
    blocks = drawn_targets(
        view.costed.figures, spreads, [node], rows, DRAWS, lambda _, found: found[node]
    )
    return [_apart(draws[np.isfinite(draws)]) for block in blocks for draws in block]


def _apart(draws: Values) -> float:
    if len(draws) < DRAWS / 2:
        return math.nan
    low, high = np.quantile(draws, (0.05, 0.95))
    return float(high - low) if high - low > 1e-9 else math.nan


def digits_beyond(text: str, width: float) -> int:
    """Decimals that a number has beyond two digits of its interval; coins' last nought is none."""
    found = NUMBER.search(text)
    if not found or not math.isfinite(width):
        return 0
    decimals = (found[1] or "").rstrip("0") if not text.endswith("%") else found[1] or ""
    return len(decimals) - max(1 - math.floor(math.log10(width * 1.0000001)), 0)


def in_print(view: View, node: Node, text: str, width: float) -> float:
    """A width in the unit that the text is in."""
    if view.definition(*node).unit in {"share", "share down"}:
        return 100 * width
    per = find_unit(text.partition("/")[2])
    return width * float(per.factor) if per and "/" in text else width


def is_open(view: View, node: Node, row: int) -> bool:
    """Whether an interval has neither end, for a part of the draws has no value."""
    table, name = node
    ends = [f"{name}_{end}" for end in ("low", "high")]
    there = view.costed.figures.model.tables[table].figures
    return all(end in there and math.isinf(view.number(table, end, row)) for end in ends)


@pytest.mark.parametrize("name", ["demo", "customary"])
def test_no_figure_is_finer_than_its_draws(name: str) -> None:
    """Twice as wide is let pass: where several plates add up, or an end is open, it is near."""
    view, seen, wrong = view_of(KITCHENS[name]), set(), set()
    for path, node, row, text in figures(view, pages(view)):
        definition = view.definition(*node)
        entered = isinstance(definition.how, Given | Applied)
        money = definition.unit.partition("/")[0] in MONEY
        if not money or entered or node in LEFT_OVER | LISTED or node[0] not in TABLES:
            continue
        if is_open(view, node, row):
            continue  # two digits, as another test says
        width = in_print(view, node, text, drawn_widths(view, node)[row])
        if math.isfinite(width):
            seen.add(node)
            if digits_beyond(text, width / 2) > 0:
                wrong.add((path, *node, row, text, round(width, 4)))
    assert not wrong
    assert {
        ("plate", "protein_cost"),
        ("plate", "month_margin"),
        ("kitchen", "menu_margin"),
    } <= seen
    assert name != "demo" or {table for table, _ in seen} == TABLES
    assert {
        ("batch", "cost_per_servable_kg"), ("batch", "cost_factor_per_kg"), ("batch", "net_cost"),
        ("batch", "ap_cost"), ("step", "cost_per_kg_out"),
    } <= seen  # fmt: skip


FILES = {
    "kitchen.yaml": (
        "name: X\ncurrency: CAD\nloaded wage: 24.00/h\ntargets: {food cost: 30 %}\n"
        "give or take: {loaded wage: 4 %}\n"
    ),
    "cuts/c.yaml": "species: beef\nprice: 12.00/kg\ngive or take: {price: 20 %}\n",
    "cuts/d.yaml": "species: beef\nprice: 15.00/kg\ngive or take: {price: 10 %}\n",
    "cooks/k.yaml": (
        "cut: c\nhow: braise\nload: 8 kg\npiece: {weight: 300 g}\nloss: 35 %\n"
        "give or take: {loss: 8 %}\n"
    ),
    "cooks/g.yaml": "cut: d\nhow: grill\nload: 8 kg\nloss: 20 %\ngive or take: {loss: 3 %}\n",
    "plates/p.yaml": "menu: mains\ncook: k\nportion: 180 g\nprice: 27.00\nforecast: 50\n",
    "plates/q.yaml": "menu: mains\ncook: g\nportion: 180 g\nprice: 9.00\nforecast: 50\n",
    "swaps/s.yaml": "benchmark: q\nchallengers: [p]\n",
}


def kitchen(root: Path, **changes: str) -> View:
    files = {
        **FILES,
        **{name.replace("_", "/", 1) + ".yaml": text for name, text in changes.items()},
    }
    return View.of(costed_from(write(root, files)), [])


def test_a_chance_is_given_though_an_end_is_open(tmp_path: Path) -> None:
    """In about a sixth of the draws a piece gives no whole portion; the others say which earns."""
    view = kitchen(tmp_path)
    assert math.isinf(view.number("swap", "margin_change_low", 0))
    assert view.number("swap", "chance_earns_more", 0) > 0.5
    text = text_of(pages(view)["swaps/s.html"])
    assert re.search("times in 100? it earns more than the benchmark", text)
    assert "Chances leave such cases out." in text
    lead = text[: text.index("Chances leave such cases out.")]
    assert re.search("Where a piece of both gives its portion, .* it earns more", lead)


def test_without_a_chance_the_page_says_why(tmp_path: Path) -> None:
    """At a yield of 60 % in the middle every second draw gives no portion, and a few more."""
    loose = FILES["cooks/k.yaml"].replace("35 %", "39.9 %").replace("portion", "portion")
    view = kitchen(tmp_path, cooks_k=loose, plates_p=FILES["plates/p.yaml"].replace("180", "180.5"))
    assert math.isnan(view.number("swap", "chance_earns_more", 0))
    text = text_of(pages(view)["swaps/s.html"])
    assert "How often it earns more can't be said" in text


def test_money_with_both_ends_open_has_two_digits(tmp_path: Path) -> None:
    view = kitchen(tmp_path)
    lost = [
        name
        for name in SWAP_INTERVALS
        if math.isinf(view.number("swap", f"{name}_low", 0))
        and math.isinf(view.number("swap", f"{name}_high", 0))
        and math.isfinite(view.number("swap", name, 0))
        and view.definition("swap", name).unit.startswith("money")
    ]
    assert "break_even_ap_price" in lost
    for name in lost:
        text = str(view.text("swap", name, 0))
        digits = re.sub(r"\D", "", text).strip("0")
        assert len(digits) <= 2, (name, text)
        # Two digits at least, too: a sentence may rest on it, "at $50 it would earn as much".
        shown, value = float(re.sub(r"[^\d.]", "", text)), abs(view.number("swap", name, 0))
        assert shown == pytest.approx(value, rel=0.1), (name, text)
    assert "no interval: in more than 1 case in 20 no value would do" in text_of(
        pages(view)["swaps/s.html"]
    )


def test_what_a_raise_brings_is_of_the_price_beside_it(tmp_path: Path) -> None:
    """Its rise a plate, without the tax, times the plates of a month."""
    view = kitchen(
        tmp_path,
        kitchen=FILES["kitchen.yaml"] + "tax: 20 %\nweeks open: 48\n",
        cuts_d="species: beef\nprice: 105.00/kg\ngive or take: {price: 30 %}\n",
        plates_q=FILES["plates/q.yaml"].replace("9.00", "61.00"),
    )
    text = text_of(pages(view)["index.html"])
    raised = re.search(r"Raise Q to \$(\d+)\b(?!\.)", text)
    assert raised
    exact = view.number("plate", "price_for_food_cost", 1)
    assert exact < float(raised[1]) < exact + 10
    factor = view.number("plate", "price_factor", 1)
    expected = (float(raised[1]) - 61) / factor * 50 * 48 / 12
    assert view.number("plate", "reprice_a_month", 1) == pytest.approx(expected)
    assert expected != pytest.approx((exact - 61) / factor * 50 * 48 / 12, rel=1e-3)


def test_a_count_says_its_difference_as_surely_as_its_yields_are_known(tmp_path: Path) -> None:
    """Of 12 kg that are used nothing is doubtful, of what 40 plates should take 3 points of loss;
    the price, which may move by 10 % ahead, moves nothing of a week that is over.
    """
    count = "from: 2026-09-21\nto: 2026-09-27\nplates: {q: 40}\ncuts: {d: {used: 12 kg}}\n"
    view = kitchen(tmp_path, counts_w=count)
    low, value, high = (
        view.number("count", f"difference{end}", 0) for end in ("_low", "", "_high")
    )
    # A portion of 180 g at 15.00/kg and a yield of 80 %, give or take 3 points; no piece is named.
    expected = [12 * 15 - 40 * 0.18 * 15 / share for share in (0.77, 0.80, 0.83)]
    assert [low, value, high] == pytest.approx(expected, rel=0.01)
    found = pages(view)
    text = text_of(found["counts/w.html"])
    assert f"{view.text('count', 'difference_low', 0)} to" in text
    assert f": ${value:.0f} more than the plates sold should cost" in text_of(found["index.html"])
    assert f"The largest part: unexplained, ${value:.0f} more." in text


def test_limits_are_printed_within_their_intervals() -> None:
    view = view_of(KITCHENS["demo"])
    markup, seen = pages(view), 0
    for row in range(view.costed.figures.size("swap")):
        page = text_of(markup[f"{view.costed.figures.identity('swap', row).owner}.html"])
        for figure in ("price_for_equal_margin", "break_even_ap_price"):
            low, point, high = (
                float(re.sub(r"[^\d.]", "", str(view.text("swap", each, row))) or "nan")
                for each in (f"{figure}_low", figure, f"{figure}_high")
            )
            if math.isnan(point) or math.isnan(low) or math.isnan(high):
                continue
            assert low <= point <= high, (figure, row)
            if figure == "break_even_ap_price":
                ends = [view.text("swap", f"{figure}_{end}", row) for end in ("low", "high")]
                assert f"{ends[0]} to {ends[1]}, 9 times in 10" in page
                seen += 1
    assert seen


def test_ends_that_print_alike_are_one_figure() -> None:
    """A wage known to a thousandth moves a plate by less than a cent."""
    sure = "give or take: {loaded wage: 0.1 %}\n"
    view = small({**SMALL, "kitchen.yaml": SMALL["kitchen.yaml"] + sure})
    seen = view.plate(view.costed.content.plates["broth"])
    value, low, high = seen.texts("full_cost", "full_cost_low", "full_cost_high")
    assert value == low == high
    assert seen.number("full_cost_low") < seen.number("full_cost_high")
    text = text_of(pages(view)["plates/broth.html"])
    assert "what has a range moves it by less than is shown" in text
    assert "hardly uncertain" not in text
    assert "Loaded wage moves it most, by less than is shown." in text
    assert f"{low} to {high}" not in text


def test_the_crossing_picture_and_its_rows_write_alike() -> None:
    seen = 0
    for path, markup in pages(view_of(KITCHENS["demo"])).items():
        for words, rows in re.findall(
            r"At today's [^ ]+ a plate costs (.*?; they cost the same at .*?)\.<(.*?)</table>",
            html.unescape(markup), re.DOTALL,
        ):  # fmt: skip
            for amount in re.findall(r"\$[\d,.]*\d", words):
                assert amount in rows, (path, amount)
                seen += 1
    assert seen


def test_a_row_of_inputs_moves_what_is_printed_and_the_others_are_counted(tmp_path: Path) -> None:
    """A wage that moves cents of a cost in dollars is no row; nor do two ends read alike."""
    view = kitchen(
        tmp_path,
        cooks_g=FILES["cooks/g.yaml"] + "hands on: 6 min\n",
        kitchen=FILES["kitchen.yaml"].replace("{loaded wage: 4 %}", "{loaded wage: 1 %}"),
    )
    markup = pages(view)["plates/q.html"]
    rows = re.search(r"id=how-sure-table.*?</table>", markup, re.DOTALL)
    assert rows
    ends = re.findall(r"(\$[\d.]+) to (\$[\d.]+)<", rows[0])
    assert len(ends) >= 2
    assert all(low != high for low, high in ends)
    assert "Loaded wage" not in rows[0]
    assert "1 other input moves it less than these." in text_of(markup)


def test_a_raise_says_what_its_chance_is_of(tmp_path: Path) -> None:
    text = text_of(pages(kitchen(tmp_path, cuts_d=FILES["cuts/d.yaml"]))["index.html"])
    assert re.search(r"in 100? ?that it is over the target", text)


def test_what_a_swap_holds_is_named_with_its_record(tmp_path: Path) -> None:
    bare = FILES["cooks/g.yaml"].replace("give or take: {loss: 3 %}\n", "")
    text = text_of(pages(kitchen(tmp_path, cooks_g=bare))["swaps/s.html"])
    assert "the yield of cook of G, which nobody weighed" in text


@pytest.mark.browser
def test_the_page_writes_open_ends_and_what_rests_on_them_alike(
    tmp_path: Path, browser: Browser
) -> None:
    """Written by the builder and, from what is packed, by the script; then with a price tried."""
    view, page = kitchen(tmp_path), browser.new_page()
    load(page, view)
    nodes = every_figure(view)
    texts = [text for _, text in computed(page, nodes)]
    assert texts == [str(view.text(*node)) for node in nodes]
    tried = page.evaluate(
        """(node) => {
          const values = new Figures.Values(Live.book, new Map([["cut.ap_price.0", 13]]));
          return Intervals.shown(Live.numbers, values, ...node);
        }""",
        ["swap", "break_even_ap_price", 0],
    )
    assert tried == view.text("swap", "break_even_ap_price", 0)


def test_what_is_held_is_named_with_its_record_where_several_are_eaten(tmp_path: Path) -> None:
    """A set menu and a plate of two cooks rest on two stages called cook."""
    both = "menu: mains\nportions:\n  - {cook: k, portion: 90 g}\n  - {cook: g, portion: 90 g}\n"
    view = kitchen(
        tmp_path,
        cooks_g=FILES["cooks/g.yaml"].replace("give or take: {loss: 3 %}\n", ""),
        menus_m="price: 30.00\nplates: [p, q]\nguests: 20\n",
        plates_r=f"{both}price: 24.00\n",
        buffets_b="price: 22.00\ncooks: {k: 100 g, g: 100 g}\nguests: 30\n",
    )
    found = pages(view)
    for path in ("menus/m", "plates/r", "buffets/b"):
        assert "the yield of cook of G, which nobody weighed" in text_of(found[f"{path}.html"]), (
            path
        )
    assert "the yield of cook, which nobody weighed" in text_of(found["plates/q.html"])


def test_a_price_asked_for_of_a_buffet_says_its_interval(tmp_path: Path) -> None:
    view = kitchen(tmp_path, buffets_b="price: 22.00\ncooks: {k: 100 g, g: 100 g}\nguests: 30\n")
    low, high = (view.text("buffet", f"price_for_food_cost_{end}", 0) for end in ("low", "high"))
    assert low != high
    text = text_of(pages(view)["buffets/b.html"])
    assert f"{low} to {high}, 9 times in 10" in text.partition("food cost")[2]


def test_a_portions_cost_factor_is_as_sure_as_its_portion(tmp_path: Path) -> None:
    """The yields are held, so only what a portion weighs moves it: 180 g give or take a tenth."""
    held = {name: FILES[f"cooks/{name}.yaml"].partition("give or take")[0] for name in ("k", "g")}
    view = kitchen(
        tmp_path,
        cooks_k=held["k"],
        cooks_g=held["g"],
        plates_q=FILES["plates/q.yaml"] + "give or take: {portion: 10 %}\n",
    )
    low, value, high = (
        view.number("plate", f"cost_factor_per_portion{end}", 1) for end in ("_low", "", "_high")
    )
    assert [low / value, high / value] == pytest.approx([0.9, 1.1], abs=0.003)
    assert digits_beyond(str(view.text("plate", "cost_factor_per_portion", 1)), high - low) == 0
