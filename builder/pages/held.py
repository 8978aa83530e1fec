"""Inputs that an interval holds at what is written, by name, with the reason."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence, Set

from markupsafe import Markup, escape

from builder.costing.candidates import COOK_YIELD, LISTED_PRICE
from builder.costing.spreads import (
    AP_PRICE,
    FURTHER_PORTION,
    PANTRY_PRICE,
    PORTION,
    SOLD,
    YIELD,
    Sure,
)
from builder.display.words import listed
from builder.engine.draws import Basis
from builder.engine.model import Node
from builder.engine.sensitivity import Sensitivity
from builder.language import Deferred, clauses, ntr, tr
from builder.pages.view import F, FigureRow, View
from builder.records.kinds import Plate

FORECAST: Node = ("plate", "forecast")
# A swap's own count, where it states one.
_OF_SWAP: Node = ("swap", "swap_forecast")
_ELECTRICITY: Node = ("kitchen", "electricity_price")
_GAS: Node = ("kitchen", "gas_price")
_MEASURED: Node = ("batch", "measured_energy")
_MODELLED: Node = ("batch", "modelled_energy")
_STANDBY: Node = ("equipment", "standby_power")
_USABLE: Node = ("pantry", "usable_yield")
# What is told of where nothing is behind a spread; of a price or a yield, whose it is. Groups of
# the same words are named once. A menu price is the kitchen's own decision, so it is not held.
_HELD: dict[Node, str] = {
    YIELD: Deferred("yield"),
    AP_PRICE: Deferred("price"),
    PANTRY_PRICE: Deferred("price"),
    PORTION: Deferred("the portion"),
    FURTHER_PORTION: Deferred("the further portion"),
    ("batch", "piece_weight"): Deferred("the weight of a piece"),
    ("accompaniment", "quantity"): Deferred("the amounts of its sides"),
    _USABLE: Deferred("the usable share of pantry items"),
    ("pantry", "stated_makes"): Deferred("what sub-recipes make"),
    ("pantry", "recipe_yield"): Deferred("what sub-recipes make"),
    ("kitchen", "seasoning_share"): Deferred("the seasoning allowance"),
    ("plate", "plate_seasoning"): Deferred("the seasoning allowance"),
    ("kitchen", "kitchen_garnish"): Deferred("the garnish"),
    ("kitchen", "kitchen_garnish_share"): Deferred("the garnish"),
    ("plate", "plate_garnish"): Deferred("the garnish"),
    ("plate", "plate_garnish_share"): Deferred("the garnish"),
    ("kitchen", "stated_cover_cost"): Deferred("the cover cost"),
    ("plate", "plate_cover"): Deferred("the cover cost"),
    ("cover_item", "quantity"): Deferred("the amounts of the cover"),
    ("dish", "stated_weight"): Deferred("the weights put out"),
    ("dish", "quantity"): Deferred("the weights put out"),
    ("buffet", "left_share"): Deferred("what is left over"),
    ("buffet", "left_worth"): Deferred("the worth of what is left over"),
    ("choice", "stated_share"): Deferred("who takes what"),
    ("byproduct", "stated_worth"): Deferred("the worth of by-products"),
    ("part", "worth"): Deferred("the worth of by-products"),
    ("batch", "remainder_worth"): Deferred("the worth of what is left over"),
    ("batch", "hands_on"): Deferred("the work on the batch"),
    ("plate", "plating"): Deferred("the work to plate"),
    ("pantry", "recipe_hands_on"): Deferred("the work on sub-recipes"),
    ("kitchen", "loaded_wage"): Deferred("the wage"),
    _MEASURED: Deferred("the energy of a batch"),
    _MODELLED: Deferred("the energy of a batch"),
    _STANDBY: Deferred("the measured standby"),
    ("pantry", "recipe_energy"): Deferred("the energy of sub-recipes"),
    _ELECTRICITY: Deferred("the electricity tariff"),
    _GAS: Deferred("the gas tariff"),
    ("consumable", "consumable_price"): Deferred("the consumables"),
    ("equipment", "stated_charge"): Deferred("the equipment charge"),
    ("equipment", "service_life"): Deferred("the equipment charge"),
    SOLD: Deferred("the plates sold"),
    FORECAST: Deferred("the plates forecast"),
    _OF_SWAP: Deferred("the plates forecast"),
    COOK_YIELD: Deferred("its published cooking yield"),
    LISTED_PRICE: Deferred("the listed price"),
}
# What a plate may write instead of the kitchen's.
_PLATE_S_OWN: dict[Node, Node] = {
    ("kitchen", "seasoning_share"): ("plate", "plate_seasoning"),
    ("kitchen", "kitchen_garnish"): ("plate", "plate_garnish"),
    ("kitchen", "kitchen_garnish_share"): ("plate", "plate_garnish_share"),
}
_COVER_COST: Node = ("kitchen", "stated_cover_cost")
# What says that an input is sure.
_SURE: dict[Basis, str] = {
    Basis.TESTS: "the tests agree",
    Basis.STATED: Deferred("the kitchen gives or takes nothing"),
    Basis.LIST: Deferred("its list never moved"),
    Basis.LIKE_PRICES: Deferred("no list ever moved"),
    Basis.WEIGHED: Deferred("the portions weigh alike"),
    Basis.MONTHS: Deferred("every month sold the same number"),
}
# What is held of a few, and of many, where something is behind the spread of others.
_OF_SOME: dict[Node, tuple[str, str]] = {
    ("batch", "hands_on"): (
        Deferred("the work on the batch of {whose}"),
        Deferred("the work on {whose} of the batches"),
    ),
    ("pantry", "recipe_hands_on"): (
        Deferred("the work on {whose}"),
        Deferred("the work on {whose} of the sub-recipes"),
    ),
}
# Of these it is always said whose they are.
_BY_NAME = frozenset({YIELD, AP_PRICE, PANTRY_PRICE})
# Items that a sentence names; of more it says how many.
_NAMED = 3


def held_list(sensitivity: Sensitivity, sure: Sure, row: FigureRow[F]) -> Markup:
    """Inputs with nothing behind a spread, and those that something says are sure, by name.

    A paragraph for each reason; several inputs are a list below it.
    """
    held: dict[str, dict[Node, list[int]]] = {}
    bears = _bears_cover(sensitivity, row)
    unused = {node for node in _PLATE_S_OWN if _is_overruled(sensitivity, row, node)}
    unused |= set() if bears else {_COVER_COST}
    found = sensitivity.fixed(_HELD.keys() - unused, row.row, "" if bears else "cover_item")
    for node, at in found:
        if _is_used(sensitivity, row, node, at):
            why = (
                # A price of few changes is held, too.
                tr(_SURE[sure[node, at]])
                if (node, at) in sure
                else tr("too little says how far off")
            )
            held.setdefault(why, {}).setdefault(node, []).append(at)
    several, partly = _several(row), sensitivity.moved(row.row)
    return Markup().join(
        _because(why, list(_names(row.view, found, several, partly)))
        for why, found in sorted(held.items())
    )


def _because(why: str, names: Sequence[str]) -> Markup:
    if len(names) == 1:
        return Markup(tr(_ONE)).format(why, names[0])
    return Markup(tr(_SEVERAL)).format(
        why, Markup("".join(f"<li>{escape(name)}</li>\n" for name in names))
    )


_ONE = Deferred('\n<p class="written">Held at what is written, as {}: {}.</p>')
_SEVERAL = Deferred(
    '\n<p class="written">Held at what is written, as {}:</p>\n<ul class="few">\n{}</ul>'
)


def _bears_cover(sensitivity: Sensitivity, row: FigureRow[F]) -> bool:
    """Whether the row takes the kitchen's cover: a set menu its own, else any of its plates."""
    bearer = "set_menu" if row.table == "set_menu" else "plate"
    reached = sensitivity.fixed([(bearer, "bears_cover")], row.row)
    return any(row.view.costed.figures.value(*node, at) > 0 for node, at in reached)


