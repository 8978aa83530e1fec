"""Allergens: the laws' lists, the words that are read, and what goes up through the recipes."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.data.allergens import laws, vocabulary
from builder.problems import Place
from builder.reading.tree import Text
from builder.records.allergens import Allergen, Stated, meaning_of
from builder.records.contained import beyond, contained, list_of, state_of
from builder.records.content import Content, load
from builder.records.fields import Measure
from builder.records.kinds import PantryItem
from builder.records.kitchen import Kitchen
from tests.kitchens import TODAY, read, write

# Regulation (EU) No 1169/2011, Annex II, heads of items 1 to 14 in the order of the annex [items 1
# to 8 from a university's copy, 9 to 14 from shorter lists of the annex].
ANNEX_II = (
    "cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk",
    "nuts", "celery", "mustard", "sesame seeds", "sulphur dioxide", "lupin", "molluscs",
)  # fmt: skip
# The cereals and the nuts that items 1 and 8 name.
ANNEX_CEREALS = ("wheat", "spelt", "khorasan wheat", "rye", "barley", "oats")
ANNEX_NUTS = (
    "almonds", "hazelnuts", "walnuts", "cashews", "pecan nuts", "Brazil nuts", "pistachio nuts",
    "macadamia nuts", "Queensland nuts",
)  # fmt: skip
# 21 U.S.C. 321(qq)(1) [secondary, as two law firms quote it]; sesame by the FASTER Act of 2021.
US_NINE = (
    "milk", "egg", "fish", "crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans",
    "sesame",
)  # fmt: skip

KITCHEN = "name: K\ncurrency: EUR\n"


def meant(word: str) -> str:
    """The row that a law's own word leads to."""
    whole, kind = vocabulary().meanings[word.lower()]
    return kind or whole


def test_the_lists_are_those_of_the_laws() -> None:
    eu, us = laws()["eu-1169-2011"], laws()["us-falcpa-faster"]
    # Item 8 says only "nuts", which a file must not, as a peanut is none.
    heads = ["tree nuts" if head == "nuts" else meant(head) for head in ANNEX_II]
    assert [row.name for row in eu.rows] == heads
    assert [row.clause for row in eu.rows] == [f"item {n}" for n in range(1, 15)]
    assert {row.name for row in us.rows} == {meant(word) for word in US_NINE}
    assert all(law.source and law.status for law in laws().values())


def test_the_cereals_and_nuts_of_the_annex_are_kinds() -> None:
    assert {vocabulary().meanings[word][0] for word in ANNEX_CEREALS} == {"gluten"}
    assert {vocabulary().meanings[word.lower()][0] for word in ANNEX_NUTS} == {"tree nuts"}
    assert all(vocabulary().meanings[word.lower()][1] for word in (*ANNEX_CEREALS, *ANNEX_NUTS))


def test_no_word_is_read_and_refused() -> None:
    words = vocabulary()
    assert not set(words.unclear) & set(words.meanings)
    assert all(meaning_of(word.lower(), {}) for meant in words.unclear.values() for word in meant)
    assert all(word == word.lower() for word in words.meanings)


@pytest.mark.parametrize(
    ("written", "law", "why"),
    [
        ("", "eu-1169-2011", "longest"),
        ("locale: de_AT\n", "eu-1169-2011", "locale"),
        ("locale: en_GB\n", "eu-1169-2011", "locale"),
        ("locale: en_US\n", "us-falcpa-faster", "locale"),
        ("locale: en_CA\n", "eu-1169-2011", "longest"),
        ("locale: de_AT\nauthority: us-food-code-2017\n", "us-falcpa-faster", "authority"),
        ("locale: de_AT\nallergens: us\n", "us-falcpa-faster", ""),
        ("locale: en_US\nallergens: {own: [kiwi]}\n", "us-falcpa-faster", "locale"),
        ("allergens: EU-1169-2011\n", "eu-1169-2011", ""),
    ],
)
def test_the_list_is_chosen_or_a_default_that_says_so(
    written: str, law: str, why: str, tmp_path: Path
) -> None:
    found = list_of(kitchen_of(tmp_path, {"kitchen.yaml": KITCHEN + written}).kitchen)
    assert found.law is not None
    assert found.law.id == law
    assert (why in found.why) if why else not found.why


def kitchen_of(root: Path, files: Mapping[str, str]) -> Content:
    content, problems = load(write(root, {"kitchen.yaml": KITCHEN, **files}), None, TODAY)
    assert not [str(p) for p in problems if p.is_error]
    return content


def test_a_list_of_the_kitchen_has_its_own_words(tmp_path: Path) -> None:
    files = {
        "kitchen.yaml": f"{KITCHEN}allergens: {{law: none, own: {{Buck-wheat: soba, prawn: []}}}}",
        "pantry/noodles.yaml": "price: 4/kg\nallergens: [Soba, prawns, dairy]\n",
    }
    content = kitchen_of(tmp_path, files)
    found = contained(content, content.pantry["noodles"])
    rows = list_of(content.kitchen).rows
    assert rows == ("buck wheat", "prawns")
    assert [state_of(row, found) for row in rows] == ["contains", "contains"]
    # What the list does not name is not dropped.
    assert beyond(rows, [found]) == ["milk"]


