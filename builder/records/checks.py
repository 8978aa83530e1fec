"""What one file can't know: ids that lead nowhere, circles, units, days to come."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from babel import Locale, UnknownLocaleError
from babel.localedata import locale_identifiers
from babel.numbers import is_currency

from builder.language import either, tr
from builder.problems import (
    Gathered,
    Place,
    Problem,
    Severity,
    bounded,
    did_you_mean,
    in_order,
    nearest,
)
from builder.reading.tree import Text
from builder.records.allergen_checks import check_allergens
from builder.records.amounts import UnitMismatchError, in_base, in_mass, what_weighs
from builder.records.buffet_checks import check_buffets
from builder.records.candidate_checks import check_candidates
from builder.records.content import Content
from builder.records.covered import check_cover
from builder.records.editions import check_editions
from builder.records.fields import YEAR_H, Measure
from builder.records.heat import check_heat
from builder.records.kinds import RECORDS, PantryItem, Plate, Service, Swap
from builder.records.kitchen import Kitchen
from builder.records.loads import check_load
from builder.records.menu_checks import check_menus
from builder.records.notes import check_notes
from builder.records.old_prices import check_old_prices
from builder.records.portions import check_portions
from builder.records.price_checks import check_cut_price, check_prices
from builder.records.pricing import check_no_prices, check_same_day, is_no_price
from builder.records.proportion import check_proportion
from builder.records.sold_in import check_sold_as
from builder.records.step_checks import check_steps
from builder.records.stock import check_stock
from builder.records.terms import check_terms
from builder.records.twice import check_twice
from builder.records.weights import check_weights

_EQUIPMENT = "equipment."
_FEW = 6


def check(content: Content) -> list[Problem]:
    """Every problem of the records among each other, sorted; errors and warnings."""
    gathered = Gathered()
    for problems in (
        _check_kitchen(content),
        _check_links(content),
        check_terms(content),
        check_cover(content),
        _check_cuts(content),
        _check_cooks(content),
        _check_pantry(content),
        _check_circles(content),
        _check_plates(content),
        check_menus(content),
        check_buffets(content),
        _check_swaps(content),
        _check_services(content),
        check_stock(content),
        check_heat(content),
        bounded(check_allergens(content)),
        check_prices(content),
        check_candidates(content),
        bounded(check_old_prices(content)),
        bounded(check_same_day(content)),
        bounded(check_no_prices(content)),
        bounded(check_sold_as(content)),
        check_weights(content),
        check_twice(content),
        check_notes(content),
        check_editions(content.kitchen.editions),
        check_steps(content),
    ):
        gathered.add(problems)
    found = in_order(gathered)
    # What is refused at a place is not doubted there as well.
    refused = {problem.place for problem in found if problem.is_error}
    doubts = (doubt for doubt in check_proportion(content) if doubt.place not in refused)
    gathered.add(doubts)
    return in_order(gathered)


def unknown_id(
    content: Content, text: Text, known: Collection[str], what: str, folder: str
) -> Iterator[Problem]:
    """Say that an id leads nowhere, and which one may be meant.

    A record whose file is there but could not be read has its own problem already.
    """
    if content.has_file(folder, text):
        return
    hint = did_you_mean(text, known) or (
        tr("make the file {folder}/{text}.yaml", folder=folder, text=text)
        if folder
        else tr("known: {known}", known=", ".join(known))
    )
    yield Problem(text.place, tr('there is no {what} "{text}"', what=tr(what), text=text), hint)


def _check_links(content: Content) -> Iterator[Problem]:
    nouns = {kind.folder: kind.kind.noun for kind in RECORDS}
    for record in content.records():
        for folder, name in record.links:
            if name not in content.kinds[folder]:
                yield from unknown_id(content, name, content.kinds[folder], nouns[folder], folder)


def _check_kitchen(content: Content) -> Iterator[Problem]:
    kitchen = content.kitchen
    if kitchen.cover_cost is not None:
        yield from _check_amounts(content, kitchen.cover_cost.of)
    if not is_currency(kitchen.currency):
        yield Problem(
            kitchen.currency.place,
            tr('"{currency}" is no currency', currency=kitchen.currency),
            _currency_hint(kitchen.currency),
        )
    if kitchen.locale is not None:
        try:
            Locale.parse(kitchen.locale)
        except (UnknownLocaleError, ValueError):
            yield _no_locale(kitchen.locale)


def _currency_hint(written: Text) -> str:
    """The codes that a sign, small letters or an English name may mean, else the form."""
    english = Locale("en")
    signs = english.currency_symbols
    names = {name.lower(): code for code, name in english.currencies.items()}
    meant = [code for code, sign in signs.items() if not written.isalnum() and written in sign]
    if code := nearest(written.upper(), signs, 1) or names.get(written.lower()):
        meant = [code]
    if meant:
        return tr("write {meant}", meant=either(meant[:_FEW]))
    return tr("an ISO 4217 code, such as CAD or EUR")


def _no_locale(written: Text) -> Problem:
    meant, hint = written.replace("-", "_"), tr("such as en_CA")
    if "-" in written and meant in locale_identifiers():
        hint = tr('did you mean "{meant}"?', meant=meant)
    return Problem(written.place, tr('"{written}" is no locale', written=written), hint)


def _listed(content: Content) -> set[str]:
    """What the price lists carry on any day; what they carry only later is left out."""
    return {str(row.item) for row in content.prices if not is_no_price(row.price)}


def _lists_are_whole(content: Content) -> bool:
    """Whether every row of the price lists could be read."""
    return not any(file.startswith("prices") for file in content.doubtful)


def _check_cuts(content: Content) -> Iterator[Problem]:
    listed, whole = _listed(content), _lists_are_whole(content)
    for cut in content.cuts.values():
        if cut.price is None and cut.id not in listed and whole:
            yield Problem(
                Place(cut.file),
                tr("this cut has no price"),
                tr("write price:, such as price: 13.60/kg"),
            )
        elif cut.price is not None:
            yield from check_cut_price(cut, cut.price)


def _check_cooks(content: Content) -> Iterator[Problem]:
    kitchen = content.kitchen
    for cook in content.cooks.values():
        if cook.cut not in content.cuts:
            yield from unknown_id(content, cook.cut, content.cuts, "cut", "cuts")
        if cook.equipment is not None and cook.equipment not in kitchen.equipment:
            yield from _unknown_equipment(content, cook.equipment)
        elif not (cook.unread & {"load", "tests"} or _in_doubt(kitchen, cook.equipment)):
            yield from check_load(content, cook)


def _unknown_equipment(content: Content, name: Text) -> Iterator[Problem]:
    if not _in_doubt(content.kitchen, name):
        doubtful = (
            key.removeprefix(_EQUIPMENT) for key in content.kitchen.unread if _EQUIPMENT in key
        )
        known = [*content.kitchen.equipment, *sorted(doubtful)]
        yield from unknown_id(content, name, known, "equipment", "")


def _in_doubt(kitchen: Kitchen, equipment: Text | None) -> bool:
    """Whether a piece of equipment, or all of it, could not be read."""
    return not kitchen.unread.isdisjoint({f"{_EQUIPMENT}{equipment}", f"{_EQUIPMENT}*"})


def _check_pantry(content: Content) -> Iterator[Problem]:
    listed, whole = _listed(content), _lists_are_whole(content)
    for item in content.pantry.values():
        yield from _check_amounts(content, item.of)
        yield from _check_recipe_weight(content, item)
        nothing = item.makes is not None and item.makes.value <= 0
        if item.makes is not None and nothing:
            yield Problem(item.makes.place, tr("a sub-recipe makes more than nothing"))
        if item.yield_ is not None and item.yield_.value <= 0:
            yield Problem(item.yield_.place, tr("a yield of nothing leaves nothing to use"))
        if whole and _unpriced(item, listed):
            yield Problem(
                Place(item.file),
                tr("neither bought by {as_of} nor made", as_of=content.as_of),
                tr("write price:, such as price: 4.20/kg, or of: and makes:"),
            )


def _unpriced(item: PantryItem, listed: set[str]) -> bool:
    """Whether nothing that could be read says what the item is counted in."""
    return item.price is None and not item.of and item.id not in listed


def _check_amounts(content: Content, amounts: dict[Text, Measure]) -> Iterator[Problem]:
    listed, whole = _listed(content), _lists_are_whole(content)
    for name, amount in amounts.items():
        item = content.pantry.get(name)
        if item is None:
            yield from unknown_id(content, name, content.pantry, "pantry item", "pantry")
        if item is None or item.unread or (not whole and _unpriced(item, listed)):
            continue
        try:
            in_base(item, amount)
        except UnitMismatchError as error:
            yield Problem(
                amount.place,
                tr("{amount} does not fit how {name} is priced", amount=amount.text, name=name),
                str(error),
            )


def _check_recipe_weight(content: Content, recipe: PantryItem) -> Iterator[Problem]:
    """Where a yield says what a sub-recipe makes, every ingredient has a weight."""
    if not recipe.of or recipe.yield_ is None or recipe.makes is not None or recipe.unread:
        return
    for name, amount in recipe.of.items():
        item = content.pantry.get(name)
        if item is None or item.unread or not _is_priced_so(item, amount):
            continue  # reported by itself
        if in_mass(item, amount) is None:
            message = tr(
                "{amount} of {name} has no weight, and yield: goes by weight",
                amount=amount.text,
                name=name,
            )
            yield Problem(amount.place, message, what_weighs(item, amount))
    if all(amount.value == 0 for amount in recipe.of.values()):
        place = next(iter(recipe.of.values())).place
        yield Problem(place, tr("the ingredients weigh nothing, so nothing is made of them"))


def _is_priced_so(item: PantryItem, amount: Measure) -> bool:
    """Whether the amount fits the item's price; where it does not, that is reported."""
    try:
        in_base(item, amount)
    except UnitMismatchError:
        return False
    return True


