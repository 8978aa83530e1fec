"""What several parts of a record's pages ask of the kitchen, each found once a view."""

from __future__ import annotations

from collections.abc import Mapping

from builder.costing.left_out import left_out
from builder.pages.per_view import per_record
from builder.pages.view import View
from builder.records.contained import Contained, Holder, contained
from builder.records.kinds import Plate


@per_record
def contained_in(view: View, record: Holder) -> Contained:
    """What a record and all that goes into it contain."""
    return contained(view.costed.content, record)


@per_record
def left_out_of(view: View, plate: Plate) -> Mapping[str, str]:
    """Each figure of a plate that is not known in full, and why."""
    return left_out(view.costed, plate)