def test_a_lone_list_in_the_kitchen_is_its_own(tmp_path: Path) -> None:
    files = {"kitchen.yaml": f"{KITCHEN}allergens: [milk, kiwi]\n"}
    assert list_of(kitchen_of(tmp_path, files).kitchen).rows == ("milk", "kiwi")


US_FLOURS = {
    "kitchen.yaml": f"{KITCHEN}allergens: us\n",
    "pantry/flour.yaml": "price: 2/kg\nallergens: [gluten]\n",
    "pantry/spelt.yaml": "price: 2/kg\nallergens: [spelt]\n",
    "pantry/barley.yaml": "price: 2/kg\nallergens: [barley]\n",
}


@pytest.mark.parametrize(
    ("item", "wheat"), [("flour", "not stated"), ("spelt", "contains"), ("barley", "")]
)
def test_gluten_does_not_say_whether_it_is_wheat(item: str, wheat: str, tmp_path: Path) -> None:
    content = kitchen_of(tmp_path, US_FLOURS)
    found = contained(content, content.pantry[item])
    assert state_of("wheat", found) == wheat
    assert state_of("gluten", found) == "contains"


# What is known, through the recipes

PLATE = {
    "cuts/cod.yaml": "species: fish\nprice: 20/kg\nallergens: [cod]\n",
    "cuts/pork.yaml": "species: pork\nprice: 9/kg\n",
    "cooks/cod-pan.yaml": "cut: cod\nhow: pan\nload: 2 kg\nloss: 10 %\n",
    "cooks/pork-pan.yaml": "cut: pork\nhow: pan\nload: 2 kg\nloss: 10 %\n",
    "pantry/butter.yaml": "price: 9/kg\nallergens: [milk]\nmay contain: [tree nuts]\n",
    "pantry/nuts.yaml": "price: 9/kg\nallergens: [walnuts]\n",
    "pantry/salt.yaml": "price: 1/kg\nallergens: none\n",
    "pantry/stock.yaml": "price: 1/kg\n",
    "pantry/sauce.yaml": "of: {butter: 1 kg, salt: 10 g}\nmakes: 1 kg\n",
    "pantry/gravy.yaml": "of: {sauce: 1 kg, stock: 1 kg}\nmakes: 2 kg\n",
    "plates/cod.yaml": "menu: fish\ncook: cod-pan\nportion: 90 g\nwith: {sauce: 20 g}\nprice: 20\n",
    "plates/pork.yaml": "menu: pig\ncook: pork-pan\nportion: 90 g\nwith: {salt: 2 g}\nprice: 20\n",
    "plates/dip.yaml": "menu: mains\nwith: {gravy: 50 g, nuts: 5 g}\nprice: 5\nallergens: [egg]\n",
}


@pytest.fixture(scope="module")
def plates(tmp_path_factory: pytest.TempPathFactory) -> Content:
    return kitchen_of(tmp_path_factory.mktemp("plates"), PLATE)


@pytest.mark.parametrize(
    ("plate", "row", "state"),
    [
        ("cod", "fish", "contains"),
        ("cod", "milk", "contains"),
        ("cod", "tree nuts", "may contain"),
        ("cod", "soy", ""),
        ("pork", "soy", "not stated"),
        ("dip", "milk", "contains"),
        ("dip", "eggs", "contains"),
        ("dip", "tree nuts", "contains"),
        ("dip", "soy", "not stated"),
    ],
)
def test_what_a_plate_contains(plates: Content, plate: str, row: str, state: str) -> None:
    assert state_of(row, contained(plates, plates.plates[plate])) == state


def test_what_states_nothing_is_named_as_far_as_the_plate(plates: Content) -> None:
    unstated = {
        name: [record.path for record in contained(plates, plate).unstated]
        for name, plate in plates.plates.items()
    }
    assert unstated == {"cod": [], "pork": ["cuts/pork"], "dip": ["pantry/stock"]}


GRAM = Measure(0.001, Place(""), "1 g")
STATED = st.one_of(st.none(), st.just("none"), st.lists(st.sampled_from(["milk", "fish", "soy"])))


