"""Which plates bear the kitchen's cover cost, and what is wrong with how it is written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from builder.language import tr
from builder.problems import Place, Problem, did_you_mean
from builder.reading.tree import Text
from builder.records.content import Content
from builder.records.covers import Cover
from builder.records.fields import Measure
from builder.records.kinds import Plate
from builder.records.menus import SetMenu


def bears_cover(content: Content, plate: Plate) -> bool:
    """Whether a plate bears the kitchen's cover cost: its section does, and it says nothing."""
    cover = content.kitchen.cover_cost
    if cover is None or plate.cover_cost is not None:
        return False
    return not cover.on or str(plate.menu) in map(str, cover.on)


def cover_items(content: Content, plate: Plate) -> Mapping[Text, Measure]:
    """The pantry items that come with a plate as every cover gets them, with their amounts."""
    cover = content.kitchen.cover_cost
    return cover.of if cover and bears_cover(content, plate) else {}


def menu_bears_cover(content: Content, menu: SetMenu) -> bool:
    """Whether a set menu's guest gets the kitchen's cover: it says nothing, a plate bears one."""
    if menu.cover_cost is not None:
        return False
    plates = (content.plates[name] for name in menu.plate_ids if name in content.plates)
    return any(bears_cover(content, plate) for plate in plates)


def menu_cover_items(content: Content, menu: SetMenu) -> Mapping[Text, Measure]:
    """The pantry items that each guest of a set menu gets as every cover does."""
    cover = content.kitchen.cover_cost
    return cover.of if cover and menu_bears_cover(content, menu) else {}


def sections_of(content: Content) -> list[str]:
    """The sections of the menu: as the kitchen lists them, else as its plates name them."""
    listed = [str(section) for section in content.kitchen.sections]
    return listed or list(dict.fromkeys(str(plate.menu) for plate in content.plates.values()))


def check_cover(content: Content) -> Iterator[Problem]:
    """Sections that are not there, and a cover cost of which nobody said who bears it."""
    cover, unread = content.kitchen.cover_cost, content.kitchen.unread
    if cover is None or unread & {"cover_cost", "sections"}:
        return
    sections = sections_of(content)
    for name in cover.on:
        if str(name) not in sections:
            hint = did_you_mean(name, sections) or tr(
                "sections: {sections}", sections=", ".join(sections)
            )
            yield Problem(name.place, tr('the menu has no section "{name}"', name=name), hint)
    if not cover.on and len(sections) > 1:
        yield Problem(
            _place_of(cover.money, cover.of.values()),
            tr("the menu has several sections, and which of them bear the cover cost is not said"),
            _whom_hint(cover, sections),
        )


def _whom_hint(cover: Cover, sections: list[str]) -> str:
    """What was written, with the likeliest section, and which sections there are."""
    first = next((name for name in sections if "main" in name.lower()), sections[0])
    written = f"money: {cover.money.text}" if cover.money else "of: {...}"
    return tr(
        "write {{{written}, on: [{first}]}}; sections: {sections}",
        written=written,
        first=first,
        sections=", ".join(sections),
    )


def _place_of(money: Measure | None, amounts: Iterable[Measure]) -> Place:
    return next(iter([money] if money else amounts)).place
