"""What has to be known of a kind of record beside its keys: said once, in its class."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

FREE = ""
"""What a key needs that whoever is granted its kind of record may read."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of record, for all that goes through the kinds.

    `noun` is what one is called, `counted` the texts for one and for several. `meant` are other
    words for the kind in an edition's `records`, `editions` the ready ones that hold it beside the
    owner's, `names` the kinds that its records name, so that they can't be shown without these,
    `needs` the groups of figures without which it says nothing. `tables` are the tables of figures
    whose rows are of its records. `worked` are the annotated examples in `starter/records/`, by
    file, each with the title that its page shows, and `about_worked` what is said above them.
    `stand_ins` are the values of keys that must be there and can't be read: they have no place in
    any file, and a problem without a place is reported to nobody.
    """

    noun: str = ""
    counted: tuple[str, str] = ("", "")
    meant: tuple[str, ...] = ()
    editions: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    tables: tuple[str, ...] = ()
    worked: Mapping[str, str] = field(default_factory=dict)
    about_worked: str = ""
    stand_ins: Mapping[str, object] = field(default_factory=dict)
