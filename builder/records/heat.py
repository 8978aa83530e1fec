"""Checks of time and temperature that one file can't make, or that physics can't go on without."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from builder.language import Deferred, tr
from builder.problems import Place, Problem, Severity, nearest
from builder.quantities.prints import ROUNDING_C, lower_print
from builder.reading.tree import Text
from builder.records.base import Record
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.gear_words import spelt
from builder.records.kinds import Cook, Equipment, Plate
from builder.records.kitchen import Kitchen
from builder.records.plans import METERED, MODELLED, Piece, Reheating
from builder.records.ranges import WANTED, range_words
from builder.records.services import Service
from builder.records.slips import other_scale
from builder.records.ways import BATH, gear_of

# What a medium can be [°C] at the pressure of the air: a bath stops short of boiling, water
# boils at 100 °C, steam may be superheated a little. Common practice, no published source.
HOT_WATER_C = (30.0, 95.0)
BOILING_C = (30.0, 100.0)
STEAM_C = (30.0, 130.0)
MEDIA_C: Mapping[str, tuple[float, float]] = {
    BATH: HOT_WATER_C,
    "steam oven": STEAM_C,
    "steam": STEAM_C,
    "simmering liquid": BOILING_C,
    "simmer": BOILING_C,
    "poach": BOILING_C,
}
_SLIP = 0.8
_THICKNESS = Deferred("the smallest dimension of one piece, such as 60 mm")


def check_heat(content: Content) -> Iterator[Problem]:
    """Every problem of the kitchen's, the cooks' and the services' times and temperatures."""
    yield from _check_kitchen(content.kitchen)
    for cook in content.cooks.values():
        yield from _check_cook(cook, gear_of(cook, content.kitchen))
    for item in content.pantry.values():
        if item.store is not None:
            yield from _within(tr("stored at"), item.store.at, -40, 25, tr("-40 to 25 °C"))
    for service in content.services.values():
        yield from _check_service(content, service)


def _within(
    what: str, measure: Measure | None, low: float, high: float, words: str, hint: str = ""
) -> Iterator[Problem]:
    """Refuse a measure outside its range, which `words` name with their usual units."""
    if measure is not None and not low <= measure.value <= high:
        words = range_words(measure, low, high, words)
        message = tr(
            "{what}: {measure} is outside {words}", what=what, measure=measure.text, words=words
        )
        slip = other_scale(measure, low, high)
        yield Problem(measure.place, message, slip or hint or tr(WANTED, words=words))


def _check_kitchen(kitchen: Kitchen) -> Iterator[Problem]:
    yield from _within(tr("room"), kitchen.room, 0, 45, tr("0 to 45 °C"))
    yield from _within(tr("fill water"), kitchen.fill_water, 0, 60, tr("0 to 60 °C"))
    yield from _within(tr("running hours"), kitchen.running_hours, 1, 168, tr("1 to 168 h a week"))
    for name, gear in kitchen.equipment.items():
        yield from _check_gear(str(name), gear)
        computed = () if "oven" in str(gear.kind).lower() else METERED
        yield from _doubted(kitchen, gear.kind, computed)


def _doubted(record: Record, word: Text, computed: Iterable[str]) -> Iterator[Problem]:
    """A word so near to one that is computed, or that kitchens use, that it may be a slip.

    What is computed of the word that was meant is left out. Any other word is the kitchen's own.
    """
    near, meant = nearest(str(word).lower(), computed, _SLIP), spelt(word)
    if near and near != str(word).lower():
        message = tr('"{word}" is not computed as "{near}" is', word=word, near=near)
    elif meant != word:
        near, message = meant, tr('"{word}" may be a slip of the pen', word=word)
    else:
        return
    hint = tr('did you mean "{near}"?', near=near)
    yield Problem(word.place, message, hint, Severity.WARNING, record.path, needs=("cooks",))


def _check_gear(name: str, gear: Equipment) -> Iterator[Problem]:
    yield from _within(tr("{name}, how many", name=name), gear.how_many, 1, 100, tr("1 to 100"))
    yield from _within(tr("{name}, volume", name=name), gear.volume, 1, 2000, tr("1 to 2000 L"))
    yield from _within(
        tr("{name}, standby", name=name), gear.measured_standby, 0, 30, tr("0 to 30 kW")
    )
    yield from _within(
        tr("{name}, turn-round", name=name), gear.turn_round, 0, 168, tr("0 to 168 h")
    )
    yield from _within(
        tr("{name}, cleaning", name=name), gear.cleaning, 0, 167, tr("0 to 167 h a week")
    )
    yield from _within(tr("{name}, holds", name=name), gear.holds, 0.1, 2000, tr("0.1 to 2000 kg"))
    yield from _within(tr("{name}, pans", name=name), gear.pans, 3, 40, tr("3 to 40 pans"))


