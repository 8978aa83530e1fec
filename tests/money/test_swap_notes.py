"""What a swap's chances and what-ifs are called, and what is not said beside them."""

from __future__ import annotations

from builder.pages.components import Tries
from tests.money.test_swap_words import COOK, PLATE, kitchen, page_of, pages_of, tables


def test_no_loss_is_said_to_be_taken_as_written_where_no_chance_is_given() -> None:
    files = kitchen()
    said = " ".join(map(str, page_of(files).also))
    assert "it earns more than the benchmark" not in said and "as written" not in said
    [listed] = [table for table in tables(pages_of(files)[0].sections) if table.id == "swaps"]
    assert [
        cell.note for cell in listed.rows[0].cells if cell.note == "a cook loss as written"
    ] == []


def test_each_challenger_has_a_count_of_its_own_to_try() -> None:
    files = kitchen(
        plates__other=PLATE.format(cook="a", portion=180, price=20),
        swaps__swap="benchmark: large\nchallengers: [small, other]\nforecast: 40\n",
    )
    tried = [s for s in page_of(files).sections if isinstance(s, Tries)]
    labels = [line.label for strip in tried for line in strip.lines]
    assert [label for label in labels if "plates a week" in label] == [
        "Small: plates a week",
        "Other: plates a week",
    ]
    assert len(labels) == len(set(labels))


def test_a_portion_of_pieces_takes_no_loss_as_written() -> None:
    """Whatever they lose, so many pieces cost the same."""
    weighed = "tests:\n" + "".join(
        f"  - {{date: 2026-0{month}-03, in: 5.0 kg, out: {out} kg}}\n"
        for month, out in ((7, 4.0), (8, 3.9), (9, 4.1))
    )
    piece = COOK.replace("piece: {weight: 5 kg}", "piece: {weight: 200 g, name: chop}")
    portions = {"by weight": "portion: 160 g", "in pieces": "portion: 1 chop"}
    said = {}
    for name, portion in portions.items():
        files = kitchen(
            cooks__tested=COOK.replace("loss: 20 %\n", weighed),
            cooks__a=piece,
            plates__large=PLATE.format(cook="tested", portion=200, price=20),
            plates__small=PLATE.format(cook="a", portion=160, price=20).replace(
                "portion: 160 g", portion
            ),
        )
        said[name] = " ".join(map(str, page_of(files).also))
    assert "takes the cook loss of A as written" in said["by weight"]
    assert "it earns more than the benchmark" in said["in pieces"]
    assert "as written" not in said["in pieces"]
