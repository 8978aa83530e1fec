"""What the guests of set menus take of each plate, in a service or in a count."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from builder.reading.tree import Text
from builder.records.counts import Count, CountedPlate
from builder.records.fields import Id, Measure
from builder.records.menus import SetMenu
from builder.records.plates import Plate
from builder.records.services import Service, Serving

_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class WithGuests(Measure):
    """Covers of a plate with what guests of set menus take; `own` are those written for it."""

    own: Measure | None = None


def own_covers(covers: Measure) -> Measure | None:
    """The covers that are written for a plate itself; None where only guests of menus take it."""
    return covers.own if isinstance(covers, WithGuests) else covers


def settle_guests(
    services: Mapping[str, Service],
    counts: Mapping[str, Count],
    menus: Mapping[str, SetMenu],
    plates: Mapping[str, Plate],
) -> None:
    """Add what guests take to the plates of every service, and list it in every count."""
    for count in counts.values():
        _, named = _taken(count.menus, menus)
        guests_only = {
            name: _unsold(guests)
            for name, guests in named.items()
            if name in plates and name not in count.plates
        }
        count.__dict__["plates"] = {**count.plates, **guests_only}
    for service in services.values():
        served = with_guests(service, menus)
        service.__dict__["plates"] = {
            name: serving
            for name, serving in served.items()
            if name in service.plates or name in plates
        }


def with_guests(service: Service, menus: Mapping[str, SetMenu]) -> dict[Text, Serving]:
    """The plates of a service, each with what its menus' guests take, up to whole ones.

    A plate that only guests take goes straight to the plate; a line of its own says how long it
    lies in the cold before.
    """
    taken, named = _taken(service.menus, menus)
    found: dict[Text, Serving] = {}
    for name, serving in service.plates.items():
        own = own_covers(serving.covers)
        if own is not None or name in taken:
            found[name] = _serving(serving, own, taken.get(str(name), 0.0), serving.covers)
    for name, guests in named.items():
        if name not in found:
            empty = Serving.model_construct(None, covers=guests, ahead=None)
            found[name] = _serving(empty, None, taken[str(name)], guests)
    return found


def _unsold(guests: Measure) -> CountedPlate:
    """A plate that only guests of set menus took: none was sold on its own."""
    none = WithGuests(0.0, guests.place, "0", guests.dimension)
    return CountedPlate.model_construct(None, sold=none, weighed_portions=[])


def _taken(
    invited: Mapping[Id, Measure], menus: Mapping[str, SetMenu]
) -> tuple[Mapping[str, float], Mapping[Text, Measure]]:
    """Plates that guests take, not yet whole, and the guests that first name each of them."""
    taken: dict[str, float] = defaultdict(float)
    named: dict[Text, Measure] = {}
    for menu, guests in invited.items():
        for _, plate, share in menus[menu].shares if menu in menus and guests.value > 0 else ():
            taken[str(plate)] += guests.value * share
            named.setdefault(plate, guests)
    return taken, named


def _serving(serving: Serving, own: Measure | None, taken: float, at: Measure) -> Serving:
    if not taken and own is not None:
        return serving.model_copy(update={"covers": own})
    total = (own.value if own else 0.0) + math.ceil(taken - _SLACK)
    covers = WithGuests(total, at.place, f"{total:.0f}", at.dimension, own=own)
    return serving.model_copy(update={"covers": covers})
