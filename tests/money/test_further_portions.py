"""Several portions on a plate against plates with one each: the parts add up, figure by figure."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.costing.costed import Costed
from builder.costing.model import MODEL
from builder.display.style import Style
from builder.pages.values import shown
from builder.records.contained import contained
from tests.kitchens import costed_from, read, write

KITCHEN = (
    "name: K\ncurrency: CAD\nas of: 2026-10-01\nloaded wage: 24/h\nenergy: 0.20/kWh\n"
    "seasoning: 4 %\ncovers: [7, 30]\nportions: {basis}\ngive or take: {{portion: 5 g}}\n"
    "equipment:\n"
    "  pot: {{kind: oven, holds: 6 kg, charge: 1.50/h, measured standby: 0.5 kW}}\n"
    "  pan: {{kind: range, holds: 2 kg, charge: 0.60/h, measured standby: 1.2 kW}}\n"
)
FILES = {
    "cuts/chuck.yaml": "species: beef\nprice: 14/kg\ntrim: {loss: 8 %}\nallergens: none\n",
    "cuts/prawn.yaml": "species: fish\nprice: 30/kg\ntrim: {loss: 20 %}\n"
    "allergens: [crustaceans]\n",
    "cooks/braise.yaml": "cut: chuck\nhow: braise\nload: 4.8 kg\npiece: {weight: 1.2 kg}\n"
    "for: 6 h\n"
    "equipment: pot\nloss: 25 %\nhands on: 40 min\nconsumables: {bags: 3}\nremainder: 5/kg\n",
    "cooks/grill.yaml": "cut: prawn\nhow: grill\nload: 1.5 kg\npiece: {weight: 50 g}\n"
    "for: 30 min\n"
    "equipment: pan\nloss: 12 %\nhands on: 20 min\n",
    "plates/turf.yaml": "menu: mains\ncook: braise\nportion: 170 g\nprice: 30\nforecast: 40\n",
    "plates/surf.yaml": "menu: mains\ncook: grill\nportion: 3 pieces\nprice: 20\nforecast: 25\n",
}
BOTH = (
    "menu: mains\nportions:\n  - {cook: braise, portion: 170 g}\n  - [grill, 3 pieces]\n"
    "price: 45\nforecast: 25\n"
)
BASES = pytest.mark.parametrize("basis", ["whole", "by weight"])


def kitchen(folder: Path, basis: str = "whole", **changed: str) -> Costed:
    files = {"kitchen.yaml": KITCHEN.format(basis=basis), **FILES, "plates/both.yaml": BOTH}
    return costed_from(write(folder, {**files, **changed}))


def plate(costed: Costed, name: str, figure: str) -> float:
    return costed.figures.value("plate", figure, costed.rows.plates[name])


@BASES
def test_the_parts_of_two_plates_add_up(basis: str, tmp_path: Path) -> None:
    """Nothing accompanies them and nobody plates them, so that a plate is its portions."""
    costed = kitchen(tmp_path, basis)
    for figure in (
        "food_cost", "seasoning_cost", "labour_hours", "labour_cost", "prime_cost",
        "process_per_plate", "full_cost",
    ):  # fmt: skip
        turf, surf = (plate(costed, name, figure) for name in ("turf", "surf"))
        assert plate(costed, "both", figure) == pytest.approx(turf + surf), figure
        assert turf > 0
        assert surf > 0
    assert plate(costed, "both", "further_food") == plate(costed, "surf", "protein_cost")


def test_the_cost_of_the_prawns_by_hand(tmp_path: Path) -> None:
    """Three of 30 pieces that weigh 50 g raw, so 62.5 g to buy at 30.00 a kg: 5.625 a plate."""
    costed = kitchen(tmp_path)
    assert plate(costed, "both", "further_food") == pytest.approx(3 * 0.05 / 0.8 * 30)
    # 20 min on 10 portions; 0.5 h at 0.60 and 1.2 kW at 0.20 on 10 portions.
    assert plate(costed, "both", "further_hours") == pytest.approx(20 / 60 / 10)
    assert plate(costed, "both", "further_process") == pytest.approx((0.3 + 0.12) / 10)


@BASES
def test_orders_are_those_of_a_plate_of_its_own(basis: str, tmp_path: Path) -> None:
    costed = kitchen(tmp_path, basis)
    [further] = costed.rows.further["both"]
    alone = costed.rows.orders["surf"]
    for mine, its in zip(further.orders, alone, strict=True):
        for figure in ("quantity_to_buy", "pieces_to_cook", "quantity_to_buy_whole"):
            assert costed.figures.value("further_order", figure, mine) == pytest.approx(
                costed.figures.value("order", figure, its)
            )
    assert costed.figures.value("further_order", "pieces_to_cook", further.orders[0]) == 21


def test_a_week_books_the_equipment_of_every_portion(tmp_path: Path) -> None:
    """25 plates take 75 pieces of the 40 that 2 kg are: 1.875 loads; with the plate alone twice."""
    costed = kitchen(tmp_path)
    row = costed.rows.cooks["grill"]
    assert costed.figures.value("batch", "further_loads", row) == pytest.approx(25 / 13)
    assert costed.figures.value("batch", "loads_needed", row) == 4
    lone = kitchen(tmp_path / "lone", **{"plates/surf.yaml": FILES["plates/turf.yaml"]})
    assert lone.figures.value("batch", "loads_needed", lone.rows.cooks["grill"]) == 2
    assert lone.figures.value("equipment", "hours_booked", lone.rows.equipment["pan"]) == 1


def test_a_service_loads_both_cooks(tmp_path: Path) -> None:
    service = "day: Friday\nat: 18:00\nplates: {both: 10, surf: 4}\n"
    costed = kitchen(tmp_path, **{"services/friday.yaml": service})
    found = {planned.cook.id: planned for planned in costed.services["friday"].cooks}
    # A piece of 0.9 kg gives 5 portions of 170 g; 14 plates of three pieces.
    assert {name: planned.pieces for name, planned in found.items()} == {"braise": 2, "grill": 42}
    assert found["grill"].covers == 14
    jobs = [key for key, _, _ in costed.services["friday"].jobs()]
    assert len(set(jobs)) == len(jobs)
    assert {("friday", key) for key in jobs} == set(costed.rows.services.jobs)


def test_a_limit_moves_the_cut_in_every_portion(tmp_path: Path) -> None:
    """Both sides hold prawns: with the price that the limit names both plates cost the same."""
    changed = {
        "plates/surf.yaml": FILES["plates/surf.yaml"].replace("3 pieces", "5 pieces"),
        "swaps/one.yaml": "benchmark: both\nchallengers: [surf]\n",
    }
    costed = kitchen(tmp_path, **changed)
    row = costed.rows.swaps["one", "surf"]
    limit = costed.figures.value("swap", "break_even_ap_price", row)
    cut = FILES["cuts/prawn.yaml"].replace("price: 30/kg", f"price: {limit:.9f}/kg")
    moved = kitchen(tmp_path / "moved", **changed, **{"cuts/prawn.yaml": cut})
    assert plate(moved, "both", "full_cost") == pytest.approx(plate(moved, "surf", "full_cost"))
    # The further portion is of the cook that is moved, so no loss is named.
    assert costed.figures.value("swap", "moved_cooks", row) == 1
    for figure in ("break_even_cook_loss", "break_even_cook_loss_whole"):
        assert np.isnan(costed.figures.value("swap", figure, row))


def test_what_follows_every_portion(tmp_path: Path) -> None:
    """Allergens of both cuts; the interval is wider than that of the main portion alone."""
    changed = {"plates/surf.yaml": FILES["plates/surf.yaml"].replace("3 pieces", "90 g")}
    both = BOTH.replace("3 pieces", "90 g")
    costed = kitchen(tmp_path, "by weight", **changed, **{"plates/both.yaml": both})
    kinds = contained(costed.content, costed.content.plates["both"]).contains
    assert ("crustaceans", "") in kinds
    spans = {
        name: plate(costed, name, "food_cost_high") - plate(costed, name, "food_cost_low")
        for name in ("turf", "surf", "both")
    }
    assert spans["both"] > max(spans["turf"], spans["surf"])


def test_a_count_follows_every_portion(tmp_path: Path) -> None:
    """A plate of both takes what one of each takes: every part of the difference is the same."""
    used = "cuts: {chuck: {used: 12 kg, thrown: {late: 200 g}}, prawn: {used: 4.5 kg}}\n"
    made = (
        "cooks: {braise: {used: 11 kg, made: 8 kg, left: 300 g}, "
        "grill: {used: 3.6 kg, made: 3.1 kg, thrown: {dropped: 100 g}}}\n"
    )
    apart = "{turf: {sold: 40}, surf: {sold: 40}}"
    found = []
    for folder, plates in (("apart", apart), ("both", "{both: {sold: 40}}")):
        text = f"date: 2026-09-30\nplates: {plates}\n{used}{made}"
        costed = kitchen(tmp_path / folder, **{"counts/day.yaml": text})
        count = costed.counts["day"]
        assert set(count.usages) == {"chuck", "prawn"}
        found.append(
            {
                (table, name, key): costed.figures.value(table, name, row)
                for table, rows in (("usage", count.usages), ("output", count.outputs))
                for key, row in rows.items()
                for name in costed.figures.model.tables[table].figures
                if not name.startswith(("main_", "further_"))
            }
        )
    assert found[1] == pytest.approx(found[0], nan_ok=True)
    assert found[0]["usage", "explained_use", "prawn"] > 40 * 3 * 0.05 / 0.8 - 1e-9


@settings(max_examples=25)
@given(
    portion=st.sampled_from(["170 g", "255 g", "1 piece", "1/2 piece"]),
    basis=st.sampled_from(["whole", "by weight"]),
    form=st.sampled_from(["  - {{cook: braise, portion: {}}}\n", "  - [braise, {}]\n"]),
)
def test_a_list_of_one_is_the_short_form(
    portion: str, basis: str, form: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    short = f"menu: mains\ncook: braise\nportion: {portion}\nprice: 30\nforecast: 40\n"
    listed = f"menu: mains\nportions:\n{form.format(portion)}price: 30\nforecast: 40\n"
    found = []
    for text in (short, listed):
        files = {"plates/turf.yaml": text, "plates/both.yaml": text}
        costed = kitchen(tmp_path_factory.mktemp("kitchen"), basis, **files)
        found.append(every_figure(costed))
    assert found[0].keys() == found[1].keys()
    for key, values in found[0].items():
        np.testing.assert_array_equal(values, found[1][key], err_msg=key)


def every_figure(costed: Costed) -> Mapping[str, np.ndarray]:
    figures = costed.figures
    return {
        f"{table}.{name}": np.array(
            [figures.value(table, name, row) for row in range(figures.size(table))]
        )
        for table in figures.model.tables
        for name in figures.model.tables[table].figures
    }


# What is written instead of the portions, the place of the problem, what it says.
MISTAKES = [
    ("portions: []", "plates/both.yaml:2:11", "no portion is in this list"),
    ("cook: braise\nportion: 170 g\nportions: [[grill, 90 g]]", "plates/both.yaml:2:7",
     "portions says what is on the plate"),
    ("portions: [[brais, 90 g]]", "plates/both.yaml:2:13", 'there is no cook "brais"'),
    ("portions: [[braise, 90 g], [gril, 90 g]]", "plates/both.yaml:2:29",
     'there is no cook "gril"'),
    ("portions: [[braise, 90 g], [grill]]", "plates/both.yaml:2:28", '"portion" is missing'),
    ("portions: [[braise, 90 g], [grill, 0 g]]", "plates/both.yaml:2:36",
     "a portion weighs more than nothing"),
    ("portions: [[braise, 90 g], [grill, 900 g]]", "plates/both.yaml:2:36",
     "a portion of 900 g is more than one piece gives"),
]  # fmt: skip


def test_a_hint_on_a_piece_is_no_finer_than_a_weighing(tmp_path: Path) -> None:
    """A third of a piece's weight would be many decimals: three digits are what a scale gives."""
    files = {"kitchen.yaml": KITCHEN.format(basis="whole"), **FILES}
    files["cooks/grill.yaml"] = re.sub(
        "piece: .*", "piece: {weight: 33.37 g}", FILES["cooks/grill.yaml"]
    )
    files["plates/both.yaml"] = (
        "menu: mains\nportions: [[braise, 90 g], [grill, 900 g]]\nprice: 45\n"
    )
    found = [each for each in read(write(tmp_path, files))[1] if each.is_error]
    (weighs,) = re.findall(r"weighs (\S+) g", found[0].hint)
    assert len(weighs.replace(".", "")) <= 3, found[0].hint