def _check_cook(cook: Cook, gear: Equipment | None) -> Iterator[Problem]:
    yield from _doubted(cook, cook.how, MODELLED)
    if cook.piece is not None:
        yield from _check_piece(cook.piece)
    if cook.how == BATH:
        yield from _check_bath(cook)
        yield from _check_oven_of(cook, gear)
    else:
        yield from _check_gear_of(cook, gear)
        medium = str(cook.how).lower()
        low, high = MEDIA_C.get(medium, (30.0, 400.0))
        yield from _within(
            medium if medium in MEDIA_C else "at",
            cook.at,
            low,
            high,
            tr("30 to {high:g} °C", high=high),
        )
    if cook.for_ is not None and cook.for_.value <= 0:
        yield Problem(
            cook.for_.place, tr("a cook takes more than no time"), tr("for example for: 30 h")
        )
    yield from _within(tr("hold at"), cook.hold_at, 30, 110, tr("30 to 110 °C"))
    yield from _within(tr("gas"), cook.gas, 0, 1e7, tr("0 to 10 000 m³"))
    yield from _check_core(cook)
    yield from _check_after(cook)


def _check_gear_of(cook: Cook, gear: Equipment | None) -> Iterator[Problem]:
    """Refuse another way of cooking on a water bath: its core would not be computed."""
    if gear is None or gear.kind != BATH:
        return
    hint = tr("write how: water bath if the piece lies in its water, else name other equipment")
    if cook.at is not None and cook.at.value > BOILING_C[1]:
        message = tr(
            "{equipment} is a water bath, and {at} is above boiling",
            equipment=cook.equipment,
            at=cook.at.text,
        )
        yield Problem(cook.at.place, message, hint)
    else:
        message = tr(
            '"{how}" on {equipment}, which is a water bath', how=cook.how, equipment=cook.equipment
        )
        yield Problem(cook.how.place, message, hint)


def _check_oven_of(cook: Cook, gear: Equipment | None) -> Iterator[Problem]:
    """Refuse a water bath whose equipment is an oven: the two heat a piece differently."""
    if gear is not None and re.search("oven|steam", str(gear.kind).lower()):
        message = tr(
            '{equipment} is no water bath, its kind is "{kind}"',
            equipment=cook.equipment,
            kind=gear.kind,
        )
        hint = tr("write how: steam oven if it cooks in steam, else name the water bath")
        yield Problem(cook.how.place, message, hint)


def _check_piece(piece: Piece) -> Iterator[Problem]:
    yield from _within(tr("thickness"), piece.thickness, 1, 400, tr("1 to 400 mm"), tr(_THICKNESS))
    yield from _within(tr("spread"), piece.spread, 0, 0.5, tr("0 to 50 %"))
    if piece.thickness is not None and piece.spread is not None:
        thickest = piece.thickness.value * (1 + piece.spread.value)
        thinnest = piece.thickness.value * (1 - piece.spread.value)
        if 1 <= piece.thickness.value <= 400 and not (thinnest >= 1 and thickest <= 400):
            limits = range_words(piece.thickness, 1, 400, tr("1 to 400 mm"))
            message = tr(
                "with {spread} of spread the pieces are outside {limits}",
                spread=piece.spread.text,
                limits=limits,
            )
            yield Problem(piece.spread.place, message, tr(_THICKNESS))
    yield from _within(tr("starts at"), piece.starts_at, -30, 100, tr("-30 to 100 °C"))
    if piece.shape is not None and piece.shape_factor is not None:
        yield Problem(
            piece.shape_factor.place, tr("shape and shape factor say the same"), tr("keep one")
        )


def _check_bath(cook: Cook) -> Iterator[Problem]:
    yield from _within(tr("a water bath"), cook.at, *HOT_WATER_C, tr("30 to 95 °C"))
    start = cook.piece.starts_at if cook.piece else None
    if cook.at is not None and start is not None and start.value >= cook.at.value:
        yield Problem(
            cook.at.place,
            tr(
                "a bath of {at} does not warm a piece of {start}", at=cook.at.text, start=start.text
            ),
            tr("at: is the bath, starts at: the raw piece"),
        )