@given(
    stated=st.lists(STATED, min_size=6, max_size=6),
    links=st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5)), max_size=10),
)
@settings(max_examples=60, deadline=None)
def test_any_recipe_contains_what_a_walk_by_hand_finds(
    stated: list[str | list[str] | None], links: list[tuple[int, int]]
) -> None:
    """Each item is made of later ones only; the walk here goes by calls, not by a list."""
    below = {n: [to for of, to in links if of == n and to > n] for n in range(6)}
    items = {str(n): _item(n, stated[n], below[n]) for n in range(6)}
    # Only the pantry is looked at, and the list that the kitchen goes by.
    content = object.__new__(Content)
    object.__setattr__(content, "kinds", {"pantry": items})
    word = Text("CAD", "kitchen.yaml", 1, 1)
    kitchen = Kitchen.model_construct(
        name=word, currency=word, allergens=None, authority=None, locale=None
    )
    object.__setattr__(content, "kitchen", kitchen)
    for n in range(6):
        found = contained(content, items[str(n)])
        names, unknown = _walked(n, stated, below)
        assert {name for name, _ in found.contains} == names
        assert {int(record.id) for record in found.unstated} == unknown


def _item(n: int, stated: str | list[str] | None, below: list[int]) -> PantryItem:
    place = Place("")
    found = tuple(Allergen(name, "", place) for name in stated or () if stated != "none")
    said = None if stated is None else Stated(found, stated == "none", place)
    amounts = {Text(str(to)): GRAM for to in below}
    item = PantryItem.model_construct(of=amounts, allergens=said, may_contain=None)
    return item.named(str(n), f"pantry/{n}.yaml")


def _walked(
    n: int, stated: list[str | list[str] | None], below: dict[int, list[int]]
) -> tuple[set[str], set[int]]:
    own = stated[n]
    names = set(own) if isinstance(own, list) else set[str]()
    unknown = {n} if not own and not below[n] else set[int]()
    for to in below[n]:
        more, open_ = _walked(to, stated, below)
        names, unknown = names | more, unknown | open_
    return names, unknown


def test_a_named_kind_is_no_trace_as_well(tmp_path: Path) -> None:
    traces = "may contain: [tree nuts, almonds, hazelnuts]\n"
    oil = f"price: 2/kg\nallergens: [hazelnuts]\n{traces}"
    content = kitchen_of(tmp_path, {"pantry/oil.yaml": oil})
    found = contained(content, content.pantry["oil"])
    assert list(found.may) == [("tree nuts", "almonds")]


# What is refused


@pytest.mark.parametrize(
    ("file", "text", "at", "message", "hint"),
    [
        ("kitchen.yaml", "allergens: none\n", "3:12", "lists no allergen", "own:"),
        ("kitchen.yaml", "allergens: euu\n", "3:12", 'no list of allergens is called "euu"', "eu"),
        ("kitchen.yaml", "allergens: milk\n", "3:12", "no list of allergens", "[milk, ...]"),
        ("kitchen.yaml", "allergens: {own: {kiwi: [dairy]}}\n", "3:26", '"dairy" means milk', ""),
        (
            "plates/cod.yaml",
            "allergens: none\n",
            "6:12",
            "Cod contains fish (cod)",
            "take the line",
        ),
        ("pantry/sauce.yaml", "allergens: none\n", "3:12", "Butter contains milk", "counts by"),
        ("pantry/sauce.yaml", "may contain: none\n", "3:14", "may contain tree nuts", "counts"),
    ],
)
def test_what_contradicts_itself_is_refused(
    file: str, text: str, at: str, message: str, hint: str, tmp_path: Path
) -> None:
    files = {"kitchen.yaml": KITCHEN, **PLATE}
    _, problems = read(write(tmp_path, {**files, file: files[file] + text}))
    [error] = [problem for problem in problems if problem.is_error]
    assert str(error.place) == f"{file}:{at}"
    assert message in error.message
    assert hint in error.hint


def test_a_fish_that_is_said_to_contain_none_is_refused(tmp_path: Path) -> None:
    cod = PLATE["cuts/cod.yaml"].replace("[cod]", "none")
    _, problems = read(write(tmp_path, {"kitchen.yaml": KITCHEN, **PLATE, "cuts/cod.yaml": cod}))
    [error] = [problem for problem in problems if problem.is_error]
    assert (str(error.place), error.hint) == ("cuts/cod.yaml:3:12", "write [fish]")


def test_an_empty_list_is_not_none(tmp_path: Path) -> None:
    files = {"kitchen.yaml": KITCHEN, **PLATE, "pantry/salt.yaml": "price: 1/kg\nallergens: []\n"}
    costed, problems = read(write(tmp_path, files))
    assert costed is not None
    [found] = [problem for problem in problems if "empty list" in problem.message]
    assert not found.is_error
    assert "pantry/salt" in [
        record.path for record in contained(costed.content, costed.content.plates["pork"]).unstated
    ]


def test_own_words_that_cannot_be_read_refuse_no_other_file(tmp_path: Path) -> None:
    """One mistake in kitchen.yaml is one error, though another file leans on what is there."""
    files = {
        "kitchen.yaml": f"{KITCHEN}allergens: {{own: buckwheat}}\n",
        "pantry/noodles.yaml": "price: 4/kg\nallergens: [buckwheat]\n",
    }
    _, problems = read(write(tmp_path, files))
    [error] = [problem for problem in problems if problem.is_error]
    assert str(error.place) == "kitchen.yaml:3:18"