@pytest.mark.parametrize(("written", "place", "message"), MISTAKES)
def test_mistakes_are_named_at_their_place(
    written: str, place: str, message: str, tmp_path: Path
) -> None:
    files = {"kitchen.yaml": KITCHEN.format(basis="whole"), **FILES}
    files["plates/both.yaml"] = f"menu: mains\n{written}\nprice: 45\n"
    _, problems = read(write(tmp_path, files))
    found = [(str(each.place), each.message) for each in problems if each.is_error]
    assert found == [(place, message)]


def test_a_piece_without_a_weight_and_a_cook_twice(tmp_path: Path) -> None:
    files = {"kitchen.yaml": KITCHEN.format(basis="whole"), **FILES}
    files["cooks/grill.yaml"] = files["cooks/grill.yaml"].replace("piece: {weight: 50 g}\n", "")
    files["plates/surf.yaml"] = files["plates/surf.yaml"].replace("3 pieces", "90 g")
    files["plates/both.yaml"] = BOTH
    _, problems = read(write(tmp_path, files))
    [error] = [each for each in problems if each.is_error]
    assert (str(error.place), error.message) == (
        "plates/both.yaml:4:13",
        "3 pieces has no weight behind it",
    )
    twice = BOTH.replace("[grill, 3 pieces]", "[braise, 100 g]")
    _, problems = read(write(tmp_path, {**files, "plates/both.yaml": twice}))
    found = [each.message for each in problems if str(each.place) == "plates/both.yaml:4:6"]
    assert found == ["Braise is on this plate twice"]


