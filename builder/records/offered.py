"""What set menus, counters, buffets and the till write, against the plates and prices beside it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from statistics import median

from builder.language import tr
from builder.problems import Problem, Severity
from builder.quantities import Dimension
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cut, PantryItem, Plate
from builder.records.sales import Sale
from builder.records.slips import slip
from builder.records.swaps import Swap
from builder.records.written import (
    Doubted,
    Value,
    believed,
    is_far,
    rests_on,
    rounded,
    times,
    warning,
)
from builder.rounding import Halved

# A supplement is this part of what its plate costs on its own, and what is left is worth this part
# of what it is sold for. Common practice, no published source.
SUPPLEMENT, LEFT = 0.25, 0.25
# More of one dish than this [kg or L] is put out for no guest, and usually so much. Common
# practice, no published source.
ONE_DISH, USUAL_DISH = 1.2, 0.13
# A keg or a bottle of gas may cost more than what is in it, but not so many times. Common practice,
# no published source.
DEPOSIT = 5.0
# A row of the till takes so many times the menu's price, or such a part of it, and as far from
# the plate's other rows where there are several. Common practice, no published source.
OFF_PRICE, SEVERAL = 6.0, 3
# A row takes back a table's plates, not so many and more than this part of what the month's other
# rows sell. Common practice, no published source.
MANY_BACK, BACK = 10.0, 0.1


def check_offered(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of what no guest would pay or eat, and of money that no plate can have brought."""
    yield from _supplements(content, reported)
    yield from _put_out(content, reported)
    yield from _left_worth(content, reported)
    yield from _decided(content, reported)
    yield from _deposits(content, reported)
    yield from _taken(content, reported)
    yield from _taken_back(content)


def _supplements(content: Content, reported: Doubted) -> Iterator[Problem]:
    """A supplement that is more than its plate costs a guest on its own."""
    for menu in content.menus.values():
        for _, name, choice in menu.served:
            plate, extra = content.plates.get(str(name)), choice.supplement if choice else None
            if plate is None or extra is None or {plate.price.place, extra.place} & reported:
                continue
            if 0 < plate.price.value < extra.value:
                value = Value("menus.courses.supplement", extra, menu, menu.path, item=plate.id)
                message = tr(
                    "{extra} on top is more than the price of {plate} on its own, {price}",
                    extra=extra.text,
                    plate=plate.title,
                    price=plate.price.text,
                )
                hint = slip(extra, SUPPLEMENT * plate.price.value / extra.value)
                yield from warning(value, message, hint)


def _put_out(content: Content, reported: Doubted) -> Iterator[Problem]:
    """More put out for one guest than anybody eats, at the dish that there is most of."""
    for buffet in content.buffets.values():
        if buffet.by_weight:
            continue
        dishes = [
            *(("buffets.cooks", name, amount) for name, amount in buffet.cooks.items()),
            *(("buffets.items", name, amount) for name, amount in buffet.items.items()),
        ]
        for key, name, amount in dishes:
            weighed = amount.dimension in (Dimension.MASS, Dimension.VOLUME)
            if weighed and amount.value > ONE_DISH and amount.place not in reported:
                value = Value(key, amount, buffet, buffet.path, item=str(name))
                message = tr("{amount} is much of one dish for one guest", amount=amount.text)
                yield from warning(value, message, slip(amount, USUAL_DISH / amount.value))


def _left_worth(content: Content, reported: Doubted) -> Iterator[Problem]:
    """What is left worth more than it is sold for."""
    for buffet in content.buffets.values():
        worth, price = buffet.left_worth, buffet.price
        if worth is None or not buffet.by_weight or {worth.place, price.place} & reported:
            continue
        if worth.value > price.value > 0:
            value = Value("buffets.left worth", worth, buffet, buffet.path)
            message = tr(
                "what is left is worth {worth}, more than the {price} that it is sold for",
                worth=worth.text,
                price=price.text,
            )
            yield from warning(value, message, slip(worth, LEFT * price.value / worth.value))


