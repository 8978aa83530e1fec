"""Rule sets: the published tables row by row, a user's own file, and what is refused."""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from math import ceil

import pytest

from builder.cooking.foods import Cut, Food, Form, Species
from builder.cooking.rule_fields import RuleSetError, seconds, temperature_c
from builder.cooking.rule_library import rule_sets
from builder.cooking.rule_parsing import parse_rule_set
from builder.cooking.rules import HoldRow
from tests.cooking.published import rows

FOOD_CODE = rule_sets()["us-food-code-2017"]
INTACT_ROAST = Food(Species.BEEF)


def fahrenheit(degrees: str) -> float:
    return (float(degrees) - 32) / 1.8


def assert_row(held: HoldRow, row: Mapping[str, str], hold_s: str) -> None:
    assert held.hold_s == float(hold_s)
    assert held.at_c == pytest.approx(max(fahrenheit(row["degF"]), float(row["degC"])), abs=1e-9)
    assert held.printed == (f"{row['degF']} °F", f"{row['degC']} °C")


def test_food_code_roasts_row_by_row() -> None:
    """US model Food Code 3-401.11(B) [secondary; agrees with two adopted state texts]."""
    (table,) = FOOD_CODE.tables_for(INTACT_ROAST)
    published = rows("food_code_roasts")
    assert table.clause == "3-401.11(B)"
    assert len(table.rows) == len(published) == 17
    for held, row in zip(table.rows, published, strict=True):
        assert_row(held, row, row["hold_seconds"])


@pytest.mark.parametrize(
    ("log", "column"), [("6.5-log", "t_6.5log_s"), ("7-log", "t_7log_s")], ids=["6.5", "7"]
)
def test_appendix_a_row_by_row(log: str, column: str) -> None:
    """FSIS Appendix A, 1999 table [secondary]."""
    (table,) = rule_sets()[f"us-fsis-appendix-a-1999-{log}"].tables_for(INTACT_ROAST)
    published = rows("appendix_a")
    assert len(table.rows) == len(published) == 31
    for held, row in zip(table.rows, published, strict=True):
        assert_row(held, row, row[column])


TIMED = [row for row in rows("appendix_a") if float(row["t_6.5log_s"]) > 0]


@pytest.mark.parametrize("row", TIMED, ids=lambda row: row["degF"])
def test_appendix_a_by_formula(row: Mapping[str, str]) -> None:
    """111.3 min x 10^(-(F - 130) / 10.005) gives 28 of 28 timed rows of the 6.5-log column.

    Rounded up to the minute up to 145 °F and to the second above [computed, a fit].
    """
    assert len(TIMED) == 28
    degrees = int(row["degF"])
    minutes = 111.3 * 10 ** (-(degrees - 130) / 10.005)
    seconds = ceil(minutes) * 60 if degrees <= 145 else ceil(minutes * 60)
    (table,) = rule_sets()["us-fsis-appendix-a-1999-6.5-log"].tables_for(INTACT_ROAST)
    held = next(r for r in table.rows if r.printed[0] == f"{degrees} °F")
    assert held.hold_s == seconds


@pytest.mark.parametrize(
    ("celsius", "seconds"), [(60, 2700), (65, 600), (70, 120), (75, 30), (80, 6)]
)
def test_uk_equivalents(celsius: float, seconds: float) -> None:
    """United Kingdom [secondary]."""
    (table,) = rule_sets()["uk-core-equivalents"].tables_for(INTACT_ROAST)
    assert {row.at_c: row.hold_s for row in table.rows}[celsius] == pytest.approx(seconds)


def test_uk_burgers_follow_z_6() -> None:
    """ACMSF 2007 [read]: z = 6 K about 2 min at 70 °C; 65 °C 13.6 min, 75 °C 18 s."""
    ground = Food(Species.BEEF, frozenset({Form.GROUND}), Cut.OTHER)
    (table,) = rule_sets()["uk-acmsf-2007-burgers"].tables_for(ground)
    for row in table.rows:
        assert row.hold_min == pytest.approx(2 * 10 ** ((70 - row.at_c) / 6), abs=0.06)


@pytest.mark.parametrize(
    ("food", "rows_f"),
    [
        (Food(Species.BEEF, frozenset({Form.GROUND}), Cut.OTHER), {155: 17, 150: 60, 145: 180}),
        (Food(Species.PORK, frozenset({Form.INJECTED})), {155: 17, 158: 0}),
        (Food(Species.LAMB, frozenset({Form.TENDERISED}), Cut.STEAK), {155: 17}),
        (Food(Species.POULTRY), {165: 0}),
        (Food(Species.POULTRY, frozenset({Form.GROUND}), Cut.OTHER), {165: 0}),
        (Food(Species.PORK, frozenset({Form.STUFFED})), {165: 0}),
        (Food(Species.BEEF, frozenset({Form.STUFFED, Form.GROUND})), {165: 0}),
        (Food(Species.GAME), {165: 0}),
        (Food(Species.PORK, cut=Cut.STEAK), {145: 15}),
    ],
    ids=str,
)
def test_other_food_code_clauses(food: Food, rows_f: Mapping[int, float]) -> None:
    """US model Food Code 3-401.11(A) [secondary; poultry's under one second from memory]."""
    found = {(row.printed[0], row.hold_s) for t in FOOD_CODE.tables_for(food) for row in t.rows}
    assert {(f"{f} °F", s) for f, s in rows_f.items()} <= found


