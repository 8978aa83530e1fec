"""What is kept of builds as JSON, and names for it that no host name is needed for."""

from __future__ import annotations

from uuid import UUID, uuid5

from pydantic import TypeAdapter, ValidationError

from builder.costing.history import Entry, History

_HISTORY = TypeAdapter(History)
_ENTRY = TypeAdapter(Entry)
# Made once by chance; names of kitchens are told from those of other things by it.
_KITCHENS = UUID("5f0c6f5e-6a4b-4d1e-9a51-3c7c1f9b2d60")


def history_bytes(history: History) -> bytes:
    """The history as a JSON file; the same history gives the same bytes."""
    return _HISTORY.dump_json(history) + b"\n"


def history_of(data: bytes) -> History | None:
    """The history in a JSON file; None for anything else."""
    try:
        return _HISTORY.validate_json(data)
    except ValidationError:
        return None


def feed_id(kitchen: str) -> str:
    """The name of a kitchen's feed, a UUID made from the kitchen's name (RFC 9562, version 5)."""
    return str(uuid5(_KITCHENS, kitchen))


def entry_id(entry: Entry, after: str) -> str:
    """The name of an entry, made from what it says and from the name of the one before it."""
    return str(uuid5(UUID(after), _ENTRY.dump_json(entry).decode()))