def test_what_a_piece_can_t_give_is_proposed_by_number(tmp_path: Path) -> None:
    """A prawn of 50 g leaves 44 g: 180 g are four of them."""
    files = {"kitchen.yaml": KITCHEN.format(basis="whole"), **FILES}
    files["plates/surf.yaml"] = files["plates/surf.yaml"].replace("3 pieces", "180 g")
    _, problems = read(write(tmp_path, files))
    [error] = [each for each in problems if each.is_error]
    assert error.hint.endswith("where a portion takes several, write portion: 4 pieces")


def test_a_portion_in_an_unknown_unit_is_offered_pieces(tmp_path: Path) -> None:
    files = {"kitchen.yaml": KITCHEN.format(basis="whole"), **FILES}
    files["plates/surf.yaml"] = files["plates/surf.yaml"].replace("3 pieces", "3 legs")
    _, problems = read(write(tmp_path, files))
    [error] = [each for each in problems if each.is_error]
    assert error.message == 'unknown unit "legs"'
    assert error.hint.startswith("units that fit: kg, g, lb, oz, piece, slice; ")


AHEAD = "cool: {to: 3 °C, within: 6 h}\nstore: {at: 3 °C, for: 2 d}\n"
FRIDAY = "day: Friday\nat: 18:00\nplates: {both: [10, 1 d], surf: 4}\n"


