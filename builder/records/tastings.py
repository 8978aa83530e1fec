"""A tasting: what was served to whom, on which scales, and what they answered."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar, Self

from pydantic import Field, PlainValidator, WithJsonSchema, field_validator, model_validator

from builder.language import tr
from builder.problems import Place
from builder.reading.tree import Blank, Branch, Node, Row, Text
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
    one_of,
    refuse,
    scalar,
)

SCORES, RANKS, PAIRED = "scores", "ranks", "paired"
TESTS = (SCORES, RANKS, "triangle", "duo-trio", PAIRED, *(f"{cups}-afc" for cups in range(2, 6)))
MOST_TASTERS = 200
RIGHT = "right"

_CODE = re.compile(r"[A-Za-z][0-9]{1,3}", re.ASCII)
_BETWEEN = re.compile(r"(?:line )?(\d{1,3}) ?(?:-|–|to) ?(\d{1,3})", re.ASCII)
_POINTS = re.compile(r"(\d{1,2})[- ]points?", re.ASCII)
_LINE = re.compile(r"(?:line)?(?: ?(\d{2,3}) ?mm)?", re.ASCII)
_SHORTEST_LINE, _LONGEST_LINE, _USUAL_LINE = 50.0, 180.0, 100.0
_SCALES = "0-5, 1-10, 9-point, line (0 to 100), 150 mm"


@dataclass(frozen=True, slots=True)
class WrittenScale:
    """A scale as a ballot declares it; `step` 0 is a line on which any point may be marked."""

    name: str
    low: float
    high: float
    step: float
    place: Place

    @property
    def is_line(self) -> bool:
        """Whether any point of it may be marked."""
        return not self.step

    @property
    def line_mm(self) -> float:
        """Length of the printed line [mm]: a point is 1 mm where paper and eye bear it."""
        span = self.high - self.low
        return span if _SHORTEST_LINE <= span <= _LONGEST_LINE else _USUAL_LINE


def as_scale(node: object) -> WrittenScale:
    """Read a declared scale."""
    text = scalar(node, tr("a scale, such as {scales}", scales=_SCALES))
    word = " ".join(text.lower().split())
    if found := _POINTS.fullmatch(word):
        ends, step = (1.0, float(found[1])), 1.0
    elif found := _BETWEEN.fullmatch(word):
        ends, step = (float(found[1]), float(found[2])), 0.0 if "line" in word else 1.0
    elif word and (found := _LINE.fullmatch(word)):
        ends, step = (0.0, float(found[1] or 100)), 0.0
    else:
        raise refuse(
            tr('"{text}" is not a scale', text=text),
            tr("such as {scales}", scales=_SCALES),
            text.place,
        )
    if ends[0] >= ends[1]:
        raise refuse(tr("a scale's first number lies below its second"), _turned(ends), text.place)
    return WrittenScale(str(text), *ends, step, text.place)


def _turned(ends: tuple[float, float]) -> str:
    return (
        "such as 0-5"
        if ends[0] == ends[1]
        else tr("write {ends:g}-{ends2:g}", ends=ends[1], ends2=ends[0])
    )


def _ends(node: object) -> tuple[str, str]:
    """The words of a just-about-right scale's ends; the middle one, right, may stand there."""
    words = [scalar(item, "a few words") for item in node] if isinstance(node, Row) else []
    ends = [word for word in words if RIGHT not in word.lower().split()]
    if len(ends) != 2 or ends[0].lower() == ends[1].lower():
        place = getattr(node, "place", None)
        hint = tr("such as [too firm, right, falling apart]")
        raise refuse(tr("a just-about-right scale has two ends"), hint, place)
    return str(ends[0]), str(ends[1])


def code(node: object) -> Text:
    """Read a taster's private code; anything that looks like a name is refused."""
    text = scalar(node, tr("a taster's code such as T1"))
    if not _CODE.fullmatch(text):
        raise refuse(
            tr('"{text}" is no private code', text=text),
            tr("a letter and a number, such as T1; names of tasters stand in no file here"),
            text.place,
        )
    return Text(text.upper(), text.file, text.line, text.column)


