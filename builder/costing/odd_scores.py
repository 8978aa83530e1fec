"""A score a tenth of all that it can be compared with: its decimal point slipped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.costing.answers import Mark
from builder.language import tr
from builder.problems import Problem
from builder.records.fields import Measure
from builder.records.slips import slip
from builder.records.tastings import Tasting
from builder.records.written import Value, warning

# So many other scores of the taster, and others' of the sample, each at least so many times as
# high, on a line of so many points. Common practice, no published source.
FEW, TIMES, LONG = 2, 5.0, 50.0


def check_odd_scores(tasting: Tasting, marks: Sequence[Mark]) -> Iterator[Problem]:
    """Warn of a score on a long line that is a small part of every other of its taster, and of
    every other taster's on its sample, where ten times as much lies among these.
    """
    for name, attribute in tasting.scored.items():
        given = [mark for mark in marks if mark.attribute == name and mark.value]
        for mark in given:
            scale = tasting.scale_for(mark.taster, attribute)
            own = [m.value for m in given if m.taster == mark.taster and m is not mark and m.value]
            others = [
                m.value for m in given if m.sample == mark.sample and m is not mark and m.value
            ]
            if not scale or not mark.value or scale.high - scale.low < LONG:
                continue
            # Beside a lone other score of the taster only a point that nobody else writes tells.
            pointed = "." in mark.text and not any("." in m.text for m in given if m is not mark)
            enough = len(own) >= (1 if pointed else FEW) and len(others) >= FEW
            if enough and _is_odd(mark.value, own, others):
                measure = Measure(mark.value, mark.place, mark.text)
                message = tr(
                    "{mark} is far below {taster}'s other scores and the other ",
                    mark=mark.text,
                    taster=mark.taster,
                )
                message += tr("tasters' of the same sample")
                value = Value("tastings.scores", measure, tasting, tasting.path)
                yield from warning(value, message, slip(measure, 10.0))


def _is_odd(value: float, own: Sequence[float], others: Sequence[float]) -> bool:
    """Whether ten times the value is like the other tasters' scores, and itself like nobody's."""
    alike = min(others) * 0.8 <= 10 * value <= max(others) * 1.2
    return alike and value * TIMES < min(*own, *others)
