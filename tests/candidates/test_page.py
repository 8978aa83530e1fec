"""The page that ranks candidates, and what it says of them."""

from __future__ import annotations

from pathlib import Path

from builder.pages.candidate_data import CANDIDATE_RESOURCES
from builder.pages.data import csv_of
from builder.pages.trial_words import not_known
from builder.pages.try_next import ranked, try_next_page
from builder.pages.view import View
from tests.candidates.kitchens import CLOD, LISTED, figure, kitchen, trial
from tests.kitchens.small import SMALL
from tests.pages_data.kitchens import html_of, text_of


def test_the_best_by_money_and_chance_comes_first(tmp_path: Path) -> None:
    costed = kitchen(tmp_path, CLOD, LISTED)
    view = View.of(costed, [])
    first, second = (each.cut.id for each in ranked(view))
    worth = {
        cut: figure(costed, cut, "candidate_saving_a_month") * figure(costed, cut, "chance_saves")
        for cut in (first, second)
    }
    assert worth[first] >= worth[second] > 0
    assert try_next_page(view).answer.startswith(f"Try {first.capitalize()} next")


def test_a_kitchen_without_candidates_is_told_how_to_name_one(tmp_path: Path) -> None:
    page = try_next_page(View.of(kitchen(tmp_path), []))
    assert "candidate: ribeye-steak" in page.answer
    assert text_of(html_of(page)).count("Name a plate in a cut's file") == 1


def test_what_stands_in_is_listed_as_not_known(tmp_path: Path) -> None:
    view = View.of(costed := kitchen(tmp_path, CLOD, LISTED), [])
    listed, filed = (
        " ".join(not_known(view, trial(costed, cut))) for cut in ("under-blade", "clod")
    )
    assert "What trimming leaves" in listed
    assert "How thick a piece is" in listed
    assert "What trimming leaves" not in filed
    assert "How thick a piece is" not in filed
    assert "another way of cooking" in filed


def test_candidates_go_out_as_data(tmp_path: Path) -> None:
    view = View.of(costed := kitchen(tmp_path, CLOD), [])
    header, row = csv_of(view, CANDIDATE_RESOURCES[0]).decode().splitlines()
    found = dict(zip(header.split(","), row.split(","), strict=False))
    assert (found["id"], found["benchmark"], found["muscle"]) == (
        "clod", "ribeye-steak", "triceps brachii",
    )  # fmt: skip
    assert repr(figure(costed, "clod", "portion_saving")) in row.split(",")


def test_a_shear_force_is_in_the_kitchen_s_unit(tmp_path: Path) -> None:
    """3.2 and 3.9 kg by 0.45359237 kg a pound: 7.05 and 8.60 lb; the study's own stays beside."""
    metric, customary = (
        text_of(html_of(try_next_page(View.of(kitchen(tmp_path / name, CLOD, more), []))))
        for name, more in (
            ("metric", {}),
            (
                "customary",
                {"kitchen.yaml": SMALL["kitchen.yaml"].replace("metric", "us customary")},
            ),
        )
    )
    assert "tender, 3.2 to 3.9 kg" in metric and "lb" not in metric
    assert "tender, 7.1 to 8.6 lb" in customary
    assert "3.2 to 3.9 kg, tender 7.1 to 8.6 lb" in customary
