"""The same weighing written twice: it counts twice, or one file is a copy of another."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import tr
from builder.problems import Problem, Severity
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.kinds import Cook, Cut
from builder.records.stages import WeighingTest

Key = tuple[object, ...]


def check_twice(content: Content) -> Iterator[Problem]:
    """Warn of a weighing of a cut's stage whose day and weights stand elsewhere, too."""
    first: dict[Key, tuple[Cut | Cook, WeighingTest]] = {}
    for owner in content.weighed:
        cut = str(owner.cut) if isinstance(owner, Cook) else owner.id
        for name, stage in stages_of(owner):
            for test in stage.tests:
                whose, earlier = first.setdefault((cut, name, *_weighed(test)), (owner, test))
                if earlier is not test:
                    copied = whose is not owner and isinstance(whose, Cook)
                    yield _again(owner, test, earlier, copied=copied)


def _again(
    owner: Cut | Cook, test: WeighingTest, earlier: WeighingTest, *, copied: bool
) -> Problem:
    """The warning; of two cooks each counts the weighing once, so one file is the other's copy."""
    weighing = {"weight": test.in_.text, "day": test.date.day, "place": earlier.date.place}
    if copied:
        message = tr(
            "this weighing of {weight} on {day} is also at {place}: "
            "it seems to be copied from there",
            **weighing,
        )
        hint = tr("write here what this cook weighed, or correct its day or its weights")
    else:
        message = tr(
            "this weighing of {weight} on {day} is also at {place}, and counts twice", **weighing
        )
        hint = tr("take one of them out, or correct its day or its weights")
    return Problem(
        test.date.place,
        message,
        hint,
        Severity.WARNING,
        owner.path,
        needs=None,  # it names a line of a file
    )


def _weighed(test: WeighingTest) -> Key:
    """What tells one weighing from another: its day and every weight, however written."""
    parts = ((str(name), round(part.weight.value, 9)) for name, part in test.parts.items())
    weights = (round(test.in_.value, 9), round(test.out.value, 9))
    return (test.date.day, *weights, *sorted(parts))
