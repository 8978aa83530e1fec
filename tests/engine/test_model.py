"""A mistake in a model is found when it is put together, before there is a kitchen."""

from __future__ import annotations

import pytest

from builder.engine.arith import Column
from builder.engine.model import Model, Way
from builder.engine.tables import Fold, Given, Table, formula


def pots() -> tuple[Table, Table]:
    pot, lid = Table("pot", "A pot"), Table("lid", "A lid")
    lid.link("pot", pot)
    pot.given("volume", "L", "What it holds")
    lid.given("weight", "kg", "Its weight")
    return pot, lid


def test_a_formula_that_needs_what_nobody_declared() -> None:
    pot, lid = pots()

    @formula(pot, unit="kg", source="test")
    def filled(volume: Column, density: Column) -> Column:
        """Weight of the content."""
        return volume * density

    with pytest.raises(ValueError, match=r"pot\.filled needs pot\.density.*declared nowhere"):
        Model([pot, lid])


def test_a_lookup_into_a_table_that_the_model_lacks() -> None:
    pot, lid = pots()
    lid.lookup("volume", "pot", pot)
    with pytest.raises(ValueError, match=r"lid\.volume needs pot\.volume"):
        Model([lid])


def test_a_lookup_of_a_figure_that_does_not_exist() -> None:
    pot, lid = pots()
    with pytest.raises(KeyError, match="depth"):
        lid.lookup("depth", "pot", pot)


def test_a_name_declared_twice() -> None:
    pot, _ = pots()
    with pytest.raises(ValueError, match=r"pot\.volume is declared twice"):
        pot.declare("volume", "L", "again", Given())


def test_formulas_in_a_circle() -> None:
    pot, lid = pots()

    @formula(pot, unit="factor", source="test")
    def hen(egg: Column) -> Column:
        """Comes from an egg."""
        return egg

    @formula(pot, unit="factor", source="test")
    def egg(hen: Column) -> Column:
        """Comes from a hen."""
        return hen

    with pytest.raises(ValueError, match=r"in a circle: .*pot\.(hen|egg) -> "):
        Model([pot, lid])


def test_a_circle_over_two_tables() -> None:
    pot, lid = pots()

    @formula(lid, unit="kg", source="test")
    def thick(lids: Column) -> Column:
        """A lid as heavy as all lids."""
        return lids

    pot.total("lids", lid, "thick", "pot", "Weight of the lids")
    lid.lookup("lids", "pot", pot)
    with pytest.raises(ValueError, match=r"in a circle: .*(lid|pot)\.lids"):
        Model([pot, lid])


def test_a_recursive_lookup_may_close_a_circle_of_names() -> None:
    pot, lid = pots()
    lid.recursive("inside", "pot", pot, "all_lids", "kg", "Weight of what the lid lies on")
    pot.total("all_lids", lid, "inside", "pot", "Weight of the lids", fold=Fold.SUM)
    model = Model([pot, lid])
    assert [set(stage.nodes) for stage in model.stages if stage.repeats] == [
        {("lid", "inside"), ("pot", "all_lids")}
    ]


def test_everything_is_computed_after_what_it_needs() -> None:
    pot, lid = pots()

    @formula(lid, unit="kg", source="test")
    def share(weight: Column, all_weight: Column) -> Column:
        """Part of all lids."""
        return weight / all_weight

    pot.total("lids_weight", lid, "weight", "pot", "Weight of the lids")
    lid.lookup("all_weight", "pot", pot, "lids_weight")
    model = Model([lid, pot])
    order = [node for stage in model.stages for node in stage.nodes]
    assert sorted(order) == sorted(model.needs)
    for node, needs in model.needs.items():
        assert all(order.index(need) < order.index(node) for need in needs)
    assert model.upstream([("lid", "share")]) == {
        ("lid", "weight"),
        ("lid", "all_weight"),
        ("pot", "lids_weight"),
    }
    assert model.downstream([("pot", "lids_weight")]) == {("lid", "all_weight"), ("lid", "share")}


def test_a_way_leads_over_lookups_to_where_a_figure_is_made() -> None:
    pot, lid = pots()
    pot.lookup("cover", "lid", lid, "weight")
    pot.link("lid", lid)
    lid.lookup("room", "pot", pot, "volume")
    pot.lookup("room_under", "lid", lid, "room")
    ways = Model([pot, lid]).ways
    assert ways["pot", "volume"] == Way((), ("pot", "volume"))
    assert ways["pot", "cover"] == Way(((("pot", "cover"), "lid"),), ("lid", "weight"))
    over = ((("pot", "room_under"), "lid"), (("lid", "room"), "pot"))
    assert ways["pot", "room_under"] == Way(over, ("pot", "volume"))


def test_lookups_that_lead_to_one_another_for_ever() -> None:
    pot, lid = pots()
    pot.recursive("height", "lid", lid, "height", "factor", "How high")
    lid.recursive("height", "pot", pot, "height", "factor", "How high")
    with pytest.raises(ValueError, match=r"lookups lead in a circle: (pot|lid)\.height"):
        Model([pot, lid])