def _decided(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Money a plate that was decided on, and is more than either plate costs a guest."""
    for swap in content.swaps.values():
        if swap.decided is None:
            continue
        plates = [content.plates.get(str(name)) for name in (swap.benchmark, *swap.challengers)]
        prices = [plate.price for plate in plates if plate]
        dearest = max(prices, key=lambda price: price.value, default=None)
        if dearest is None or {price.place for price in prices} & reported:
            continue
        for key, figure in _figures(swap):
            if abs(figure.value) > dearest.value > 0:
                value = Value(f"swaps.decided.{key}", figure, swap, swap.path)
                message = tr(
                    "{figure} a plate is more than any of these plates costs, {price} at the most",
                    figure=figure.text,
                    price=dearest.text,
                )
                yield from warning(
                    value, message, slip(figure, 0.1 * dearest.value / abs(figure.value))
                )


def _figures(swap: Swap) -> Iterator[tuple[str, Measure]]:
    decided = swap.decided
    if decided and decided.margin_change:
        yield "margin change", decided.margin_change
    if decided and decided.food_saved:
        yield "food saved", decided.food_saved


def _deposits(content: Content, reported: Doubted) -> Iterator[Problem]:
    """A deposit on a pack that is several times what is in it."""
    items: list[Cut | PantryItem] = [*content.cuts.values(), *content.pantry.values()]
    for item in items:
        sold, price = item.sold_as, item.price
        if sold is None or sold.deposit is None or sold.pack is None or price is None:
            continue
        if price.dimension is not sold.pack.dimension or {price.place, sold.pack.place} & reported:
            continue
        goods = price.value * sold.pack.value
        if sold.deposit.value > DEPOSIT * goods > 0:
            value = Value(f"{item.folder}.sold as.deposit", sold.deposit, item, item.path)
            message = tr(
                "a deposit of {deposit} is {times} what is in the pack",
                deposit=sold.deposit.text,
                times=times(sold.deposit.value / goods, 2),
            )
            yield from warning(value, message, slip(sold.deposit, 0.1 * goods / sold.deposit.value))


def _taken(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Rows of the till that bring a price far from the menu's and from the plate's other rows.

    Nothing taken is a plate that was given away.
    """
    of_plate: dict[str, list[tuple[Sale, float]]] = defaultdict(list)
    for sale in content.sales:
        if sale.taken and sale.count and sale.plate in content.plates:
            of_plate[sale.plate].append((sale, sale.taken / sale.count))
    for name, rows in of_plate.items():
        price = content.plates[name].price
        usual = median(each for _, each in rows) if len(rows) >= SEVERAL else price.value
        for sale, each in rows if price.place not in reported else ():
            # A price that all rows have is the till's own, and reported month by month.
            odd = is_far(each, price.value, OFF_PRICE)
            if odd and (usual == price.value or is_far(each, usual, OFF_PRICE)):
                yield from _odd_row(content, content.plates[name], sale, each)


def _taken_back(content: Content) -> Iterator[Problem]:
    """Rows of the till that take back more plates than any table sends back."""
    sold: dict[tuple[str, int, int], float] = defaultdict(float)
    for sale in content.sales:
        sold[_month(sale)] += max(sale.count, 0)
    for sale in content.sales:
        most, plate = max(MANY_BACK, BACK * sold[_month(sale)]), content.plates.get(sale.plate)
        if plate and -sale.count > most:
            message = tr(
                "{plate}: {count} taken back, of {sold} sold in the month",
                plate=plate.title,
                count=rounded(-sale.count),
                sold=rounded(sold[_month(sale)]),
            )
            yield from _row_in_doubt(content, plate, sale, message)


def _month(sale: Sale) -> tuple[str, int, int]:
    return sale.plate, sale.day.year, sale.day.month


def _odd_row(content: Content, plate: Plate, sale: Sale, each: float) -> Iterator[Problem]:
    message = tr(
        "{plate}: {taken} for {count} is {times} its price on the menu, {price}",
        plate=plate.title,
        taken=_with_coins(sale.taken or 0.0, plate.price),
        count=rounded(sale.count),
        times=times(each / plate.price.value, 2),
        price=plate.price.text,
    )
    yield from _row_in_doubt(content, plate, sale, message)


def _row_in_doubt(content: Content, plate: Plate, sale: Sale, message: str) -> Iterator[Problem]:
    if believed(content.kitchen, sale.day):
        return
    hint = tr(
        "look at the count and at the money; if both are right, write checked: and the day in "
        "{file}",
        file=content.kitchen.file,
    )
    needs = rests_on(Value("plates.price", plate.price, plate, plate.path))
    yield Problem(sale.place, message, hint, Severity.WARNING, plate.path, needs=needs)


def _with_coins(money: float, like: Measure) -> str:
    """An amount with as many decimals as another is written with.

    >>> from builder.problems import Place
    >>> _with_coins(120.9, Measure(39, Place("a"), "39.00"))
    '120.90'
    """
    return f"{Halved(money):.{len(like.text.partition('.')[2])}f}"
