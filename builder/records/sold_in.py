"""What an item is sold in, brought to its own unit, and what is wrong with how that is written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.language import tr
from builder.problems import Problem, Severity
from builder.quantities import Dimension, pack_word, written_like
from builder.records.amounts import UnitMismatchError, in_base
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem
from builder.records.pricing import current_prices
from builder.records.sold_as import PackSize, SoldAs, pack_in_price, settled
from builder.records.written import Value

_A_BIT = 1e-9


@dataclass(frozen=True, slots=True)
class SoldIn:
    """What is sold, in the item's unit [kg, L or each]; None where nobody says."""

    step: float | None
    least: float | None


def in_its_unit(record: Cut | PantryItem, amount: Measure) -> float:
    """An amount in the unit of an item, of a cut in kg; UnitMismatchError where it can't be had."""
    if isinstance(record, PantryItem):
        return in_base(record, amount)
    if amount.dimension is Dimension.MASS:
        return amount.value
    if amount.dimension is Dimension.COUNT and record.each is not None:
        return amount.value * record.each.value
    wanted = tr("what one weighs, such as each: 250 g")
    volume = amount.dimension is Dimension.VOLUME
    raise UnitMismatchError(
        tr("a cut goes by weight")
        if volume
        else tr("write in {file} {wanted}", file=record.file, wanted=wanted)
    )


def sold_in(record: Cut | PantryItem, sold: SoldAs) -> SoldIn:
    """The step and the smallest order of an item; UnitMismatchError as `in_its_unit`."""
    step = in_its_unit(record, sold.step) if sold.step else None
    least = sold.minimum
    if least is None:
        return SoldIn(step, None)
    if least.dimension is None:
        return SoldIn(step, least.value * (step or 0.0))
    pieces = step if _in_pieces(sold) else None
    return SoldIn(step, least.value * pieces if pieces else in_its_unit(record, least))


def check_sold_as(content: Content) -> Iterator[Problem]:
    """Every way of selling that the files and the price lists write."""
    records: dict[str, Cut | PantryItem] = {**content.pantry, **content.cuts}
    for record in records.values():
        if record.sold_as and "sold_as" not in record.unread:
            yield from _check(record, settled(record.price, None, record.sold_as))
    for name, current in current_prices(content).items():
        if name in records and current.sold_as:
            yield from _check_price(records[name], current.price, current.sold_as)
    for row in content.prices:
        if (found := records.get(str(row.item))) and (row.sold_as or row.minimum or row.deposit):
            yield from _check(found, settled(row.price, row.sold, found.sold_as))


def listed_minimums(content: Content) -> Iterator[Value]:
    """The smallest orders that the price lists write beside their newest prices."""
    records: dict[str, Cut | PantryItem] = {**content.pantry, **content.cuts}
    for name, current in current_prices(content).items():
        least = current.sold_as.minimum if current.sold_as else None
        if least and name in records and least.place.file != records[name].file:
            record = records[name]
            yield Value(f"{record.folder}.sold as.minimum", least, record, record.path)


def _check(record: Cut | PantryItem, sold: SoldAs | None) -> Iterator[Problem]:
    if sold is None or {"price", "each", "litre", "quart"} & record.unread:
        return
    if isinstance(record, PantryItem) and record.of:
        parts = (sold.pack, sold.piece, sold.steps, sold.minimum, sold.deposit)
        place = next(each.place for each in parts if each)
        yield Problem(
            place,
            tr("{record} is made, not bought", record=record.id),
            tr("take how it is sold out"),
        )
        return
    found = [*_without_pack(sold), *_unlike(record, sold)]
    yield from found or _check_steps(record, sold)


def _without_pack(sold: SoldAs) -> Iterator[Problem]:
    """A deposit, or a number of packs, where no pack is written."""
    if sold.pack is None and sold.deposit is not None:
        hint = tr("write what it is for, such as pack: crate of 12 x 1 L")
        yield Problem(sold.deposit.place, tr("a deposit is for a pack, and none is written"), hint)
    least = sold.minimum
    if sold.pack is None and least is not None and least.dimension is None:
        word = pack_word(f"{least.text} of 1 kg")
        hint = tr("write what is in one, such as pack: {pack_word} of 10 kg", pack_word=word)
        yield Problem(least.place, tr("how much is in {least} is not said", least=least.text), hint)


def check_unit(record: Cut | PantryItem, amount: Measure) -> Iterator[Problem]:
    """An amount that can't be brought to the unit that the item is priced by."""
    try:
        in_its_unit(record, amount)
    except UnitMismatchError as error:
        message = tr(
            "{amount} does not fit how {record} is priced", amount=amount.text, record=record.id
        )
        yield Problem(amount.place, message, str(error))


def _unlike(record: Cut | PantryItem, sold: SoldAs) -> Iterator[Problem]:
    """Sizes that can't be brought to the unit that the item is priced by."""
    for part in (sold.step, sold.minimum):
        if part is None or part.dimension is None or (part is sold.minimum and _in_pieces(sold)):
            continue
        if found := list(check_unit(record, part)):
            yield from found
            return


def _in_pieces(sold: SoldAs) -> bool:
    """Whether the smallest order counts the pieces of which one's weight is written."""
    counted = sold.minimum is not None and sold.minimum.dimension is Dimension.COUNT
    return counted and sold.piece is not None


def _check_steps(record: Cut | PantryItem, sold: SoldAs) -> Iterator[Problem]:
    """Warn of a smallest order that is no whole number of what is sold."""
    found = sold_in(record, sold)
    if not (found.step and found.least and sold.step and sold.minimum and sold.minimum.dimension):
        return
    count = found.least / found.step
    if abs(count - round(count)) <= _A_BIT * count:
        return
    hint = tr(
        "write minimum: {whole_up}, or the size that it is sold in",
        whole_up=_whole_up(sold, int(count) + 1),
    )
    message = tr(
        "{minimum} is {count:.4g} times {step}, no whole number",
        minimum=sold.minimum.text,
        count=count,
        step=sold.step.text,
    )
    needs = (record.folder, "weights")
    yield Problem(sold.minimum.place, message, hint, Severity.WARNING, record.path, needs=needs)


def _whole_up(sold: SoldAs, count: int) -> str:
    """A whole number of what is sold as a smallest order is written."""
    step, least = sold.step, sold.minimum
    if isinstance(sold.pack, PackSize):
        return f"{count} {sold.pack.word}{'' if count == 1 else _more(sold.pack.word)}"
    if step and least and step.dimension is least.dimension:
        return written_like(least.text, count * step.value)
    return f"{count} pieces"


def _more(word: str) -> str:
    return "es" if word.endswith(("x", "ch")) else "s"


def _check_price(record: Cut | PantryItem, price: Measure, sold: SoldAs) -> Iterator[Problem]:
    """Warn of a price for one pack where another one is said to be sold."""
    priced = pack_in_price(price)
    if not (priced and sold.pack and priced.dimension is sold.pack.dimension):
        return
    if abs(priced.value - sold.pack.value) > _A_BIT * priced.value:
        yield Problem(
            price.place,
            tr(
                "it is priced by the {priced} and sold as {pack}",
                priced=priced.text,
                pack=sold.pack.text,
            ),
            tr("keep one of them, or write both alike"),
            Severity.WARNING,
            record.path,
            needs=(record.folder, "weights", "prices"),
        )
