"""The tests of every held tasting as rows of figures, each with its method and its places."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from builder.costing.panels import ALPHA, BETA, CAN_TELL
from builder.costing.tasting_results import ChoiceResult, TastingAnalysis, margin_stated
from builder.engine.book import Entry, Identity, Origin
from builder.engine.methods import METHODS
from builder.language import Deferred, tr
from builder.problems import Place
from builder.reading.names import slug
from builder.records.fields import Measure
from builder.records.tastings import Attribute
from builder.tasting.discrimination import (
    discrimination_difference,
    discrimination_similarity,
    share_who_can_tell,
)
from builder.tasting.thurstone import sensory_distance

Key = tuple[str, str, str, str]
Values = dict[str, float | Entry | None]
RIGHT = "just about right"
PAIR = "pair"
# The tests of a sample beside the benchmark.
BESIDE = ("difference", "ranks", "no worse", "worse", "within")


@dataclass(frozen=True, slots=True)
class About:
    """What a test is about; what it is not about is empty. `against`: another sample."""

    attribute: str = ""
    sample: str = ""
    against: str = ""
    taster: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """One test of one tasting, or one estimate with its limits.

    `unit` says what the estimate is counted in: points, points apart, ranks, share or h; empty
    for a plain number. `sample`: the one that it is about, as pages say it.
    """

    tasting: str
    test: str
    method: str
    about: About
    unit: str
    values: Mapping[str, Entry]
    sample: str

    @property
    def key(self) -> Key:
        """What tells it from the others: a pair of samples by both, else sample or taster."""
        about = self.about
        pair = f"{about.sample}/{about.against}" if self.test == PAIR else about.sample
        return self.tasting, about.attribute, self.test, pair or about.taster

    @property
    def who(self) -> Identity:
        """Its row, on the page of its tasting."""
        _, *parts = self.key
        about = self.about
        test = ", ".join(tr(part) for part in self.test.split(", "))
        words = (about.attribute, test, self.sample, about.taster)
        label = ", ".join(filter(None, words))
        key = ".".join(slug(part) for part in parts if part)
        return Identity(f"tastings/{self.tasting}", key, label[:1].upper() + label[1:])


@dataclass(frozen=True, slots=True)
class Findings:
    """All tests in the order of their rows."""

    rows: tuple[Finding, ...]
    numbers: Mapping[Key, int]

    def row(self, tasting: str, test: str, attribute: str = "", about: str = "") -> int | None:
        """The row of a test; `about` is its sample, pair of samples or taster."""
        return self.numbers.get((tasting, attribute, test, about))


class Tests:
    """The tests of one tasting: what they have in common, and those of choices."""

    def __init__(self, found: TastingAnalysis) -> None:
        self.found = found
        self.names = [sample.name for sample in found.samples]
        self.benchmark = "" if found.benchmark is None else self.names[found.benchmark]
        stated = found.tasting
        self.alpha = stated_entry(stated.alpha, ALPHA)
        places = [choice.place for choice in found.ballots.choices]
        places += [mark.place for mark in found.ballots.marks]
        place = stated.correct.place if stated.correct else next(iter(places), None)
        self.counted = Origin(place, tr("counted in the answers"))

    def about(self, attribute: str) -> list[About]:
        """Every sample in an attribute, beside the benchmark where there is one."""
        return [
            About(attribute, name, "" if name == self.benchmark else self.benchmark)
            for name in self.names
        ]

    def test(
        self,
        test: str,
        method: Callable[..., object],
        about: About,
        unit: str = "",
        /,
        **values: float | Entry | None,
    ) -> Finding:
        """One row: entries as they are, counts with their place, the method's own values."""
        entered = {
            name: value if isinstance(value, Entry) else self.entry(name, value, method)
            for name, value in values.items()
            if value is not None
        }
        sample = self.found.words_of(about.sample)
        return Finding(self.found.tasting.id, test, method.__name__, about, unit, entered, sample)

    def entry(self, figure: str, value: float, method: Callable[..., object]) -> Entry:
        """Counts are the answers', the rest is what the method gives."""
        if figure in {"tasters", "answers", "correct"}:
            return Entry(float(value), self.counted)
        return Entry(float(value), Origin(reason=METHODS[method.__name__].title))

    def choice(self, choice: ChoiceResult) -> Iterator[Finding]:
        """Can anybody tell, can fewer than the limit, how many can, how far apart."""
        test, distance, lead = choice.difference, choice.distance, choice.shown
        place, guessing = (
            Place(self.found.tasting.file),
            tr("guessing in a {protocol}", protocol=choice.protocol.name),
        )
        asked: Values = {
            "tasters": test.tasters,
            "correct": test.correct,
            "guess": Entry(choice.protocol.guess, Origin(place, guessing)),
        }
        two_sided = choice.protocol.two_sided
        can_tell = stated_entry(self.found.tasting.can_tell, CAN_TELL)
        about = About("", choice.first, choice.second) if two_sided else About()
        yield self.test(
            Deferred("difference"),
            discrimination_difference,
            about,
            **asked,
            risk=self.alpha,
            p_value=test.p_value,
            critical_number=test.minimum_correct,
        )
        if choice.similarity is not None:
            yield self.test(
                Deferred("similarity"),
                discrimination_similarity,
                about,
                **asked,
                risk=stated_entry(self.found.tasting.beta, BETA),
                limit=can_tell,
                p_value=choice.similarity.p_value,
                critical_number=choice.similarity.few_enough,
            )
        yield self.test(
            Deferred("share"),
            share_who_can_tell,
            About("", lead.ahead, lead.behind),
            "share",
            **{**asked, "correct": lead.chosen},
            estimate=lead.estimate,
            lower=lead.lower,
            upper=lead.upper,
            at_least=lead.at_least,
            at_most=lead.at_most,
            limit=can_tell,
            confidence=choice.share.confidence,
        )
        yield self.test(
            Deferred("distance"),
            sensory_distance,
            about,
            **asked,
            estimate=distance.estimate,
            lower=distance.lower,
            upper=distance.upper,
            confidence=distance.confidence,
        )

    def margin(self, attribute: Attribute | None) -> Entry | None:
        """The margin in points of 100 with its place."""
        stated, margin = margin_stated(self.found.tasting, attribute)
        return None if stated is None else Entry(margin, Origin(stated.place, text=stated.text))


def stated_entry(stated: Measure | None, usual: float) -> Entry:
    """A level as the file states it, else what is taken."""
    if stated is None:
        return Entry(usual, Origin(reason=tr("taken where the file has none")))
    return Entry(stated.value, Origin(stated.place, text=stated.text))