def _is_overruled(sensitivity: Sensitivity, row: FigureRow[F], node: Node) -> bool:
    """Whether every plate that the row rests on writes its own instead of the kitchen's."""
    own = _PLATE_S_OWN.get(node)
    reached = sensitivity.fixed([own], row.row) if own else []
    return bool(reached) and not any(
        math.isnan(row.view.costed.figures.value(*plates, at)) for plates, at in reached
    )


def _several(row: FigureRow[F]) -> bool:
    """Whether a row rests on stages of more than one cut or cook of a kind, to be told apart."""
    if row.table == "plate":
        return bool(row.view.costed.figures.children("portion", "plate", row.row))
    return row.table in {"swap", "set_menu", "buffet"}


def _names(
    view: View, found: dict[Node, list[int]], several: bool, partly: Set[Node]
) -> Iterable[str]:
    """What is held; where another of the kind is moved, also whose it is."""
    return dict.fromkeys(
        _held_of_some(view, node, found[node])
        if node in partly - _BY_NAME
        else _held(view, node, found[node], several)
        for node in _HELD
        if node in found
    )


def _held_of_some(view: View, node: Node, rows: Sequence[int]) -> str:
    names = list(dict.fromkeys(_whose(view, node, row, several=False) for row in rows))
    several = len(names) > _NAMED
    whose = str(len(names)) if several else listed(names)
    if node in _OF_SOME:
        one, many = _OF_SOME[node]
        return tr(many if several else one, whose=whose)
    if several:
        return tr("{held}, for {count} of them", held=tr(_HELD[node]), count=whose)
    return tr("{held} of {names}", held=tr(_HELD[node]), names=whose)


