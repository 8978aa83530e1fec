"""A row of a tasting's answers as its CSV holds it, for the pages and schemas that describe it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from pydantic import Field

from builder.records.base import Written
from builder.records.fields import Id, Whole, Words


class AnswerRow(Written):
    """tastings/ID.csv: answers of one taster on one sample, or of one taster in all.

    Every attribute of the tasting is a column more, by its name.
    """

    examples: ClassVar[Mapping[str, str]] = {
        "taster": "T1", "sample": "chuck-24", "code": "547", "rank": "1", "answer": "correct",
    }  # fmt: skip

    taster: Words = Field(description="private code of the taster, never a name")
    sample: Id | None = Field(None, description="name of the sample as the tasting has it")
    code: Words | None = Field(None, description="blind code of the sample, instead of its name")
    rank: Whole | None = Field(None, description="in a test of ranks: 1 for the highest")
    answer: Words | None = Field(
        None, description="in a test of difference: correct, wrong, or the code of a cup"
    )
