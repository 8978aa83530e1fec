"""Which tables go out as data: their rows, their ids, and what their texts mean."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from builder.language import tr
from builder.pages.doubt_data import (
    cook_doubt,
    cut_doubt,
    portion_doubt,
    stage_doubt,
    step_doubt,
    swap_doubt,
    whole_plate_doubt,
)
from builder.pages.menu_classes import class_of
from builder.pages.parts import gear_name
from builder.pages.resource import Field, Resource, Texts
from builder.pages.view import View
from builder.pages.withheld import seen
from builder.reading.names import slug
from builder.records.chains import stages_of
from builder.records.kinds import Cook


def _text(value: object) -> str | None:
    return None if value is None or value == "" else str(value)


def _since(view: View, item: str) -> str | None:
    price = view.costed.prices.get(item) if view.grants("prices") else None
    day: date | None = price.since if price else None
    return day.isoformat() if day else None


def _supplier(view: View, item: str) -> str | None:
    price = view.costed.prices.get(item) if view.grants("suppliers") else None
    return _text(price.supplier) if price else None


def _cuts(view: View) -> Iterator[tuple[int, Texts]]:
    for cut in view.costed.content.cuts.values():
        texts = (_text(cut.imps), _supplier(view, cut.id), _since(view, cut.id))
        yield view.costed.rows.cuts[cut.id], (cut.id, cut.title, str(cut.species), *texts)


def _cooks(view: View) -> Iterator[tuple[int, Texts]]:
    for cook in view.costed.content.cooks.values():
        heat: Texts = (None,) * 4
        if view.grants("cooking"):
            heat = (_text(cook.equipment), *_verdict(view, cook))
        texts = (str(cook.cut), str(cook.how), *heat)
        yield view.costed.rows.cooks[cook.id], (cook.id, cook.title, *texts)


def _verdict(view: View, cook: Cook) -> tuple[str | None, str | None, str | None]:
    """The rule set, what it says of the plan, and the clause that says it."""
    verdict = view.costed.heat.verdict(cook, view.costed.content.cuts[cook.cut])
    if verdict is None:
        return None, None, None
    outcome = verdict.short
    return verdict.rule_set.id, outcome, _text(verdict.clause)


def _equipment(view: View) -> Iterator[tuple[int, Texts]]:
    for name, gear in view.costed.content.kitchen.equipment.items():
        yield (
            view.costed.rows.equipment[str(name)],
            (str(name), str(gear.kind), gear_name(view, name)),
        )


def _stage_id(key: tuple[str, str]) -> str:
    return f"{key[0]}/{slug(key[1])}"


def _stages(view: View) -> Iterator[tuple[int, Texts]]:
    for key, row in view.costed.rows.stages.items():
        folder, _, record = key[0].partition("/")
        cut, cook = (record if folder == kind else None for kind in ("cuts", "cooks"))
        yield row, (_stage_id(key), cut, cook, key[1])


def _tests(view: View) -> Iterator[tuple[int, Texts]]:
    content, rows = view.costed.content, view.costed.rows
    for owner in content.weighed:
        for name, stage in stages_of(owner):
            found = rows.tests.get(rows.stages.get((owner.path, name), -1), [])
            for number, row in enumerate(found):
                key = _stage_id((owner.path, name))
                day = stage.tests[number].date.day.isoformat()
                yield row, (f"{key}/{number + 1}", key, day)


def _parts(view: View) -> Iterator[tuple[int, Texts]]:
    for row, (test, *_) in _tests(view):
        for name, part in view.costed.rows.parts[row].items():
            yield part, (f"{test}/{name}", test, name)


def _steps(view: View) -> Iterator[tuple[int, Texts]]:
    for cook, steps in view.costed.rows.steps.items():
        for link, row in steps:
            yield row, (f"{cook}/{slug(link.name)}", cook, _stage_id(link.key), link.phase.value)


def _cooling(view: View) -> Iterator[tuple[int, Texts]]:
    for cook in view.costed.content.cooks.values():
        stages = [
            (chilling, number, check)
            for chilling in view.costed.heat.chillings(cook)
            for number, check in enumerate(chilling.verdict.stages, start=1)
        ]
        for (chilling, number, check), row in zip(
            stages, view.costed.rows.cooling[cook.id], strict=True
        ):
            where, rules = chilling.where, chilling.verdict
            texts = (
                where,
                str(number),
                "meets" if check.kept else tr("does not meet"),
                rules.clause,
            )
            yield row, (f"{cook.id}/{slug(where)}/{number}", cook.id, *texts)


def _pantry(view: View) -> Iterator[tuple[int, Texts]]:
    for item in view.costed.content.pantry.values():
        row = view.costed.rows.pantry[item.id]
        texts = (view.per("pantry", row), _supplier(view, item.id), _since(view, item.id))
        yield row, (item.id, item.title, *texts)


def _ingredients(view: View) -> Iterator[tuple[int, Texts]]:
    for recipe, lines in view.costed.rows.lines.items():
        for item, row in lines.items():
            yield row, (f"{recipe}/{item}", recipe, item, view.per("ingredient", row))


def _plates(view: View) -> Iterator[tuple[int, Texts]]:
    for plate in view.costed.content.plates.values():
        found = seen(class_of, view, plate)
        texts = (plate.title, str(plate.menu), _text(plate.cook), _text(found), _text(plate.cut))
        yield view.costed.rows.plates[plate.id], (plate.id, *texts)


def _portions(view: View) -> Iterator[tuple[int, Texts]]:
    for plate, portions in view.costed.rows.further.items():
        for number, further in enumerate(portions, start=2):
            own = further.portion
            texts = (_text(own.cook), _text(own.cut), own.portion.text)
            yield further.row, (f"{plate}/{number}", plate, *texts)


def _accompaniments(view: View) -> Iterator[tuple[int, Texts]]:
    for plate, sides in view.costed.rows.sides.items():
        for item, row in sides.items():
            yield row, (f"{plate}/{item}", plate, item, view.per("accompaniment", row))


def _swaps(view: View) -> Iterator[tuple[int, Texts]]:
    for (swap, challenger), row in view.costed.rows.swaps.items():
        record = view.costed.content.swaps[swap]
        texts = (swap, record.title, str(record.benchmark), challenger)
        yield row, (f"{swap}/{challenger}", *texts)


_NAME = Field("name", "What it is called")
_SUPPLIER = Field("supplier", "Who sells it", groups=("suppliers",))
_SINCE = Field(
    "price_since",
    "Day from which the price holds, where a price list gives it",
    "date",
    groups=("prices",),
)
_PRICED_BY = Field("priced_by", "Unit that the item is priced by: kg, L or each")


def _id(about: str) -> Field:
    return Field("id", about)


RESOURCES: tuple[Resource, ...] = (
    Resource(
        "cuts",
        "Cuts as purchased",
        "cut",
        (
            _id("Name of the cut's file"),
            _NAME,
            Field("species", "Kind of animal"),
            Field("imps", "USDA institutional purchase specification number"),
            _SUPPLIER,
            _SINCE,
        ),
        _cuts,
        doubt=cut_doubt,
    ),
    Resource(
        "stages",
        "Stages of the chain of weights, their tests pooled",
        "stage",
        (
            _id("Record and stage"),
            Field("cut", "Cut whose file holds the stage", refers="cuts"),
            Field("cook", "Cook whose file holds the stage", refers="cooks"),
            Field("stage", "Name of the stage"),
        ),
        _stages,
        doubt=stage_doubt,
    ),
    Resource(
        "tests",
        "Weighings",
        "test",
        (
            _id("Stage and number of the test"),
            Field("stage", "Stage that was weighed", refers="stages"),
            Field("date", "Day of the weighing", "date"),
        ),
        _tests,
    ),
    Resource(
        "parts",
        "By-products weighed",
        "part",
        (
            _id("Test and by-product"),
            Field("test", "Test in which it was weighed", refers="tests"),
            Field("byproduct", "What it is"),
        ),
        _parts,
    ),
    Resource(
        "equipment",
        "Equipment and what a week's plates book of it",
        "equipment",
        (
            _id("Name in the kitchen's file"),
            Field("kind", "Water bath, oven, grill ..."),
            Field("title", "Its name on pages"),
        ),
        _equipment,
    ),
    Resource(
        "cooks",
        "Cooks, one load of each",
        "batch",
        (
            _id("Name of the cook's file"),
            _NAME,
            Field("cut", "Cut that is cooked", refers="cuts"),
            Field("how", "How it is cooked"),
            Field(
                "equipment",
                "Equipment in the kitchen's file",
                refers="equipment",
                groups=("cooking",),
            ),
            Field("rule_set", "Rule set that the kitchen names", groups=("cooking",)),
            Field(
                "verdict",
                "What the rule set says of the plan: arithmetic on published tables",
                groups=("cooking",),
            ),
            Field("clause", "Clause that the verdict rests on", groups=("cooking",)),
        ),
        _cooks,
        doubt=cook_doubt,
    ),
    Resource(
        "steps",
        "Stages of each cook's batch, in order",
        "step",
        (
            _id("Cook and stage"),
            Field("cook", "Cook whose batch passes the stage", refers="cooks"),
            Field("stage", "The stage", refers="stages"),
            Field("phase", "Before the cook, the cook itself, or after"),
        ),
        _steps,
        doubt=step_doubt,
    ),
    Resource(
        "cooling",
        "Cooling of each cook, by way and by stage of the rule set",
        "cooling",
        (
            _id("Cook, way and number of the stage"),
            Field("cook", "Cook that is cooled", refers="cooks"),
            Field("cooled_in", "What cools it; of several ways one is the file's"),
            Field("stage", "Number of the stage in the clause", "number"),
            Field("verdict", "What the clause says of the stage at the slow end"),
            Field("clause", "Clause that limits the stage"),
        ),
        _cooling,
    ),
    Resource(
        "pantry",
        "Pantry items and sub-recipes",
        "pantry",
        (_id("Name of the item's file"), _NAME, _PRICED_BY, _SUPPLIER, _SINCE),
        _pantry,
    ),
    Resource(
        "ingredients",
        "Ingredients of sub-recipes",
        "ingredient",
        (
            _id("Sub-recipe and item"),
            Field("recipe", "Sub-recipe", refers="pantry"),
            Field("item", "Pantry item that goes in", refers="pantry"),
            _PRICED_BY,
        ),
        _ingredients,
    ),
    Resource(
        "plates",
        "Plates as sold",
        "plate",
        (
            _id("Name of the plate's file"),
            _NAME,
            Field("menu", "Section of the menu", refers="menu_sections"),
            Field("cook", "Cook on the plate", refers="cooks"),
            Field(
                "menu_class",
                "Class of the plate in its section, as it sold; empty without one",
                groups=("margins", "sales"),
            ),
            Field("cut", "Cut on the plate, where its main portion has no cook", refers="cuts"),
        ),
        _plates,
        doubt=whole_plate_doubt,
    ),
    Resource(
        "portions",
        "Further portions of plates, beyond the main one that plates has",
        "portion",
        (
            _id("Plate and number of the portion; the main one is number 1"),
            Field("plate", "Plate", refers="plates"),
            Field("cook", "Cook of the portion", refers="cooks"),
            Field("cut", "Cut of the portion, where it has no cook", refers="cuts"),
            Field("written", "The portion as written: a weight, or servable pieces"),
        ),
        _portions,
        doubt=portion_doubt,
    ),
    Resource(
        "accompaniments",
        "Pantry items on plates",
        "accompaniment",
        (
            _id("Plate and item"),
            Field("plate", "Plate", refers="plates"),
            Field("item", "Pantry item on it", refers="pantry"),
            _PRICED_BY,
        ),
        _accompaniments,
    ),
    Resource(
        "swaps",
        "Challengers against benchmarks",
        "swap",
        (
            _id("Swap and challenger"),
            Field("swap", "Name of the swap's file"),
            _NAME,
            Field("benchmark", "Plate that stands on the menu", refers="plates"),
            Field("challenger", "Plate that might replace it", refers="plates"),
        ),
        _swaps,
        doubt=swap_doubt,
    ),
)
