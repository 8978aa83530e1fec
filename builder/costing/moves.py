"""What changed between two builds, and how much of each move comes from which inputs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from builder import __version__
from builder.costing.costed import Costed
from builder.costing.history import (
    ABSENT,
    BESIDE,
    CAUSE_OF,
    INSTEAD,
    SHARE,
    TARGETS,
    Cause,
    ClassCause,
    ClassMove,
    Earlier,
    Entry,
    Flags,
    History,
    KeptRows,
    Move,
    Number,
    RecordMove,
    Snapshot,
)
from builder.costing.history_text import entry_id, feed_id
from builder.engine.arith import Column
from builder.engine.book import Identity
from builder.engine.figures import Figures
from builder.engine.methods import method
from builder.engine.model import Node
from builder.records.base import Record
from builder.records.kinds import Tasting

# Older entries leave the page and the feed.
MOST_ENTRIES = 20
# Of a large kitchen the plates that moved most are named, the others counted.
MOST_PLATES = 100
# Values closer than this, in proportion, differ by how floating point rounds only.
_SAME = 1e-9
_PLATE = "plate"

Changes = dict[Cause, dict[Node, Column]]
Plates = Mapping[str, tuple[int, str]]
"""Of each plate that was there before its row and its earlier path."""


def with_history(costed: Costed, before: History, since: Earlier | None = None) -> Costed:
    """Enter what changed since the build before; nothing new where nothing changed.

    With `since` a revision takes the place of the build before, and of all builds after it.
    """
    now, entries = snapshot_of(costed), before.entries
    earlier = since or (Earlier(before.now) if before.now else None)
    if earlier is None:
        return replace(costed, history=History(now, entries))
    day = earlier.snapshot.day
    if earlier.revision:
        entries = tuple(each for each in entries if each.day <= day)
    entry = compared(costed, earlier, now)
    if not entry.says_something:
        # The day stays that of the first build with these figures.
        return replace(costed, history=History(replace(now, day=day), entries))
    after = entries[0].id if entries else feed_id(now.kitchen)
    entry = replace(entry, id=entry_id(entry, after))
    return replace(costed, history=History(now, (entry, *entries)[:MOST_ENTRIES]))


def snapshot_of(costed: Costed) -> Snapshot:
    """What the next build has to know of this one."""
    content, figures = costed.content, costed.figures
    tables: dict[str, list[str]] = {}
    for table, figure in CAUSE_OF:
        tables.setdefault(table, []).append(figure)
    return Snapshot(
        __version__,
        content.as_of,
        str(content.kitchen.name),
        {each.path: (each.title, _hash(costed, each)) for each in content.records()},
        {table: _kept(figures, table, names) for table, names in tables.items()},
        {f"plates/{name}": _results(figures, row) for name, row in costed.rows.plates.items()},
    )


def _hash(costed: Costed, record: Record) -> str:
    """The hash of a record's file; none of a tasting's, from which its seed could be tried out."""
    files = costed.content.files
    hidden = isinstance(record, Tasting) or record.file not in files
    return "" if hidden else files[record.file].digest


def _kept(figures: Figures, table: str, names: list[str]) -> KeptRows:
    rows = tuple(_name(figures.identity(table, row)) for row in range(figures.size(table)))
    columns = {name: figures.column(table, name)[:, 0].tolist() for name in names}
    known = {name: column for name, column in columns.items() if any(map(math.isfinite, column))}
    return KeptRows(rows, {name: tuple(map(_number, column)) for name, column in known.items()})


def _results(figures: Figures, row: int) -> dict[str, Number]:
    return {name: _number(figures.value(_PLATE, name, row)) for name in (*TARGETS, *BESIDE)}


def _name(who: Identity) -> str:
    return f"{who.owner}#{who.key}" if who.key else who.owner


def _number(value: float) -> Number:
    return value if math.isfinite(value) else None


def compared(costed: Costed, earlier: Earlier, now: Snapshot) -> Entry:
    """Everything that changed between an earlier kitchen and the present one."""
    old = earlier.snapshot
    renamed = _renamed(old, now, earlier.renamed)
    plates = {
        path: (costed.rows.plates[path.partition("/")[2]], renamed.get(path, path))
        for path in now.plates
        if renamed.get(path, path) in old.plates
    }
    moves = list(_moves(costed.figures, old, now, plates, renamed))
    named = dict.fromkeys(each.plate for each in sorted(moves, key=_size, reverse=True))
    shown = set(list(named)[:MOST_PLATES])
    return Entry(
        old.day,
        now.day,
        tuple(move for move in moves if move.plate in shown),
        tuple(_class_moves(old, now, plates)),
        tuple(_record_moves(old, now, renamed)),
        len(named) - len(shown),
        old.tool != now.tool,
        revision=earlier.revision,
    )


def _size(move: Move) -> float:
    if move.before is None or move.after is None:
        return math.inf
    return abs(move.after - move.before)


def _renamed(old: Snapshot, now: Snapshot, known: Mapping[str, str]) -> dict[str, str]:
    """Earlier paths of records whose file has another name: as known, or of the same content."""
    gone = {path for path in old.records if path not in now.records}
    new = [path for path in now.records if path not in old.records]
    found = {path: known[path] for path in new if known.get(path) in gone}
    gone -= set(found.values())
    same = {_file(old, path): path for path in old.records if path in gone}
    rest = (path for path in new if path not in found)
    return found | {path: same.pop(_file(now, path)) for path in rest if _file(now, path) in same}


def _file(snapshot: Snapshot, path: str) -> tuple[str, str]:
    """What kind of record a path is of, and what its file holds; the path itself without a file."""
    return path.partition("/")[0], snapshot.records[path][1] or path


def _record_moves(old: Snapshot, now: Snapshot, renamed: Mapping[str, str]) -> Iterator[RecordMove]:
    for path, (title, _) in now.records.items():
        earlier = renamed.get(path, path)
        if earlier not in old.records:
            yield RecordMove("added", path, title)
        elif earlier != path or old.records[earlier][0] != title:
            yield RecordMove("renamed", path, title, old.records[earlier][0])
    for path, (title, _) in old.records.items():
        if path not in now.records and path not in renamed.values():
            yield RecordMove("removed", path, title)


def _moves(
    figures: Figures, old: Snapshot, now: Snapshot, plates: Plates, renamed: Mapping[str, str]
) -> Iterator[Move]:
    moved = [
        (path, figure, before, after)
        for path, (_, earlier) in plates.items()
        for figure in TARGETS
        if _differ(before := old.plates[earlier].get(figure), after := now.plates[path][figure])
    ]
    walk = list(replaced_in_turn(figures, _old_values(figures, old, renamed))) if moved else []
    for path, figure, before, after in moved:
        row = plates[path][0]
        walked = [(why, each.value(_PLATE, figure, row)) for why, each in walk]
        steps = tuple(_steps(before, walked)) if after is not None else ()
        yield Move(path, now.records[path][0], figure, before, after, steps)


def _differ(one: Number, other: Number) -> bool:
    if one is None or other is None:
        return one is not other
    return abs(one - other) > _SAME * max(abs(one), abs(other))


def _steps(before: Number, walked: list[tuple[Cause, float]]) -> Iterator[tuple[Cause, float]]:
    """The stations at which a value moved; none where one on the way is not known."""
    if before is None or not all(math.isfinite(value) for _, value in walked):
        return
    at: Number = before
    for cause, value in walked:
        if _differ(at, value):
            yield cause, value
            at = value


@method(
    unit="money",
    source="sequential substitution, as variances are split in cost accounting [from memory]",
    title="Why a cost moved",
)
def replaced_in_turn(figures: Figures, changes: Changes) -> Iterator[tuple[Cause, Figures]]:
    """What costs come to as one group of inputs after another takes its new values.

    The kitchen is computed with every earlier value first. Then the groups take their new values
    in an order that is always the same, from recipe and price over yield, portion, wage, work and
    energy to the menu price. What a cost moves by in a step is that group's part, so the parts
    add up to the move exactly. What two groups do together is in the part of the later one.

    The recipe comes first, for an item that is new to a plate has no earlier price. It is what a
    plate or a sub-recipe is made of, how much of it, and how and in what it is cooked. A stage that
    is left out counts there, too. Yields are those of stages, by-products, pieces and batches.

    Parameters: figures: of the present build. changes: earlier values by group, where they differ.
    Errors: ValueError for a value that is computed, not given.
    """
    # Where nothing of a group changed, nothing is computed: what moved before it is its station.
    for number, cause in enumerate(Cause):
        if number and cause not in changes:
            continue
        later = [changes[each] for each in list(Cause)[number + 1 :] if each in changes]
        merged = {node: column for group in later for node, column in group.items()}
        yield cause, figures.moved(merged) if merged else figures


def _old_values(figures: Figures, old: Snapshot, renamed: Mapping[str, str]) -> Changes:
    """The columns of inputs with their earlier values, where they differ from those of today."""
    changes: Changes = {}
    tables = {table for table, _ in CAUSE_OF}
    before = {table: _rows_before(figures, table, renamed, old) for table in tables}
    for node, cause in CAUSE_OF.items():
        now = figures.column(*node)[:, :1]
        earlier = _earlier(now, node, before[node[0]], old)
        differs = ~((now == earlier) | (np.isnan(now) & np.isnan(earlier)))
        if not differs.any():
            continue
        group = changes.setdefault(cause, {})
        target = INSTEAD.get(node, node)
        group[target] = np.where(differs, earlier, figures.column(*target)[:, :1])
        if node == SHARE:
            group["part", "weight"] = _weights(figures, now, earlier)
    return changes


def _rows_before(
    figures: Figures, table: str, renamed: Mapping[str, str], old: Snapshot
) -> list[tuple[Identity, int | None]]:
    """Who the rows of a table were before records were renamed, and which of the kept rows each is.

    Keys name records, too.
    """
    kept = old.inputs[table].rows if table in old.inputs else ()
    at = {name: row for row, name in enumerate(kept)}
    ids = {path.partition("/")[2]: was.partition("/")[2] for path, was in renamed.items()}
    rows = [figures.identity(table, row) for row in range(figures.size(table))]
    if renamed:
        rows = [
            Identity(
                renamed.get(who.owner, who.owner),
                ".".join(ids.get(each, each) for each in who.key.split(".")),
            )
            for who in rows
        ]
    return [(who, at.get(_name(who))) for who in rows]


def _weights(figures: Figures, now: Column, earlier: Column) -> Column:
    """Weights of by-products that come to earlier shares in the tests of today."""
    weights = figures.column("part", "weight")[:, :1]
    rows = figures.links("part", "byproduct")
    factor = np.where(now > 0, earlier / np.where(now > 0, now, 1.0), 1.0)
    return np.where((rows >= 0)[:, None], weights * factor[rows], weights) if len(now) else weights


def _earlier(
    now: Column, node: Node, rows: list[tuple[Identity, int | None]], old: Snapshot
) -> Column:
    """The earlier values of a column; of a row that is new in a new record the present one."""
    table, figure = node
    values = old.inputs[table].columns.get(figure) if table in old.inputs else None
    column = now.copy()
    for row, (who, kept) in enumerate(rows):
        if kept is not None:
            value = values[kept] if values else None
            column[row] = math.nan if value is None else value
        elif node in ABSENT and who.owner in old.records:
            column[row] = ABSENT[node]
    return column


def _class_moves(old: Snapshot, now: Snapshot, plates: Plates) -> Iterator[ClassMove]:
    for path, (_, earlier) in plates.items():
        was, is_now = old.plates[earlier], now.plates[path]
        before, after = _flags(was), _flags(is_now)
        if before != after:
            causes = tuple(_class_causes(was, is_now)) if before and after else ()
            yield ClassMove(path, now.records[path][0], before, after, causes)


def _flags(plate: Mapping[str, Number]) -> Flags:
    popular, earns = plate.get("is_popular"), plate.get("earns_above")
    return None if popular is None or earns is None else (popular > 0, earns > 0)


def _class_causes(was: Mapping[str, Number], now: Mapping[str, Number]) -> Iterator[ClassCause]:
    """What moved a plate across each line that it crossed: itself, or the line.

    It was the plate itself where its new figure is across the earlier line already.
    """
    if was["is_popular"] != now["is_popular"]:
        own = _mix(was, now) > (was["dividing_mix"] or 0.0)
        yield ClassCause.OWN_SALES if own == now["is_popular"] else ClassCause.OTHERS_SALES
    if was["earns_above"] != now["earns_above"]:
        own = (now["contribution_margin"] or 0.0) > (was["dividing_margin"] or 0.0)
        yield ClassCause.OWN_MARGIN if own == now["earns_above"] else ClassCause.LINE


def _mix(was: Mapping[str, Number], now: Mapping[str, Number]) -> float:
    """A plate's share of the section if only its own sales had changed."""
    before, after, section = was["sold"] or 0.0, now["sold"] or 0.0, was["section_sold"] or 0.0
    total = section - before + after
    return after / total if total > 0 else 0.0