def _check_core(cook: Cook) -> Iterator[Problem]:
    yield from _within(tr("core"), cook.core, 20, 100, tr("20 to 100 °C"))
    if cook.core is None or cook.at is None:
        return
    if lower_print(cook.core.value) > cook.at.value + ROUNDING_C:
        yield Problem(
            cook.at.place,
            tr("{at} never brings a core to {core}", at=cook.at.text, core=cook.core.text),
            tr("cook hotter, or aim lower (core is written at {place})", place=cook.core.place),
        )


def _check_after(cook: Cook) -> Iterator[Problem]:
    if cook.cool is not None:
        yield from _within(tr("chilled to"), cook.cool.to, -1, 21, tr("-1 to 21 °C"))
        if cook.cool.within.value <= 0:
            yield Problem(
                cook.cool.within.place,
                tr("chilling takes more than no time"),
                tr("for example within: 2 h"),
            )
    if cook.store is not None:
        yield from _within(tr("stored at"), cook.store.at, -5, 15, tr("-5 to 15 °C"))
    if cook.hold_source is not None and cook.hold_at is None and "hold_at" not in cook.unread:
        hint = tr("write hold at: too, and how long under hold: for:")
        yield Problem(cook.hold_source.place, tr("a source, and nothing is held hot"), hint)
    if cook.reheat is not None:
        yield from _check_reheating(cook, cook.reheat)


def _check_reheating(cook: Cook, reheat: Reheating) -> Iterator[Problem]:
    medium = str(reheat.in_ or BATH)
    high = min(MEDIA_C[medium][1], 110.0)
    yield from _within(
        tr("reheated in a {medium}", medium=medium),
        reheat.at,
        30,
        high,
        tr("30 to {high:g} °C", high=high),
    )
    yield from _within(tr("reheated for"), reheat.for_, 1 / 60, 24, tr("1 min to 24 h"))
    if cook.cool is None and "cool" not in cook.unread:
        yield Problem(
            reheat.at.place, tr("a cook is reheated once it was chilled"), tr("write cool: too")
        )
    if cook.hold_at is not None and reheat.at.value < cook.hold_at.value - ROUNDING_C:
        message = tr(
            "reheated at {at}, it never comes to the {hold} that it is held at",
            at=reheat.at.text,
            hold=cook.hold_at.text,
        )
        place, hint = reheat.at.place, tr("one of them may be a slip")
        needs = ("cooks", "cooking")
        yield Problem(place, message, hint, Severity.WARNING, cook.path, needs=needs)


def _check_service(content: Content, service: Service) -> Iterator[Problem]:
    if not service.plates and not service.menus and not {"plates", "menus"} & service.unread:
        hint = tr("such as plates: {chuck-steak: 40}, or menus: and the guests of one")
        yield Problem(Place(service.file), tr("a service needs a plate"), hint)
    for name, serving in service.plates.items():
        if serving.covers.value <= 0:
            yield Problem(
                serving.covers.place, tr("no covers of {name}", name=name), tr("take the line out")
            )
        plate = content.plates.get(name)
        if plate is None or serving.ahead is None or "cook" in plate.unread:
            continue
        cooks = [content.cooks.get(each) for each in plate.cooks]
        if any(cook is None or "cool" in cook.unread for cook in cooks):
            continue  # what is wrong is reported where it is written
        chilled = [cook for cook in cooks if cook and cook.cool]
        if not chilled:
            why = (
                tr("its cook is not chilled")
                if len(cooks) < 2
                else tr("none of its cooks is chilled")
            )
            message = tr("{plate} can't be kept cold ahead: {why}", plate=plate.title, why=why)
            yield Problem(serving.ahead.place, message, tr("write cool: in the cook's file"))
            continue
        yield from _within(
            tr("{name}, ahead", name=name), serving.ahead, 0, 24 * 14, tr("0 to 14 d")
        )
        for cook in chilled:
            yield from _check_ahead(service, plate, cook, serving.ahead)


def _check_ahead(service: Service, plate: Plate, cook: Cook, ahead: Measure) -> Iterator[Problem]:
    """A plate that lies in the cold for longer than its cook's file keeps it."""
    whose = cook.title if len(plate.cooks) > 1 else tr("its cook")
    if cook.store is not None and ahead.value > cook.store.for_.value:
        yield Problem(
            ahead.place,
            tr(
                "{plate}: kept cold for {ahead}, and {whose} is stored for {for_words} at most",
                plate=plate.title,
                ahead=ahead.text,
                whose=whose,
                for_words=cook.store.for_.text,
            ),
            tr("cook it later, or look at store: at {place}", place=cook.store.for_.place),
            Severity.WARNING,
            service.path,
            needs=("services", "cooks", "cooking"),
        )
