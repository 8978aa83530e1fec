"""What a page says is in doubt, its table says too, in the last column and the same words."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Set
from dataclasses import replace
from pathlib import Path

import pytest

from builder.pages.data import RESOURCES, data_files
from builder.pages.reader import MONEY, OWNER, Reader
from builder.pages.resource import doubt_field
from builder.pages.view import View
from builder.records.editions import Group
from tests.candidates.kitchens import CLOD, kitchen
from tests.kitchens.small import SMALL
from tests.money.test_carried_doubts import DEAR, LOST, SOLD, WHY_DEAR, view_of
from tests.money.test_doubtful_prices import DEAR as WORTH
from tests.money.test_doubtful_prices import FILES, site
from tests.tastings.kitchens import KITCHEN, PLACE, SCORES, computed

WHOLE = {
    **SOLD,
    "kitchen.yaml": FILES["kitchen.yaml"] + "loaded wage: 20/h\nenergy: 0.20/kWh\n"
    "equipment: {oven: {kind: oven, price: 4000, service life: 10000}}\n",
    "cooks/a.yaml": FILES["cooks/a.yaml"] + "equipment: oven\nfor: 5 h\nenergy: 9 kWh\n"
    "hands-on: 20 min\n",
    "plates/one.yaml": SOLD["plates/one.yaml"] + "hands-on: 1 min\n",
    "plates/two.yaml": SOLD["plates/two.yaml"] + "hands-on: 1 min\n",
}
SOURCED = "the by-products of Braise are counted as worth more than its meat costs"
UNKNOWN = "the loss at the cook of Braise is not known, so none is counted"
MARKED = [resource.name for resource in RESOURCES if doubt_field(resource)]


def table(view: View, name: str) -> dict[str, dict[str, str]]:
    """A table as another program reads it, by id."""
    data = dict(data_files(view))[f"data/{name}.csv"].decode()
    return {row["id"]: row for row in csv.DictReader(io.StringIO(data, newline=""))}


def doubts(view: View, *names: str) -> dict[str, str]:
    """What the tables say of their rows, where they say something."""
    rows = ((f"{name} {key}", row["in_doubt"]) for name in names
            for key, row in table(view, name).items())  # fmt: skip
    return {key: reason for key, reason in rows if reason}


def test_where_all_is_known_no_row_is_in_doubt(tmp_path: Path) -> None:
    assert doubts(view_of(tmp_path, WHOLE), *MARKED) == {}


def test_by_products_worth_more_than_the_cut_reach_every_table_that_rests_on_them(
    tmp_path: Path,
) -> None:
    view = view_of(tmp_path, {**WHOLE, **WORTH})
    found = doubts(view, *MARKED)
    cut = found.pop("cuts x")
    assert found.pop("stages cuts/x/trim") == found.pop("count_cuts week/x") == cut
    assert cut == "the by-products of its trim are worth more than the cut costs"
    assert set(found.values()) == {SOURCED}
    assert {key.partition(" ")[0] for key in found} == {
        "cooks", "steps", "plates", "orders", "swaps", "swap_limits", "kitchen", "menu_sections",
        "counts", "count_cooks", "count_plates",
    }  # fmt: skip
    # The other plate rests on nothing that is in doubt.
    assert "plates two" not in found


def test_a_table_says_it_in_the_words_of_its_page(tmp_path: Path) -> None:
    for number, files in enumerate((WORTH, LOST, DEAR)):
        root = tmp_path / str(number)
        words, _ = site(root, {**SOLD, **files})
        found = doubts(view_of(root / "again", files), "plates", "swaps", "counts", "cooks")
        reason = found["plates one"].partition(";")[0]
        assert f"The cost of One is in doubt: {reason}." in words["plates/one.html"]
        assert (
            f"against Two is in doubt: {found['swaps swap/one'].partition(';')[0]}."
            in (words["swaps/swap.html"])
        )
        if "counts week" in found:
            assert f"should cost is in doubt: {found['counts week']}." in words["counts/week.html"]
        if "cooks a" in found:
            assert f"What it costs is in doubt: {found['cooks a']}." in words["cooks/a.html"]


def test_a_loss_that_nobody_knows_is_in_doubt_from_its_stage_on(tmp_path: Path) -> None:
    lost = {**WHOLE, "cooks/a.yaml": WHOLE["cooks/a.yaml"].replace("loss: 20 %\n", "")}
    found = doubts(view_of(tmp_path, lost), "cuts", "cooks", "stages", "steps", "plates")
    assert found == dict.fromkeys(
        ("cooks a", "stages cooks/a/cook", "steps a/cook", "plates one"), UNKNOWN
    )


def test_food_that_costs_more_than_the_plate_or_nothing_is_in_doubt(tmp_path: Path) -> None:
    dear = WHOLE["plates/one.yaml"].replace("price: 15", "price: 0.96")
    found = doubts(view_of(tmp_path / "dear", {**WHOLE, "plates/one.yaml": dear}), "plates")
    assert found == {"plates one": WHY_DEAR}
    free = {**WHOLE, "pantry/roots.yaml": "price: free\n"}
    found = doubts(view_of(tmp_path / "free", free), "plates", "swaps")
    nothing = "the food on Two costs nothing"
    assert found == {"plates two": nothing, "swaps swap/one": nothing}


def test_a_weighing_after_the_day_leaves_its_stage_in_doubt(tmp_path: Path) -> None:
    later = {
        **WHOLE,
        "kitchen.yaml": WHOLE["kitchen.yaml"] + "as of: 2026-09-28\n",
        "cooks/a.yaml": WHOLE["cooks/a.yaml"].replace(
            "loss: 20 %\n", "tests: [{date: 2026-09-30, in: 4 kg, out: 3 kg}]\n"
        ),
    }
    found = doubts(view_of(tmp_path, later), "stages", "cooks")
    assert set(found) == {"stages cooks/a/cook", "cooks a"}
    assert all("was not weighed by" in reason for reason in found.values())


NOT_KNOWN = [
    ("energy: 0.20/kWh\n", "kitchen.yaml", "energy"),
    ("loaded wage: 20/h\n", "kitchen.yaml", "labour"),
    (", price: 4000, service life: 10000", "kitchen.yaml", "equipment"),
]


@pytest.mark.parametrize(("text", "file", "what"), NOT_KNOWN)
def test_what_a_full_cost_leaves_out_is_named(
    text: str, file: str, what: str, tmp_path: Path
) -> None:
    files = {**WHOLE, file: WHOLE[file].replace(text, "")}
    found = doubts(view_of(tmp_path, files), "plates", "swaps", "swap_limits")
    reason = f"{what} not known in full"
    assert found["plates one"] == found["swaps swap/one"] == reason
    assert {r for key, r in found.items() if key.startswith("swap_limits")} == {reason}
    assert ("plates two" in found) is (what == "labour")


def test_a_cook_that_fails_its_rules_leaves_the_saving_in_doubt(tmp_path: Path) -> None:
    files = {
        **WHOLE,
        "kitchen.yaml": WHOLE["kitchen.yaml"].replace("kind: oven", "kind: water bath")
        + "authority: us-food-code-2017\n",
        "cooks/a.yaml": WHOLE["cooks/a.yaml"].replace("how: oven", "how: water bath")
        + "at: 45 °C\npiece: {thickness: 60 mm, weight: 1 kg}\n",
    }
    found = doubts(view_of(tmp_path, files), "swaps", "plates")
    assert "its cook does not meet the rules" in found["swaps swap/one"]


def test_a_candidate_is_in_doubt_where_its_benchmark_is(tmp_path: Path) -> None:
    sure = View.of(kitchen(tmp_path / "sure", CLOD), [])
    assert doubts(sure, "candidates") == {}
    cook = SMALL["cooks/ribeye-grill.yaml"].replace("loss: 17 %\n", "")
    assert cook != SMALL["cooks/ribeye-grill.yaml"]
    found = doubts(
        View.of(kitchen(tmp_path / "lost", CLOD, {"cooks/ribeye-grill.yaml": cook}), []),
        "candidates",
    )
    assert "is not known, so none is counted" in found["candidates clod"]


def test_a_tasting_of_unlike_cooks_or_of_too_few_says_so() -> None:
    def said(yaml: str, cooks: Mapping[str, str]) -> str:
        view, problems = computed({**cooks, PLACE: yaml})
        assert view is not None, problems
        return table(view, "tastings")["trial"]["in_doubt"]

    hotter = {"cooks/chuck-36h.yaml": KITCHEN["cooks/chuck-36h.yaml"].replace("57 °C", "60 °C")}
    # With two challengers at 5 % together, (1/2)^5 is the first power of a half below 0.05 / 2.
    few = "fewer than 6 tasters can't settle it, even if all agree"
    unlike = "the cooks differ in temperature too, so nothing is said of hours between them"
    assert said(SCORES, {}) == few
    assert said(SCORES, hotter) == f"{unlike}; {few}"
    assert said(SCORES.replace("benchmark: ribeye\n", "").replace("margin: 10 %\n", ""), {}) == ""
    planned = SCORES.partition("scores:\n  T1")[0]
    assert said(planned, hotter) == ""


def test_the_column_is_the_last_and_moves_no_other(tmp_path: Path) -> None:
    files = dict(data_files(view_of(tmp_path, WORTH)))
    for resource in RESOURCES:
        head = files[f"data/{resource.name}.csv"].decode().partition("\n")[0].split(",")
        assert ("in_doubt" in head) is (resource.name in MARKED)
        assert "in_doubt" not in head[:-1]


@pytest.mark.parametrize(("hidden", "left"), [(MONEY, {"tastings"}), ({"work"}, set(MARKED))])
def test_who_sees_no_money_reads_no_doubt_about_it(
    hidden: Set[Group], left: set[str], tmp_path: Path
) -> None:
    view = replace(view_of(tmp_path, WORTH), reader=Reader("edition", OWNER.groups - hidden))
    marked = {
        path.removeprefix("data/").removesuffix(".csv")
        for path, data in data_files(view)
        if path.endswith(".csv") and b"in_doubt" in data.partition(b"\n")[0]
    }
    assert marked == left & {path[5:-4] for path, _ in data_files(view)}
