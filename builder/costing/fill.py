"""Filling the book: records become rows, every given value with its origin.

Nothing is computed here beyond bringing an amount to the unit that its item is
priced by. Rows are added parents first, so that a link always points to a row
that is there.
"""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator, Mapping
from datetime import date

from babel.numbers import get_currency_precision

from builder.costing.cover_rows import amount_values, cover_rows, kitchen_factors, plate_factors
from builder.costing.entries import (
    by_number,
    energy_values,
    entry,
    gear_values,
    load_of,
    noted,
    published_yield,
    sold_values,
)
from builder.costing.filled_rows import Rows
from builder.costing.heat import Heat
from builder.costing.heat_rows import cooling_rows, heat_values
from builder.costing.heat_table import COOLING
from builder.costing.kinds import KINDS
from builder.costing.menu_rows import menu_rows
from builder.costing.model import MODEL
from builder.costing.portion_rows import further_rows
from builder.costing.raw_rows import raw_rows
from builder.costing.sale_rows import sale_rows, sold_by_till
from builder.costing.scale_rows import scale_rows
from builder.costing.service_rows import service_rows
from builder.costing.swap_rows import swap_rows
from builder.engine.book import Book, Entry, Identity
from builder.language import tr
from builder.money.kitchen import CONSUMABLE, EQUIPMENT, KITCHEN
from builder.money.menu import ORDER, SECTION
from builder.money.pantry import INGREDIENT, PANTRY
from builder.money.plates import ACCOMPANIMENT, PLATE
from builder.problems import Place
from builder.reading.names import slug
from builder.reading.tree import Text
from builder.records.amounts import price_in_base, price_per_kg
from builder.records.base import Record
from builder.records.chains import Link, Phase, chain, stages_of
from builder.records.content import Content
from builder.records.equipment import gear_title
from builder.records.fields import Month
from builder.records.kinds import Cook, Cut, PantryItem, Plate
from builder.records.kitchen import Kitchen
from builder.records.pricing import CurrentPrice, current_prices
from builder.records.stages import Stage
from builder.yields.chain import BATCH, CUT, STEP
from builder.yields.weighings import BYPRODUCT, PART, STAGE, TEST

DEFAULT_COVERS = (50, 100, 180)


