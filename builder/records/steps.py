"""The steps by which a cook is done, a sub-recipe made or a plate put together."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import BeforeValidator, Field

from builder.language import tr
from builder.reading.tree import Row
from builder.records.base import Written
from builder.records.fields import Amount, Hours, Id, Temperature, Words, refuse
from builder.records.kind import FREE


class Picture(Written):
    """A picture of the folder pictures/: `[pictures/slices.png, Five slices in a row]`."""

    short_for: ClassVar[tuple[str, ...]] = ("file", "shows")
    examples: ClassVar[Mapping[str, str]] = {
        "file": "pictures/slices.png", "shows": "‹Five slices in a row›",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"file": FREE, "shows": FREE}

    file: Words = Field(description="its file, in the folder pictures/")
    shows: Words = Field(description="what it shows, for who can't see it")


class Step(Written):
    """One step: what is done, in a line, or with its keys."""

    short_for: ClassVar[tuple[str, ...]] = ("what",)
    examples: ClassVar[Mapping[str, str]] = {
        "what": "‹Sear on all sides›", "for": "90 s", "at": "230 °C",
        "amounts": "{beef-bones: 6 kg}", "caution": "‹The fat spits›",
        "picture": "{file: pictures/slices.png, shows: ‹Five slices in a row›}",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("what", "amounts", "caution", "picture"), FREE),
        "for_": "cooking", "at": "cooking",
    }  # fmt: skip

    what: Words = Field(description="what is done")
    for_: Hours | None = Field(None, description="how long it takes")
    at: Temperature | None = Field(None, description="temperature at which it is done")
    amounts: dict[Id, Amount] = Field(
        {},
        description="amounts that go in at this step, of what the recipe has, by id: the cut of a "
        "cook, the ingredients of a sub-recipe, for one portion the cooks, cuts and pantry items "
        "of a plate",
    )
    caution: Words | None = Field(None, description="what to look out for, printed in bold")
    picture: Picture | None = Field(None, description="a picture of pictures/, with its words")


def _some(node: object) -> object:
    if isinstance(node, Row) and not node:
        raise refuse(
            tr("no step is in this list"), tr("write one, or take the key out"), node.place
        )
    return node


Steps = Annotated[list[Step], BeforeValidator(_some)]
