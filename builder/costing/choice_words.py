"""What a test of difference supports, in words."""

from __future__ import annotations

from collections.abc import Iterator

from builder.costing.tasting_results import TastingResult
from builder.language import tr
from builder.tasting.protocols import Question
from builder.tasting.verdicts import (
    Grade,
    difference_verdict,
    likeness_sentence,
    share_sentence,
    similarity_verdict,
)
from builder.tasting.wording import chance_in_words


def choice_sentences(result: TastingResult) -> Iterator[str]:
    """What a discrimination test supports: of a difference, of likeness, and the share."""
    choice = result.choice
    assert choice is not None
    names = result.words_of(choice.first), result.words_of(choice.second)
    share = share_sentence(choice.share, choice.protocol, names)
    likeness = similarity_verdict(choice.similarity) if choice.similarity else None
    few_can_tell = likeness is not None and likeness.grade is Grade.FEW_CAN_TELL
    if few_can_tell and likeness and not choice.difference.different:
        # A call for more tasters, in case many can tell, would contradict what is shown.
        assert choice.similarity is not None
        yield from (likeness.sentence, likeness_sentence(choice.similarity))
        chance = chance_in_words(choice.difference.p_value)
        yield tr(
            "No difference is shown ({chance}), which alone would be no proof of likeness.",
            chance=chance,
        )
        return
    if choice.difference.different and not choice.protocol.two_sided:
        yield _told_words(result, names, choice.protocol.question is Question.CHOICE)
    shown = difference_verdict(choice.difference, result.can_tell, result.power, names)
    said_below = choice.share.below_chance and not choice.share.implausible
    can_be_shown = choice.similarity is not None and choice.similarity.can_be_shown
    yield shown.sentence
    if not (said_below and can_be_shown):
        yield share
    if likeness is not None and (few_can_tell or shown.grade is not Grade.DIFFERENT):
        yield likeness.sentence


def _told_words(result: TastingResult, names: tuple[str, str], chosen: bool) -> str:
    """That a difference shows; where the greater one was asked for, which it is."""
    asks = result.tasting.asks
    if chosen:
        what = tr(" for {asks}", asks=asks) if asks else ""
        return tr("Tasters pick {names} over {names2}{what}.", names=names[1], names2=names[0],
                  what=what)  # fmt: skip
    by = tr(" by {asks}", asks=asks) if asks else ""
    return tr("Some can tell {names} from {names2}{by}.", names=names[0], names2=names[1], by=by)
