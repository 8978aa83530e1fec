"""The same weighing written twice counts twice and narrows its interval: both lines are named."""

from __future__ import annotations

from collections.abc import Iterator

from builder.problems import Problem, Severity
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.kinds import Cook, Cut
from builder.records.stages import WeighingTest

Key = tuple[object, ...]


def check_twice(content: Content) -> Iterator[Problem]:
    """Warn of a weighing of a cut's stage whose day and weights stand elsewhere, too."""
    owners: list[Cut | Cook] = [*content.cuts.values(), *content.cooks.values()]
    first: dict[Key, WeighingTest] = {}
    for owner in owners:
        cut = str(owner.cut) if isinstance(owner, Cook) else owner.id
        for name, stage in stages_of(owner):
            for test in stage.tests:
                earlier = first.setdefault((cut, name, *_weighed(test)), test)
                if earlier is not test:
                    yield Problem(
                        test.date.place,
                        f"this weighing of {test.in_.text} on {test.date.day} is also at "
                        f"{earlier.date.place}, and counts twice",
                        "take one of them out, or correct its day or its weights",
                        Severity.WARNING,
                        owner.path,
                    )


def _weighed(test: WeighingTest) -> Key:
    """What tells one weighing from another: its day and every weight, however written."""
    parts = ((str(name), round(part.weight.value, 9)) for name, part in test.parts.items())
    weights = (round(test.in_.value, 9), round(test.out.value, 9))
    return (test.date.day, *weights, *sorted(parts))