def _is_used(sensitivity: Sensitivity, row: FigureRow[F], node: Node, at: int) -> bool:
    """Whether the row rests on an input that is written: a swap only on its benchmark's count."""
    figures = row.view.costed.figures
    if node in {SOLD, FORECAST}:
        counted = row.table == "swap" and math.isnan(
            row.view.number("swap", "swap_forecast", row.row)
        )
        if not counted or at != figures.linked("swap", "benchmark", row.row):
            return False
        # A forecast counts, whatever was sold.
        if node == SOLD and figures.value(*FORECAST, at) > 0:
            return False
    value = figures.value(*node, at)
    if node == _MODELLED:
        return value > 0 and not figures.value(*_MEASURED, at) > 0
    if node == _STANDBY:
        return value > 0 and _is_costed_by_standby(sensitivity, row, at)
    if node in {_ELECTRICITY, _GAS}:
        return value > 0 and _heats(sensitivity, row, gas=node == _GAS)
    return node == YIELD or (value > 0 and (node != _USABLE or value < 1))


def _heats(sensitivity: Sensitivity, row: FigureRow[F], *, gas: bool) -> bool:
    """Whether a tariff is paid for anything that the row rests on."""
    figures = row.view.costed.figures
    energies: dict[Node, Node] = {
        ("batch", "burns_gas"): ("batch", "batch_energy"),
        ("pantry", "burns_gas"): ("pantry", "recipe_energy"),
    }
    return any(
        (figures.value(*burns, at) > 0) == gas and figures.value(*energies[burns], at) > 0
        for burns, at in sensitivity.fixed(energies, row.row)
    )


def _is_costed_by_standby(sensitivity: Sensitivity, row: FigureRow[F], gear: int) -> bool:
    """Whether a batch that the row rests on has the energy that its equipment draws by the hour."""
    figures = row.view.costed.figures
    return any(
        figures.linked("batch", "equipment", at) == gear
        and not any(figures.value(*known, at) > 0 for known in (_MEASURED, _MODELLED))
        for _, at in sensitivity.fixed([("batch", "burns_gas")], row.row)
    )


def _held(view: View, node: Node, rows: Sequence[int], several: bool) -> str:
    """What is held; of the yields of several plates' stages also whose stage each is."""
    if node not in _BY_NAME:
        return tr(_HELD[node])
    names = list(dict.fromkeys(_whose(view, node, row, several) for row in rows))
    whose = listed(names)
    if node == YIELD:
        weighed = any(view.number("stage", "tests_count", row) > 0 for row in rows)
        whose = _stages(view, rows) if several else whose
        yields = ntr("the yield of {names}", "the yields of {names}", len(names), names=whose)
        return yields if weighed else tr("{yields}, which nobody weighed", yields=yields)
    if len(names) <= _NAMED:
        return ntr("the price of {names}", "the prices of {names}", len(names), names=whose)
    if node == AP_PRICE:
        return ntr("the prices of {count} cut", "the prices of {count} cuts", len(names))
    return ntr(
        "the prices of {count} pantry item", "the prices of {count} pantry items", len(names)
    )


def _stages(view: View, rows: Sequence[int]) -> str:
    """Stages with the cuts and cooks that they are of, each of these once."""
    stages: dict[str, list[str]] = {}
    for row in rows:
        who = view.costed.figures.identity(YIELD[0], row)
        labels = stages.setdefault(view.where.title(f"{who.owner}.html"), [])
        labels += [who.label] if who.label not in labels else []
    each = [
        tr("{labels} of {owner}", labels=listed(labels), owner=owner)
        for owner, labels in stages.items()
    ]
    # A name may hold a comma, and several stages an "and".
    joints = (",", listed(["", ""]))
    if len(each) > 1 and any(joint in name for name in each for joint in joints):
        return tr("{each}; and {each2}", each=clauses(each[:-1]), each2=each[-1])
    return listed(each)


def _whose(view: View, node: Node, row: int, several: bool) -> str:
    who = view.costed.figures.identity(node[0], row)
    owner = view.where.title(f"{who.owner}.html")
    if node != YIELD:
        return owner
    return tr("{who} of {owner}", who=who.label, owner=owner) if several else who.label


def held_counts(view: View, plates: Iterable[Plate]) -> str:
    """Whose plates sold the chances of classes hold as counted, for want of months."""
    known = view.costed.uncertainty
    if known is None:
        return ""
    moved, names = known.spreads.get(SOLD, {}), []
    for plate in plates:
        row = view.plate(plate)
        counted = row.known("class_chance") and row.number("sold") > 0
        if counted and row.row not in moved and (SOLD, row.row) not in known.sure:
            names.append(plate.title)
    if not names:
        return ""
    whose = (
        listed(names)
        if len(names) <= _NAMED
        else ntr("{count} plate", "{count} plates", len(names))
    )
    return tr(
        "Chances of classes take what was sold of {whose} as counted: too "
        "few months are counted to say how far off another month may be.",
        whose=whose,
    )
