"""The decision of a panel in sentences: all of them, what a page leads with, what a list says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.costing.duration_words import (
    apart_words,
    closest_words,
    may_words,
    out_words,
    texture_names,
    unlike_words,
)
from builder.costing.next_words import what_next
from builder.costing.tasting_results import TastingResult
from builder.language import tr
from builder.tasting.shortlist import Shortlist
from builder.tasting.wording import level_in_words, tasters_start


@dataclass(frozen=True, slots=True)
class Decided:
    """The sentences of a decision; what is empty is not there.

    `closest` leads, then `may` be right too and what is `following`; the rest says how it was
    decided: which are `out`, how those left lie `apart`, what can't be compared (`unlike`), and
    the `risk`.
    """

    closest: str
    out: tuple[str, ...]
    may: str
    apart: tuple[str, ...]
    unlike: str
    following: str
    risk: str

    @property
    def in_turn(self) -> Iterator[str]:
        """All of them, in the order in which they are found."""
        sentences = (self.closest, *self.out, self.may, *self.apart)
        yield from filter(None, (*sentences, self.unlike, self.following, self.risk))

    @property
    def behind(self) -> Iterator[str]:
        """How it was decided."""
        yield from filter(None, (*self.out, *self.apart, self.unlike, self.risk))


def decided(result: TastingResult) -> Decided | None:
    """Which sample came closest, which are out, which may be right, and what comes next."""
    found = result.decision
    if found is None:
        return None
    unlike = unlike_words(result)
    return Decided(
        _begun(_closest(result, found)),
        tuple(map(_begun, out_words(result, found))),
        _begun(may_words(result, found)),
        tuple(map(_begun, apart_words(result, found))),
        _begun(f"{unlike}.") if unlike else "",
        _begun(what_next(result, found)),
        _begun(_risk_words(result, found)),
    )


def durations_sentences(result: TastingResult) -> list[str]:
    """Every sentence of a decision, the closest first."""
    said = decided(result)
    return list(said.in_turn) if said else []


def short_durations(result: TastingResult) -> str:
    """Which came closest and which are out, for lists."""
    said = decided(result)
    return " ".join([said.closest, *said.out]) if said else ""


def _closest(result: TastingResult, found: Shortlist) -> str:
    return f"{tasters_start(result.count)}{closest_words(result, found)}."


def _risk_words(result: TastingResult, found: Shortlist) -> str:
    """How likely it is that something is out wrongly; empty where nothing is out."""
    if not any(each.out for each in found.judged):
        return ""
    risk = level_in_words(found.risk)
    if texture_names(result):
        return tr("The risk that a right one is out is {risk} at most, all counted.", risk=risk)
    return tr("The risk that any is out wrongly is {risk} at most, all counted.", risk=risk)


def _begun(sentence: str) -> str:
    """A sentence that may begin with a sample's name, with a large letter."""
    return sentence[:1].upper() + sentence[1:]
