"""A tasting: what was served to whom, on which scales, and what they answered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import ClassVar, Self

from pydantic import Field, field_validator, model_validator

from builder.language import Deferred, tr
from builder.reading.tree import Branch, Row, Text
from builder.records.base import Record, Written, branch_of
from builder.records.fields import (
    Date,
    Hours,
    Id,
    Mass,
    Share,
    TimeOfDay,
    Whole,
    Words,
    YesNo,
    refuse,
)
from builder.records.kind import FREE, Kind
from builder.records.tasting_values import (
    BY_TASTER,
    RANKS,
    SCALES,
    SCORES,
    TESTS,
    Answer,
    Code,
    Codes,
    CodesDiffer,
    End,
    EndWords,
    Marks,
    Order,
    ScaleText,
    Test,
    WrittenScale,
)


class Sample(Written):
    """What is served under a code: a cook by its id alone, or `{plate: ID}`."""

    short_for: ClassVar[tuple[str, ...]] = ("cook",)
    examples: ClassVar[Mapping[str, str]] = {
        "cook": "chuck-roll-36h", "plate": "chuck-steak",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"cook": FREE, "plate": FREE}

    cook: Id | None = Field(None, description="id of the cook; its time is the sample's duration")
    plate: Id | None = Field(None, description="id of the plate, where the whole plate is served")

    @model_validator(mode="after")
    def _one(self) -> Self:
        if (self.cook is None) == (self.plate is None):
            place = self.plate.place if self.plate else None
            raise refuse(
                tr("a sample is one cook or one plate"), tr("write its id, or plate: ID"), place
            )
        return self

    @property
    def of(self) -> Text:
        """The id of the cook or the plate."""
        found = self.cook or self.plate
        assert found is not None
        return found


class Attribute(Written):
    """What tasters judge: `9-point`, its scale alone, or `[too firm, right, falling apart]`."""

    short_for: ClassVar[tuple[str, ...]] = ("scale",)
    examples: ClassVar[Mapping[str, str]] = {
        "margin": "12 %",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = dict.fromkeys(
        ("scale", "words", "half_points", "best", "margin"), FREE
    )

    scale: ScaleText | None = Field(None, description=f"such as {SCALES}")
    words: EndWords | None = Field(
        None, description="of a just-about-right scale: its two ends, right between"
    )
    half_points: YesNo = Field(False, description="whether halves may be given on the scale")
    best: End | None = Field(None, description="the better end, high or low; high if left out")
    margin: Share | None = Field(None, description="instead of the tasting's own")

    @classmethod
    def _unfold_short(cls, node: Text | Row) -> Branch:
        return branch_of(node.place, {"words" if isinstance(node, Row) else "scale": node})

    @model_validator(mode="after")
    def _scale_or_words(self) -> Self:
        if (self.scale is None) == (self.words is None):
            place = self.scale.place if self.scale else None
            raise refuse(
                tr("an attribute has a scale, or the words of a just-about-right scale"),
                tr("such as 9-point, or [too firm, right, falling apart]"),
                place,
            )
        if self.words is not None and (of_scales := self.best or self.margin):
            raise refuse(
                tr("a just-about-right scale has its best in the middle, and no margin"),
                tr("leave best and margin out"),
                of_scales.place,
            )
        return self

    @property
    def ends(self) -> tuple[str, str]:
        """The words of the ends of a just-about-right scale, the low end first."""
        assert self.words is not None
        return self.words


class Tasting(Record):
    """tastings/ID.yaml: a tasting, held or planned; answers may be in tastings/ID.csv."""

    folder: ClassVar[str] = "tastings"
    kind: ClassVar[Kind] = Kind(
        noun=Deferred("tasting"), counted=("{count} tasting", "{count} tastings"),
        meant=("panels",), editions=("kitchen", "front-of-house"), names=("plates",),
        tables=("finding",), worked={"tasting": Deferred("Cheek, two times")},
        stand_ins={"test": Text("scores"), "samples": {}, "tasters": Text("1")},
    )  # fmt: skip
    examples: ClassVar[Mapping[str, str]] = {
        "serve at": "15:00", "samples": "{ribeye: ribeye-grill, chuck-24: chuck-roll-24h}",
        "benchmark": "ribeye",
        "attributes": "{liking: 9-point, texture: [‹too firm›, right, ‹falling apart›]}",
        "expected": "chuck-24", "margin": "12 %", "can tell": "30 %", "alpha": "5 %",
        "beta": "10 %", "off texture": "25 %", "spare": "10 %", "most samples": "4",
        "portion": "25 g", "warm up": "chuck-24", "palate break": "2 min", "correct": "14",
        "scores": "{T1: {ribeye: [7, right], chuck-24: [5, ‹too firm›]}}",
        "ranks": "{T1: [ribeye, chuck-24]}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(
            ("name", "test", "question", "date", "serve_at", "samples", "benchmark", "tasters",
             "attributes", "asks", "expected", "margin", "can_tell", "alpha", "beta",
             "off_texture", "log_time", "seed", "codes", "most_samples", "portion", "spare",
             "warm_up", "palate_break", "scales"), FREE),
        **dict.fromkeys(("scores", "ranks", "answers", "correct"), "tasting answers"),
    }  # fmt: skip

    name: Words | None = Field(None, description="what the tasting is called")
    test: Test = Field(description=f"one of {', '.join(TESTS)}")
    question: Words | None = Field(None, description="what the kitchen wants to know")
    date: Date | None = Field(None, description="the day on which it was held, or will be")
    serve_at: TimeOfDay | None = Field(None, description="when everything is served")
    samples: dict[Id, Sample] = Field(description="what is served, by a short name for each")
    benchmark: Id | None = Field(None, description="name of the sample that others stand beside")
    tasters: Codes = Field(description="private codes, never names, or how many: T1, T2 and so on")
    attributes: dict[Text, Attribute] = Field(
        {}, description="what is scored, the most important first, each with its scale"
    )
    asks: Words | None = Field(
        None, description="what ranks and choices are about, such as tenderness"
    )
    expected: Id | None = Field(
        None, description="sample that should have more of it; paired without it: either may"
    )
    margin: Share | None = Field(
        None, description="part of the scale that a sample may lie below the benchmark, beforehand"
    )
    can_tell: Share | None = Field(
        None, description="smallest share of people who can tell that matters; 30 % if left out"
    )
    alpha: Share | None = Field(
        None, description="risk of a difference that is none; 5 % if left out"
    )
    beta: Share | None = Field(
        None, description="risk of missing what matters, or likeness that is none; 10 % if left out"
    )
    off_texture: Share | None = Field(
        None, description="share who may find texture off at either end; 20 % if left out"
    )
    log_time: YesNo = Field(False, description="whether the curve runs over the logarithm of time")
    seed: Words | None = Field(
        None,
        description="words that codes and orders are drawn from, which nobody guesses and no other "
        "tasting has; no ballots are printed for a tasting ahead without them",
    )
    codes: CodesDiffer | None = Field(
        None,
        description="whether each taster has codes of his or her own or a sample has one code for "
        "all; by taster in tests of difference, else by sample, if left out",
    )
    most_samples: Whole | None = Field(
        None, description="samples that one mouth can bear, 2 to 6; 6 if left out"
    )
    portion: Mass | None = Field(None, description="weight of one serving; 20 g if left out")
    spare: Share | None = Field(None, description="cooked on top of it; 10 % if left out")
    warm_up: Id | None = Field(None, description="sample served first to set the palate, unscored")
    palate_break: Hours | None = Field(
        None, description="water and bread between samples; 1.5 min if left out"
    )
    scales: dict[Code, ScaleText] = Field(
        {}, description="scale of a taster whose ballot had another"
    )
    scores: dict[Code, dict[Text, Marks]] = Field(
        {}, description="by taster, then by sample or blind code; – where nothing was tasted"
    )
    ranks: dict[Code, Order] = Field(
        {}, description="by taster: samples, the highest first; – for each that was not tasted"
    )
    answers: dict[Code, Answer] = Field({}, description="by taster: correct, wrong, or the cup")
    correct: Whole | None = Field(None, description="number of correct answers, instead of each")
    note: Words | None = Field(None, description="free text, Markdown")

    @property
    def named_paths(self) -> set[str]:
        """The paths of what is served: answers mean nothing without one of the samples."""
        return {f"{'cooks' if each.cook else 'plates'}/{each.of}" for each in self.samples.values()}

    @field_validator("scales", "scores", "ranks", "answers", mode="before")
    @classmethod
    def _each_once(cls, node: object) -> object:
        """Refuse a taster twice, however the code is spelt."""
        first: dict[str, Text] = {}
        for key in node if isinstance(node, Branch) else ():
            earlier = first.setdefault(key.upper(), key)
            if earlier is not key:
                message = tr("taster {key} is there twice", key=key.upper())
                raise refuse(message, tr("first at {place}", place=earlier.place), key.place)
        return node

    @property
    def is_discrimination(self) -> bool:
        """Whether tasters say which cup is the odd, the like or the greater one."""
        return self.test not in (SCORES, RANKS)

    @property
    def codes_by_taster(self) -> bool:
        """Whether each taster has codes of his or her own."""
        return self.codes == BY_TASTER if self.codes else self.is_discrimination

    @property
    def draws_from(self) -> str:
        """The seed of codes and orders."""
        return str(self.seed or self.id)

    @property
    def asked(self) -> str:
        """What ranks and choices are about."""
        return str(self.asks or "preference")

    @property
    def scored(self) -> dict[str, Attribute]:
        """The attributes with a scale, the most important first."""
        return {str(name): found for name, found in self.attributes.items() if found.scale}

    @property
    def just_right(self) -> dict[str, Attribute]:
        """The attributes with a just-about-right scale."""
        return {str(name): found for name, found in self.attributes.items() if found.words}

    def scale_for(self, taster: str, attribute: Attribute) -> WrittenScale | None:
        """The scale on a taster's ballot; None where just about right is asked."""
        own = {str(code): scale for code, scale in self.scales.items()}
        return own.get(taster, attribute.scale) if attribute.scale else None

    def challengers(self) -> Iterator[str]:
        """The samples other than the benchmark."""
        return (str(name) for name in self.samples if name != self.benchmark)