def test_no_red_meat_table_covers_poultry() -> None:
    for rule_set in rule_sets().values():
        for table in rule_set.tables_for(Food(Species.POULTRY)):
            assert Species.BEEF not in table.scope.species or table.scope.species == set(Species)
    for log in ("6.5-log", "7-log"):
        assert not rule_sets()[f"us-fsis-appendix-a-1999-{log}"].tables_for(Food(Species.POULTRY))


def test_every_rule_set_names_its_edition_and_status() -> None:
    for rule_set in rule_sets().values():
        assert rule_set.edition in rule_set.name
        assert "Check your own jurisdiction's text" in rule_set.status


def test_the_storage_of_reduced_oxygen_packages() -> None:
    """3-502.12(D): 34 °F up to 30 days [read], 41 °F 7 days [from memory]."""
    packaging = FOOD_CODE.packaging
    assert packaging is not None
    assert packaging.longest_days(fahrenheit("34")) == 30
    assert packaging.longest_days(4) == 7
    assert packaging.longest_days(6) is None


OWN: dict[str, object] = {
    "title": "County rule",
    "authority": "An invented county",
    "jurisdiction": "Nowhere",
    "edition": 2024,
    "status": "invented for this test",
    "holds": [
        {
            "clause": "7(b)",
            "title": "roasts",
            "status": "invented",
            "species": ["beef"],
            "sealed or humid": "yes",
            "rows": [["131 °F", "55.0 °C", "90 min"], ["60 °C", "12 min"]],
        }
    ],
}


def test_a_kitchens_own_file_is_a_rule_set() -> None:
    rule_set = parse_rule_set(OWN, "county")
    assert rule_set.name == "County rule, 2024"
    assert [(row.at_c, row.hold_s) for row in rule_set.holds[0].rows] == [(55, 5400), (60, 720)]
    assert rule_set.holds[0].moist


def changed(path: tuple[str | int, ...], value: object) -> dict[str, object]:
    """Return the own file with one value replaced, or taken out when it is None."""
    data = deepcopy(OWN)
    place: object = data
    for step in path[:-1]:
        place = place[step]  # type: ignore[index]
    place[path[-1]] = value  # type: ignore[index]
    return data


ROW = ("holds", 0, "rows", 0)


@pytest.mark.parametrize(
    ("path", "value", "at", "message"),
    [
        (("title",), None, "title", "missing"),
        (("edition",), "", "edition", "a text belongs here"),
        (("editon",), "x", "editon", 'did you mean "edition"'),
        (("holds",), "x", "holds", "a list belongs here"),
        (("holds",), None, "the rule set", "at least one of holds, forbids, cooling"),
        (("holds", 0), "x", "holds[0]", "a mapping of keys"),
        (("holds", 0, "species", 0), "beaf", "holds[0].species[0]", 'did you mean "beef"'),
        (("holds", 0, "species"), [], "holds[0].species", "names nothing"),
        (("holds", 0, "sealed or humid"), "maybe", "holds[0].sealed or humid", "yes nor no"),
        (("holds", 0, "rows"), [], "holds[0].rows", "no rows"),
        (ROW, ["131 °F"], "holds[0].rows[0]", "a row is a list"),
        ((*ROW, 0), 131, "holds[0].rows[0][0]", "no temperature with a unit"),
        ((*ROW, 0), "131", "holds[0].rows[0][0]", "has no unit"),
        ((*ROW, 0), "131 min", "holds[0].rows[0][0]", "min"),
        ((*ROW, 0), "400 °C", "holds[0].rows[0][0]", "outside -40 to 150 °C"),
        ((*ROW, 0), "133 °F", "holds[0].rows[0]", "are not the same temperature"),
        ((*ROW, 2), "90", "holds[0].rows[0][2]", "has no unit"),
        ((*ROW, 2), "5 min", "holds[0].rows[1]", "a hotter row has no longer hold"),
        (ROW, ["61 °C", "90 min"], "holds[0].rows[1]", "hotter than the one before"),
    ],
    ids=lambda value: str(value)[:30],
)  # fmt: skip
def test_a_wrong_value_is_named_by_its_path(
    path: tuple[str | int, ...], value: object, at: str, message: str
) -> None:
    with pytest.raises(RuleSetError) as caught:
        parse_rule_set(changed(path, value))
    text = str(caught.value)
    assert text.startswith(f"{at}: ")
    assert message in text
    assert isinstance(caught.value, ValueError)


