"""What keeps the key of a blind tasting from its tasters until the session is over."""

from __future__ import annotations

from collections.abc import Iterator

from builder.language import Deferred, tr
from builder.problems import Place, Problem, Severity
from builder.records.content import Content
from builder.records.tastings import Tasting

_HINT = Deferred(
    "add seed: with eight letters or more that nobody guesses; it stays out "
    "of the site until the session is over"
)

_ANOTHER = Deferred(
    "write another seed: with eight letters or more that nobody guesses; it stays out "
    "of the site until the session is over"
)


def is_over(content: Content, tasting: Tasting, held: bool) -> bool:
    """Whether nobody is left to be kept blind: there are answers, or its day has passed."""
    return held or (tasting.date is not None and tasting.date.day < content.as_of)


def has_own_seed(content: Content, tasting: Tasting) -> bool:
    """Whether the codes are drawn from words that no published page shows.

    A file's name is in its address, and another tasting's seed in its file once it is over.
    """
    others = (other for other in content.tastings.values() if other.id != tasting.id)
    known = {tasting.id, *(other.draws_from for other in others)}
    return tasting.seed is not None and str(tasting.seed) not in known


def check_seed(content: Content, tasting: Tasting, held: bool) -> Iterator[Problem]:
    """Warn of a tasting ahead whose key anybody could work out: its sheets are not printed."""
    if is_over(content, tasting, held) or has_own_seed(content, tasting):
        return
    seed = tasting.seed
    why = tr("this seed names or draws another tasting too") if seed else tr("no seed is written")
    if seed == tasting.id:
        why = tr("the seed is the file's name")
    yield Problem(
        seed.place if seed else Place(tasting.file),
        tr("{why}, so a taster could work out the key: no ballots are printed yet", why=why),
        tr(_ANOTHER) if seed else tr(_HINT),
        Severity.WARNING,
        tasting.path,
        needs=None,  # it helps to guess the seed
    )
