"""A cut that is on no plate yet and might take a benchmark's place: `candidate`, and `muscle`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator

from builder.data.muscles import muscles
from builder.reading.tree import Text
from builder.records.base import Written
from builder.records.fields import Id, Length, one_of, schema
from builder.records.plans import Shape
from builder.records.stages import PublishedYield

# What a counter calls a muscle, or another name of it in the literature.
_MEANT = {
    "tenderloin": "psoas major", "fillet": "psoas major",
    "top blade": "infraspinatus", "flat iron": "infraspinatus", "oyster blade": "infraspinatus",
    "under blade": "serratus ventralis", "denver": "serratus ventralis",
    "striploin": "longissimus lumborum", "top loin": "longissimus lumborum",
    "ribeye": "longissimus thoracis", "rib eye": "longissimus thoracis",
    "shoulder clod": "triceps brachii", "clod heart": "triceps brachii", "clod": "triceps brachii",
    "top sirloin": "gluteus medius", "rump": "gluteus medius",
    "eye of round": "semitendinosus", "girello": "semitendinosus",
    "bottom round": "biceps femoris", "outside round": "biceps femoris",
    "silverside": "biceps femoris", "gluteobiceps": "biceps femoris",
    "top round": "semimembranosus", "inside round": "semimembranosus",
    "topside": "semimembranosus",
    "chuck tender": "supraspinatus", "mock tender": "supraspinatus",
    "shank": "gastrocnemius", "shin": "gastrocnemius",
}  # fmt: skip

MuscleName = Annotated[
    Text,
    PlainValidator(one_of(*muscles(), meant=_MEANT)),
    schema("infraspinatus", "the name of a muscle"),
]


class Candidate(Written):
    """A cut on no plate yet that might take a plate's place: that plate's id alone, or more."""

    short_for: ClassVar[tuple[str, ...]] = ("for",)
    examples: ClassVar[Mapping[str, str]] = {
        "for": "ribeye-steak", "thickness": "45 mm", "published": "usda 13598",
    }  # fmt: skip

    for_: Id = Field(description="id of the plate that it might replace, the benchmark")
    published: PublishedYield | None = Field(
        None, description="a published cooking yield; that of its muscle if left out"
    )
    shape: Shape | None = Field(None, description="shape of the piece as it would be cooked")
    thickness: Length | None = Field(None, description="smallest dimension of that piece")