def _codes(node: object) -> tuple[Text, ...]:
    """Codes as a list, or their number, which stands for T1, T2 and so on."""
    if isinstance(node, Row):
        found: dict[str, Text] = {}
        for item in node:
            taster = code(item)
            if taster in found:
                first = found[taster].place
                raise refuse(
                    tr("taster {taster} stands twice", taster=taster),
                    tr("first at {first}", first=first),
                    taster.place,
                )
            found[taster] = taster
        return tuple(found.values())
    text = scalar(node, tr("codes such as [T1, T2], or how many"))
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:4]) <= MOST_TASTERS):
        raise refuse(
            tr('"{text}" is no number of tasters', text=text),
            tr("1 to {most_tasters}, or their codes, such as [T1, T2]", most_tasters=MOST_TASTERS),
            text.place,
        )
    numbers = range(1, int(text) + 1)
    return tuple(Text(f"T{n}", text.file, text.line, text.column) for n in numbers)


@dataclass(frozen=True, slots=True)
class AsWritten:
    """A value as it stands: what may be in it depends on the test and its attributes."""

    node: Node

    @property
    def place(self) -> Place:
        """Where it begins."""
        return self.node.place


def _as_written(node: object) -> AsWritten:
    if isinstance(node, Text | Row | Branch) and not isinstance(node, Blank):
        return AsWritten(node)
    raise refuse(tr("nothing is written here"), place=getattr(node, "place", None))


def _like(example: str, about: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": about, "examples": [example]})


Test = Annotated[Text, PlainValidator(one_of(*TESTS))]
BY_TASTER, BY_SAMPLE = "by taster", "by sample"
CodesDiffer = Annotated[Text, PlainValidator(one_of(BY_TASTER, BY_SAMPLE))]
End = Annotated[Text, PlainValidator(one_of("high", "low"))]
Code = Annotated[Text, PlainValidator(code), _like("T1", "a taster's code")]
Codes = Annotated[
    tuple[Text, ...], PlainValidator(_codes), _like("[T1, T2, T3]", "codes, or how many")
]
EndWords = Annotated[
    tuple[str, str],
    PlainValidator(_ends),
    _like("[too firm, right, falling apart]", "two ends, right between"),
]
ScaleText = Annotated[WrittenScale, PlainValidator(as_scale), _like("9-point", "a scale")]
Marks = Annotated[
    AsWritten,
    PlainValidator(_as_written),
    _like("[7, 6, right]", "a score for each attribute, in their order or by name"),
]
Order = Annotated[
    AsWritten, PlainValidator(_as_written), _like("[a, b = c]", "samples, the highest first")
]
Answer = Annotated[
    AsWritten, PlainValidator(_as_written), _like("correct", "correct, wrong, or the code of a cup")
]


class Sample(Written):
    """What is served under a code: a cook by its id alone, or `{plate: ID}`."""

    short_for: ClassVar[tuple[str, ...]] = ("cook",)
    examples: ClassVar[Mapping[str, str]] = {
        "cook": "chuck-roll-36h", "plate": "chuck-steak",
    }  # fmt: skip

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

    scale: ScaleText | None = Field(None, description=f"such as {_SCALES}")
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
    """tastings/ID.yaml: a tasting, held or planned; answers may stand in tastings/ID.csv."""

    folder: ClassVar[str] = "tastings"
    examples: ClassVar[Mapping[str, str]] = {
        "serve at": "15:00", "samples": "{ribeye: ribeye-grill, chuck-24: chuck-roll-24h}",
        "benchmark": "ribeye",
        "attributes": "{liking: 9-point, texture: [too firm, right, falling apart]}",
        "expected": "chuck-24", "margin": "12 %", "can tell": "30 %", "alpha": "5 %",
        "beta": "10 %", "off texture": "25 %", "spare": "10 %", "most samples": "4",
        "portion": "25 g", "warm up": "chuck-24", "palate break": "2 min", "correct": "14",
        "scores": "{T1: {ribeye: [7, right], chuck-24: [5, too firm]}}",
        "ranks": "{T1: [ribeye, chuck-24]}",
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
    ranks: dict[Code, Order] = Field({}, description="by taster: samples, the highest first")
    answers: dict[Code, Answer] = Field({}, description="by taster: correct, wrong, or the cup")
    correct: Whole | None = Field(None, description="number of correct answers, instead of each")
    note: Words | None = Field(None, description="free text, Markdown")

    @field_validator("scales", "scores", "ranks", "answers", mode="before")
    @classmethod
    def _each_once(cls, node: object) -> object:
        """Refuse a taster twice, however the code is spelt."""
        first: dict[str, Text] = {}
        for key in node if isinstance(node, Branch) else ():
            earlier = first.setdefault(key.upper(), key)
            if earlier is not key:
                message = tr("taster {key} stands twice", key=key.upper())
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