def _check_circles(content: Content) -> Iterator[Problem]:
    """Sub-recipes made of each other: each circle once, at the line that closes it."""
    done: set[str] = set()
    for start in content.pantry:
        yield from _walk_recipes(content, start, done)


def _walk_recipes(content: Content, start: str, done: set[str]) -> Iterator[Problem]:
    """Depth first, on a path of our own: recipes may be nested deeper than calls can be."""
    path = {start: iter(content.pantry[start].of)} if start not in done else {}
    while path:
        ingredient = next(next(reversed(path.values())), None)
        if ingredient is None:
            done.add(path.popitem()[0])
        elif ingredient in path:
            names = list(path)
            circle = " -> ".join([*names[names.index(ingredient) :], ingredient])
            yield Problem(
                ingredient.place,
                tr("made of itself: {circle}", circle=circle),
                tr("take one of them out"),
            )
        elif ingredient in content.pantry and ingredient not in done:
            path[str(ingredient)] = iter(content.pantry[ingredient].of)


def _check_plates(content: Content) -> Iterator[Problem]:
    sections = [str(section) for section in content.kitchen.sections]
    for plate in content.plates.values():
        if sections and plate.menu not in sections and "sections" not in content.kitchen.unread:
            hint = did_you_mean(plate.menu, sections) or tr(
                "sections: {sections}", sections=", ".join(sections)
            )
            yield Problem(
                plate.menu.place, tr('the menu has no section "{menu}"', menu=plate.menu), hint
            )
        for name in plate.cooks:
            if name not in content.cooks:
                yield from unknown_id(content, name, content.cooks, "cook", "cooks")
        for name in plate.raw_cuts:
            if name not in content.cuts:
                yield from unknown_id(content, name, content.cuts, "cut", "cuts")
        yield from _check_amounts(content, plate.with_)
        yield from _check_plate_numbers(content, plate)


