"""A cost that can't be trusted is marked wherever it is read: too dear for its price, not weighed.

The shares are worked out by hand beside their checks.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.money.test_doubtful_prices import FILES, site

# 200 g of what is left after 0.8 x 0.8 of a 10/kg shank cost 3.125; of a price of 0.96 that is
# 325.5 %, to a tenth.
DEAR = {"plates/one.yaml": FILES["plates/one.yaml"].replace("price: 15", "price: 0.96")}
WHY_DEAR = "the food on One costs 325.5% of what guests pay without tax"


def test_a_plate_that_costs_more_than_it_earns_is_in_doubt_wherever_it_is_read(
    tmp_path: Path,
) -> None:
    words, problems = site(tmp_path, DEAR)
    assert f"What One costs is in doubt: {WHY_DEAR}." in words["plates/one.html"]
    assert "325.5% in doubt" in words["plates/one.html"]
    assert "325.5% over; in doubt" in words["menu.html"]
    assert "325.5% in doubt" in words["index.html"]
    assert f"saves against Two is in doubt: {WHY_DEAR}." in words["swaps/swap.html"]
    assert "325.5% in doubt" in words["swaps/swap.html"]
    assert "What 1 plate costs is in doubt." in words["menu.html"]
    assert any(p.place.file == "plates/one.yaml" and "325.5%" in p.message for p in problems)


def test_a_plate_that_was_looked_over_or_costs_its_price_is_not_in_doubt(tmp_path: Path) -> None:
    text = DEAR["plates/one.yaml"]
    checked = {"plates/one.yaml": f"{text}checked: 2026-09-30\n"}
    even = {"plates/one.yaml": text.replace("0.96", "3.13")}
    for number, files in enumerate((checked, even)):
        words, _ = site(tmp_path / str(number), files)
        for page in ("plates/one.html", "menu.html", "index.html", "swaps/swap.html"):
            assert "in doubt" not in words[page], page


UNKNOWN = [
    ("cooks/a.yaml", "loss: 20 %\n", "", "cook of Braise"),
    ("cooks/a.yaml", "loss: 20 %\n", "loss: 20 %\ncarve: {how: off the bone}\n", "carve of Braise"),
    ("cuts/x.yaml", "{loss: 20 %}", "{how: boned}", "trim of Shank"),
]


@pytest.mark.parametrize(("file", "old", "new", "stage"), UNKNOWN)
def test_a_loss_that_nobody_knows_makes_every_cost_doubtful(
    file: str, old: str, new: str, stage: str, tmp_path: Path
) -> None:
    words, problems = site(tmp_path, {file: FILES[file].replace(old, new)})
    why = f"the loss at the {stage} is not known, so none is counted"
    assert f"at a cost that is in doubt: {why}." in words["cooks/a.html"]
    assert f"What One costs is in doubt: {why}." in words["plates/one.html"]
    assert f"saves against Two is in doubt: {why}." in words["swaps/swap.html"]
    assert "What 1 plate costs is in doubt." in words["menu.html"]
    assert "what it costs servable is in doubt" in words["cuts/x.html"]
    assert ("in doubt; parts credited" in words["cuts/x.html"]) is (file == "cuts/x.yaml")
    [warning] = [p for p in problems if "nothing weighed" in p.message]
    pages = {warning.record, *warning.also}
    assert pages >= {file.removesuffix(".yaml"), "plates/one", "swaps/swap", "menu"}
    assert "loss: 0 %" in warning.hint


def test_a_stage_that_says_it_loses_nothing_is_in_no_doubt(tmp_path: Path) -> None:
    cook = FILES["cooks/a.yaml"] + "rest: {for: 6 min, loss: 0 %}\n"
    words, _ = site(tmp_path, {"cooks/a.yaml": cook})
    for page in ("cooks/a.html", "plates/one.html", "menu.html", "swaps/swap.html", "cooks.html"):
        assert "in doubt" not in words[page], page


def test_a_stage_of_the_cook_s_own_stands_in_for_the_cut_s_unknown_one(tmp_path: Path) -> None:
    files = {
        "cuts/x.yaml": FILES["cuts/x.yaml"].replace("{loss: 20 %}", "{how: boned}"),
        "cooks/a.yaml": FILES["cooks/a.yaml"] + "trim: {loss: 20 %}\n",
    }
    words, _ = site(tmp_path, files)
    assert "in doubt" not in words["plates/one.html"]
    assert "in doubt; parts credited" in words["cuts/x.html"]