@pytest.mark.parametrize(
    ("key", "value", "at"),
    [
        ("forbids", [{"from": "60 °C", "to": "55 °C", "in all": "6 h"}], "forbids[0].to"),
        ("forbids", [{"from": "55 °C", "to": "60 °C", "in all": "0 h"}], "forbids[0].in all"),
        ("cooling", {"stages": []}, "cooling.stages"),
        ("cooling", {"stages": [{"from": "5 °C", "to": "57 °C", "within": "2 h"}]},
         "cooling.stages[0].from"),
        ("come up", {"from": "50 °F", "to": "130 °F", "within": 6}, "come up.within"),
        ("hot holding", [{"at": "hot"}], "hot holding[0].at"),
        ("reheating", {"at": "165 °F"}, "reheating.for"),
        ("packaging", {"limits": [{"at": "3 °C", "for": "5 d"}]}, "packaging.limits[0].status"),
    ],
)  # fmt: skip
def test_a_wrong_clause_is_named_by_its_path(key: str, value: object, at: str) -> None:
    cite = {"clause": "1", "title": "t", "status": "invented"}
    whole = [{**cite, **item} for item in value] if isinstance(value, list) else value
    if isinstance(value, dict):
        whole = {**cite, **value}
    with pytest.raises(RuleSetError) as caught:
        parse_rule_set({**OWN, key: whole})
    assert str(caught.value).startswith(f"{at}: ")


@pytest.mark.parametrize("others", [{Form.GROUND}, {Form.INJECTED, Form.STUFFED}])
def test_intact_and_anything_else_is_refused(others: set[Form]) -> None:
    with pytest.raises(ValueError, match="a piece marked intact cannot also be"):
        Food(Species.BEEF, frozenset({Form.INTACT, *others}))


def test_a_food_without_a_form_is_refused() -> None:
    with pytest.raises(ValueError, match="what was done to it"):
        Food(Species.BEEF, frozenset())


def test_prints_of_one_limit_are_the_same_temperature() -> None:
    cite = {"clause": "1", "title": "hot holding", "status": "invented"}
    held = parse_rule_set({**OWN, "hot holding": [{**cite, "at": "135 °F / 57.2 °C"}]})
    assert held.hot_holding[0].least_c == 57.2
    assert held.hot_holding[0].at_c == pytest.approx(fahrenheit("135"))
    with pytest.raises(RuleSetError, match="135 °F and 60 °C are not the same temperature"):
        parse_rule_set({**OWN, "hot holding": [{**cite, "at": "135 °F / 60 °C"}]})


def test_only_a_clause_that_says_what_lower_needs_is_the_least() -> None:
    """Every clause of 3-401.11 is a floor: lower needs a variance [(D), from memory]."""
    floors = {table.clause for table in FOOD_CODE.holds if table.lower_needs}
    assert floors == {"3-401.11(A)(1)", "3-401.11(A)(2)", "3-401.11(A)(3)", "3-401.11(B)"}
    for food in (Food(s, frozenset({f}), c) for s in Species for f in Form for c in Cut):
        assert FOOD_CODE.tables_for(food), food


def test_what_follows_a_cook_has_its_clauses() -> None:
    """3-403.11(E), 3-403.10, 3-502.12(D) [read], 3-501.17 [day 1 read, 7 days from memory]."""
    again, bag, keeping = FOOD_CODE.reheating, FOOD_CODE.packaging, FOOD_CODE.keeping
    assert again is not None
    assert again.as_cooked is not None
    assert again.to_order is not None
    assert (again.as_cooked.clause, again.as_cooked.table) == ("3-403.11(E)", "3-401.11(B)")
    assert again.to_order.clause == "3-403.10"
    assert bag is not None
    assert (bag.cooked_by, bag.cooled_by) == ("3-401.11", "3-501.14")
    assert keeping is not None
    assert (keeping.clause, keeping.first_day_counts) == ("3-501.17", True)
    assert keeping.longest_days(fahrenheit("41")) == 7


def test_the_coldest_that_a_rule_may_name_is_minus_40() -> None:
    """-40 is the one temperature that both scales write alike: -40 x 1.8 + 32 = -40."""
    assert temperature_c("-40 °C", ()) == -40
    assert temperature_c("-40 °F", ()) == pytest.approx(-40, abs=1e-12)
    assert temperature_c("150 °C", ()) == 150
    for outside in ("-40.1 °C", "150.1 °C"):
        with pytest.raises(RuleSetError, match="outside -40 to 150"):
            temperature_c(outside, ())


def test_the_longest_hold_is_400_days() -> None:
    assert (seconds("0 s", ()), seconds("400 d", ())) == (0, 400 * 86400)
    with pytest.raises(RuleSetError, match="outside 0 s to 400 d"):
        seconds("401 d", ())


def test_game_is_taken_as_wild_and_the_rule_says_so() -> None:
    """3-401.11(A)(3), wild game 165 °F [secondary]; game raised for food is in (A)(1) [memory]."""
    [game] = [
        table for table in FOOD_CODE.holds if Species.GAME in table.scope.species and table.taken_as
    ]
    assert (game.clause, game.rows[0].printed) == ("3-401.11(A)(3)", ("165 °F", "73.9 °C"))
    assert "taken as wild" in game.taken_as
    assert FOOD_CODE.tables_for(Food(Species.GAME)) == (game,)
    poultry = FOOD_CODE.tables_for(Food(Species.POULTRY))
    assert [table.rows for table in poultry] == [game.rows]
    assert not any(table.taken_as for table in poultry)