class Filler:
    """One filling of one book; `rows` then finds a record's figures."""

    def __init__(self, content: Content, heat: Heat) -> None:
        self.content = content
        self.heat = heat
        self.book = Book(MODEL)
        self.rows = Rows()
        self.prices: Mapping[str, CurrentPrice] = current_prices(content)
        self.menu_month = _menu_month(content)

    def fill(self) -> tuple[Book, Rows]:
        """Add every record's rows, those that others link to first."""
        self._kitchen()
        for cut in self.content.cuts.values():
            values = {"ap_price": self._cut_price(cut)}
            values |= sold_values(cut, self.prices.get(cut.id))
            self.rows.cuts[cut.id] = self.book.add(CUT, values=values, who=Identity(cut.path))
            for name, stage in stages_of(cut):
                self._stage(Link(name, stage, cut, Phase.BEFORE))
        for cook in self.content.cooks.values():
            self._cook(cook)
        for item in self.content.pantry.values():
            self._pantry_item(item)
        for item in self.content.pantry.values():
            self._lines(item)
        self.rows.cover = cover_rows(self.book, self.content, self.rows.pantry)
        self.rows.raw = raw_rows(self.book, self.content, self.rows.cuts, self.rows.stages)
        for plate in self.content.plates.values():
            self._plate(plate)
        rows = self.rows
        rows.swaps = swap_rows(
            self.book, self.content, rows.plates, rows.further, rows.cuts, rows.moved_cuts
        )
        rows.menus = menu_rows(self.book, self.content, rows.plates)
        rows.services = service_rows(
            self.book, self.content, rows.cooks, rows.plates, rows.further, rows.menus
        )
        for kind in KINDS:
            rows.kinds[kind.rows] = kind.fill(self.book, self.content, rows)
        rows.scaling = scale_rows(self.book, self.content, rows)
        rows.takings = sale_rows(self.book, self.content, rows.plates)
        return self.book, rows

    def _kitchen(self) -> None:
        kitchen = self.content.kitchen
        targets = kitchen.targets
        weeks = kitchen.weeks_open
        place = Place(kitchen.file)
        values = {
            "loaded_wage": entry(kitchen.loaded_wage),
            "electricity_price": entry(kitchen.energy),
            "gas_price": entry(kitchen.gas),
            "tax_rate": entry(kitchen.tax),
            "tax_included": noted(
                float(kitchen.prices_include_tax), place, tr("prices include tax")
            ),
            "food_cost_target": entry(targets.food_cost) if targets else None,
            "margin_target": entry(targets.margin) if targets else None,
            "coins_in_unit": noted(
                10.0 ** get_currency_precision(kitchen.currency), place, str(kitchen.currency)
            ),
            "weeks_open": entry(weeks),
            "running_hours": entry(kitchen.running_hours),
            "seasoning_share": entry(kitchen.seasoning),
            **kitchen_factors(kitchen),
            "count_whole": noted(
                float(kitchen.counts_whole), place, tr("portions: whole or by weight")
            ),
        }
        self.book.add(KITCHEN, values=values, who=Identity(kitchen.path))
        for name, gear in kitchen.equipment.items():
            self.rows.equipment[str(name)] = self.book.add(
                EQUIPMENT,
                {"kitchen": 0},
                gear_values(gear),
                _gear(kitchen, name),
            )

    def _cut_price(self, cut: Cut) -> Entry | None:
        current = self.prices.get(cut.id)
        if current is None:
            return None
        return entry(current.price, price_per_kg(cut, current.price))

    def _cook(self, cook: Cook) -> None:
        kitchen = self.content.kitchen
        gear = kitchen.equipment.get(cook.equipment) if cook.equipment else None
        gas = cook.gas is not None or (gear is not None and gear.fuel == "gas")
        links = {
            "cut": self.rows.cuts[cook.cut],
            "kitchen": 0,
            "equipment": self.rows.equipment.get(cook.equipment, -1) if cook.equipment else -1,
        }
        load = load_of(cook, gear)
        values = {
            **energy_values(kitchen, gear, cook, load.value if load else 0.0),
            **heat_values(self.heat, cook, self.content.cuts[cook.cut]),
            "load": load,
            "goes_in_by_number": by_number(cook),
            "piece_weight": entry(cook.piece.weight) if cook.piece else None,
            "remainder_worth": entry(cook.remainder),
            "cook_hours": entry(cook.for_),
            "hands_on": entry(cook.hands_on),
            "measured_energy": entry(cook.energy),
            "burns_gas": noted(1.0, Place(cook.file), tr("gas heats it")) if gas else None,
        }
        row = self.rows.cooks[cook.id] = self.book.add(BATCH, links, values, Identity(cook.path))
        self.rows.consumables[cook.id] = {
            str(name): self.book.add(
                CONSUMABLE,
                {"batch": row},
                {"consumable_price": entry(price)},
                _part(cook, "uses", str(name)),
            )
            for name, price in cook.consumables.items()
        }
        self.rows.cooling[cook.id] = [
            self.book.add(COOLING, {"batch": row}, stage, _part(cook, "cooling", name))
            for name, stage in cooling_rows(self.heat, cook)
        ]
        self.rows.steps[cook.id] = [
            (link, self._step(row, link, cook)) for link in chain(self.content, cook)
        ]

    def _step(self, batch: int, link: Link, cook: Cook) -> int:
        stage = self._stage(link)
        phase = tr("{link} lies {phase} the cook", link=link.name, phase=link.phase)
        place = Place(link.owner.file)
        values = {
            "before_cook": noted(float(link.phase is Phase.BEFORE), place, phase),
            "after_cook": noted(float(link.phase is Phase.AFTER), place, phase),
        }
        who = _part(cook, "step", link.name)
        return self.book.add(STEP, {"batch": batch, "stage": stage}, values, who)

    def _stage(self, link: Link) -> int:
        """The stage's row, added at its first use: one trimming serves many cooks."""
        known = self.rows.stages.get(link.key)
        if known is not None:
            return known
        stage = link.stage
        own = isinstance(link.owner, Cut)
        row = self.rows.stages[link.key] = self.book.add(
            STAGE,
            {"cut": self.rows.cuts[link.owner.id] if own else -1},
            {
                "stated_yield": entry(stage.stated, stage.stated_yield),
                "published_yield": published_yield(stage),
            },
            who := _part(link.owner, "", link.name),
        )
        self.rows.byproducts[row] = {
            name: self._byproduct(row, stage, name, who) for name in _part_names(stage)
        }
        self.rows.tests[row] = [self._test(row, stage, n, who) for n in range(len(stage.tests))]
        return row

    def _byproduct(self, stage_row: int, stage: Stage, name: str, whose: Identity) -> int:
        stated = next((part for key, part in stage.parts.items() if key == name), None)
        values = {
            "stated_share": entry(stated.share) if stated else None,
            "stated_worth": entry(stated.worth) if stated else None,
        }
        who = _below(whose, slug(name), name)
        return self.book.add(BYPRODUCT, {"stage": stage_row}, values, who)

    def _test(self, stage_row: int, stage: Stage, number: int, whose: Identity) -> int:
        test = stage.tests[number]
        values = {"weight_in": entry(test.in_), "weight_out": entry(test.out)}
        who = _below(whose, str(number + 1), tr("test {number}", number=number + 1))
        row = self.book.add(TEST, {"stage": stage_row}, values, who)
        self.rows.parts[row] = {
            str(name): self.book.add(
                PART,
                {"test": row, "byproduct": self.rows.byproducts[stage_row][str(name)]},
                {"weight": entry(part.weight), "worth": entry(part.worth)},
                _below(who, slug(str(name)), str(name)),
            )
            for name, part in test.parts.items()
        }
        return row

    def _pantry_item(self, item: PantryItem) -> None:
        current = self.prices.get(item.id)
        made = bool(item.of)
        price = None if made or current is None else current.price
        values = {
            "purchase_price": entry(price, price_in_base(item, price)) if price else None,
            "usable_yield": None if made else entry(item.yield_),
            "stated_makes": entry(item.makes),
            "recipe_yield": entry(item.yield_) if made else None,
            "recipe_hands_on": entry(item.hands_on),
            "recipe_energy": entry(item.energy),
            "burns_gas": noted(1.0, Place(item.file), "fuel: gas") if item.fuel == "gas" else None,
            **sold_values(item, current),
        }
        self.rows.pantry[item.id] = self.book.add(
            PANTRY, {"kitchen": 0}, values, Identity(item.path)
        )

    def _lines(self, item: PantryItem) -> None:
        self.rows.lines[item.id] = {
            str(name): self.book.add(
                INGREDIENT,
                {"recipe": self.rows.pantry[item.id], "item": self.rows.pantry[name]},
                amount_values(self.content, name, amount, with_mass=True),
                Identity(item.path, f"of.{name}", self.content.pantry[name].title),
            )
            for name, amount in item.of.items()
        }

    def _section(self, name: str) -> int:
        if name not in self.rows.sections:
            who = Identity("menu", slug(name), name)
            self.rows.sections[name] = self.book.add(SECTION, {"kitchen": 0}, who=who)
        return self.rows.sections[name]

    def _plate(self, plate: Plate) -> None:
        links = {
            "kitchen": 0,
            "section": self._section(str(plate.menu)),
            "batch": self.rows.batch(plate.served[0]) if plate.served else -1,
        }
        values = {
            "stated_portion": entry(plate.portion_weight),
            "portion_pieces": entry(plate.portion_pieces),
            "menu_price": entry(plate.price),
            "plating": entry(plate.hands_on),
            "forecast": entry(plate.forecast),
            **plate_factors(self.content, plate),
            **self._sold(plate),
        }
        row = self.rows.plates[plate.id] = self.book.add(PLATE, links, values, Identity(plate.path))
        self.rows.sides[plate.id] = {
            str(name): self.book.add(
                ACCOMPANIMENT,
                {"plate": row, "item": self.rows.pantry[name]},
                amount_values(self.content, name, amount),
                Identity(plate.path, f"with.{name}", self.content.pantry[name].title),
            )
            for name, amount in plate.with_.items()
        }
        if plate.served:
            self.rows.orders[plate.id] = [
                self.book.add(ORDER, {"plate": row}, {"covers": covers}, _order(plate, number))
                for number, covers in enumerate(self._covers(), start=1)
            ]
        self.rows.further[plate.id] = further_rows(
            self.book, self.content, plate, row, map(self.rows.batch, plate.further), self._covers()
        )

    def _sold(self, plate: Plate) -> dict[str, Entry | None]:
        months = sorted(plate.sold, key=lambda month: month.first)
        if not months or months[-1].first != self.menu_month:
            return {}
        sold, days = self._counted(plate, months[-1])
        found = {"sold": sold, "days_in_month": days}
        if len(months) > 1:
            found["first_sold"], found["days_in_first_month"] = self._counted(plate, months[0])
        return found

    def _counted(self, plate: Plate, month: Month) -> tuple[Entry | None, Entry]:
        """What was sold in a month, and the days that it was counted on."""
        till = self.content.till.get((plate.id, month.first))
        days = till.days if till else monthrange(month.first.year, month.first.month)[1]
        reason = tr("days in {written}", written=month) + (
            tr(" that the till's exports cover") if till else ""
        )
        sold = sold_by_till(till) if till else entry(plate.sold[month])
        return sold, noted(days, month.place, reason)

    def _covers(self) -> Iterator[Entry | None]:
        if self.content.kitchen.covers:
            return (entry(covers) for covers in self.content.kitchen.covers)
        return (
            noted(float(n), None, tr("shown where kitchen.yaml has no covers"))
            for n in DEFAULT_COVERS
        )


def _menu_month(content: Content) -> date:
    """The newest month in which any plate was counted; the menu page looks at it."""
    months = [month.first for plate in content.plates.values() for month in plate.sold]
    return max(months, default=content.as_of.replace(day=1))


def _part_names(stage: Stage) -> list[str]:
    """Every by-product of a stage once, stated ones first."""
    tested = (str(name) for test in stage.tests for name in test.parts)
    return list(dict.fromkeys([*map(str, stage.parts), *tested]))


def _part(record: Record, kind: str, name: str) -> Identity:
    """A row that a record has several of, by their names."""
    return Identity(record.path, ".".join(filter(None, (kind, slug(name)))), name)


def _gear(kitchen: Kitchen, name: Text) -> Identity:
    return Identity(kitchen.path, slug(name), gear_title(kitchen.equipment, name))


def _below(whose: Identity, key: str, name: str) -> Identity:
    """A row below another one of the same record."""
    return Identity(whose.owner, f"{whose.key}.{key}", f"{whose.label}, {name}")


def _order(plate: Plate, number: int) -> Identity:
    return Identity(plate.path, f"order.{number}", tr("order {number}", number=number))
