"""Whatever a cook's or a service's file says, it is computed or told, and nothing is raised."""

from __future__ import annotations

import math
from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from builder.costing.costed import Costed
from builder.pages.cooks import cook_list_page, cook_page
from builder.pages.equipment import equipment_page
from builder.pages.log_sheets import log_page, prep_page
from builder.pages.schedule import schedule_pages
from builder.pages.view import View
from builder.problems import Problem
from tests.cooks.kitchens import FILES, KITCHEN
from tests.kitchens import read, write

Texts = st.SearchStrategy[str]
Keys = Mapping[str, str]
AUTHORITIES = st.sampled_from(["us-food-code-2017", "au-victoria-55-60", "uk-core-equivalents"])


def maybe(values: Texts) -> Texts:
    return st.one_of(st.just(""), values)


def amount(low: float, high: float, unit: str) -> Texts:
    return st.floats(low, high).map(lambda x: f"{x:.3f}".rstrip("0").rstrip(".") + f" {unit}")


def braced(**values: Texts) -> Texts:
    """A mapping on one line; a key's underscore stands for a space."""

    def written(found: Mapping[str, str]) -> str:
        inside = ", ".join(f"{key.replace('_', ' ')}: {value}" for key, value in found.items())
        return f"{{{inside}}}"

    return st.fixed_dictionaries(values).map(written)


def cook_keys(
    warm: Texts, cold: Texts, start: Texts, long: Texts, thick: Texts, spread: Texts
) -> dict[str, Texts]:
    return {
        "how": st.sampled_from(["water bath", "steam oven", "poach", "braise", "oven"]),
        "at": maybe(warm),
        "for": maybe(long),
        "form": maybe(st.sampled_from(["intact", "ground", "[injected, tenderised]"])),
        "counts as": maybe(st.sampled_from(["roast", "steak", "other"])),
        "piece": maybe(braced(thickness=thick, spread=spread, starts_at=start)),
        "cool": braced(to=cold, within=long),
        "reheat": maybe(braced(at=warm, **{"for": long})),
        "store": maybe(braced(at=cold, **{"for": long})),
        "hold at": maybe(warm),
        "hands-on": maybe(long),
    }


def gear_keys(litres: Texts, kilograms: Texts, long: Texts, power: Texts) -> dict[str, Texts]:
    return {
        "kind": st.sampled_from(["water bath", "combi oven", "grill"]),
        "how many": maybe(st.integers(1, 4).map(str)),
        "volume": maybe(litres),
        "holds": maybe(kilograms),
        "cover": maybe(st.sampled_from(["open", "lid", "balls", "insulated"])),
        "pans": maybe(st.integers(3, 40).map(str)),
        "turn-round": maybe(long),
        "cleaning": maybe(long),
        "measured standby": maybe(power),
    }


TAME = {
    "cook": st.fixed_dictionaries(
        cook_keys(
            amount(45, 95, "°C"),
            amount(0, 9, "°C"),
            amount(-25, 9, "°C"),
            amount(0.1, 24, "h"),
            amount(10, 200, "mm"),
            amount(0, 20, "%"),
        )
    ),
    "bath": st.fixed_dictionaries(
        gear_keys(amount(5, 90, "L"), amount(9, 40, "kg"), amount(0, 80, "h"), amount(0, 9, "kW"))
    ),
}
WILD = {
    "cook": st.fixed_dictionaries(
        cook_keys(
            amount(-20, 450, "°F"),
            amount(-30, 120, "°C"),
            amount(-60, 120, "°C"),
            amount(0, 60, "d"),
            amount(0, 500, "mm"),
            amount(0, 100, "%"),
        )
    ),
    "bath": st.fixed_dictionaries(
        gear_keys(
            amount(0, 9e3, "L"), amount(0, 9e3, "kg"), amount(0, 30, "d"), amount(0, 90, "kW")
        )
    ),
}
CALM = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def lines(values: Keys, indent: str = "") -> str:
    return "".join(f"{indent}{key}: {value}\n" for key, value in values.items() if value)


def outcome(cook: Keys, bath: Keys, authority: str) -> tuple[Costed | None, list[Problem]]:
    """What comes of one kitchen with one cook, one bath and one service."""
    kitchen = FILES[KITCHEN].partition("equipment:")[0].replace("us-food-code-2017", authority)
    written = f"cut: chuck\nequipment: bath\nload: 9 kg\nloss: 24 %\n{lines(cook)}"
    files = {
        **FILES,
        KITCHEN: f"{kitchen}equipment:\n  bath:\n{lines(bath, '    ')}",
        "cooks/chuck-30h.yaml": written,
        "services/monday.yaml": "day: Monday\nat: 5:30\nplates: {chuck-plate: [900, 3 d]}\n",
    }
    with TemporaryDirectory() as folder:
        return read(write(Path(folder), files))


def check_computed(costed: Costed, problems: list[Problem]) -> None:
    """Every page about the cook is made, and its energy is a number."""
    view = View.of(costed, problems)
    assert all(page.answer for page in schedule_pages(view))
    for cook in costed.content.cooks.values():
        assert cook_page(view, cook).answer
        assert log_page(view, cook).answer
    assert all(prep_page(view, plan).answer for plan in costed.services.values())
    assert cook_list_page(view).answer
    assert equipment_page(view).answer
    used = costed.figures.value("batch", "batch_energy", 0)
    assert math.isnan(used) or 0 <= used < math.inf


@given(**TAME, authority=AUTHORITIES)
@CALM
def test_what_a_kitchen_may_write_is_computed(cook: Keys, bath: Keys, authority: str) -> None:
    # A way and a kind that contradict each other are refused.
    assume(bath["kind"] != "water bath" or cook["how"] == "water bath")
    assume(cook["how"] != "water bath" or "oven" not in bath["kind"])
    costed, problems = outcome(cook, bath, authority)
    assert costed is not None, [p.message for p in problems]
    check_computed(costed, problems)


@given(**WILD, authority=AUTHORITIES)
@CALM
def test_anything_is_computed_or_reported(cook: Keys, bath: Keys, authority: str) -> None:
    costed, problems = outcome(cook, bath, authority)
    if costed is None:
        assert any(problem.is_error and problem.place.line for problem in problems)
    else:
        check_computed(costed, problems)
