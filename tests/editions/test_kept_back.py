"""Which figures are kept back: what is shown rests on nothing withheld, so nothing follows."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping

import numpy as np
import pytest

from builder.costing.model import MODEL
from builder.engine.arith import Column
from builder.engine.figures import Figures
from builder.engine.model import Node
from builder.engine.tables import Applied, Entered, Given
from builder.pages.editions import reader_of
from builder.pages.kept_words import kept_words
from builder.pages.reader import group_of, kept_back, own_group
from builder.records.editions import GROUPS, KINDS, NAMES, PARTS, Group, edition
from tests.editions.made import computed
from tests.editions.small import SMALL, written

GRANTS = 300


def grants() -> Iterator[frozenset[Group]]:
    """Groups by chance, few and many."""
    dice = random.Random(20261128)
    for _ in range(GRANTS):
        share = dice.choice((0.2, 0.5, 0.8, 0.95))
        yield frozenset(group for group in GROUPS if dice.random() < share)


def test_what_is_shown_is_made_of_what_is_shown() -> None:
    for groups in grants():
        hidden = kept_back(MODEL, groups)
        for node in MODEL.needs:
            if node not in hidden:
                assert not hidden.keys() & set(MODEL.upstream([node])), (groups, node)


def test_what_is_withheld_can_be_made_of_nothing_that_is_shown() -> None:
    for groups in grants():
        hidden = kept_back(MODEL, groups)
        for node in hidden:
            needs = set(MODEL.needs[node]) - {node}
            assert not needs or needs & hidden.keys(), (groups, node)


def test_a_figure_of_a_group_that_is_not_granted_is_withheld() -> None:
    for groups in grants():
        hidden = kept_back(MODEL, groups)
        for node in MODEL.needs:
            group = own_group(MODEL, node)
            assert group is None or group in groups or node in hidden


def test_everything_granted_hides_nothing() -> None:
    assert not kept_back(MODEL, frozenset(GROUPS))


@pytest.fixture(scope="module")
def figures(tmp_path_factory: pytest.TempPathFactory) -> Figures:
    return computed(written(SMALL, tmp_path_factory.mktemp("kitchen")))[0].figures


def moved(figures: Figures, nodes: Iterator[Node], seed: int) -> Mapping[Node, Column]:
    """Given columns, each value of them somewhere else within a third."""
    dice = np.random.default_rng(seed)
    columns = {node: figures.column(*node) for node in nodes}
    return {
        node: column * dice.uniform(0.7, 1.3, column.shape)
        for node, column in columns.items()
        if np.isfinite(column).any()
    }


def test_solving_for_an_input_fails_as_it_may_lie_anywhere(figures: Figures) -> None:
    """Withheld inputs, all of them or one alone, move, and no figure that is shown does.

    So no equations in the shown figures, however many, have one solution for any of them.
    """
    for seed, groups in enumerate(list(grants())[:60]):
        hidden = kept_back(MODEL, groups)
        given = [node for node in hidden if isinstance(MODEL.definition(node).how, Given)]
        one = random.Random(seed).choice(given) if given else None
        for inputs in (given, [one] if one else []):
            after = figures.moved(moved(figures, iter(inputs), seed))
            for node in MODEL.needs:
                if node not in hidden:
                    assert np.array_equal(
                        figures.column(*node), after.column(*node), equal_nan=True
                    ), (groups, node)


def test_what_is_withheld_moves_with_what_it_is_made_of(figures: Figures) -> None:
    """No withheld formula is settled by what is shown: another is as possible."""
    for seed, groups in enumerate(list(grants())[:60]):
        hidden = kept_back(MODEL, groups)
        given = (node for node in hidden if isinstance(MODEL.definition(node).how, Given))
        after = figures.moved(moved(figures, given, seed))
        for node in hidden:
            before = figures.column(*node)
            if _is_money(node) and np.isfinite(before).any() and (before > 1e-9).any():
                assert not np.array_equal(before, after.column(*node), equal_nan=True), node


def _is_money(node: Node) -> bool:
    """A plain amount: it is never in whole steps, nor cut off, and only a method is not moved."""
    definition = MODEL.definition(node)
    applied = isinstance(definition.how, Applied)
    return definition.unit == "money" and not applied and node[1] in _AMOUNTS


_AMOUNTS = frozenset(("food_cost", "labour_cost", "prime_cost", "full_cost", "net_cost"))


def test_the_wage_does_not_follow_from_labour_and_hours() -> None:
    """Labour without work: the cost would be there and the hours not, so the cost goes, too."""
    hidden = kept_back(MODEL, frozenset(GROUPS) - {"labour"})
    assert ("plate", "labour_cost") in hidden
    assert ("kitchen", "loaded_wage") in hidden
    assert ("plate", "labour_hours") not in hidden
    assert ("plate", "food_cost") not in hidden
    hidden = kept_back(MODEL, frozenset(GROUPS) - {"work"})
    assert ("plate", "labour_cost") in hidden
    assert ("plate", "labour_hours") in hidden
    assert ("kitchen", "loaded_wage") not in hidden


def test_prices_are_kept_back_where_food_costs_would_follow() -> None:
    hidden = kept_back(MODEL, frozenset(GROUPS) - {"food cost"})
    assert hidden["cut", "ap_price"].made_from is False
    assert ("test", "weight_in") not in hidden


def test_a_group_that_gives_another_away_goes_with_it() -> None:
    granted = edition(KINDS, [group for group in GROUPS if group != "food cost"], ())
    reader = reader_of("chef", granted)
    assert set(GROUPS) - reader.groups == {"food cost", "prices"}
    said = " ".join(kept_words(MODEL, reader, granted))
    assert "prices are not shown: with what else is granted, " in said
    assert "(food cost) would follow" in said


def test_the_price_on_the_menu_is_no_margin() -> None:
    alone = reader_of("waiter", edition(KINDS, ["menu prices"], ()))
    assert alone.sees(MODEL, ("plate", "menu_price"))
    assert alone.sees(MODEL, ("plate", "price_ex_tax"))
    assert not alone.sees(MODEL, ("plate", "contribution_margin"))


def test_what_plates_sell_at_their_menu_prices_are_sales() -> None:
    hidden = kept_back(MODEL, frozenset(("menu prices", "sales")))
    assert (
        not {("plate", "month_sales"), ("plate", "sold"), ("kitchen", "menu_sales")} & hidden.keys()
    )
    assert {("plate", "month_margin"), ("kitchen", "menu_margin")} <= hidden.keys()


def test_what_is_made_from_records_that_are_not_granted_is_hidden() -> None:
    """Sums over plates, hours that they book, and what was sold by the counts."""
    kinds = [kind for kind in KINDS if kind != "plates" and "plates" not in NAMES.get(kind, ())]
    hidden = reader_of("cook", edition(kinds, GROUPS, PARTS)).hidden(MODEL)
    assert {("kitchen", "menu_sold"), ("equipment", "hours_booked")} <= hidden
    assert ("batch", "cost_per_servable_kg") not in hidden
    kinds = [kind for kind in KINDS if kind != "counts"]
    hidden = reader_of("chef", edition(kinds, GROUPS, PARTS)).hidden(MODEL)
    assert ("swap", "sold_since") in hidden
    assert ("swap", "saving") not in hidden


def test_the_build_says_which_and_why() -> None:
    granted = edition(KINDS, [group for group in GROUPS if group != "prices"], ["raw files"])
    lines = list(kept_words(MODEL, reader_of("chef", granted), granted))
    assert any(
        line.startswith("food cost: ") and "made from" in line and "(prices)" in line
        for line in lines
    )
    assert "raw files are not shown: a file may hold any figure, notes and steps" in lines
    cold = edition(["tastings", *NAMES["plates"], "plates"], ["weights", "tasting answers"], ())
    lines = list(kept_words(MODEL, reader_of("waiter", cold), cold))
    assert lines[0] == "tasting answers are not shown: they say nothing without cooking"
    weightless = edition(["counts", *NAMES["plates"], "plates"], ["sales"], ())
    lines = list(kept_words(MODEL, reader_of("waiter", weightless), weightless))
    assert lines[0] == "counts are not shown: they say nothing without weights"
    without = edition(["plates"], GROUPS, ())
    assert list(kept_words(MODEL, reader_of("waiter", without), without)) == [
        "plates are not shown: they name cuts, cooks and pantry, which are not granted"
    ]


def test_a_kind_that_is_granted_and_not_shown_is_not_called_not_granted() -> None:
    guests = edition(["plates", "menus"], (), ["allergens"])
    assert list(kept_words(MODEL, reader_of("guests", guests), guests)) == [
        "menus are not shown: they name plates, which are not shown",
        "plates are not shown: they name cuts, cooks and pantry, which are not granted",
    ]


def test_every_input_is_of_a_group() -> None:
    for node in MODEL.needs:
        definition = MODEL.definition(node)
        if isinstance(definition.how, Entered):
            assert group_of(definition) in GROUPS
