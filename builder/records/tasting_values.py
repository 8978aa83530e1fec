"""How the values of a tasting are read: scales, codes of tasters, what they answered."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated

from pydantic import PlainValidator, WithJsonSchema

from builder.language import tr
from builder.problems import Place
from builder.reading.tree import Blank, Branch, Node, Row, Text
from builder.records.fields import (
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
SCALES = "0-5, 1-10, 9-point, line (0 to 100), 150 mm"


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
    text = scalar(node, tr("a scale, such as {scales}", scales=SCALES))
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
            tr("such as {scales}", scales=SCALES),
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
            tr("a letter and a number, such as T1; no file here has names of tasters"),
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
                    tr("taster {taster} is there twice", taster=taster),
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
