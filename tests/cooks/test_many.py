"""Many cores solved at once are the cores solved one by one."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.cooking.pieces import ICE_BATH, WATER_BATH, CoreEstimate, Piece, solve
from tests.cooks.kitchens import COOK, FILES, changed, costed

pieces = st.builds(
    Piece,
    st.floats(5, 200),
    st.floats(0, 2),
    st.floats(0, 30),
    st.sampled_from([0.0, 0.1]),
)
estimates = st.builds(
    CoreEstimate, pieces, st.sampled_from([WATER_BATH, ICE_BATH]), st.floats(45, 90)
)


@given(st.lists(estimates, min_size=1, max_size=5), st.lists(st.floats(31, 95), max_size=4))
@settings(max_examples=40, deadline=None)
def test_solved_together_or_alone(several: list[CoreEstimate], targets: list[float]) -> None:
    """Times agree to a billionth, and only what can be reached is solved."""
    for alone, solved in zip(several, solve(several, [targets] * len(several)), strict=True):
        assert set(solved.reached) == {t for t in targets if alone.reaches(t)}
        for target, found in solved.reached.items():
            expected = alone.reach_min(target)
            assert (found.low, found.typical, found.high) == pytest.approx(
                (expected.low, expected.typical, expected.high), rel=1e-9
            )


def test_a_cook_among_many_says_what_it_says_alone(tmp_path: Path) -> None:
    """The same file beside twenty other cooks, of other thicknesses and temperatures."""
    chilled = changed(COOK, more="cool: {to: 3 °C, within: 2 h}\n")
    others = {
        f"cooks/other-{n}.yaml": chilled[COOK]
        .replace("60 mm", f"{20 + 5 * n} mm")
        .replace("57 °C", f"{55 + n / 2} °C")
        for n in range(20)
    }
    alone = costed(tmp_path / "alone", chilled)
    among = costed(tmp_path / "among", {**chilled, **others})
    cut, cook = alone.content.cuts["chuck"], alone.content.cooks["chuck-30h"]
    first, second = (kitchen.heat.verdict(cook, cut) for kitchen in (alone, among))
    assert first is not None
    assert second is not None
    assert (first.sentence, first.reasons) == (second.sentence, second.reasons)
    assert [c.verdict.reasons for c in alone.heat.chillings(cook)] == [
        c.verdict.reasons for c in among.heat.chillings(among.content.cooks["chuck-30h"])
    ]


def test_a_thinner_or_longer_cook_keeps_more_in_hand(tmp_path: Path) -> None:
    """Through the files: the minutes to spare grow with the hours and shrink with thickness."""

    def to_spare(name: str, *change: tuple[str, str]) -> float:
        kitchen = costed(tmp_path / name, changed(COOK, *change) if change else FILES)
        cook = kitchen.content.cooks["chuck-30h"]
        verdict = kitchen.heat.verdict(cook, kitchen.content.cuts["chuck"])
        assert verdict is not None
        assert verdict.hold is not None
        return verdict.hold.margin_min

    plain = to_spare("plain")
    assert to_spare("long", ("for: 30 h", "for: 31 h")) == pytest.approx(plain + 60)
    assert to_spare("thin", ("thickness: 60 mm", "thickness: 50 mm")) > plain
    assert to_spare("hot", ("at: 57 °C", "at: 58 °C")) > plain
    assert to_spare("uneven", ("thickness: 60 mm", "thickness: 60 mm, spread: 10 %")) < plain
