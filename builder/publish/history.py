"""Reading what a build left for the next one to compare with."""

from __future__ import annotations

from pathlib import Path

from builder.costing.history import History
from builder.costing.history_text import history_of
from builder.language import Deferred, tr
from builder.problems import Place, Problem, Severity
from builder.publish.paths import HISTORY
from builder.records.content import Content
from builder.refusals import refusal

# Ten thousand plates take a few megabytes; what is far larger was not written by us.
_MOST_BYTES = 200_000_000
_UNREADABLE = Deferred(
    "the record of the build before can't be read ({why}), so nothing is compared with it"
)
_DAMAGED = Deferred(
    "the record of the build before is damaged, or of another version, "
    "so nothing is compared with it"
)
_FOREIGN = Deferred(
    "the record of the build before is of another kitchen, so nothing is compared with it"
)


def read_history(output: Path, content: Content) -> tuple[History, list[Problem]]:
    """The history in a published folder; an empty one, with a warning, if it can't be used."""
    file = output / HISTORY
    try:
        if not file.exists() and not file.is_symlink():
            return History(), []
        data = b"" if file.is_symlink() or file.stat().st_size > _MOST_BYTES else file.read_bytes()
    except OSError as error:
        return _ignored(tr(_UNREADABLE, why=refusal(error)))
    history = history_of(data)
    if history is None:
        return _ignored(tr(_DAMAGED))
    if _is_foreign(history, content):
        return _ignored(tr(_FOREIGN))
    return history, []


def _is_foreign(history: History, content: Content) -> bool:
    now = history.now
    if now is None or now.kitchen == str(content.kitchen.name):
        return False
    return now.records.keys().isdisjoint(each.path for each in content.records())


def _ignored(message: str) -> tuple[History, list[Problem]]:
    hint = tr("the page What changed begins afresh with this build")
    return History(), [Problem(Place(HISTORY), message, hint, Severity.WARNING, needs=None)]
