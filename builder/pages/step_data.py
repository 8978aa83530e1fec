"""Steps, keeping times and amounts made to size, as open data."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.scale_rows import PORTIONS, WHOLE_PORTIONS
from builder.language import Deferred, tr
from builder.pages.resource import Field, Resource, Texts
from builder.pages.view import View
from builder.records.fields import Measure
from builder.records.kinds import Cook, Plate
from builder.records.notes import steps_of
from builder.records.step_checks import Stepped, stepped_of


def _ids(record: Stepped) -> Texts:
    """The record's id in the column of its kind."""
    kinds = ("cooks", "pantry", "plates")
    return tuple(record.id if record.folder == kind else None for kind in kinds)


def _written(measure: Measure | None) -> str | None:
    return None if measure is None else repr(measure.value)


def _steps(view: View) -> Iterator[tuple[int, Texts]]:
    numbers: dict[str, int] = {}
    for record, step in steps_of(view.costed.content):
        number = numbers[record.path] = numbers.get(record.path, 0) + 1
        texts = (
            str(number),
            str(step.what),
            _written(step.for_),
            _written(step.at),
            str(step.caution) if step.caution else None,
            str(step.picture.file) if step.picture else None,
        )
        yield 0, (f"{record.path}/{number}", *_ids(record), *texts)


def _keeping(view: View) -> Iterator[tuple[int, Texts]]:
    for record in stepped_of(view.costed.content):
        if isinstance(record, Plate):
            continue
        if record.store is not None:
            cold = record.store
            source = str(cold.source) if cold.source else None
            texts = (tr("kept cold"), _written(cold.for_), _written(cold.at), source)
            yield 0, (f"{record.path}/cold", *_ids(record)[:2], *texts)
        if isinstance(record, Cook) and record.hold_at is not None:
            lasts = record.hold.for_ if record.hold else None
            source = str(record.hold_source) if record.hold_source else None
            texts = (tr("held hot"), _written(lasts), _written(record.hold_at), source)
            yield 0, (f"{record.path}/hot", *_ids(record)[:2], *texts)


def _scaled(view: View) -> Iterator[tuple[int, Texts]]:
    rows = view.costed.rows.scaling
    for record in stepped_of(view.costed.content):
        for each in rows.amounts.get(record.path, ()):
            yield (
                each.row,
                (*_key(view, record, each.row), each.label, None, _unit(rows.units[each.row])),
            )
        for (path, number, _), row in rows.in_steps.items():
            if path == record.path:
                label = view.costed.figures.identity("scaled", row).label
                step = f"{path}/{number}"
                yield row, (*_key(view, record, row), label, step, _unit(rows.units[row]))


def _key(view: View, record: Stepped, row: int) -> Texts:
    return f"{record.path}/{view.costed.figures.identity('scaled', row).key}", *_ids(record)


_OF = (
    Field("cook", "Id of the cook", refers="cooks"),
    Field("item", "Id of the sub-recipe or pantry item", refers="pantry"),
)
_PLATE = Field("plate", "Id of the plate", refers="plates")
_SOURCE = Field("source", "Clause, or who says so; blank where the kitchen states it")
_AT = Field("at", "Temperature (°C)", "number", groups=("cooking",))
_FOR = Field("for", "How long (h)", "number", groups=("cooking",))

STEP_RESOURCES = (
    Resource(
        "recipe_steps",
        Deferred("Steps of cooks, sub-recipes and plates, in their order"),
        "",
        (
            Field("id", "Kind and id of the record, and the number of the step"),
            *_OF,
            _PLATE,
            Field("number", "Its number", "number"),
            Field("what", "What is done"),
            _FOR,
            _AT,
            Field("caution", "What to look out for"),
            Field("picture", "File of its picture"),
        ),
        _steps,
    ),
    Resource(
        "keeping",
        Deferred("How long what is cooked or made is kept, and who says so"),
        "",
        (
            Field("id", "Kind and id of the record, and how it is kept"),
            *_OF,
            Field("how", "Kept cold, or held hot"),
            _FOR,
            _AT,
            _SOURCE,
        ),
        _keeping,
    ),
    Resource(
        "scaled",
        Deferred("Amounts that can be made to size"),
        "scaled",
        (
            Field("id", "Kind and id of the record, and which amount"),
            *_OF,
            _PLATE,
            Field("what", "What it is an amount of", said=True),
            Field("step", "Step that names it", refers="recipe_steps"),
            Field("unit", "Unit of the amounts"),
        ),
        _scaled,
    ),
)


def _unit(unit: str) -> str:
    """The unit of a table of data, whose amounts are unrounded."""
    return PORTIONS if unit == WHOLE_PORTIONS else unit
