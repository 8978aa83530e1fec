"""Links in notes that lead nowhere."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from builder.problems import Problem, Severity, nearest
from builder.reading.tree import Text
from builder.records.content import Content

_LINK = re.compile(r"\[\[([^\[\]\n]*)\]\]")


def check_notes(content: Content) -> Iterator[Problem]:
    """Say which [[links]] of the records' notes name no record, where the note begins."""
    known = {record.path for record in content.records()}
    for record in content.records():
        written: Text | None = getattr(record, "note", None)
        if written is None or "[[" not in written:
            continue
        for link in _LINK.findall(written):
            if link not in known and not content.has_file(*_folder_and_id(link)):
                message = f'"[[{link}]]" in this note leads to no record'
                hint = _hint(link, known)
                yield Problem(written.place, message, hint, Severity.WARNING, record.path)


def _folder_and_id(link: str) -> tuple[str, str]:
    folder, _, record_id = link.partition("/")
    return folder, record_id


def _hint(link: str, known: Collection[str]) -> str:
    """The record of that id in any folder, else the nearest path, else the form."""
    same = [path for path in sorted(known) if path.partition("/")[2] == link]
    if same:
        return " or ".join(f"write [[{path}]]" for path in same[:2])
    ids = {path.partition("/")[2]: path for path in sorted(known)}
    near = nearest(link, known) or ids.get(nearest(link, ids))
    if near:
        return f'did you mean "[[{near}]]"?'
    return "write the folder and the id, as in [[cuts/beef-chuck-roll]]"
