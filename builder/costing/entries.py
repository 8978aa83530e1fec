"""Entries of the book: single values with their origin, as the records state or imply them."""

from __future__ import annotations

from builder.costing.energy import modelled_energy
from builder.data import cooking_yields
from builder.engine.book import Entry, Origin
from builder.language import labelled, tr
from builder.problems import Place
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut, Equipment, PantryItem
from builder.records.kitchen import Kitchen
from builder.records.loads import goes_in_by_number
from builder.records.pricing import CurrentPrice
from builder.records.sizes import Counted
from builder.records.sold_in import sold_in
from builder.records.stages import Stage


def entry(measure: Measure | None, value: float | None = None) -> Entry | None:
    """The entry of a written value, or None where nothing is written.

    `value` stands in where the figure is not the written number itself, such as
    the yield that a stated loss means.
    """
    if measure is None:
        return None
    number = measure.value if value is None else value
    text = measure.counted if isinstance(measure, Counted) else measure.text
    return Entry(number, Origin(measure.place, text=text))


def noted(value: float, place: Place | None, reason: str) -> Entry:
    """The entry of a value that follows from the records, with the reason."""
    return Entry(value, Origin(place, reason=reason))


def gear_values(gear: Equipment) -> dict[str, Entry | None]:
    """What is written of a piece of equipment."""
    return {
        "purchase_price": entry(gear.price),
        "service_life": entry(gear.service_life or gear.lasts),
        "stated_charge": entry(gear.charge),
        "standby_power": entry(gear.measured_standby),
        "how_many": entry(gear.how_many),
        "holds": entry(gear.holds),
        "turn_round": entry(gear.turn_round),
        "cleaning": entry(gear.cleaning),
    }


def energy_values(
    kitchen: Kitchen, gear: Equipment | None, cook: Cook, load_kg: float
) -> dict[str, Entry | None]:
    """The energy of a batch as the physics gives it, with both ends of what it may be."""
    modelled = modelled_energy(kitchen, gear, cook, load_kg)
    if modelled is None:
        return {}
    kwh = modelled.kwh
    return {
        "modelled_energy": noted(kwh.typical, modelled.place, modelled.reason),
        "modelled_energy_low": noted(
            kwh.low, modelled.place, tr("low end: {reason}", reason=modelled.reason)
        ),
        "modelled_energy_high": noted(
            kwh.high, modelled.place, tr("high end: {reason}", reason=modelled.reason)
        ),
    }


def load_of(cook: Cook, gear: Equipment | None) -> Entry | None:
    """The raw weight of one load: as stated, else the mean of the tests, else what fits."""
    if cook.load is not None:
        return entry(cook.load)
    if cook.tests:
        mean = sum(test.in_.value for test in cook.tests) / len(cook.tests)
        return noted(mean, cook.tests[0].in_.place, tr("mean weight that went into the tests"))
    return entry(gear.holds) if gear else None


def by_number(cook: Cook) -> Entry | None:
    """That a load is limited by its number of pieces; None where it is by weight."""
    if not goes_in_by_number(cook) or cook.load is None:
        return None
    return noted(1.0, cook.load.place, tr("the load is a number of pieces"))


def published_yield(stage: Stage) -> Entry | None:
    """The published yield that stands in where nothing was weighed, with its source."""
    published = stage.published
    if published is None:
        return None
    if published.table is not None:
        found = cooking_yields()[published.table]
        n = f" (n = {found.samples})" if found.samples else ""
        reason = labelled(f"{found.description}, {found.how}", f"{found.source}{n}")
        return noted(found.value, published.table.place, reason)
    given = entry(published.yield_)
    source = str(published.source or "")
    return (
        Entry(given.value, Origin(given.origin.place, source, given.origin.text)) if given else None
    )


def sold_values(record: Cut | PantryItem, current: CurrentPrice | None) -> dict[str, Entry | None]:
    """What an item is sold in, its smallest order and its deposit."""
    sold = current.sold_as if current else None
    if sold is None:
        return {}
    found = sold_in(record, sold)
    return {
        "sold_in": entry(sold.step, found.step),
        "least_order": entry(sold.minimum, found.least),
        "deposit": entry(sold.deposit),
    }
