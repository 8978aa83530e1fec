"""Losses and yields of stages against their tests, the other cooks' and what they can be."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from statistics import median

from builder.data import plausible_ranges
from builder.language import tr
from builder.problems import Problem
from builder.records.chains import BEFORE, stages_of
from builder.records.content import Content
from builder.records.fields import Measure
from builder.records.kinds import Cook, Cut
from builder.records.moves import turned
from builder.records.slips import slip
from builder.records.stages import Stage, WeighingTest
from builder.records.weights import MAY_GAIN
from builder.records.written import (
    Doubted,
    Value,
    is_far,
    is_far_from,
    middle_of,
    warning,
    without,
)

# Shares of weight that two tests of one stage may differ by, and one of several from the middle
# of the others where they agree, the spread of those so many times as small. Common practice, no
# published source.
YIELDS_APART, YIELDS_AGREE, AGREEING = 0.2, 0.15, 3.0
# Shares of weight by which a cook loses more or less than every other cook of the cut, and
# what a trimming that names nothing taken off loses at the most; of fish bought whole, head and
# frame go. Common practice, no published source.
COOKS_APART, PLAIN_TRIM, WHOLE_FISH = 0.3, 0.4, 0.65
# How many times apart a stated loss may lie from its own tests, and from others'; losses that
# differ by less than the last are never compared. Common practice, no published source.
STATED, COOKS, FEW, NEXT_TO_NOTHING = 4.0, 6.0, 4, 0.03
# Losses of cuts of one species are spread widely: a slip lies apart from the nearest, too.
CUTS, NEAREST = 9.0, 2.5
# Bones that come out are a good part of what goes in: a tenth of a pork butt, a third of a
# rack; the pin bones of a fillet weigh next to nothing. From memory.
BONES = re.compile(
    r"(?<!\bpin[- ])\b(de)?boned\b|\bbones?( is| are)? (out|drawn|off)\b", re.IGNORECASE
)
BONES_WEIGH = 0.05


@dataclass(frozen=True, slots=True)
class Own:
    """One stage of a record with its key ("cuts.trim") and what it loses by all that is known."""

    key: str
    name: str
    stage: Stage
    owner: Cut | Cook
    tests: tuple[WeighingTest, ...]

    @property
    def stated(self) -> Value | None:
        """The loss or yield that the file states."""
        measure = self.stage.stated
        if measure is None:
            return None
        return Value(f"{self.key}.loss", measure, self.owner, self.owner.path)

    @property
    def of_fish(self) -> bool:
        """Whether it is a cut of fish."""
        return isinstance(self.owner, Cut) and str(self.owner.species) == "fish"

    @property
    def tested(self) -> float | None:
        """The loss of the middle test."""
        return 1 - median(map(_yield, self.tests)) if self.tests else None

    @property
    def loss(self) -> float | None:
        """The stated loss, else the tested one."""
        if self.stage.stated_yield is not None:
            return 1 - self.stage.stated_yield
        return self.tested


def check_losses(content: Content, reported: Doubted) -> Iterator[Problem]:
    """Warn of a stage that loses far more or less than what it can be compared with."""
    stages = [
        _own(owner, name, stage) for owner in content.weighed for name, stage in stages_of(owner)
    ]
    peers: dict[tuple[str, ...], list[Own]] = defaultdict(list)
    yields = _yields(stages)
    for own in stages:
        peers[_kin(own)].append(own)
        yield from _against_tests(own)
        yield from _against_range(own)
        yield from _among_tests(own, yields.get(own.key, []))
        yield from _trimmed_for_nothing(own)
    for group in peers.values():
        yield from _against_others(group, reported)


def _yields(stages: Iterable[Own]) -> dict[str, list[float]]:
    """What each kind of stage keeps, in ascending order."""
    found: dict[str, list[float]] = defaultdict(list)
    for own in stages:
        if loss := own.loss:
            found[own.key].append(1 - loss)
    return {key: sorted(kept) for key, kept in found.items()}


def _own(owner: Cut | Cook, name: str, stage: Stage) -> Own:
    gains = name in MAY_GAIN
    tests = tuple(t for t in stage.tests if t.in_.value > 0 and (gains or _loses(t)))
    folder = "cuts" if name in BEFORE else owner.folder
    return Own(folder if name == "cook" else f"{folder}.{name}", name, stage, owner, tests)


def _loses(test: WeighingTest) -> bool:
    """Whether no more comes out than went in: another weighing is refused, and proves nothing."""
    return 0 < test.out.value <= test.in_.value


def _yield(test: WeighingTest) -> float:
    return test.out.value / test.in_.value


def _kin(own: Own) -> tuple[str, ...]:
    """What stages have in common that lose alike: the species in front, the cut behind."""
    if isinstance(own.owner, Cut):
        return own.key, str(own.owner.species)
    return own.key, str(own.owner.cut), str(own.owner.how), str(own.stage.how)


def _hint(measure: Measure, own: float, loss: float) -> str:
    """What a stated loss may have been; of a yield no slip of the point is known."""
    return slip(measure, loss / own) if abs(measure.value - own) < 1e-9 else ""


def _against_tests(own: Own) -> Iterator[Problem]:
    """A stated figure beside the tests of the same stage."""
    stated, tested, loss = own.stated, own.tested, own.loss
    if stated is None or tested is None or loss is None or loss <= 0:
        return
    apart = abs(loss - tested)
    if apart > YIELDS_APART or (apart > NEXT_TO_NOTHING and is_far(loss, tested, STATED)):
        message = tr(
            "{own}: {measure}, and its tests lose {tested:.1%}",
            own=own.name,
            measure=stated.measure.text,
            tested=tested,
        )
        yield from warning(stated, message, _hint(stated.measure, loss, tested))


def _against_range(own: Own) -> Iterator[Problem]:
    """A yield, or a lone test, against the range of the stage's loss."""
    value, loss = own.stated, own.loss
    lone = value is None and len(own.tests) == 1
    if lone:
        value = Value(f"{own.key}.tests.out", own.tests[0].out, own.owner, own.owner.path)
    for limits in plausible_ranges().get(f"{own.key}.loss", ()):
        if value is None or loss is None or loss <= 0 or (own.stage.loss and not lone):
            continue
        if not limits.low <= loss <= limits.high:
            message = tr(
                "{own}: a loss of {loss:.1%} is far outside what is usual here",
                own=own.name,
                loss=loss,
            )
            yield from warning(value, f"{message} ({limits.reason})")
    how = f"{own.stage.how or ''} {own.stage.leave or ''}"
    if own.stated and loss is not None and 0 < loss < BONES_WEIGH and BONES.search(how):
        message = tr(
            "{own}: {measure} is little for bones that come out",
            own=own.name,
            measure=own.stated.measure.text,
        )
        yield from warning(own.stated, message, slip(own.stated.measure, 10.0))


