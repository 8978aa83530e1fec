"""Sub-recipes nested to any depth against recursion on exact fractions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.yields.exact import money
from tests.yields.test_chain import costed

WAGE, TARIFF = 2450, 14


@dataclass(frozen=True)
class Bought:
    """Cents a unit and usable per cent; one of it weighs `grams`."""

    unit: str
    cents: int
    usable: int
    grams: int

    def yaml(self) -> str:
        weight = {"each": "each", "L": "litre"}.get(self.unit)
        reported = f"{weight}: {self.grams} g\n" if weight else ""
        return f"price: {money(self.cents)}/{self.unit}\nyield: {self.usable} %\n{reported}"


@dataclass(frozen=True)
class Made:
    """Ingredients in the unit of each (thousandths of kg and L, or each) and what they make."""

    of: Mapping[str, int]
    makes_grams: int | None
    yield_: int
    minutes: int
    watt_hours: int


Items = Mapping[str, Bought | Made]


def unit_of(item: Bought | Made) -> str:
    return item.unit if isinstance(item, Bought) else "kg"


def amount(item: Bought | Made, number: int) -> str:
    return f"{number} { ({'kg': 'g', 'L': 'ml'}.get(unit_of(item), 'each')) }"


def quantity(item: Bought | Made, number: int) -> Fraction:
    """A written number in the unit that the item is priced by."""
    return Fraction(number, 1 if unit_of(item) == "each" else 1000)


def made_yaml(item: Made, items: Items) -> str:
    lines = ", ".join(f"{name}: {amount(items[name], n)}" for name, n in item.of.items())
    makes = f"makes: {item.makes_grams} g" if item.makes_grams else f"yield: {item.yield_} %"
    work = f"hands-on: {item.minutes} min\nenergy: {item.watt_hours / 1000:.3f} kWh\n"
    return f"of: {{{lines}}}\n{makes}\n{work}"


def mass(item: Bought | Made, number: int) -> Fraction:
    """Weight of a written number, in kg."""
    each = Fraction(item.grams, 1000) if isinstance(item, Bought) else Fraction(1)
    return quantity(item, number) * (each if unit_of(item) != "kg" else 1)


def makes(item: Made, items: Items) -> Fraction:
    if item.makes_grams:
        return Fraction(item.makes_grams, 1000)
    whole = sum((mass(items[name], n) for name, n in item.of.items()), Fraction(0))
    return whole * Fraction(item.yield_, 100)


def per_unit(name: str, items: Items) -> tuple[Fraction, Fraction, Fraction]:
    """Food in cents, work in hours, process in cents: for a unit, by recursion."""
    item = items[name]
    if isinstance(item, Bought):
        return Fraction(item.cents * 100, item.usable), Fraction(0), Fraction(0)
    food = Fraction(0)
    hours, process = Fraction(item.minutes, 60), Fraction(item.watt_hours * TARIFF, 1000)
    for ingredient, number in item.of.items():
        its = per_unit(ingredient, items)
        used = quantity(items[ingredient], number)
        food, hours, process = food + used * its[0], hours + used * its[1], process + used * its[2]
    made = makes(item, items)
    return food / made, hours / made, process / made


bought = st.builds(
    Bought,
    st.sampled_from(["kg", "L", "each"]),
    st.integers(1, 9999),
    st.integers(40, 100),
    st.integers(10, 2000),
)


@st.composite
def pantries(draw: st.DrawFn) -> dict[str, Bought | Made]:
    """One to four items bought, and up to five made of any before them, named in no order."""
    names = draw(st.permutations(["anise", "bones", "curd", "dill", "egg", "fond", "glaze"]))
    items: dict[str, Bought | Made] = {}
    for name in names[: draw(st.integers(1, 3))]:
        items[name] = draw(bought)
    for name in names[len(items) : len(items) + draw(st.integers(1, 4))]:
        of = draw(st.dictionaries(st.sampled_from(list(items)), st.integers(1, 900), min_size=1))
        grams = draw(st.none() | st.integers(50, 5000))
        items[name] = Made(
            of, grams, draw(st.integers(30, 100)), draw(st.integers(0, 90)), draw(NUMBER)
        )
    return items


NUMBER = st.integers(0, 9000)
KITCHEN = "name: Random\ncurrency: CAD\nloaded wage: 24.50/h\nenergy: 0.14/kWh\nseasoning: 3 %\n"


def files_of(items: Items) -> dict[str, str]:
    texts = {
        name: item.yaml() if isinstance(item, Bought) else made_yaml(item, items)
        for name, item in items.items()
    }
    return {
        "kitchen.yaml": KITCHEN,
        **{f"pantry/{name}.yaml": text for name, text in texts.items()},
    }


@settings(max_examples=60, deadline=None)
@given(pantries(), st.integers(1, 700), st.integers(0, 30))
def test_nested_recipes_cost_what_recursion_says(
    items: dict[str, Bought | Made], number: int, minutes: int
) -> None:
    """Units, and a plate of the last item with its seasoning, work and energy apart."""
    last = list(items)[-1]
    plate = (
        f"menu: mains\nwith: {{{last}: {amount(items[last], number)}}}\n"
        f"price: 30.00\nhands-on: {minutes} min\n"
    )
    kitchen = costed({**files_of(items), "plates/plate.yaml": plate})
    for name, row in kitchen.rows.pantry.items():
        for figure, exact, scale in zip(
            ("food_per_unit", "hours_per_unit", "process_per_unit"),
            per_unit(name, items),
            (100, 1, 100),
            strict=True,
        ):
            found = kitchen.figures.value("pantry", figure, row)
            assert found == pytest.approx(float(exact / scale), rel=1e-9, abs=1e-12), (name, figure)
    food, hours, process = (quantity(items[last], number) * x for x in per_unit(last, items))
    hours += Fraction(minutes, 60)
    seasoned = food * Fraction(103, 100)
    costs = {
        "food_cost": seasoned,
        "labour_cost": hours * WAGE,
        "prime_cost": seasoned + hours * WAGE,
        "process_per_plate": process,
        "full_cost": seasoned + hours * WAGE + process,
    }
    for figure, exact in costs.items():
        found = kitchen.figures.value("plate", figure, 0)
        assert found == pytest.approx(float(exact / 100), rel=1e-9, abs=1e-12), figure


@pytest.mark.parametrize(
    ("written", "litres"), [("litre: 920 g", 1.0), ("quart: 920 g", 0.946_352_946)]
)
def test_a_quart_weighs_as_well_as_a_litre(written: str, litres: float) -> None:
    """A US quart is 57.75 cubic inches (NIST Handbook 44, Appendix C): 0.946352946 L."""
    kitchen = costed(
        {
            "kitchen.yaml": "name: Units\ncurrency: CAD\n",
            "pantry/oil.yaml": f"price: 4.00/L\n{written}\n",
            "plates/salad.yaml": "menu: mains\nwith: {oil: 92 g}\nprice: 14.00\n",
        }
    )
    by_hand = 0.092 * litres / 0.920 * 4.00
    assert kitchen.figures.value("plate", "food_cost", 0) == pytest.approx(by_hand, rel=1e-9)


def test_amounts_cross_units_by_what_one_weighs() -> None:
    """Bought by the case and by the litre, used by weight and by the spoon (US, NIST HB 44)."""
    kitchen = costed(
        {
            "kitchen.yaml": "name: Units\ncurrency: CAD\n",
            "pantry/eggs.yaml": "price: 60.00/case of 180\neach: 50 g\n",
            "pantry/oil.yaml": "price: 12.00/3 L\nlitre: 920 g\n",
            "plates/omelette.yaml": (
                "menu: mains\nwith: {eggs: 150 g, oil: 1 fl oz}\nprice: 14.00\n"
            ),
        }
    )
    eggs = 3 * 60.00 / 180
    oil = 29.573_529_562_5 / 1000 * 4.00
    assert kitchen.figures.value("plate", "food_cost", 0) == pytest.approx(eggs + oil, rel=1e-12)
