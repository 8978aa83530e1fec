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
# A part that one test has too little of is missed there: its share and the loss that no part
# accounts for differ from the other tests' by as much, the one less and the other more. So many
# times apart, from so large a part of what went in on, and as much within this part of it. Common
# practice, no published source.
MISSED, A_PART, AS_MUCH = 1.6, 0.02, 0.35
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
        yield from _missed(owner, name, tests, reported)


def _missed(
    owner: Cut | Cook, name: str, tests: Sequence[WeighingTest], reported: Doubted
) -> Iterator[Problem]:
    """A by-product that weighs too little by what its test can't account for."""
    kept = [
        (test, part)
        for test in tests
        for item, part in test.parts.items()
        if str(item) == name
        and part.weight.value > 0
        and part.weight.place not in reported
        and _unaccounted(test) >= 0
    ]
    for test, part in kept:
        others = [(t, p.weight.value / t.in_.value) for t, p in kept if t is not test]
        share, lost = part.weight.value / test.in_.value, _unaccounted(test)
        if not others:
            continue
        middle = median(each for _, each in others)
        usual = median(_unaccounted(other) for other, _ in others)
        less, more = middle - share, lost - usual
        if is_far(share, middle, MISSED) and less > A_PART and abs(more - less) < AS_MUCH * less:
            message = tr(
                "{measure} of {name} leaves {lost:.1%} of what went in unaccounted for, and the "
                "other tests leave {usual:.1%}",
                measure=part.weight.text,
                name=name,
                lost=lost,
                usual=usual,
            )
            yield from warning(_value(owner, part.weight, test), message)


def _unaccounted(test: WeighingTest) -> float:
    """Which part of what went in neither came out nor was kept."""
    kept = sum(part.weight.value for part in test.parts.values())
    return 1 - (test.out.value + kept) / test.in_.value


def _of_two(shares: Sequence[tuple[Value, float]]) -> Iterator[Problem]:
    """A by-product's shares of the only two tests that weighed it."""
    if len(shares) == 2:
        (one, less), (other, more) = sorted(shares, key=lambda each: each[1])
        if more > OF_TWO * less and more - less > NEXT_TO_NOTHING:
            yield from one_of_two(one, other.measure)
