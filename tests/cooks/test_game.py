"""Game under a code that parts wild game from game that was raised for food."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cooks.kitchens import COOK, FILES, costed, pages


@pytest.mark.parametrize("bath", ["57 °C", "80 °C"])
def test_a_cook_of_game_says_that_it_is_taken_as_wild(tmp_path: Path, bath: str) -> None:
    """Whether it meets or does not: a file has no word for where the game comes from."""
    files = {**FILES, COOK: FILES[COOK].replace("at: 57 °C", f"at: {bath}")}
    for species in ("game", "beef"):
        cut = FILES["cuts/chuck.yaml"].replace("beef", species)
        found = pages(costed(tmp_path / species, {**files, "cuts/chuck.yaml": cut}))
        assert ("Game is taken as wild" in found[COOK.replace(".yaml", ".html")][1]) == (
            species == "game"
        )
