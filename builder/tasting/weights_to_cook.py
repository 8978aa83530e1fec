"""How much to cook for a tasting."""

from __future__ import annotations

from builder.engine.methods import method


@method(unit="g", source="common practice, no published source", title="Weight to cook")
def tasting_weight_to_cook(
    servings: int, portion: float, spare: float, servable_yield: float
) -> float:
    """Raw weight that gives every serving its portion.

    servings × portion × (1 + spare) / servable yield.

    Parameters: servings: [1], 0 or more. portion: [g], above 0. spare: [1], 0 to 1. servable yield:
    [1], above 0, at most 1.5.
    Errors: ValueError outside those ranges.

    >>> round(tasting_weight_to_cook(12, 20, 0.1, 0.66), 6)
    400.0
    """
    if servings < 0 or portion <= 0 or not 0 <= spare <= 1 or not 0 < servable_yield <= 1.5:
        raise ValueError(
            "servings must be 0 or more, portion above 0 g, spare from 0 to 1, servable_yield"
            f" above 0 and at most 1.5; not {servings}, {portion}, {spare}, {servable_yield}"
        )
    return servings * portion * (1 + spare) / servable_yield
