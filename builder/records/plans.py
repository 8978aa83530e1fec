"""What a cook's file says of time and temperature beside the cook itself."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator

from builder.language import Deferred
from builder.reading.tree import Text
from builder.records.base import Written
from builder.records.fields import (
    Factor,
    Hours,
    Length,
    Mass,
    Share,
    Temperature,
    Words,
    any_of,
    one_of,
)
from builder.records.kind import FREE

FORMS = ("intact", "ground", "injected", "tenderised", "stuffed")
SHAPES = ("slab", "cylinder", "sphere", "block")
COLD = ("ice bath", "blast chiller", "cold room")
HOT_MEANT = dict.fromkeys(
    ("oven", "combi", "combi oven", "combination oven", "convection oven"),
    "steam oven if it steams; reheating in dry heat is not computed, so say it in a note",
)
HOT = ("water bath", "steam oven", "simmering liquid")
# Ways of cooking whose core is computed, and kinds of equipment whose energy is.
MODELLED = ("water bath", "steam oven", "steam", "simmering liquid", "simmer", "poach")
METERED = ("water bath", "oven")
CUTS = ("roast", "steak", "other")
# What a kitchen may say for a form, so that the nearest spelling is no wrong hint.
_SOAKED = Deferred(
    "injected if a needle or a vacuum brought it in, intact if the piece only lay in it"
)
FORMS_MEANT = {
    "minced": "ground", "mince": "ground", "chopped": "ground", "burger": "ground",
    "pumped": "injected", "brine injected": "injected", "tenderized": "tenderised",
    "bladed": "tenderised", "needled": "tenderised", "jaccarded": "tenderised",
    "pounded": "tenderised", "filled": "stuffed", "rolled with stuffing": "stuffed",
    "whole": "intact", "whole muscle": "intact", "enhanced": "injected",
    "brined": _SOAKED, "marinated": _SOAKED, "cured": _SOAKED, "pickled": _SOAKED,
}  # fmt: skip

Forms = Annotated[tuple[Text, ...], PlainValidator(any_of(*FORMS, meant=FORMS_MEANT))]
Shape = Annotated[Text, PlainValidator(one_of(*SHAPES))]
Cold = Annotated[Text, PlainValidator(one_of(*COLD))]
Hot = Annotated[Text, PlainValidator(one_of(*HOT, meant=HOT_MEANT))]
CountsAs = Annotated[Text, PlainValidator(one_of(*CUTS))]


class Piece(Written):
    """The piece as it goes into the cook."""

    examples: ClassVar[Mapping[str, str]] = {
        "spread": "10 %", "starts at": "4 °C", "weight": "1.2 kg",
        "name": "leg",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = dict.fromkeys(
        ("shape", "shape_factor", "thickness", "spread", "starts_at", "weight"), FREE)  # fmt: skip

    shape: Shape | None = Field(None, description=f"one of {', '.join(SHAPES)}")
    shape_factor: Factor | None = Field(
        None, description="0 slab, 1 long cylinder, 2 sphere, or between, instead of a shape"
    )
    thickness: Length | None = Field(None, description="its smallest dimension")
    spread: Share | None = Field(
        None, description="how far pieces of a batch differ in thickness, such as 10 %"
    )
    starts_at: Temperature | None = Field(
        None, description="core temperature at the start; from -30 °C, its ice melts on the way"
    )
    weight: Mass | None = Field(
        None,
        description="raw weight of one piece or bag; without it nothing is counted in whole ones",
    )
    name: Words | None = Field(
        None, description="what one is called, such as leg, so that 1 leg is a portion"
    )


class Cooling(Written):
    """How a cook is chilled, where it is."""

    examples: ClassVar[Mapping[str, str]] = {
        "to": "4 °C", "within": "2 h",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"to": FREE, "within": FREE, "in_": FREE}

    to: Temperature = Field(description="temperature to reach")
    within: Hours = Field(description="time to get there")
    in_: Cold | None = Field(None, description=f"one of {', '.join(COLD)}")


class Reheating(Written):
    """How a chilled cook is brought back, for hot holding or to order."""

    examples: ClassVar[Mapping[str, str]] = {
        "at": "57 °C", "for": "45 min",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"at": FREE, "for_": FREE, "in_": FREE}

    at: Temperature = Field(description="temperature around the piece")
    for_: Hours = Field(description="how long it takes")
    in_: Hot | None = Field(None, description=f"one of {', '.join(HOT)}; a water bath if left out")


class Storing(Written):
    """How long what is cooked or made is kept cold, in its bag or without."""

    examples: ClassVar[Mapping[str, str]] = {
        "at": "3 °C", "for": "5 d",
    }  # fmt: skip
    granted: ClassVar[Mapping[str, str]] = {"at": FREE, "for_": FREE, "source": FREE}

    at: Temperature = Field(description="temperature of the cold room")
    for_: Hours = Field(description="longest time that it is kept")
    source: Words | None = Field(
        None, description="the clause, or who says so; the kitchen, if left out"
    )
