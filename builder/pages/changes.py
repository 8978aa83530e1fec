"""What changed since the build before: costs, margins, classes and records, the newest first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.costing.history import (
    Cause,
    ClassCause,
    ClassMove,
    Entry,
    Flags,
    Move,
    RecordMove,
)
from builder.costing.moves import replaced_in_turn
from builder.engine.methods import METHODS
from builder.language import Deferred, ntr, tr
from builder.pages.components import Cell, Column, Link, Page, Part, Row, Table
from builder.pages.menu_classes import CLASSES
from builder.pages.method_graph import function_path
from builder.pages.parts import links, paragraph, part
from builder.pages.values import as_read, capital
from builder.pages.view import View
from builder.pages.whereabouts import method_path

PATH = "changes.html"
NOTHING_YET = Deferred(
    "There is nothing to compare yet: every build into this folder so far had the same figures."
)
CAUSES = {
    Cause.RECIPE: Deferred("Recipe"),
    Cause.PRICE: Deferred("Prices"),
    Cause.YIELD: Deferred("Yields"),
    Cause.PORTION: Deferred("Portion"),
    Cause.WAGE: Deferred("Wage"),
    Cause.WORK: Deferred("Work"),
    Cause.ENERGY: Deferred("Energy and equipment"),
    Cause.MENU_PRICE: Deferred("Menu price and tax"),
}
CLASS_CAUSES = {
    ClassCause.OWN_MARGIN: Deferred("Its own margin crossed the section's line."),
    ClassCause.LINE: Deferred("Other plates moved the margin that divides the section."),
    ClassCause.OWN_SALES: Deferred("Its own sales crossed the section's line."),
    ClassCause.OTHERS_SALES: Deferred("Sales of other plates, or their number, moved the line."),
}
WHAT = {"added": Deferred("Added"), "removed": Deferred("Removed"), "renamed": Deferred("Renamed")}
OTHER_TOOL = Deferred(
    "The build before was made by another version of shankbook. What its "
    "formulas moved is in the column Recipe."
)
NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Walk:
    """A move as it is printed: parts, each to the coin, that add up to it."""

    before: float
    after: float
    parts: dict[Cause, float]


def changes_page(view: View) -> Page:
    """Every entry that is kept, the newest first."""
    entries = view.costed.history.entries
    return Page(
        path=PATH,
        title=tr("What changed"),
        lead=lead(view, entries[0]) if entries else tr(NOTHING_YET),
        kind=tr("Builds compared"),
        crumbs=(),
        sections=(*(_entry_part(view, entry) for entry in entries), _further()),
    )


def lead(view: View, entry: Entry) -> str:
    """One sentence on an entry."""
    moved = _plates(view, entry)
    plates = ntr("{count} plate", "{count} plates", moved) if moved else tr("no plate")
    since = (
        tr("the content of {day}", day=view.style.date(entry.since))
        if entry.revision
        else tr("the build of {day}", day=view.style.date(entry.since))
    )
    return tr(
        "Since {since}, {plates} moved in cost or margin and {classes} in class.",
        since=since,
        plates=plates,
        classes=len(entry.classes) or tr("none"),
    )


def anchor(entry: Entry) -> str:
    """Where an entry is on the page."""
    return f"c-{entry.id}"


def compared_with(view: View, entry: Entry) -> str:
    """Which two builds an entry compares, in a sentence."""
    day, since = view.style.date(entry.day), view.style.date(entry.since)
    if entry.revision:
        return tr(
            "The content of {day}, compared with revision {revision} of {since}.",
            day=day,
            revision=entry.revision,
            since=since,
        )
    if entry.day == entry.since:
        return tr("The build of {day}, compared with an earlier one of the same day.", day=day)
    return tr("The build of {day}, compared with the build of {since}.", day=day, since=since)


def walk(view: View, move: Move) -> Walk | None:
    """The parts of a move to the coin; None where nothing is seen of it, or it has no parts."""
    if move.before is None or move.after is None:
        return None
    before, after = _read(view, move.before), _read(view, move.after)
    at, parts = before, dict[Cause, float]()
    for cause, value in move.stations:
        station = _read(view, value)
        parts[cause], at = parts.get(cause, 0.0) + station - at, station
    return None if before == after else Walk(before, after, parts)


def _read(view: View, value: float) -> float:
    return as_read(view.style, "money", value)


def is_seen(view: View, move: Move) -> bool:
    """Whether a move is as large as a coin, or to or from what is not known."""
    return move.before is None or move.after is None or walk(view, move) is not None


def _plates(view: View, entry: Entry) -> int:
    return len({move.plate for move in entry.moves if is_seen(view, move)}) + entry.left_out


def _entry_part(view: View, entry: Entry) -> Part:
    moves = [move for move in entry.moves if is_seen(view, move)]
    tables = (
        _moves_table(view, entry, moves) if moves else None,
        _class_table(view, entry) if entry.classes else None,
        _record_table(view, entry) if entry.records else None,
        *(paragraph(each) for each in remarks(view, entry)),
    )
    title = view.style.date(entry.day)
    return part(anchor(entry), title, *tables, about=compared_with(view, entry))


def remarks(view: View, entry: Entry) -> Iterator[str]:
    """What an entry says beside its tables."""
    seen = {move.plate for move in entry.moves if is_seen(view, move)}
    if unseen := len({move.plate for move in entry.moves} - seen):
        yield tr(
            "{plates} moved by less than a coin.",
            plates=ntr("{count} plate", "{count} plates", unseen),
        )
    if entry.left_out:
        yield tr(
            "{plates} more moved by less than these.",
            plates=ntr("{count} plate", "{count} plates", entry.left_out),
        )
    if entry.other_tool:
        yield tr(OTHER_TOOL)


def _moves_table(view: View, entry: Entry, moves: Sequence[Move]) -> Table:
    walks = [walk(view, move) for move in moves]
    found = {cause for each in walks if each for cause in each.parts}
    causes = [cause for cause in Cause if cause in found]
    return Table(
        f"{anchor(entry)}-costs",
        tr("Costs and margins that moved"),
        (
            Column("plate", tr("Plate")),
            Column("figure", tr("Figure")),
            Column("before", tr("Before"), numeric=True),
            *(Column(cause.replace(" ", "-"), tr(CAUSES[cause]), numeric=True) for cause in causes),
            Column("after", tr("After"), numeric=True),
        ),
        tuple(_move_row(view, move, causes) for move in moves),
        about=tr("From before to after, each part to the coin."),
    )


def _move_row(view: View, move: Move, causes: Sequence[Cause]) -> Row:
    found = walk(view, move)
    parts = found.parts if found else {}
    signed = (view.style.signed_money(parts[c]) if parts.get(c) else "–" for c in causes)
    href = f"~/{method_path(('plate', move.figure))}"
    return Row(
        (
            _named(view, move.plate, move.title),
            Cell(figure_name(view, move), href=href),
            Cell(_money(view, move.before)),
            *map(Cell, signed),
            Cell(_money(view, move.after)),
        )
    )


def figure_name(view: View, move: Move) -> str:
    """What the figure is called that moved."""
    return capital(view.label("plate", move.figure))


def _money(view: View, value: float | None) -> str:
    return NOT_KNOWN if value is None else view.style.money(value)


def _named(view: View, path: str, title: str) -> Cell:
    """A record by the title that it had then, with its page while there is one."""
    is_there = view.costed.content.record(path) is not None
    return Cell(title, sort=title.lower(), href=f"~/{path}.html" if is_there else "")


def class_name(flags: Flags) -> str:
    """A class in words."""
    return CLASSES[flags] if flags else tr("no class")


def class_reason(move: ClassMove) -> str:
    """Why a plate is in another class."""
    return " ".join(tr(CLASS_CAUSES[cause]) for cause in move.causes)


def _class_table(view: View, entry: Entry) -> Table:
    rows = (
        Row(
            (
                _named(view, move.plate, move.title),
                Cell(class_name(move.before)),
                Cell(class_name(move.after)),
                Cell(class_reason(move) or "–"),
            )
        )
        for move in entry.classes
    )
    columns = (tr("Plate"), tr("Before"), tr("After"), tr("Why"))
    return Table(
        f"{anchor(entry)}-classes", tr("Classes that moved"), _columns(columns), tuple(rows)
    )


def _record_table(view: View, entry: Entry) -> Table:
    rows = (
        Row((_named(view, each.path, each.title), Cell(_what(each)), Cell(_before(each) or "–")))
        for each in entry.records
    )
    columns = (tr("Record"), tr("What"), tr("Earlier name"))
    return Table(
        f"{anchor(entry)}-records",
        tr("Records added, removed and renamed"),
        _columns(columns),
        tuple(rows),
    )


def _before(move: RecordMove) -> str:
    """The earlier name of a record; none where only its file has another one."""
    return "" if move.before == move.title else move.before


def _what(move: RecordMove) -> str:
    of_file = move.what == "renamed" and not _before(move)
    return tr("File renamed") if of_file else tr(WHAT[move.what])


def _columns(labels: Sequence[str]) -> tuple[Column, ...]:
    return tuple(Column(label.lower().replace(" ", "-"), label) for label in labels)


def record_line(move: RecordMove) -> str:
    """A record that came, went or has another name, in a line of a feed."""
    if move.what == "renamed" and _before(move):
        return tr("Renamed: {before} is now {move}.", before=move.before, move=move.title)
    return tr("{code}: {words}.", code=_what(move), words=move.title)


def _further() -> Part:
    method = METHODS[replaced_in_turn.__name__]
    return part(
        "further",
        tr("Further"),
        links(
            tr("Further"),
            [
                Link(
                    tr("How a move is split"),
                    f"~/{function_path(method)}",
                    tr("the order of its parts"),
                ),
                Link(tr("The same as a feed"), "~/changes.xml", tr("for a feed reader")),
            ],
        ),
    )
