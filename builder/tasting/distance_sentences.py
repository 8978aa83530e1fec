"""How far apart two samples are, and how many tasters are needed, in sentences."""

from __future__ import annotations

from collections.abc import Sequence

from builder.display.words import listed
from builder.language import Deferred, clauses, labelled, tr
from builder.tasting.needed import (
    TastersNeeded,
)
from builder.tasting.thurstone import DPrime
from builder.tasting.wording import (
    percent_in_words,
    points_in_words,
    tasters_in_words,
    tasters_start,
)


def distance_sentence(distance: DPrime, names: Sequence[str] = ()) -> str:
    """Say a sensory distance with its limits.

    names: both samples where it has a direction, of the first over the second.

    >>> distance_sentence(DPrime(None, None, 2.71, None, 0.9, 12))
    '12 tasters: all answers on one side, so d′ has no finite value; at least 2.7 (95 % limit).'
    """
    start, mark = tasters_start(distance.tasters), " ".join(["d′", *_over(names)])
    ends = [
        f"{name} {points_in_words(end)}"
        for name, end in ((tr("at least"), distance.lower), (tr("at most"), distance.upper))
        if end is not None
    ]
    limits = _limits_words(distance, len(ends), directed=bool(names))
    if distance.upper == 0:
        return tr(
            "{start}{mark} is 0, as nobody did better than guessing brings {limits}.",
            start=start,
            mark=mark,
            limits=limits,
        )
    if distance.estimate is None:
        reason = tr("all answers on one side, so {mark} has no finite value", mark=mark)
        within = f"{listed(ends) or tr('without limits')} {limits}"
        return f"{start}{clauses([reason, within])}."
    return tr(
        "{start}{mark} is {points_in_words}, {ends} {limits}.",
        start=start,
        mark=mark,
        points_in_words=points_in_words(distance.estimate),
        ends=listed(ends),
        limits=limits,
    )


def _limits_words(distance: DPrime, ends: int, *, directed: bool) -> str:
    """How sure the ends are; beside a share, whose ends are each of one side, so are these."""
    if directed:
        return tr(
            "({percent_in_words} limits)", percent_in_words=percent_in_words(distance.confidence)
        )
    level = percent_in_words((1 + distance.confidence) / 2)
    if ends == 1:
        return tr("({level} limit)", level=level)
    return tr("(a {level} limit each)", level=level)


def _over(names: Sequence[str]) -> tuple[str, ...]:
    return (tr("of {names} over {names2}", names=names[0], names2=names[1]),) if names else ()


def needed_sentence(
    needed: TastersNeeded, question: str, reached: str = Deferred("chance of showing it")
) -> str:
    """Say how many tasters a question needs; reached: what the power is the chance of.

    >>> needed_sentence(TastersNeeded(53, 57, 0.9, 1500), "a difference that 30 % can tell")
    'At least 57 tasters to show a difference that 30 % can tell; chance of showing it: 90 %.'
    """
    chance = labelled(tr(reached), percent_in_words(needed.power))
    if needed.at_least is None:
        return tr(
            "More than {tasters_in_words} to show {question}; {chance}.",
            tasters_in_words=tasters_in_words(needed.searched),
            question=question,
            chance=chance,
        )
    return tr(
        "At least {tasters_in_words} to show {question}; {chance}.",
        tasters_in_words=tasters_in_words(needed.at_least),
        question=question,
        chance=chance,
    )