def _check_plate_numbers(content: Content, plate: Plate) -> Iterator[Problem]:
    yield from check_portions(content, plate)
    if plate.price.value <= 0:
        yield Problem(plate.price.place, tr("a plate is sold for more than nothing"))
    if not (plate.cook or plate.cut or plate.with_):
        message = tr("nothing is on this plate, so its food costs nothing")
        hint, place, needs = (
            tr("write cook: and portion:, or with:"),
            Place(plate.file),
            ("plates",),
        )
        yield Problem(place, message, hint, Severity.WARNING, plate.path, needs=needs)
    for month in plate.sold:
        if month.first > content.as_of:
            yield Problem(
                month.place,
                tr("{month} has not begun by {as_of}", month=month, as_of=content.as_of),
            )


def _check_swaps(content: Content) -> Iterator[Problem]:
    for swap in content.swaps.values():
        if not swap.challengers:
            yield Problem(
                Place(swap.file), tr("a swap needs a challenger"), tr("write challengers: [id]")
            )
        yield from _check_roles(swap)
        yield from _check_bought(content, swap)


def _check_roles(swap: Swap) -> Iterator[Problem]:
    seen: set[str] = set()
    for name in swap.challengers:
        if name == swap.benchmark:
            yield Problem(name.place, tr('"{name}" can\'t challenge itself', name=name))
        if name in seen:
            yield Problem(name.place, tr('"{name}" is there twice', name=name))
        seen.add(name)


def _check_bought(content: Content, swap: Swap) -> Iterator[Problem]:
    for name in swap.buys:
        gear = content.kitchen.equipment.get(name)
        if gear is None:
            yield from _unknown_equipment(content, name)
        elif gear.price is None and not _in_doubt(content.kitchen, name):
            yield Problem(
                name.place, tr("{name} has no price", name=name), tr("write it in kitchen.yaml")
            )


def _check_services(content: Content) -> Iterator[Problem]:
    for service in content.services.values():
        yield from _check_steps(service)


def _check_steps(service: Service) -> Iterator[Problem]:
    """The staff's steps before one service can't take longer than a year."""
    hours = 0.0
    for step in service.steps:
        hours += step.for_.value
        if hours > YEAR_H:
            yield Problem(
                step.for_.place, tr("the steps before this service take more than a year in all")
            )
            return
