"""Single records to start from: an annotated example, or a copy of one that is there."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date
from pathlib import Path

from builder.language import Deferred, tr
from builder.pages.worked import LINKS, REMARK, example, quoted
from builder.problems import ShankbookError, did_you_mean, nearest
from builder.quantities import Dimension
from builder.reading.folder import YAML
from builder.reading.names import slug, why_no_file_name
from builder.records.base import title_of
from builder.records.content import Content, load
from builder.records.kinds import RECORDS, Record
from builder.refusals import refusal
from builder.starter.schemas import header

KINDS: Mapping[str, type[Record]] = {
    name: record for record in RECORDS for name in record.kind.worked
}
"""What can be made, with the kind of record; a recipe is a pantry item that is made."""

# What belongs to the one record alone: its name, what was counted, weighed or answered of it.
_ITS_OWN = (
    "name", "checked", "sold", "weighed portions", "evidence", "date", "seed", "scores", "ranks",
    "answers", "correct",
)  # fmt: skip
_MOST_NAMED = 8
_INVENTED = Deferred("Invented figures: write yours over them.")


def new_record(root: Path, kind: str, name: str, like: str = "") -> Path:
    """Write a record of a kind under a name that is not taken; return its file.

    With `like` it is a copy of that record, without what was counted or answered of it. Raises
    ShankbookError where the name is no file's name or taken, where there is nothing to copy,
    or where it can't be written.
    """
    record_id = slug(name)
    if reason := tr("it has no letter or digit") if not record_id else why_no_file_name(record_id):
        raise ShankbookError(
            tr('"{name}" gives no file its name: {reason}', name=name, reason=reason)
        )
    content, _ = load(root, None, date.today())
    folder = KINDS[kind].folder
    path = root / folder / f"{record_id}{YAML[0]}"
    _refuse_taken(root, folder, record_id)
    title = name if name != record_id else title_of(record_id)
    if like:
        body = _copied(root, content, folder, like, title)
    else:
        body = f"# {tr(_INVENTED)}\n{_annotated(content, kind, record_id, title)}"
    try:
        path.parent.mkdir(exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(header(folder) + body)
    except OSError as error:
        raise ShankbookError(
            tr("can't write {path}: {why}", path=path, why=refusal(error))
        ) from error
    return path


def _refuse_taken(root: Path, folder: str, record_id: str) -> None:
    for ending in YAML:
        taken = root / folder / f"{record_id}{ending}"
        if taken.exists():
            raise ShankbookError(
                tr("{taken} is there already; name another, or edit that one", taken=taken)
            )


def _annotated(content: Content, kind: str, record_id: str, title: str) -> str:
    customary = content.kitchen.units == "us customary"
    links = {**LINKS, **_links(content, record_id)}
    counted_in = _counted_in(content, links["item"][0])
    text = example(kind, title, links, customary=customary, counted_in=counted_in)
    others = {"cut": links["cut"], "cook": links["cook"], "item": links["item"]}
    return "".join(f"{_with_choices(line, others)}\n" for line in text.splitlines())


def _counted_in(content: Content, item: str) -> Dimension:
    """Whether an item goes by weight, volume or count: as it is made or priced."""
    found = content.pantry.get(item)
    rows = [row.price for row in content.prices if row.item == item]
    measures = [found.makes, found.price, *rows] if found else []
    known = (measure.dimension for measure in measures if measure and measure.dimension)
    return next(known, Dimension.MASS)


def _with_choices(line: str, others: Mapping[str, Collection[str]]) -> str:
    """A line that links to a cut or a cook names the others that it could link to."""
    key, _, value = line.partition(": ")
    rest = [each for each in others.get(key, ()) if each != value]
    if key not in {"cut", "cook"} or not rest:
        return line
    named = ", ".join(rest[:_MOST_NAMED]) + (" ..." if len(rest) > _MOST_NAMED else "")
    return f"{line:<{REMARK - 1}} # {tr('or {named}', named=named)}"


def _links(content: Content, record_id: str) -> dict[str, tuple[str, ...]]:
    """What the kitchen has, of each kind the likeliest first: the one of the nearest name."""
    sections = [str(name) for name in content.kitchen.sections]
    found = {
        "cut": [*content.cuts],
        "cook": [*content.cooks],
        "item": [name for name in content.pantry if name != record_id],
        "plate": [*content.plates],
        "equipment": [str(name) for name in content.kitchen.equipment],
        "section": sections,
    }
    return {
        key: (near, *(name for name in names if name != near))
        for key, names in found.items()
        if names
        for near in [nearest(record_id, names, likeness=0.3) or names[0]]
    }


def _copied(root: Path, content: Content, folder: str, like: str, title: str) -> str:
    """The text of a record without what is its own alone, under the new name."""
    records: Mapping[str, Record] = getattr(content, folder)
    found = records.get(slug(like))
    if found is None:
        hint = did_you_mean(slug(like), records) or tr(
            "there: {names}", names=", ".join(records) or tr("none yet")
        )
        raise ShankbookError(
            tr('{folder}/ has no "{like}" to copy; {hint}', folder=folder, like=like, hint=hint)
        )
    text = (root / found.file).read_text(encoding="utf-8-sig")
    kept = [line for line in _without(text.splitlines(), _ITS_OWN) if "$schema=" not in line]
    first = "# " + tr(
        "Copied from {title}: what is weighed or stated below is still of that one.",
        title=found.title,
    )
    return "\n".join([first, f"name: {quoted(title)}", *kept]) + "\n"


def _without(lines: list[str], keys: Collection[str]) -> list[str]:
    """The lines of a mapping without some of its keys and what is written below them."""
    kept: list[str] = []
    leaving = False
    for line in lines:
        if line[:1].strip() and line[0] not in "#-}]":
            key = line.partition(":")[0].strip("\"'").lower().replace("-", " ").replace("_", " ")
            leaving = key in keys
        if not leaving:
            kept.append(line)
    return kept
