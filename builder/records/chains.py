"""Which stages a batch passes, in order, and which file each of them comes from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.records.content import Content
from builder.records.kinds import Cook, Cut
from builder.records.stage_order import AFTER, BEFORE, BEFORE_ON_COOK, ORDER, stages_of
from builder.records.stages import Stage

__all__ = [
    "AFTER", "BEFORE", "BEFORE_ON_COOK", "ORDER", "Link", "Phase", "chain", "kind_of_stage",
    "stages_of",
]  # fmt: skip


class Phase(StrEnum):
    """Where a stage lies in relation to the cook."""

    BEFORE = "before"
    COOK = "cook"
    AFTER = "after"


@dataclass(frozen=True, slots=True)
class Link:
    """One stage of a chain: its name, its record, and the record that wrote it."""

    name: str
    stage: Stage
    owner: Cut | Cook
    phase: Phase

    @property
    def key(self) -> tuple[str, str]:
        """The stage's identity: the same trimming serves every cook of a cut."""
        return self.owner.path, self.name


def kind_of_stage(owner: Cut | Cook, name: str) -> str:
    """What makes stages alike: their name, of the cook itself how it is cooked."""
    return f"{name} {owner.how}" if isinstance(owner, Cook) and name == "cook" else name


def chain(content: Content, cook: Cook) -> list[Link]:
    """Every stage of one cook's batch, from as purchased to servable.

    A stage that the cook's file writes replaces the cut's own.
    """
    own = dict(stages_of(cook))
    cut = content.cuts.get(cook.cut)
    inherited = dict(stages_of(cut)) if cut else {}
    links: list[Link] = []
    for name in ORDER:
        if name in own:
            links.append(Link(name, own[name], cook, _phase(name)))
        elif cut and name in inherited:
            links.append(Link(name, inherited[name], cut, _phase(name)))
    return links


def _phase(name: str) -> Phase:
    if name == "cook":
        return Phase.COOK
    return Phase.AFTER if name in AFTER else Phase.BEFORE