def test_what_is_chilled_lies_ahead_and_the_rest_is_cooked_for_the_service(tmp_path: Path) -> None:
    """The braise is done a day and six hours before; prawns of both plates go on together."""
    braise = FILES["cooks/braise.yaml"] + AHEAD
    files = {"cooks/braise.yaml": braise, "services/friday.yaml": FRIDAY}
    plan = kitchen(tmp_path, **files).services["friday"]
    found = {planned.cook.id: planned for planned in plan.cooks}
    assert list(found) == ["braise", "grill"]
    assert found["grill"].pieces == 3 * (10 + 4)
    ends = {
        name: plan.at - next(s.end for s in planned.steps if s.step.name == "cook")
        for name, planned in found.items()
    }
    assert ends == {"braise": timedelta(hours=24 + 6), "grill": timedelta(0)}


@pytest.mark.parametrize(
    ("more", "message"),
    [
        ("", "Both can't be kept cold ahead: none of its cooks is chilled"),
        (AHEAD.replace("2 d", "12 h"), "Both: kept cold for 1 d, and Braise is stored for 12 h"),
    ],
)
def test_a_plate_ahead_is_held_against_what_is_chilled(
    more: str, message: str, tmp_path: Path
) -> None:
    files = {"kitchen.yaml": KITCHEN.format(basis="whole"), **FILES, "plates/both.yaml": BOTH}
    files["cooks/braise.yaml"] += more
    _, problems = read(write(tmp_path, {**files, "services/friday.yaml": FRIDAY}))
    assert [each for each in problems if each.message.startswith(message)]


def test_portions_by_weight_are_written_to_a_tenth() -> None:
    """What a batch gives is known to a few parts in a thousand; whole ones stay whole."""
    style = Style.of("en_CA", "CAD")
    assert shown(style, "portions", 45.11) == "45.1"
    assert shown(style, "portions", 45.0) == "45"
    assert MODEL.definition(("plate", "portions_by_weight")).unit == "portions"
    assert MODEL.definition(("portion", "portions_by_weight")).unit == "portions"
