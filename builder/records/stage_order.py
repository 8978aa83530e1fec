"""Every stage that a file may write, in the order in which a batch passes them."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import Deferred
from builder.records.kinds import Cook, Cut
from builder.records.stages import Stage

BEFORE = (Deferred("purge"), Deferred("trim"), Deferred("portion cut"))
BEFORE_ON_COOK = (Deferred("cure"),)
AFTER = (Deferred("finish"), Deferred("rest"), Deferred("carve"), Deferred("hold"))
ORDER = (*BEFORE, *BEFORE_ON_COOK, Deferred("cook"), *AFTER)
"""Every stage of a chain, in order."""


def stages_of(owner: Cut | Cook) -> Iterator[tuple[str, Stage]]:
    """The stages that a cut's or a cook's file writes, in the order of the chain."""
    names = BEFORE if isinstance(owner, Cut) else ORDER
    for name in names:
        stage = owner if name == "cook" else getattr(owner, name.replace(" ", "_"))
        if isinstance(stage, Stage):
            yield name, stage
