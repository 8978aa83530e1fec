"""Prices of nothing, prices that are asked for, and costs below nothing: what is said of them.

Every amount is worked out by hand beside its check.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.problems import Problem
from tests.cooks.kitchens import pages
from tests.kitchens import read, write

FILES: Mapping[str, str] = {
    "kitchen.yaml": "name: Words\ncurrency: CAD\nlocale: en_CA\ntargets: {food cost: 30 %}\n",
    "cuts/x.yaml": "name: Shank\nspecies: beef\nprice: 10/kg\ntrim: {loss: 20 %}\n",
    "cooks/a.yaml": "name: Braise\ncut: x\nhow: oven\nload: 4 kg\nloss: 20 %\n",
    "plates/one.yaml": "name: One\nmenu: mains\ncook: a\nportion: 200 g\nprice: 15\n",
    "plates/two.yaml": "name: Two\nmenu: mains\nwith: {roots: 1 kg}\nprice: 15\n",
    "pantry/roots.yaml": "price: 2/kg\n",
    "swaps/swap.yaml": "benchmark: two\nchallengers: [one]\n",
}
# What the bare kitchen above is warned of besides, tested elsewhere.
OTHER = re.compile("no weight of a piece|far outside what is usual")
LIST = "prices/list.csv"
ROWS = "date,item,price\n2026-09-01,x,11/kg\n"


def site(root: Path, files: Mapping[str, str]) -> tuple[dict[str, str], list[Problem]]:
    """The words of every page, and what the build says."""
    costed, problems = read(write(root, {**FILES, **files}))
    assert costed is not None, problems
    words = {path: text for path, (_, text) in pages(costed, problems).items()}
    return words, [problem for problem in problems if not OTHER.search(problem.message)]


def food_cost(root: Path, plate: str, files: Mapping[str, str]) -> float:
    costed, _ = read(write(root, {**FILES, **files}))
    assert costed is not None
    return costed.figures.value("plate", "food_cost", costed.rows.plates[plate])


# A price of nothing


@pytest.mark.parametrize("nothing", ["0.00/kg", "0/kg", "$0.00/kg"])
def test_a_row_without_a_trade_is_passed_over_and_said_so(nothing: str, tmp_path: Path) -> None:
    _, problems = site(tmp_path, {LIST: f"{ROWS}2026-09-08,x,{nothing}\n"})
    [warning] = [p for p in problems if p.place.file == LIST]
    assert str(warning.place) == "prices/list.csv:3:14"
    assert not warning.is_error
    assert warning.record == "cuts/x"
    assert warning.message == f"Shank: {nothing} is no price, so this row does not count"
    assert "write free" in warning.hint
    # 11/kg still counts: 200 g of what is left after 0.8 x 0.8.
    assert food_cost(tmp_path, "one", {}) == pytest.approx(11 / 0.64 * 0.2)


@pytest.mark.parametrize(("later", "dated"), [("0.00/kg", False), ("2.10/kg", True)])
def test_a_row_of_nothing_is_no_newer_list(later: str, dated: bool, tmp_path: Path) -> None:
    """What else the supplier sells is no older for a day on which nothing was traded."""
    rows = "date,item,price,supplier\n2026-09-01,x,11/kg,West\n2026-09-01,roots,2/kg,West\n"
    _, problems = site(tmp_path, {LIST: f"{rows}2026-09-08,roots,{later},West\n"})
    old = [p.message for p in problems if "newer than this" in p.message]
    assert bool(old) == dated


@pytest.mark.parametrize(
    ("day", "supplier", "old"),
    [
        ("2025-09-30", "", True),
        ("2025-10-01", "", False),
        # The newest list of the supplier, and old all the same.
        ("2025-09-30", "West", True),
    ],
)
def test_a_price_of_over_a_year_ago_is_said_to_be_old(
    day: str, supplier: str, old: bool, tmp_path: Path
) -> None:
    """The day of the build is Oct 1, 2026."""
    rows = f"date,item,price,supplier\n{day},x,11/kg,{supplier}\n"
    _, problems = site(tmp_path, {LIST: rows})
    found = [p for p in problems if p.place.file == LIST]
    assert [(p.record, p.is_error) for p in found] == ([("cuts/x", False)] if old else [])
    assert all(
        "Shank: the newest price is of Sep 30, 2025, over a year old" in p.message for p in found
    )


def test_a_misspelt_row_makes_no_other_row_an_old_one(tmp_path: Path) -> None:
    rows = "date,item,price,supplier\n2026-09-01,x,11/kg,West\n2026-09-01,roots,2/kg,West\n"
    later = "2026-09-08,roots,2.10/kg,West\n2026-09-08,xx,11.20/kg,West\n"
    _, problems = read(write(tmp_path, {**FILES, LIST: rows + later}))
    assert [p.message for p in problems if p.place.file == LIST] == [
        'there is no cut or pantry item "xx"'
    ]


def test_a_row_of_nothing_leaves_the_price_of_the_item_s_own_file(tmp_path: Path) -> None:
    files = {LIST: "date,item,price\n2026-09-08,roots,0.00/kg\n"}
    assert food_cost(tmp_path, "two", files) == pytest.approx(2)


def test_rows_of_nothing_alone_are_no_price(tmp_path: Path) -> None:
    cut = FILES["cuts/x.yaml"].replace("price: 10/kg\n", "")
    files = {**FILES, "cuts/x.yaml": cut, LIST: "date,item,price\n2026-09-08,x,0.00/kg\n"}
    costed, problems = read(write(tmp_path, files))
    assert costed is None
    assert "this cut has no price" in [p.message for p in problems if p.is_error]


def test_a_file_s_own_price_of_nothing_is_doubted(tmp_path: Path) -> None:
    _, problems = site(tmp_path, {"pantry/roots.yaml": "price: 0.00/kg\n"})
    [warning] = [p for p in problems if p.place.file == "pantry/roots.yaml"]
    assert str(warning.place) == "pantry/roots.yaml:1:8"
    assert warning.message == "Roots: 0.00/kg counts as free"


FREE = [
    ("pantry/roots.yaml", "price: free\n"),
    ("pantry/roots.yaml", "price: Free\n"),
    ("pantry/roots.yaml", "price: free/kg\n"),
    (LIST, "date,item,price\n2026-09-01,roots,free\n"),
    (LIST, "date,item,price\n2026-09-01,roots,free/L\n"),
]


@pytest.mark.parametrize(("file", "text"), FREE)
def test_what_is_free_says_so(file: str, text: str, tmp_path: Path) -> None:
    words, problems = site(tmp_path, {file: text})
    [warning] = problems
    assert warning.record == "plates/two"
    assert warning.message == "the food on this plate costs nothing"
    assert not warning.is_error
    for page in ("plates/two.html", "swaps/swap.html", "menu.html", "index.html"):
        assert "he food on this plate costs nothing" in words[page], page
    assert "within" not in words["plates/two.html"]
    assert "asks for" not in words["plates/two.html"]
    swap = "The margin of One against Two is in doubt: the food on Two costs nothing."
    assert swap in words["swaps/swap.html"]
    # One answer on the plate's own page and on the menu, in sentences and in tables.
    assert "The cost of Two is in doubt: the food on Two costs nothing." in words["plates/two.html"]
    assert "Food cost $0.00 in doubt Direct labour" in words["plates/two.html"]
    assert "What 1 plate costs is in doubt." in words["menu.html"]


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("kitchen.yaml", "locale: en_CA\n", "loaded wage: free\nenergy: free\ngas: free/kWh\n"),
        ("kitchen.yaml", "locale: en_CA\n", "equipment: {pot: {kind: pot, price: free}}\n"),
        ("kitchen.yaml", "locale: en_CA\n", "equipment: {pot: {kind: pot, charge: free}}\n"),
        ("cuts/x.yaml", "10/kg", "free"),
        ("cuts/x.yaml", "{loss: 20 %}", "{loss: 20 %, parts: {bone: [5 %, free], fat: free}}"),
        ("cooks/a.yaml", "loss: 20 %\n", "remainder: free/kg\nconsumables: {bags: free}\n"),
        (
            "cooks/a.yaml",
            "loss: 20 %\n",
            "tests: [{date: 2026-09-01, in: 4 kg, out: 3 kg, parts: {fat: [1 kg, free]}}]\n",
        ),
    ],
)  # fmt: skip
def test_free_is_a_price_wherever_one_is_written(
    file: str, old: str, new: str, tmp_path: Path
) -> None:
    assert old in FILES[file]
    site(tmp_path, {file: FILES[file].replace(old, new)})


def test_what_is_free_by_weight_is_not_poured(tmp_path: Path) -> None:
    files = {
        **FILES,
        "pantry/water.yaml": "price: free\n",
        "pantry/brine.yaml": "of: {water: 2 L}\nmakes: 2 L\n",
    }
    [problem] = [p for p in read(write(tmp_path, files))[1] if p.is_error]
    assert problem.message == "2 L does not fit how water is priced"
    assert problem.hint == "write price: free/L in pantry/water.yaml"


def test_a_list_may_price_by_another_unit_than_the_file(tmp_path: Path) -> None:
    """By hand: 3/L at 1.5 kg a litre is 2/kg, so 1 kg costs 2."""
    files = {
        "pantry/roots.yaml": "litre: 1.5 kg\n",
        LIST: "date,item,price\n2026-09-01,roots,3/L\n",
    }
    assert food_cost(tmp_path, "two", files) == pytest.approx(2)


def test_a_list_s_unit_that_can_t_be_brought_to_the_item_s_is_refused(tmp_path: Path) -> None:
    files = {**FILES, LIST: "date,item,price\n2026-09-01,roots,3/L\n"}
    [problem] = [p for p in read(write(tmp_path, files))[1] if p.is_error]
    assert str(problem.place) == "prices/list.csv:2:18"
    assert problem.message == "3/L does not fit how roots is counted"
    assert "litre:" in problem.hint


def test_a_price_by_the_quart_asks_for_what_a_quart_weighs(tmp_path: Path) -> None:
    files = {**FILES, LIST: "date,item,price\n2026-09-01,roots,3/qt\n"}
    [problem] = [p for p in read(write(tmp_path, files))[1] if p.is_error]
    assert problem.hint.endswith("such as quart: 975 g")


def test_a_litre_and_a_quart_are_not_both_weighed(tmp_path: Path) -> None:
    files = {
        **FILES,
        "pantry/roots.yaml": FILES["pantry/roots.yaml"] + "litre: 1 kg\nquart: 2 lb\n",
    }
    [problem] = [p for p in read(write(tmp_path, files))[1] if p.is_error]
    assert problem.message == "litre and quart say the same"


# A price that is asked for


def test_the_price_that_is_asked_for_meets_the_target(tmp_path: Path) -> None:
    """By hand: 7.01 of food at 30 % asks for 23.366..., so for 23.37, with tax for 24.54."""
    for n, (tax, asked) in enumerate((("", "23.37"), ("tax: 5 %\n", "24.54"))):
        files = {
            "kitchen.yaml": FILES["kitchen.yaml"] + tax,
            "pantry/roots.yaml": "price: 7.01/kg\n",
            "plates/two.yaml": f"name: Two\nmenu: mains\nwith: {{roots: 1 kg}}\nprice: {asked}\n",
        }
        words, _ = site(tmp_path / str(n), files)
        assert f"Menu price for a 30.0% food cost ${asked}" in words["plates/two.html"]
        assert "food cost 30.0%, within the 30.0% aimed at" in words["plates/two.html"]
        assert "No plate is above the 30.0% food cost aimed at" in words["menu.html"]
        assert "Every plate is within" in words["index.html"]


def test_verdicts_compare_what_is_printed(tmp_path: Path) -> None:
    """By hand: 7.01 of 23.36 is 30.009 %, which reads 30.0 %; of 23.32 it is 30.06 %, 30.1 %."""
    for n, (price, verdict) in enumerate((("23.36", "within"), ("23.32", "above"))):
        files = {
            "pantry/roots.yaml": "price: 7.01/kg\n",
            "plates/two.yaml": f"name: Two\nmenu: mains\nwith: {{roots: 1 kg}}\nprice: {price}\n",
        }
        words, _ = site(tmp_path / str(n), files)
        assert f", {verdict} the 30.0% aimed at" in words["plates/two.html"]
        over = verdict == "above"
        assert ("Every plate is within" in words["index.html"]) is not over
        some = "1 of 2 plates is above the 30.0% food cost"
        lead = some if over else "No plate is above the 30.0% food cost"
        assert lead in words["menu.html"]


def test_a_saving_that_reads_as_nothing_is_none(tmp_path: Path) -> None:
    """By hand: 3.125 of meat against 3.1290 and 3.1301 of roots, 0.004 and 0.005 a plate apart.

    Half a cent is read as 0.00 or 0.01 by rounding half to even; the verdict goes with it.
    """
    for price, saved in (("3.129", False), ("3.1301", True), ("3.1209", False)):
        words, _ = site(tmp_path / price, {"pantry/roots.yaml": f"price: {price}/kg\n"})
        assert ("One: $0.01 more margin a plate" in words["swaps/swap.html"]) is saved
        assert ("One: as much margin a plate as Two" in words["swaps/swap.html"]) is not saved
        assert ("No swap earns more today" in words["index.html"]) is not saved
        lead = "of 1 challenger earns more a plate than the benchmark it would replace"
        assert f"{int(saved)} {lead}, as priced on the menu." in words["swaps.html"]


def test_a_swap_that_earns_more_and_costs_more_is_not_denied(tmp_path: Path) -> None:
    """By hand: 10/0.64 * 0.2 = 3.125 of meat against 2.00 of roots, but 18 against 15 to pay."""
    dearer = FILES["plates/one.yaml"].replace("price: 15", "price: 18")
    words, _ = site(tmp_path, {"plates/one.yaml": dearer})
    assert re.search(r"One: \$1\.\d\d more margin a plate", words["swaps/swap.html"])
    assert "No swap earns more today" not in words["index.html"]


# By-products worth more than the cut

DEAR = {
    "cuts/x.yaml": FILES["cuts/x.yaml"].replace(
        "{loss: 20 %}", "{loss: 20 %, parts: {bone: [15 %, 80/kg]}}"
    )
}
LEFT_OVER = {
    "cooks/a.yaml": FILES["cooks/a.yaml"] + "piece: {weight: 1.35 kg}\nremainder: 900/kg\n"
}


@pytest.mark.parametrize(
    ("files", "message", "on_the_cut"),
    [
        (DEAR, "the by-products are worth more than the whole batch costs", True),
        (LEFT_OVER, "what is left over is worth more than a servable kilogram costs", False),
    ],
)
def test_a_cost_below_nothing_is_in_doubt_on_every_page_that_rests_on_it(
    files: Mapping[str, str], message: str, on_the_cut: bool, tmp_path: Path
) -> None:
    words, problems = site(tmp_path, files)
    [warning] = [problem for problem in problems if problem.message == message]
    assert warning.record == "cooks/a"
    # On the record's own page it begins with a capital.
    reported = {path for path, text in words.items() if message[1:] in text}
    carried = {"cooks/a.html", "plates/one.html", "swaps/swap.html", "menu.html", "index.html"}
    assert reported == carried | ({"cuts/x.html"} if on_the_cut else set())
    assert "The cost of One is in doubt" in words["plates/one.html"]
    assert "The margin of One against Two is in doubt" in words["swaps/swap.html"]
    assert "within" not in words["plates/one.html"]
    assert "asks for" not in words["plates/one.html"]
    assert "What 1 plate costs is in doubt." in words["menu.html"]
    assert "in doubt" in words["swaps.html"]
    # The big figures and the yearly ones say so beside the figure, as the sentences do.
    swap = words["swaps/swap.html"]
    for label in ("Margin change a plate", "Food cost saved a plate", "Full plate cost saved"):
        assert re.search(rf"{label} \S+ in doubt", swap), label
    assert "All of it is in doubt: " in swap
    assert words["swaps.html"].count("in doubt") == 6 + 1  # the cells, and a sentence that leads
    for label in ("Food cost", "Prime cost", "Full plate cost", "Food cost %"):
        assert re.search(rf"{label} \S+( %)? in doubt", words["plates/one.html"]), label
    # Of the figures above, the table of costs and, for the margin, the table of what it earns.
    for label in ("Food cost", "Full plate cost", "Contribution margin (after food)"):
        line = rf"{re.escape(label)} −?\$\S+ in doubt"
        assert len(re.findall(line, words["plates/one.html"])) == 1 + ("cost" in label), label
    net = re.search(r"Net cost of the meat \S+ in doubt", words["cooks/a.html"])
    assert on_the_cut == (net is not None)
    assert "0 of 1 challenger earns more a plate" in words["swaps.html"]
    assert "No swap earns more today" in words["index.html"]
    assert "Every plate is within" not in words["index.html"]
    asked = re.compile(r"asks for −")
    assert not any(asked.search(text) for text in words.values())


def test_a_cost_below_nothing_is_not_the_cheapest(tmp_path: Path) -> None:
    words, _ = site(tmp_path, DEAR)
    assert "what it costs servable is in doubt" in words["cuts/x.html"]
    assert "What it costs is in doubt" in words["cooks/a.html"]
    assert "−$" not in words["cuts.html"]


def test_a_cut_that_nobody_cooks_is_doubted_itself(tmp_path: Path) -> None:
    files = {"cuts/y.yaml": DEAR["cuts/x.yaml"].replace("Shank", "Neck")}
    words, problems = site(tmp_path, files)
    message = "the by-products of its trim are worth more than the cut costs"
    [warning] = [problem for problem in problems if problem.message == message]
    assert (warning.record, warning.is_error) == ("cuts/y", False)
    assert warning.message[1:] in words["cuts/y.html"]


def test_an_item_without_a_price_of_its_own_is_counted_as_the_list_counts_it(
    tmp_path: Path,
) -> None:
    """By hand: 2 L at 3/L is 6 for what the brine makes, so a litre of it costs 3."""
    files = {
        "plates/two.yaml": "name: Two\nmenu: mains\nwith: {brine: 1 L}\nprice: 15\n",
        "pantry/roots.yaml": "name: Roots\n",
        "pantry/brine.yaml": "of: {roots: 2 L}\nmakes: 2 L\n",
        LIST: "date,item,price\n2026-08-01,roots,free\n2026-09-01,roots,3/L\n",
    }
    assert food_cost(tmp_path, "two", files) == pytest.approx(3)


def test_a_price_that_can_t_be_read_makes_no_amount_a_misfit(tmp_path: Path) -> None:
    files = {
        **FILES,
        "pantry/milk.yaml": "name: Milk\n",
        "pantry/brine.yaml": "of: {milk: 2 L}\nmakes: 2 L\n",
        LIST: 'date,item,price\n2026-09-01,milk,"3,05/L"\n',
    }
    [problem] = [p for p in read(write(tmp_path, files))[1] if p.is_error]
    assert str(problem.place).startswith(LIST)
