"""Which stages a batch passes, in order, and which file each of them comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from builder.records.content import Content
from builder.records.kinds import Cook, Cut
from builder.records.stages import Stage


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


BEFORE = ("purge", "trim", "portion cut")
BEFORE_ON_COOK = ("cure",)
AFTER = ("finish", "rest", "carve", "hold")
ORDER = (*BEFORE, *BEFORE_ON_COOK, "cook", *AFTER)
"""Every stage of a chain, in order."""


def stages_of(owner: Cut | Cook) -> Iterator[tuple[str, Stage]]:
    """The stages that a cut's or a cook's file writes, in the order of the chain."""
    names = BEFORE if isinstance(owner, Cut) else ORDER
    for name in names:
        stage = owner if name == "cook" else getattr(owner, name.replace(" ", "_"))
        if isinstance(stage, Stage):
            yield name, stage


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
