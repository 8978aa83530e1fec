"""What changed, as a feed: Atom, RFC 4287 [from memory]."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from xml.etree import ElementTree as ET

from builder.costing.history import Entry, Move
from builder.costing.history_text import feed_id
from builder.language import labelled, tr
from builder.pages.changes import (
    CAUSES,
    PATH,
    anchor,
    class_name,
    class_reason,
    compared_with,
    figure_name,
    is_seen,
    lead,
    record_line,
    remarks,
    walk,
)
from builder.pages.view import View

FEED = "changes.xml"
_ATOM = "http://www.w3.org/2005/Atom"


def feed(view: View) -> bytes:
    """The feed as XML; names are made from content, so that no host name is needed."""
    entries, name = view.costed.history.entries, str(view.costed.content.kitchen.name)
    days = [entry.day for entry in entries] or [_first_day(view)]
    root = ET.Element("feed", xmlns=_ATOM)
    _common(root, feed_id(name), tr("{name}: what changed", name=name), max(days), PATH)
    ET.SubElement(root, "link", rel="self", type="application/atom+xml", href=FEED)
    ET.SubElement(ET.SubElement(root, "author"), "name").text = name
    for entry in entries:
        _entry(view, ET.SubElement(root, "entry"), entry)
    ET.indent(root)
    data: bytes = ET.tostring(root, encoding="utf-8", xml_declaration=True)
    return data + b"\n"


def _first_day(view: View) -> date:
    now = view.costed.history.now
    return now.day if now else view.costed.content.as_of


def _common(parent: ET.Element, name: str, title: str, day: date, href: str) -> None:
    ET.SubElement(parent, "id").text = f"urn:uuid:{name}"
    ET.SubElement(parent, "title").text = title
    # A build knows the day that it is computed for, and no time of it.
    ET.SubElement(parent, "updated").text = f"{day.isoformat()}T00:00:00Z"
    ET.SubElement(parent, "link", rel="alternate", type="text/html", href=href)


def _entry(view: View, element: ET.Element, entry: Entry) -> None:
    _common(element, entry.id, lead(view, entry), entry.day, f"{PATH}#{anchor(entry)}")
    ET.SubElement(element, "content", type="text").text = "\n".join(_lines(view, entry))


def _lines(view: View, entry: Entry) -> Iterator[str]:
    yield compared_with(view, entry)
    yield from (_move_line(view, move) for move in entry.moves if is_seen(view, move))
    for each in entry.classes:
        moved = tr(
            "{each}: from {class_name} to {class_name2}.",
            each=each.title,
            class_name=class_name(each.before),
            class_name2=class_name(each.after),
        )
        yield f"{moved} {class_reason(each)}".rstrip()
    yield from map(record_line, entry.records)
    yield from remarks(view, entry)


def _move_line(view: View, move: Move) -> str:
    style, found = view.style, walk(view, move)
    values = (style.money(each) if each is not None else tr("not known") for each in _ends(move))
    line = labelled(f"{move.title}, {figure_name(view, move)}", " → ".join(values))
    parts = found.parts.items() if found else ()
    why = ", ".join(f"{tr(CAUSES[c])} {style.signed_money(part)}" for c, part in parts if part)
    return f"{line} ({why})" if why else line


def _ends(move: Move) -> tuple[float | None, float | None]:
    return move.before, move.after
