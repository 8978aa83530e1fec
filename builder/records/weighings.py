"""The weights and days of tests against each other, and against what the equipment holds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from statistics import median

from builder.language import tr
from builder.problems import Problem
from builder.records.chains import stages_of
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut
from builder.records.slips import slip
from builder.records.stages import WeighingTest
from builder.records.written import Doubted, Value, far, is_far, is_far_from, one_of_two, warning

# How many times apart the weights of a stage's tests may lie, how many times what its equipment
# holds a test may weigh, and how many times apart a by-product's shares of it may lie. Shares
# that differ by less than the last are never compared. Common practice, no published source.
LOADS, HELD, SHARES, NEXT_TO_NOTHING = 6.0, 3.0, 5.0, 0.02
FEW = 2
# Of two tests nothing says which is right, so their shares lie farther apart to be reported.
OF_TWO = 6.0


def check_weighings(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a test, or of a by-product in it, that weighs far more or less than the others."""
    for owner in content.weighed:
        for name, stage in stages_of(owner):
            tests = [t for t in stage.tests if t.in_.value > 0 and t.in_.place not in reported]
            held = _held(content, owner) if name == "cook" else None
            doubted = list(_against_each_other(owner, tests, held))
            yield from doubted
            places = {problem.place for problem in doubted}
            yield from _parts(owner, [t for t in tests if t.in_.place not in places], reported)


def _held(content: Content, owner: Cut | Cook) -> Measure | None:
    """What goes at once into a cook's equipment, one piece of it."""
    if not isinstance(owner, Cook) or owner.equipment is None:
        return None
    gear = content.kitchen.equipment.get(owner.equipment)
    return gear.holds if gear else None


def _value(owner: Cut | Cook, measure: Measure, test: WeighingTest) -> Value:
    return Value(f"{owner.folder}.tests", measure, owner, owner.path, test.date.day)


def _against_each_other(
    owner: Cut | Cook, tests: Sequence[WeighingTest], held: Measure | None
) -> Iterator[Problem]:
    """Of more than two tests the one that is far from the others; else what the equipment says."""
    for test in tests:
        others = sorted(other.in_.value for other in tests if other is not test)
        value = _value(owner, test.in_, test)
        if len(others) >= 2:
            if is_far_from(test.in_.value, others, LOADS):
                yield from far(value, median(others), LOADS, tr("its other weighings"))
        elif held is not None and test.in_.value > HELD * held.value > 0:
            hint = slip(test.in_, (others or [held.value])[0] / test.in_.value)
            message = tr(
                "{in_words} is far more than the {held} that its equipment holds",
                in_words=test.in_.text,
                held=held.text,
            )
            yield from warning(value, message, hint)
        elif others and held is None and is_far(test.in_.value, others[0], LOADS):
            yield from one_of_two(value, tests[0].in_) if test is tests[-1] else ()


def _parts(
    owner: Cut | Cook, tests: Sequence[WeighingTest], reported: Doubted
) -> Iterator[Problem]:
    """A by-product's share of a test against its shares of the others."""
    found: dict[str, list[tuple[Value, float]]] = defaultdict(list)
    for test in tests:
        for item, part in test.parts.items():
            if part.weight.value > 0 and part.weight.place not in reported:
                value = _value(owner, part.weight, test)
                found[str(item)].append((value, part.weight.value / test.in_.value))
    for name, shares in found.items():
        yield from _of_two(shares)
        for value, share in shares:
            others = sorted(other for each, other in shares if each is not value)
            if len(others) < FEW or not is_far_from(share, others, SHARES):
                continue
            middle = median(others)
            if abs(share - middle) > NEXT_TO_NOTHING:
                message = tr(
                    "{measure} of {name} is {share:.1%} of what went in, and the other tests "
                    "give {middle:.1%}",
                    measure=value.measure.text,
                    name=name,
                    share=share,
                    middle=middle,
                )
                yield from warning(value, message, slip(value.measure, middle / share))


def _of_two(shares: Sequence[tuple[Value, float]]) -> Iterator[Problem]:
    """A by-product's shares of the only two tests that weighed it."""
    if len(shares) == 2:
        (one, less), (other, more) = sorted(shares, key=lambda each: each[1])
        if more > OF_TWO * less and more - less > NEXT_TO_NOTHING:
            yield from one_of_two(one, other.measure)
