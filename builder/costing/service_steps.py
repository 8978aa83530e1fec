"""The steps of a service as its files state them, before any is given its moment."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.cooking.schedule import ScheduleStep
from builder.language import Deferred
from builder.reading.names import slug
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Plate
from builder.records.services import Service, Serving
from builder.records.stages import Stage

PREPARE, COOK, CHILL = Deferred("prepare"), Deferred("cook"), Deferred("chill")
COLD, REHEAT = Deferred("keep cold"), Deferred("reheat")
_LONGEST_STEP_H = 24.0 * 28

Servings = Sequence[tuple[Plate, Serving]]


@dataclass(frozen=True, slots=True)
class Cooked:
    """What is cooked as one for a service: its plates, each with the number of its portion.

    The main portion of a plate is number 0, so a plate may be in several of these.
    """

    cook: Cook
    servings: Servings
    numbers: Sequence[int]

    @property
    def key(self) -> str:
        """What it is called in its service: by its first plate, and by its portion there."""
        first, number = self.servings[0][0], self.numbers[0]
        return f"{first.id}.{number + 1}" if number else first.id

    @property
    def ahead_h(self) -> float:
        """For how long its plates lie in the cold [h]."""
        _, serving = self.servings[0]
        return serving.ahead.value if serving.ahead else 0.0

    def job(self, step: ScheduleStep) -> str:
        """What one of its steps is called in its service."""
        return f"{self.key}/{slug(step.name)}"


def by_cook(content: Content, service: Service) -> Iterator[Cooked]:
    """The portions of a service that share a cook and a time ahead: they are cooked as one.

    Of a plate that lies in the cold ahead, what its cook does not chill is cooked for the service.
    """
    groups: dict[tuple[str, float], list[tuple[Plate, Serving, int]]] = {}
    for name, serving in service.plates.items():
        plate, ahead = content.plates[name], serving.ahead.value if serving.ahead else 0.0
        for number, portion in enumerate(plate.served):
            if portion.cook is not None:  # nothing is cooked of the others
                chilled = content.cooks[portion.cook].cool is not None
                key = str(portion.cook), ahead if chilled else 0.0
                groups.setdefault(key, []).append((plate, serving, number))
    for (cook, _), group in groups.items():
        pairs = [(plate, serving) for plate, serving, _ in group]
        yield Cooked(content.cooks[cook], pairs, [number for *_, number in group])


def steps_of(cook: Cook, ahead_h: float) -> Iterator[ScheduleStep]:
    """The steps of a cook in order; one that takes no stated time is left out.

    A cook that is not wanted ahead goes from its equipment to the plate, chilled or not.
    Where its own hours are not written, nothing up to its end can be given a moment.
    """
    if cook.for_ is not None:
        yield from _step(PREPARE, cook.hands_on, hands_on=True)
        yield from _step("cure", cook.cure.for_ if cook.cure else None)
    yield from _step(COOK, cook.for_, str(cook.equipment or ""))
    if ahead_h and cook.cool is not None:
        yield from _step(CHILL, cook.cool.within)
        yield ScheduleStep(COLD, ahead_h * 60)
        yield from _step(REHEAT, cook.reheat.for_ if cook.reheat else None)
    for name in ("finish", "rest", "carve", "hold"):
        stage: Stage | None = getattr(cook, name)
        by_hand = name in {"finish", "carve"}
        yield from _step(name, stage.for_ if stage else None, hands_on=by_hand)


def undated_steps(cook: Cook, ahead_h: float) -> Iterator[str]:
    """The steps that the file of a cook has and for which no moment can be given, in order."""
    dated = {step.name for step in steps_of(cook, ahead_h)}
    cooled = cook.cool if ahead_h else None
    stages = {name: getattr(cook, name) for name in ("finish", "rest", "carve", "hold")}
    there = {
        PREPARE: cook.hands_on is not None and cook.hands_on.value > 0,
        "cure": cook.cure,
        CHILL: cooled,
        REHEAT: cooled and cook.reheat,
        **stages,
    }
    yield from (name for name, written in there.items() if written and name not in dated)


def staff_steps(service: Service) -> Iterator[ScheduleStep]:
    """The staff's own steps in order."""
    for step in service.steps:
        yield from _step(str(step.what), step.for_, hands_on=True)


def _step(
    name: str, long: Measure | None, equipment: str = "", *, hands_on: bool = False
) -> Iterator[ScheduleStep]:
    """One step; what takes more than four weeks, such as an ageing, is not the week's work."""
    if long is not None and 0 < long.value <= _LONGEST_STEP_H:
        yield ScheduleStep(name, long.value * 60, equipment, hands_on, long.place)


def staff_job(number: int) -> str:
    """What one of the staff's steps is called, counted from 1."""
    return f"staff/{number}"
