"""What a rule asks about a piece of food: species, what was done to it, its cut, its surface."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from builder.display.words import listed
from builder.language import tr


class Species(StrEnum):
    """The animal, as far as the rules tell animals apart."""

    BEEF = "beef"
    VEAL = "veal"
    LAMB = "lamb"
    PORK = "pork"
    POULTRY = "poultry"
    FISH = "fish"
    GAME = "game"


class Form(StrEnum):
    """What has been done to the piece: anything but intact may carry the surface inside."""

    INTACT = "intact"
    GROUND = "ground"
    INJECTED = "injected"
    TENDERISED = "tenderised"
    STUFFED = "stuffed"


class Cut(StrEnum):
    """A whole-muscle roast, a steak, or a piece that the rules name neither."""

    ROAST = "roast"
    STEAK = "steak"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Food:
    """A piece of food as the rules see it; `forms` holds all that was done to it.

    >>> Food(Species.BEEF, frozenset({Form.INTACT, Form.GROUND}))
    Traceback (most recent call last):
    ValueError: a piece marked intact cannot also be ground
    """

    species: Species
    forms: frozenset[Form] = frozenset({Form.INTACT})
    cut: Cut = Cut.ROAST
    surface_seared: bool = False

    def __post_init__(self) -> None:
        others = sorted(self.forms - {Form.INTACT})
        if not self.forms:
            raise ValueError("a piece is intact, or says what was done to it")
        if Form.INTACT in self.forms and others:
            raise ValueError(f"a piece marked intact cannot also be {listed(others)}")

    @property
    def ruling_forms(self) -> frozenset[Form]:
        """What the rules go by: a stuffing outranks whatever else was done."""
        return self.forms & {Form.STUFFED} or self.forms

    def __str__(self) -> str:
        forms = listed(sorted(self.forms))
        if self.cut is Cut.OTHER:
            return tr("{forms} {species}", forms=forms, species=self.species)
        return tr("{forms} {species} {cut}", forms=forms, species=self.species, cut=self.cut)


@dataclass(frozen=True, slots=True)
class Scope:
    """The foods that a clause is written for; every ruling form of a food is named in it."""

    species: frozenset[Species] = frozenset(Species)
    forms: frozenset[Form] = frozenset(Form)
    cuts: frozenset[Cut] = frozenset(Cut)

    def covers(self, food: Food) -> bool:
        """Tell whether the clause is written for this food.

        >>> Scope(forms=frozenset({Form.INTACT})).covers(
        ...     Food(Species.PORK, frozenset({Form.INJECTED}))
        ... )
        False
        """
        named = food.species in self.species and food.cut in self.cuts
        return named and food.ruling_forms <= self.forms