def _trimmed_for_nothing(own: Own) -> Iterator[Problem]:
    """A large loss of a trimming of which nothing is kept, and that does not say what goes."""
    stage, stated, loss = own.stage, own.stated, own.loss
    if own.name != "trim" or stated is None or loss is None or own.tests:
        return
    most = WHOLE_FISH if own.of_fish else PLAIN_TRIM
    if loss > most and not (stage.parts or stage.how or stage.leave or stage.note):
        message = tr(
            "{own}: {measure} is much for a trimming of which nothing is kept",
            own=own.name,
            measure=stated.measure.text,
        )
        yield from warning(stated, message, _hint(stated.measure, loss, loss / 10), "notes")


def _against_others(group: Sequence[Own], reported: Doubted) -> Iterator[Problem]:
    losses = [(own, own.loss) for own in group if not own.stated or _is_sound(own.stated, reported)]
    known = [(own, loss) for own, loss in losses if loss is not None and loss > 0]
    ordered = sorted(loss for _, loss in known)
    for own, loss in known:
        others = without(ordered, loss)
        if own.stated is None or len(others) < 2:
            continue
        if isinstance(own.owner, Cook) and _is_apart(loss, others):
            message = tr(
                "{own}: {measure}, and the like lose {middle_of:.1%}",
                own=own.name,
                measure=own.stated.measure.text,
                middle_of=middle_of(others),
            )
            hint = turned(own.stated.measure.text, middle_of(others) / loss)
            yield from warning(
                own.stated, message, hint or _hint(own.stated.measure, loss, middle_of(others))
            )
            continue
        if len(others) < FEW:
            continue
        middle, apart = middle_of(others), CUTS if isinstance(own.owner, Cut) else COOKS
        if abs(loss - middle) > NEXT_TO_NOTHING and is_far_from(loss, others, apart):
            if not all(is_far(loss, other, NEAREST) for other in others):
                continue
            message = tr(
                "{own}: {measure}, and the like lose {middle:.1%}",
                own=own.name,
                measure=own.stated.measure.text,
                middle=middle,
            )
            yield from warning(own.stated, message, _hint(own.stated.measure, loss, middle))


def _is_apart(loss: float, others: Sequence[float]) -> bool:
    """Whether the nearest of others, in ascending order, is still far in points."""
    at = bisect_left(others, loss)
    return all(abs(loss - other) > COOKS_APART for other in others[max(at - 1, 0) : at + 1])


def _is_sound(value: Value, reported: Doubted) -> bool:
    return value.measure.place not in reported


def _among_tests(own: Own, kept: Sequence[float]) -> Iterator[Problem]:
    """The one test whose yield is far from the others of its stage.

    Of two that differ it is the one that is farther from what the file states, from what such
    stages keep elsewhere (`kept`, in ascending order), else the later.
    """
    tests = sorted(own.tests, key=lambda test: test.date.day)
    if len(tests) < 2:
        return
    middle = median(map(_yield, tests))
    if len(tests) == 2:
        others = without(kept, 1 - own.loss) if own.loss else kept
        like = own.stage.stated_yield or (middle_of(others) if others else None)
        one, other = tests
        if like is not None and abs(_yield(one) - like) > abs(_yield(other) - like):
            one, other = other, one
        tests, middle = [other], _yield(one)
    for test in tests:
        share = _yield(test)
        rest = [_yield(other) for other in own.tests if other is not test]
        agree = len(rest) > 1 and abs(share - median(rest)) > max(
            YIELDS_AGREE, AGREEING * (max(rest) - min(rest))
        )
        if agree or abs(share - middle) > YIELDS_APART:
            day = test.date.day
            value = Value(f"{own.key}.tests.out", test.out, own.owner, own.owner.path, day)
            message = tr(
                "{own}: {out} of {in_words} is {share:.0%}, and the other tests of it "
                "give {middle:.0%}",
                own=own.name,
                out=test.out.text,
                in_words=test.in_.text,
                share=share,
                middle=middle,
            )
            yield from warning(value, message)
