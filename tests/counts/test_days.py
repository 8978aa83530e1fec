"""A day in the past, and items without a price yet, leave counts out by name."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from builder.build import compute_content
from tests.kitchens import TODAY, write
from tests.kitchens.small import SMALL

COUNT = (
    "from: 2026-09-14\nto: 2026-09-20\nplates: {chuck-steak: 40}\ncuts: {ribeye: {used: 3 kg}}\n"
)


def test_a_count_that_ends_after_the_day_is_left_out(tmp_path: Path) -> None:
    root = write(tmp_path, {**SMALL, "counts/w.yaml": COUNT})
    costed, problems = compute_content(root, date(2026, 9, 19), TODAY)
    assert costed is not None, problems
    assert costed.counts == {}
    [found] = [p for p in problems if "the count of" in p.message and p.place.file[:6] == "counts"]
    assert str(found.place) == "counts/w.yaml:2:5"
    assert "W: the count of Sep 20, 2026 comes after Sep 19, 2026" in found.message
    assert "2026-09-20 or later" in found.hint
    costed, _ = compute_content(root, date(2026, 9, 20), TODAY)
    assert costed is not None
    assert set(costed.counts) == {"w"}


def test_a_count_of_a_cut_without_a_price_yet_is_left_out(tmp_path: Path) -> None:
    files = {
        **SMALL,
        "counts/w.yaml": COUNT,
        "cuts/ribeye.yaml": SMALL["cuts/ribeye.yaml"].replace("price: 41.00/kg\n", ""),
        "prices/list.csv": "date,item,price\n2026-10-01,ribeye,41/kg\n",
    }
    costed, problems = compute_content(write(tmp_path, files), date(2026, 9, 30), TODAY)
    assert costed is not None, problems
    assert costed.counts == {}
    assert costed.content.left_out["counts/w"] == "W"
    [found] = [p for p in problems if "has no price before" in p.message]
    assert "1 count" in found.message
